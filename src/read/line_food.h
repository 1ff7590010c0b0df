/* The parts of an ingredient line behind its amounts: the name of the food, what joins it to the
 * next, and what stands behind it. For ingredient_line.c and its two halves alone. */
#ifndef READ_LINE_FOOD_H
#define READ_LINE_FOOD_H

#include "read/ingredient_line.h"
#include "read/line_amounts.h"

enum joint { JOINT_NONE, JOINT_OR, JOINT_AND };

struct option_list {
    struct written_option *items;
    size_t count, room;
};

struct held_bracket { /* "(or 2 tsp dried)", read after the line; to is 0 when there is none */
    size_t from, to;
};

struct food_reader {
    struct line_reader amounts;
    struct arena *arena;
    const struct lexicon *lexicon;
    struct notices *notices;
    struct ingredient_line *out;
    struct clean_line clean;
    struct amount_list list; /* of the food at hand */
    struct text after;       /* of the food at hand */
    struct option_list options;
    size_t brackets; /* alternatives in brackets being read: they are not nested */
};

/* bytes of the clean line up to `end`; bytes from..to of it */
struct slice line_upto(const struct food_reader *r, size_t end);
struct slice line_part(const struct food_reader *r, size_t from, size_t to);

/* whether the words name a food; or do so behind a few words that describe it */
bool line_is_food(const struct food_reader *r, struct slice words);
bool line_ends_in_food(const struct food_reader *r, struct slice words);
bool line_begins_with_amount(const struct food_reader *r, size_t at, size_t end);

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

/* reads what stands behind the name up to the end of the food; where the next food begins, or `end`
 */
size_t line_read_rest(struct food_reader *r, struct written_food *food, size_t at, size_t end,
                      enum joint *joint, struct held_bracket *held);

/* a bracket behind the name or in front of it: amounts, an alternative, or words; where it ends */
size_t line_read_bracket(struct food_reader *r, struct written_food *food, size_t at, size_t end,
                         struct held_bracket *held);

#endif
