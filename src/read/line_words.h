/* The phrases of ingredient lines that are neither amount nor food: optional, to taste, juice of,
 * for brushing. Tables of words and how to find them. */
#ifndef READ_LINE_WORDS_H
#define READ_LINE_WORDS_H

#include "read/written_line.h"

/* bytes of "juice of", "finely grated zest and juice of the" at `at`, 0 when there is none */
size_t words_of_it(struct slice s, size_t at, enum of_it *of);

/* bytes of "flesh of", "yolks from the" at `at`, where a count follows; *part is the word. 0: none
 */
size_t words_part_of(struct slice s, size_t at, struct slice *part);

/* whether a piece behind the comma says it: "juiced", "zest and juice only" */
bool words_is_of_it(struct slice piece, enum of_it *of);

/* finds words that make the whole line optional; their bytes with brackets and commas about them */
bool words_find_optional(struct slice s, size_t *from, size_t *to);

/* whether the piece says to taste */
bool words_is_to_taste(struct slice piece);

/* where a phrase of purpose begins in a name (" for dusting", " to serve"), with `manner` also one
 * that may be of a name (" in water", " with skin"), at its space; SIZE_MAX when there is none */
size_t words_find_purpose(struct slice name, bool manner);

/* where it says what a food is packed in (" in juice"), at its space; SIZE_MAX: nowhere */
size_t words_find_packed(struct slice name);

/* whether the piece begins with a phrase of purpose: "to serve", "for dusting" */
bool words_is_purpose(struct slice piece);

/* whether what follows "or" is no food: "or more to taste" */
bool words_is_no_alternative(struct slice piece);

/* bytes of "extra", "a little more" at `at`: more without an amount; 0 when there is none */
size_t words_unmeasured(struct slice s, size_t at);

/* bytes of "a little", "some": an amount that says nothing, with the space behind it; 0 when there
 * is none */
size_t words_little(struct slice s, size_t at);

/* bytes of words that stand before a food and say nothing of it: "of", "the", "a little" */
size_t words_idle(struct slice s, size_t at);

#endif
