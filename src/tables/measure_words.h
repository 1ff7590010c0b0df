/* The words of measures as the table keeps them, for the rooms that build it and look it up. */
#ifndef TABLES_MEASURE_WORDS_H
#define TABLES_MEASURE_WORDS_H

#include "read/amount.h"

enum { UNIT_BYTES_MOST = 48 };

/* Words as spellings are kept: without dots, with single spaces; in lower case when asked. 0 when
 * they are too long to be a unit. */
size_t measure_words(struct slice words, bool lower, char out[UNIT_BYTES_MOST]);
struct slice measure_first_word(struct slice words);
const char *measure_fill_word(enum fill fill);

#endif
