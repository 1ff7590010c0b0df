/* A question for a food, and its answer, as the rooms of the search hand them on. */
#ifndef TABLES_FOOD_QUERY_H
#define TABLES_FOOD_QUERY_H

#include "tables/food_word.h"
#include "tables/larder_rows.h"

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

#endif
