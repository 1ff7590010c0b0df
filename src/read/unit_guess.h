/* Words that stand where a unit stands but are none: "2 tbps sugar", "3 lumps of ginger". */
#ifndef READ_UNIT_GUESS_H
#define READ_UNIT_GUESS_H

#include "read/amount.h"

/* bytes of such a word at `at`, behind a plain count; 0 when what stands there is part of the food.
 * `line` ends where the name ends. */
size_t unit_guess(const struct lexicon *lexicon, struct slice line, size_t at, size_t amount_count,
                  const struct amount *amounts);

/* what to say of it: the units near it, or nothing */
struct slice unit_guess_more(struct arena *a, const struct lexicon *lexicon, struct slice word);

#endif
