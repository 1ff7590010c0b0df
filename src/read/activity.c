#include "read/activity.h"

/* stems: "bak" + e, es, ed, ing, ... ; a stem that ends in `!` stands for that word alone. Of two
 * that fit, the first counts. Cooking: by itself; resting: nothing is done and nothing cooks;
 * attended: hands busy or eyes on it. */
static const struct verb {
    const char *stem;
    enum activity activity;
} verbs[] = {{"aside!", ACTIVITY_RESTING},      {"autolyse", ACTIVITY_RESTING},
             {"bake", ACTIVITY_COOKING},        {"boil", ACTIVITY_COOKING},
             {"braise", ACTIVITY_COOKING},      {"bubble", ACTIVITY_COOKING},
             {"blanch", ACTIVITY_COOKING},      {"bloom", ACTIVITY_RESTING},
             {"brine", ACTIVITY_RESTING},       {"brown", ACTIVITY_ATTENDED},
             {"broil", ACTIVITY_ATTENDED},      {"beat", ACTIVITY_ATTENDED},
             {"blend", ACTIVITY_ATTENDED},      {"blitz", ACTIVITY_ATTENDED},
             {"baste", ACTIVITY_ATTENDED},      {"cook", ACTIVITY_COOKING},
             {"chill", ACTIVITY_RESTING},       {"cool", ACTIVITY_RESTING},
             {"cure", ACTIVITY_RESTING},        {"cream", ACTIVITY_ATTENDED},
             {"char", ACTIVITY_ATTENDED},       {"caramelise", ACTIVITY_ATTENDED},
             {"caramelize", ACTIVITY_ATTENDED}, {"chop", ACTIVITY_ATTENDED},
             {"churn", ACTIVITY_ATTENDED},      {"double", ACTIVITY_RESTING},
             {"defrost", ACTIVITY_RESTING},     {"dry!", ACTIVITY_RESTING},
             {"drain", ACTIVITY_RESTING},       {"froze!", ACTIVITY_RESTING},
             {"frozen!", ACTIVITY_RESTING},     {"fries!", ACTIVITY_ATTENDED},
             {"fried!", ACTIVITY_ATTENDED},     {"freeze", ACTIVITY_RESTING},
             {"ferment", ACTIVITY_RESTING},     {"fridge!", ACTIVITY_RESTING},
             {"freezer!", ACTIVITY_RESTING},    {"firm!", ACTIVITY_RESTING},
             {"fry", ACTIVITY_ATTENDED},        {"frying!", ACTIVITY_ATTENDED},
             {"fold", ACTIVITY_ATTENDED},       {"flip", ACTIVITY_ATTENDED},
             {"grill", ACTIVITY_ATTENDED},      {"griddle", ACTIVITY_ATTENDED},
             {"hydrate", ACTIVITY_RESTING},     {"heat", ACTIVITY_ATTENDED},
             {"infuse", ACTIVITY_RESTING},      {"knead", ACTIVITY_ATTENDED},
             {"leave!", ACTIVITY_RESTING},      {"leaving!", ACTIVITY_RESTING},
             {"left!", ACTIVITY_RESTING},       {"let!", ACTIVITY_RESTING},
             {"microwave", ACTIVITY_COOKING},   {"marinate", ACTIVITY_RESTING},
             {"marinade!", ACTIVITY_RESTING},   {"mature", ACTIVITY_RESTING},
             {"macerate", ACTIVITY_RESTING},    {"mix", ACTIVITY_ATTENDED},
             {"melt", ACTIVITY_ATTENDED},       {"massage", ACTIVITY_ATTENDED},
             {"oven!", ACTIVITY_COOKING},       {"proven!", ACTIVITY_RESTING},
             {"poach", ACTIVITY_COOKING},       {"parboil", ACTIVITY_COOKING},
             {"preheat", ACTIVITY_COOKING},     {"process!", ACTIVITY_COOKING},
             {"prove", ACTIVITY_RESTING},       {"proof", ACTIVITY_RESTING},
             {"pickle", ACTIVITY_RESTING},      {"pulse", ACTIVITY_ATTENDED},
             {"process", ACTIVITY_ATTENDED},    {"risen!", ACTIVITY_RESTING},
             {"rising!", ACTIVITY_RESTING},     {"roast", ACTIVITY_COOKING},
             {"reheat", ACTIVITY_COOKING},      {"rest", ACTIVITY_RESTING},
             {"rise", ACTIVITY_RESTING},        {"refrigerate", ACTIVITY_RESTING},
             {"release", ACTIVITY_RESTING},     {"refrigerator!", ACTIVITY_RESTING},
             {"reduce", ACTIVITY_ATTENDED},     {"rub", ACTIVITY_ATTENDED},
             {"roll", ACTIVITY_ATTENDED},       {"rinse", ACTIVITY_ATTENDED},
             {"stood!", ACTIVITY_RESTING},      {"sitting!", ACTIVITY_RESTING},
             {"swollen!", ACTIVITY_RESTING},    {"simmer", ACTIVITY_COOKING},
             {"steam", ACTIVITY_COOKING},       {"stew", ACTIVITY_COOKING},
             {"smoke", ACTIVITY_COOKING},       {"sterilise", ACTIVITY_COOKING},
             {"sterilize", ACTIVITY_COOKING},   {"soak", ACTIVITY_RESTING},
             {"steep", ACTIVITY_RESTING},       {"stand", ACTIVITY_RESTING},
             {"sit", ACTIVITY_RESTING},         {"set!", ACTIVITY_RESTING},
             {"swell", ACTIVITY_RESTING},       {"sprout!", ACTIVITY_RESTING},
             {"stir", ACTIVITY_ATTENDED},       {"saute", ACTIVITY_ATTENDED},
             {"sear", ACTIVITY_ATTENDED},       {"sweat", ACTIVITY_ATTENDED},
             {"soften!", ACTIVITY_ATTENDED},    {"sizzle", ACTIVITY_ATTENDED},
             {"shake", ACTIVITY_ATTENDED},      {"thaw", ACTIVITY_RESTING},
             {"toast", ACTIVITY_ATTENDED},      {"toss", ACTIVITY_ATTENDED},
             {"wait", ACTIVITY_RESTING},        {"whisk", ACTIVITY_ATTENDED},
             {"whip", ACTIVITY_ATTENDED},       {"wilt", ACTIVITY_ATTENDED},
             {"warm", ACTIVITY_ATTENDED},       {"work!", ACTIVITY_ATTENDED}};

/* whether the word is a form of the verb: rest, rests, rested, resting; bake, baking; stir,
 * stirred */
static bool
form_of(struct slice word, const char *verb)
{
    static const char *const endings[] = {"", "s", "es", "ed", "ing", "d"};
    size_t n = 0;
    while (n < word.length && verb[n] == word.at[n])
        n++;
    if (n == 0)
        return false;
    struct slice rest = slice_part(word, n, word.length);
    if (verb[n] == '!')
        return rest.length == 0;
    if (verb[n] == 'e' && verb[n + 1] == '\0')
        return slice_is(rest, "ing");
    if (verb[n] != '\0')
        return false;
    if (verb[n - 1] == 'e')
        return rest.length == 0 || slice_is(rest, "s") || slice_is(rest, "d");
    if (rest.length > 2 && rest.at[0] == verb[n - 1])
        rest = slice_part(rest, 1, rest.length);
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++)
        if (slice_is(rest, endings[i]))
            return true;
    return false;
}

enum activity
activity_of(const struct word *w)
{
    if (w->kind != WORD_LETTERS || w->folded.length < 3)
        return ACTIVITY_NONE;
    for (size_t i = 0; i < sizeof verbs / sizeof *verbs; i++)
        if (form_of(w->folded, verbs[i].stem))
            return verbs[i].activity;
    return ACTIVITY_NONE;
}

static bool
closes_clause(const struct word *w)
{
    return word_is(w, ";") || word_is(w, "then");
}

/* "cooling rack", "boiling water", "a low heat", "brown sugar", "the rest of": a thing or how it
 * is, not what is done */
static bool
names_a_thing(const struct words *w, size_t i)
{
    static const char *const things[] = {
        "bowl",    "bag",     "board", "butter",    "boiler", "beans",       "bread",  "basket",
        "cream",   "chicken", "dish",  "foil",      "flour",  "ingredients", "juices", "liquid",
        "lentils", "mixer",   "mix",   "mixture",   "oil",    "onions",      "of",     "pan",
        "paper",   "powder",  "place", "parchment", "plate",  "potatoes",    "peas",   "rack",
        "rice",    "sheet",   "soda",  "stock",     "spot",   "setting",     "sugar",  "spices",
        "stone",   "tray",    "tin",   "time",      "times",  "thermometer", "water",  "wine",
        "weight",  NULL};
    static const char *const before_nouns[] = {
        "a",    "an",    "the",     "low",      "medium", "high", "gentle", "moderate",
        "of",   "off",   "golden",  "residual", "any",    "your", "until",  "somewhere",
        "keep", "still", "lightly", "deep",     "soft",   "rich", NULL};
    static const char *const nouns[] = {"heat", "cream", "toast", "brown", "mix",  "roast",
                                        "stew", "grill", "steam", "drain", "fold", "rolls",
                                        "roll", "bake",  "dry",   "smoke", "warm", NULL};
    if (i + 1 < w->count && word_among(&w->items[i + 1], things))
        return true;
    return i > 0 && word_among(&w->items[i], nouns) && word_among(&w->items[i - 1], before_nouns);
}

/* "the soaked beans" are a thing; "soaked overnight" and "baked for" are done */
static bool
participle_of_a_thing(const struct words *w, size_t i)
{
    static const char *const done[] = {"for",    "at",   "in", "until", "overnight", "about",
                                       "gently", "over", "on", "under", NULL};
    const struct word *word = &w->items[i];
    if (!slice_ends(word->folded, "ed") && !word_is(word, "frozen") && !word_is(word, "left") &&
        !word_is(word, "risen"))
        return false;
    return i + 1 >= w->count ||
           (!word_among(&w->items[i + 1], done) && w->items[i + 1].kind != WORD_NUMBER);
}

/* "leave to set", "until set"; not "set a timer" */
static bool
sets_by_itself(const struct words *w, size_t i)
{
    static const char *const leads[] = {"to", "until", "will", "and", "has", "just", NULL};
    return i > 0 && word_among(&w->items[i - 1], leads);
}

static enum activity
activity_at(const struct words *w, size_t i)
{
    enum activity found = activity_of(&w->items[i]);
    return found != ACTIVITY_NONE && (names_a_thing(w, i) || participle_of_a_thing(w, i) ||
                                      (word_is(&w->items[i], "set") && !sets_by_itself(w, i)))
               ? ACTIVITY_NONE
               : found;
}

/* "leave", "let", "cook": another verb of the clause says more */
static bool
weak(const struct word *w)
{
    static const char *const plain[] = {"leave", "let",     "left", "leaving", "wait",
                                        "aside", "cooking", "cook", "cooked",  "refrigerator",
                                        "set",   "fridge",  "oven", "freezer", NULL};
    return word_among(w, plain);
}

/* "stirring now and then" leaves the hands free */
static bool
seldom(const struct words *w, size_t i)
{
    static const char *const rarely[] = {"occasionally",
                                         "once",
                                         "twice",
                                         "now and then",
                                         "from time to time",
                                         "every",
                                         "halfway",
                                         "after",
                                         "again",
                                         "half way",
                                         "a few times",
                                         "a couple",
                                         "if",
                                         "when",
                                         "in the last",
                                         "in the final",
                                         "for the last",
                                         "for the final",
                                         "towards the end",
                                         "toward the end",
                                         NULL};
    size_t to = words_sentence_to(w, i);
    for (size_t j = i + 1; j < to && j <= i + 5 && !word_is(&w->items[j], ","); j++)
        if (words_any(w, rarely, j, j + 1, NULL) != NULL)
            return true;
    return false;
}

static bool
gerund(const struct word *w)
{
    return slice_ends(w->folded, "ing");
}

/* what is said behind the duration: "for 5 minutes, stirring", "for an hour to prove" */
static enum activity
front_behind(const struct words *w, size_t end, size_t to, enum activity so_far)
{
    for (size_t j = end; j < to && j < end + 10 && !closes_clause(&w->items[j]); j++) {
        enum activity found = activity_at(w, j);
        bool goal = j > end && word_is(&w->items[j - 1], "to");
        if (found == ACTIVITY_NONE || weak(&w->items[j]))
            continue;
        if (found == ACTIVITY_ATTENDED && gerund(&w->items[j]) && !seldom(w, j))
            return found;
        if (goal && so_far != ACTIVITY_COOKING)
            return found;
        if (so_far == ACTIVITY_NONE && (j <= end + 1 || !gerund(&w->items[j])))
            return found;
    }
    return so_far;
}

/* "Roast the potatoes. After 20 minutes, turn them": what went on until then */
static enum activity
went_on(const struct words *w, size_t first)
{
    if (first == 0 || !word_is(&w->items[first - 1], "after"))
        return ACTIVITY_NONE;
    size_t from = words_sentence_from(w, first);
    for (size_t i = from; i > 0 && i + 40 > from; i--) {
        enum activity found = activity_at(w, i - 1);
        if (found != ACTIVITY_NONE)
            return found;
    }
    return ACTIVITY_NONE;
}

enum activity
activity_near(const struct words *w, size_t first, size_t end)
{
    enum activity before = went_on(w, first);
    if (before != ACTIVITY_NONE)
        return before;
    size_t from = words_sentence_from(w, first), to = words_sentence_to(w, first);
    size_t i = first;
    for (; i > from && !closes_clause(&w->items[i - 1]); i--) {
        enum activity found = activity_at(w, i - 1);
        if (found == ACTIVITY_NONE ||
            (found == ACTIVITY_ATTENDED && gerund(&w->items[i - 1]) && seldom(w, i - 1)))
            continue;
        bool open = found == ACTIVITY_COOKING || weak(&w->items[i - 1]);
        return open ? front_behind(w, end, to, found) : found;
    }
    enum activity plain = front_behind(w, end, to, ACTIVITY_NONE);
    for (; plain == ACTIVITY_NONE && i > from; i--)
        plain = activity_at(w, i - 1);
    return plain;
}
