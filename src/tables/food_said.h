/* What stands behind the comma of a food, and in its brackets, piece by piece: how it was prepared,
 * which kind of the food is meant, or a remark. */
#ifndef TABLES_FOOD_SAID_H
#define TABLES_FOOD_SAID_H

#include "tables/food_search.h"

/* the words behind the comma, cut in pieces at commas */
struct after {
    struct food_word words[FOOD_WORDS_MOST];
    size_t count;
    bool begins[FOOD_WORDS_MOST]; /* a piece begins at this word */
    const struct word_lists *lists;
};

enum { KINDS_MOST = 6 };

/* what a piece behind the comma is */
enum piece_kind {
    PIECE_DONE,  /* preparation, a remark */
    PIECE_STATE, /* "dried", "canned": which food it is */
    PIECE_KIND,  /* nouns that say which kind of the food is meant */
    PIECE_COOKED /* measured cooked */
};

/* words that may be of the name of the food, and whether it must have them */
struct kinds {
    struct food_word words[KINDS_MOST];
    bool obliged[KINDS_MOST];
    bool diet[KINDS_MOST]; /* it need not have them where it keeps the diet */
    size_t count;
};

struct after_piece {
    const struct food_word *words;
    size_t count;
    const struct word_lists *lists;
};

/* all that stands behind the comma, by what it is */
struct food_said {
    struct kinds kinds;
    struct after_piece nouns;  /* the first piece of nouns, or none */
    bool bracketed;            /* the nouns stand in a bracket */
    bool makings;              /* that lists several: "(rice, maize)" */
    struct after_piece cooked; /* or none */
    const char *colour;        /* or NULL */
};

void food_said_split(const struct larder *l, struct arena *a, struct slice text, struct after *out);

/* sorts the pieces of a question's words behind the comma */
void food_said_hear(const struct food_query *q, const struct sought *sought,
                    const struct after *after, struct food_said *said);

/* the words of pieces that are neither of the food's name nor known as preparation or remark, with
 * commas between them; empty when there are none */
struct slice food_said_passed(struct arena *a, const struct after *after,
                              const struct food_row *row);

/* allergens and diets that words behind the comma could hold or break: foods that are named there,
 * all of them where a word is no word of the larder's */
void food_said_doubts(const struct food_query *q, const struct after *after,
                      const struct food_row *row, struct found *found);

/* "in juice", "packed in light syrup": out of a tin or a jar */
bool food_said_packed(const struct word_lists *lists, const struct food_word *words, size_t count);

/* whether a name of the food has the word, so that it says nothing of another one */
bool food_said_in_names(const struct word_lists *lists, struct arena *a, const struct food_row *row,
                        struct slice stem);

#endif
