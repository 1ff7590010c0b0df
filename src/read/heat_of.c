#include "read/heat_of.h"

static const char *const oven_words[] = {
    "oven",     "ovens",   "preheat", "preheated",  "bake",    "baking", "baked",    "roast",
    "roasting", "roasted", "grill",   "broil",      "broiler", "smoker", "barbecue", "air fryer",
    "airfryer", "fan",     "shelf",   "convection", "air fry", "gas",    NULL};
static const char *const reading_words[] = {"reads",
                                            "read",
                                            "reading",
                                            "registers",
                                            "register",
                                            "thermometer",
                                            "probe",
                                            "core",
                                            "internal",
                                            "middle",
                                            "centre",
                                            "center",
                                            "thickest",
                                            "inside",
                                            "piping",
                                            "shows",
                                            "reaches an internal",
                                            "digital",
                                            NULL};
/* warmed or held at a heat themselves; ovens are hotter */
static const char *const warmed_words[] = {
    "milk",  "custard", "cream",     "chocolate", "yoghurt", "yogurt",   "mixture",
    "dough", "yolks",   "whey",      "curds",     "sauce",   "meat",     "eggs",
    "soup",  "stew",    "leftovers", "filling",   "reheat",  "reheated", NULL};
static const char *const oil_words[] = {"oil",      "deep fry",   "deep fryer", "deep frying",
                                        "fryer",    "fat",        "deep fat",   "lard",
                                        "dripping", "deep fried", NULL};
static const char *const syrup_words[] = {"syrup",         "sugar",     "caramel",    "soft ball",
                                          "hard ball",     "firm ball", "hard crack", "soft crack",
                                          "thread stage",  "toffee",    "jam",        "marmalade",
                                          "setting point", "candy",     "fudge",      "brittle",
                                          "jelly",         "nougat",    "honeycomb",  NULL};
static const char *const water_words[] = {"water", "kettle", "bath", "lukewarm", NULL};
static const char *const room_words[] = {
    "room",    "place",        "somewhere", "kitchen", "fridge",
    "freezer", "refrigerator", "prove",     "proof",   "rise",
    "ferment", "cupboard",     "larder",    "ambient", NULL};

static const struct kind {
    enum heat_of of;
    const char *const *words;
    double lowest, highest; /* degrees C at which it is likely at all */
} kinds[] = {
    {HEAT_OF_OVEN, oven_words, 45, 600},   {HEAT_OF_FOOD, reading_words, -30, 105},
    {HEAT_OF_FOOD, warmed_words, 15, 99},  {HEAT_OF_OIL, oil_words, 120, 240},
    {HEAT_OF_SYRUP, syrup_words, 90, 200}, {HEAT_OF_WATER, water_words, 15, 101},
    {HEAT_OF_ROOM, room_words, -30, 45},
};

static enum heat_of
kind_at(const struct words *w, size_t i, double celsius)
{
    if (w->items[i].kind != WORD_LETTERS)
        return HEAT_OF_UNKNOWN;
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++)
        if (celsius >= kinds[k].lowest && celsius <= kinds[k].highest &&
            words_any(w, kinds[k].words, i, i + 1, NULL) != NULL)
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
    bool oven = words_any(w, oven_words, from, first, NULL) != NULL;
    bool reading = words_any(w, reading_words, from, to, NULL) != NULL;
    if (celsius > 101 && of != HEAT_OF_OVEN && words_any(w, syrup_words, from, to, NULL) != NULL &&
        celsius < 200)
        return of == HEAT_OF_OIL ? of : HEAT_OF_SYRUP;
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
