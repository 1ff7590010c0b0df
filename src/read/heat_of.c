#include "read/heat_of.h"

#include "read/words_listed.h"

static const struct kind {
    enum heat_of of;
    enum word_list_number words;
    double lowest, highest; /* degrees C at which it is likely at all */
} kinds[] = {
    {HEAT_OF_OVEN, WORDS_HEAT_OF_OVEN, 45, 600},   {HEAT_OF_FOOD, WORDS_HEAT_OF_READING, -30, 105},
    {HEAT_OF_FOOD, WORDS_HEAT_OF_FOOD, 15, 99},    {HEAT_OF_OIL, WORDS_HEAT_OF_OIL, 120, 240},
    {HEAT_OF_SYRUP, WORDS_HEAT_OF_SYRUP, 90, 200}, {HEAT_OF_WATER, WORDS_HEAT_OF_WATER, 15, 101},
    {HEAT_OF_ROOM, WORDS_HEAT_OF_ROOM, -30, 45},
};

static enum heat_of
kind_at(const struct words *w, size_t i, double celsius)
{
    if (w->items[i].kind != WORD_LETTERS)
        return HEAT_OF_UNKNOWN;
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++)
        if (celsius >= kinds[k].lowest && celsius <= kinds[k].highest &&
            words_any(w, words_list(w, kinds[k].words), i, i + 1, NULL) != NULL)
            return kinds[k].of;
    return HEAT_OF_UNKNOWN;
}

static enum heat_of
nearest_before(const struct words *w, size_t first, size_t from, double celsius)
{
    for (size_t i = first; i > from; i--) {
        enum heat_of of = kind_at(w, i - 1, celsius);
        if (of != HEAT_OF_UNKNOWN)
            return of;
    }
    return HEAT_OF_UNKNOWN;
}

static enum heat_of
nearest_behind(const struct words *w, size_t end, size_t to, double celsius)
{
    for (size_t i = end; i < to; i++) {
        enum heat_of of = kind_at(w, i, celsius);
        if (of != HEAT_OF_UNKNOWN)
            return of;
    }
    return HEAT_OF_UNKNOWN;
}

/* "a thermometer in the oil reads", "boil sugar and water to 118": the clause tells whose reading
 */
static enum heat_of
made_precise(const struct words *w, size_t from, size_t first, size_t to, double celsius,
             enum heat_of of)
{
    bool oven = words_any(w, words_list(w, WORDS_HEAT_OF_OVEN), from, first, NULL) != NULL;
    bool reading = words_any(w, words_list(w, WORDS_HEAT_OF_READING), from, to, NULL) != NULL;
    if (celsius > 101 && of != HEAT_OF_OVEN &&
        words_any(w, words_list(w, WORDS_HEAT_OF_SYRUP), from, to, NULL) != NULL && celsius < 200)
        return of == HEAT_OF_OIL ? of : HEAT_OF_SYRUP;
    if (of == HEAT_OF_OVEN && reading &&
        !words_one_of(w, first > 0 ? first - 1 : 0, WORDS_HEAT_OF_OVEN) && celsius < 100)
        return HEAT_OF_FOOD; /* "grill the chops to 57 °C at the core" */
    if (of == HEAT_OF_FOOD && oven && !reading && first > from &&
        word_is(&w->items[first - 1], "at"))
        return HEAT_OF_OVEN;
    return of;
}

enum heat_of
heat_of_words(const struct words *w, size_t first, size_t end, double celsius)
{
    size_t from = words_sentence_from(w, first), to = words_sentence_to(w, first);
    enum heat_of of = nearest_before(w, first, from, celsius);
    if (of == HEAT_OF_UNKNOWN)
        of = nearest_behind(w, end, to, celsius);
    of = made_precise(w, from, first, to, celsius, of);
    if (of == HEAT_OF_UNKNOWN && from > 0)
        of = nearest_before(w, from, words_sentence_from(w, from - 1), celsius);
    /* nothing else in a kitchen is this hot without its name being said: "turn down to 160 °C" */
    return of == HEAT_OF_UNKNOWN && celsius >= 120 ? HEAT_OF_OVEN : of;
}
