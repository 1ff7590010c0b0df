/* Foods found by the names that cooks give them; the questions asked of them, by their keys. */
#ifndef TABLES_FOOD_NAMES_H
#define TABLES_FOOD_NAMES_H

#include "tables/foods.h"

/* finds a food by a cook's words: plurals, the noun it ends in, regional names, adjectives that do
 * not matter. The question and its answer are noted. */
struct found food_find(const struct larder *l, struct arena *a, const struct sought *sought,
                       struct reads *reads);

/* whether the words name a food exactly, for splitting "salt and pepper" */
bool food_names(const struct larder *l, struct arena *a, struct slice words, struct reads *reads);

/* whether the words are a name as it is written, word by word: "wakame, soaked" */
bool food_names_exactly(const struct larder *l, struct arena *a, struct slice words,
                        struct reads *reads);

/* the digest of the answer to a question "find:..." or "names:..." */
uint64_t food_names_ask(const struct larder *l, struct arena *scratch, struct slice key);

#endif
