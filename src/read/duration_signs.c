#include "read/duration_signs.h"

struct sign {
    const char *phrase;
    enum effect effect;
};

/* a sign before a number: its last word, which refuses most, and what leads up to it */
struct lead {
    const char *lead, *last;
    enum effect effect;
};

/* right before the number; the longest that fits counts, then what stands before that */
static const struct lead before_it[] = {{"", "about", EFFECT_NONE},
                                        {"", "around", EFFECT_NONE},
                                        {"", "approximately", EFFECT_NONE},
                                        {"", "approx", EFFECT_NONE},
                                        {"", "almost", EFFECT_NONE},
                                        {"", "another", EFFECT_FURTHER},
                                        {"an", "additional", EFFECT_FURTHER},
                                        {"", "additional", EFFECT_FURTHER},
                                        {"", "after", EFFECT_AFTER},
                                        {"ready in", "about", EFFECT_INSIDE},
                                        {"", "add", EFFECT_INSIDE},
                                        {"", "by", EFFECT_INSIDE},
                                        {"", "exactly", EFFECT_NONE},
                                        {"an", "extra", EFFECT_FURTHER},
                                        {"", "extra", EFFECT_FURTHER},
                                        {"", "every", EFFECT_EVERY},
                                        {"a", "full", EFFECT_NONE},
                                        {"anywhere", "from", EFFECT_NONE},
                                        {"", "from", EFFECT_NONE},
                                        {"a", "further", EFFECT_FURTHER},
                                        {"", "further", EFFECT_FURTHER},
                                        {"a", "final", EFFECT_FURTHER},
                                        {"the", "final", EFFECT_LAST},
                                        {"", "final", EFFECT_LAST},
                                        {"the", "first", EFFECT_FIRST},
                                        {"", "first", EFFECT_FIRST},
                                        {"after the", "first", EFFECT_AFTER},
                                        {"within the", "first", EFFECT_INSIDE},
                                        {"a", "good", EFFECT_NONE},
                                        {"ready", "in", EFFECT_INSIDE},
                                        {"on the table", "in", EFFECT_INSIDE},
                                        {"", "just", EFFECT_NONE},
                                        {"ready in", "just", EFFECT_INSIDE},
                                        {"at", "least", EFFECT_LEAST},
                                        {"a", "last", EFFECT_FURTHER},
                                        {"the", "last", EFFECT_LAST},
                                        {"", "last", EFFECT_LAST},
                                        {"", "minimum", EFFECT_LEAST},
                                        {"at", "most", EFFECT_MOST},
                                        {"", "maximum", EFFECT_MOST},
                                        {"", "nearly", EFFECT_NONE},
                                        {"", "only", EFFECT_NONE},
                                        {"a minimum", "of", EFFECT_LEAST},
                                        {"minimum", "of", EFFECT_LEAST},
                                        {"", "over", EFFECT_LEAST},
                                        {"a maximum", "of", EFFECT_MOST},
                                        {"every", "other", EFFECT_EVERY},
                                        {"", "roughly", EFFECT_NONE},
                                        {"the", "remaining", EFFECT_LAST},
                                        {"", "remaining", EFFECT_LAST},
                                        {"", "some", EFFECT_NONE},
                                        {"no less", "than", EFFECT_LEAST},
                                        {"not less", "than", EFFECT_LEAST},
                                        {"more", "than", EFFECT_LEAST},
                                        {"up", "to", EFFECT_MOST},
                                        {"no more", "than", EFFECT_MOST},
                                        {"not more", "than", EFFECT_MOST},
                                        {"no longer", "than", EFFECT_MOST},
                                        {"not longer", "than", EFFECT_MOST},
                                        {"less", "than", EFFECT_MOST},
                                        {"", "the", EFFECT_INSIDE},
                                        {"", "these", EFFECT_INSIDE},
                                        {"", "those", EFFECT_INSIDE},
                                        {"", "under", EFFECT_MOST},
                                        {"ready in", "under", EFFECT_INSIDE},
                                        {"", "within", EFFECT_WITHIN},
                                        {"approx", ".", EFFECT_NONE},
                                        {"", "~", EFFECT_NONE}};

/* right behind the unit */
static const struct sign behind_it[] = {
    {"at most", EFFECT_MOST},        {"at the most", EFFECT_MOST},   {"at least", EFFECT_LEAST},
    {"at the least", EFFECT_LEAST},  {"altogether", EFFECT_TOTAL},   {"all up", EFFECT_TOTAL},
    {"ahead", EFFECT_BEFORE},        {"ago", EFFECT_BEFORE},         {"after", EFFECT_BEFORE},
    {"at a time", EFFECT_EVERY},     {"apart", EFFECT_EVERY},        {"beforehand", EFFECT_BEFORE},
    {"before", EFFECT_BEFORE},       {"bursts", EFFECT_EVERY},       {"burst", EFFECT_EVERY},
    {"bouts", EFFECT_EVERY},         {"blasts", EFFECT_EVERY},       {"extra", EFFECT_FURTHER},
    {"early", EFFECT_BEFORE},        {"earlier", EFFECT_BEFORE},     {"further", EFFECT_FURTHER},
    {"from the end", EFFECT_BEFORE}, {"fewer", EFFECT_INSIDE},       {"goes", EFFECT_EVERY},
    {"in total", EFFECT_TOTAL},      {"in all", EFFECT_TOTAL},       {"in advance", EFFECT_BEFORE},
    {"in ,", EFFECT_INSIDE},         {"into", EFFECT_INSIDE},        {"intervals", EFFECT_EVERY},
    {"interval", EFFECT_EVERY},      {"increments", EFFECT_EVERY},   {"longer", EFFECT_FURTHER},
    {"left", EFFECT_BEFORE},         {"later", EFFECT_INSIDE},       {"less", EFFECT_INSIDE},
    {"more", EFFECT_FURTHER},        {"maximum", EFFECT_MOST},       {"max", EFFECT_MOST},
    {"minimum", EFFECT_LEAST},       {"mark", EFFECT_INSIDE},        {"old", EFFECT_NOTHING},
    {"of age", EFFECT_NOTHING},      {"prior", EFFECT_BEFORE},       {"pulses", EFFECT_EVERY},
    {"remaining", EFFECT_BEFORE},    {"rounds", EFFECT_EVERY},       {"sooner", EFFECT_BEFORE},
    {"shorter", EFFECT_INSIDE},      {"spurts", EFFECT_EVERY},       {"stages", EFFECT_EVERY},
    {"stints", EFFECT_EVERY},        {"short bursts", EFFECT_EVERY}, {"tops", EFFECT_MOST},
    {"total", EFFECT_TOTAL},         {"to go", EFFECT_BEFORE},       {"zaps", EFFECT_EVERY}};

/* words of a sign that ends right before word i; 0: it is not there */
static size_t
lead_before(const struct words *w, size_t i, const struct lead *sign)
{
    const struct slice word = w->items[i - 1].folded;
    size_t n = 1;
    if (!slice_is(word, sign->last))
        return 0;
    if (sign->lead[0] == '\0')
        return n;
    n++;
    for (const char *p = sign->lead; *p != '\0'; p++)
        n += *p == ' ';
    return i >= n && words_at(w, i - n, sign->lead) == n - 1 ? n : 0;
}

size_t
duration_sign_before(const struct words *w, size_t i, enum effect *effect)
{
    size_t longest = 0;
    if (i == 0)
        return 0;
    for (size_t k = 0; k < sizeof before_it / sizeof *before_it; k++) {
        const struct lead *sign = &before_it[k];
        size_t n = lead_before(w, i, sign);
        if (n > longest) {
            longest = n;
            *effect = sign->effect;
        }
    }
    return longest;
}

size_t
duration_sign_behind(const struct words *w, size_t i, enum effect *effect)
{
    size_t longest = 0;
    if (i >= w->count)
        return 0;
    for (size_t k = 0; k < sizeof behind_it / sizeof *behind_it; k++) {
        const struct sign *sign = &behind_it[k];
        size_t n = words_at(w, i, sign->phrase);
        if (n > longest) {
            longest = n;
            *effect = sign->effect;
        }
    }
    return longest;
}
