/* The phrases of ingredient lines that are neither amount nor food: optional, to taste, juice of,
 * for brushing. Tables of words and how to find them. */
#ifndef READ_LINE_WORDS_H
#define READ_LINE_WORDS_H

#include "read/written_line.h"

/* bytes of "juice of", "finely grated zest and juice of the" at `at`, 0 when there is none */
size_t line_of_it(const struct word_lists *lists, struct slice s, size_t at, enum of_it *of);

/* bytes of "flesh of", "yolks from the" at `at`, where a count follows; *part is the word. 0: none
 */
size_t line_part_of(const struct word_lists *lists, struct slice s, size_t at, struct slice *part);

/* whether a piece behind the comma says it: "juiced", "zest and juice only" */
bool line_is_of_it(const struct word_lists *lists, struct slice piece, enum of_it *of);

/* finds words that make the whole line optional; their bytes with brackets and commas about them */
bool line_find_optional(const struct word_lists *lists, struct slice s, size_t *from, size_t *to);

/* whether the piece says to taste */
bool line_is_to_taste(const struct word_lists *lists, struct slice piece);

/* where a phrase of purpose begins in a name (" for dusting", " to serve"), with `manner` also one
 * that may be of a name (" in water", " with skin"), at its space; SIZE_MAX when there is none */
size_t line_find_purpose(const struct word_lists *lists, struct slice name, bool manner);

/* where it says what a food is packed in (" in juice"), at its space; SIZE_MAX: nowhere */
size_t line_find_packed(const struct word_lists *lists, struct slice name);

/* whether the piece begins with a phrase of purpose: "to serve", "for dusting" */
bool line_is_purpose(const struct word_lists *lists, struct slice piece);

/* whether what follows "or" is no food: "or more to taste" */
bool line_is_no_alternative(const struct word_lists *lists, struct slice piece);

/* bytes of "extra", "a little more" at `at`: more without an amount; 0 when there is none */
size_t line_unmeasured(const struct word_lists *lists, struct slice s, size_t at);

/* bytes of "a little", "some": an amount that says nothing, with the space behind it; 0 when there
 * is none */
size_t line_little(const struct word_lists *lists, struct slice s, size_t at);

/* bytes of words that stand before a food and say nothing of it: "of", "the", "a little" */
size_t line_idle(const struct word_lists *lists, struct slice s, size_t at);

#endif
