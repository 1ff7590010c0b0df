/* The name of a food in a line: where it ends, what joins it to the next. */
#ifndef READ_LINE_NAME_H
#define READ_LINE_NAME_H

#include "read/line_food.h"

/* bytes of the clean line up to `end`; bytes from..to of it */
struct slice line_upto(const struct food_reader *r, size_t end);
struct slice line_part(const struct food_reader *r, size_t from, size_t to);
/* writes other words for bytes from..to of the clean line */
void line_replace(struct food_reader *r, size_t from, size_t to, struct slice by);
/* whether the words name a food; or do so behind a few words that describe it */
bool line_is_food(const struct food_reader *r, struct slice words);
bool line_ends_in_food(const struct food_reader *r, struct slice words);
/* whether the words are a food's name as it is written */
bool line_is_name(const struct food_reader *r, struct slice words);
/* whether it is what is made of a food, said before it: juice, flour */
bool line_is_made_of(const struct food_reader *r, struct slice tail);
/* "2 whole eggs + 2 whites": whether it is a part of the egg before it */
bool line_is_egg_part(const struct food_reader *r, struct slice egg, struct slice part);
bool line_begins_with_amount(const struct food_reader *r, size_t at, size_t end);
/* where the last word of bytes from..to begins */
size_t line_last_word(const struct food_reader *r, size_t from, size_t to);
/* the words behind the first `count` of a name */
struct slice line_without_words(struct slice name, size_t count);
/* where the name ends: at a comma, a bracket, a dash or colon between spaces, "plus", or `end` */
size_t line_name_end(const struct food_reader *r, size_t at, size_t end);
/* finds the first "or", "and" or stroke of a name from..to that parts it in two foods, SIZE_MAX
 * when none does; *next is where the second begins, *tail what it lends to the first */
size_t line_find_joint(const struct food_reader *r, size_t from, size_t to, size_t end,
                       enum joint *joint, size_t *next, struct slice *tail);
/* sets the food's name to bytes from..to as they are; then longer by the shared end of the next */
void line_set_name(struct food_reader *r, struct written_food *food, size_t from, size_t to);
void line_lengthen_name(struct food_reader *r, struct written_food *food, struct slice tail);
/* sets the food's name from bytes from..to, less what is not of it: purpose, amounts, units */
void line_finish_name(struct food_reader *r, struct written_food *food, size_t from, size_t to);
/* a notice for digits in front of a name that are no amount and no food's: "1/0 cup milk" */
void line_check_digits(struct food_reader *r, struct written_food *food);
/* adds words to what stands behind the name */
void line_add_after(struct food_reader *r, struct slice piece);

#endif
