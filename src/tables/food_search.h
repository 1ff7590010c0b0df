/* One search for a food by a cook's words: which of them name it, which do not matter for it. */
#ifndef TABLES_FOOD_SEARCH_H
#define TABLES_FOOD_SEARCH_H

#include "tables/food_words.h"
#include "tables/larder.h"

/* the words of a question, as the search sees them */
struct food_query {
    const struct larder *larder;
    struct arena *arena;
    struct food_word words[FOOD_WORDS_MOST + 2]; /* one or two may be put in */
    size_t count;
    const char *speech; /* region id whose names hold */
    enum measured_by by;
    size_t bytes; /* of the name: words put in lie behind it */
};

/* the best food for the words, and the words that name it */
struct food_match {
    const struct food_row *row, *rival;
    uint32_t used; /* bits of the words that are its name */
    int strength;
    const char *piece_word;
};

/* the key of stems: sorted, one space between them */
struct slice food_stems_key(struct arena *a, struct slice *stems, size_t count);

/* true when a food was found */
bool food_search(const struct food_query *q, struct food_match *out);

/* the food that has these very words for a name, in this order, with a comma where one is asked;
 * out may be NULL */
bool food_search_exactly(const struct food_query *q, bool comma, struct food_match *out);

/* whether cooking changes much what a measure of the food holds: grains and pulses take up water,
 * leaves fall together */
bool food_swells(const struct food *f, enum measured_by by);

/* the stems as they come, one space between them */
struct slice food_stems_spaced(struct arena *a, const struct slice *stems, size_t count);

/* the stems of a name joined to one word */
struct slice food_stems_joined(struct arena *a, const struct slice *stems, size_t count);

#endif
