#include "read/duration_signs.h"

#include "read/initials.h"

struct sign {
    const char *phrase;
    enum effect effect;
};

/* a sign before a number: its last word, which refuses most, and what leads up to it */
struct lead {
    const char *lead, *last;
    enum effect effect;
};

/* right before the number, by the letter that the last word begins with; the longest that fits
 * counts, then what stands before that */
static const struct lead before_it[INITIALS][14] = {
    ['a' - 'a'] = {{"", "about", EFFECT_NONE},
                   {"", "around", EFFECT_NONE},
                   {"", "approximately", EFFECT_NONE},
                   {"", "approx", EFFECT_NONE},
                   {"", "almost", EFFECT_NONE},
                   {"", "another", EFFECT_FURTHER},
                   {"an", "additional", EFFECT_FURTHER},
                   {"", "additional", EFFECT_FURTHER},
                   {"", "after", EFFECT_AFTER},
                   {"ready in", "about", EFFECT_INSIDE},
                   {"", "add", EFFECT_INSIDE}},
    ['b' - 'a'] = {{"", "by", EFFECT_INSIDE}},
    ['e' - 'a'] = {{"", "exactly", EFFECT_NONE},
                   {"an", "extra", EFFECT_FURTHER},
                   {"", "extra", EFFECT_FURTHER},
                   {"", "every", EFFECT_EVERY}},
    ['f' - 'a'] = {{"a", "full", EFFECT_NONE},
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
                   {"within the", "first", EFFECT_INSIDE}},
    ['g' - 'a'] = {{"a", "good", EFFECT_NONE}},
    ['i' - 'a'] = {{"ready", "in", EFFECT_INSIDE}, {"on the table", "in", EFFECT_INSIDE}},
    ['j' - 'a'] = {{"", "just", EFFECT_NONE}, {"ready in", "just", EFFECT_INSIDE}},
    ['l' - 'a'] = {{"at", "least", EFFECT_LEAST},
                   {"a", "last", EFFECT_FURTHER},
                   {"the", "last", EFFECT_LAST},
                   {"", "last", EFFECT_LAST}},
    ['m' - 'a'] = {{"", "minimum", EFFECT_LEAST},
                   {"at", "most", EFFECT_MOST},
                   {"", "maximum", EFFECT_MOST}},
    ['n' - 'a'] = {{"", "nearly", EFFECT_NONE}},
    ['o' - 'a'] = {{"", "only", EFFECT_NONE},
                   {"a minimum", "of", EFFECT_LEAST},
                   {"minimum", "of", EFFECT_LEAST},
                   {"", "over", EFFECT_LEAST},
                   {"a maximum", "of", EFFECT_MOST},
                   {"every", "other", EFFECT_EVERY}},
    ['r' - 'a'] = {{"", "roughly", EFFECT_NONE},
                   {"the", "remaining", EFFECT_LAST},
                   {"", "remaining", EFFECT_LAST}},
    ['s' - 'a'] = {{"", "some", EFFECT_NONE}},
    ['t' - 'a'] = {{"no less", "than", EFFECT_LEAST},
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
                   {"", "those", EFFECT_INSIDE}},
    ['u' - 'a'] = {{"", "under", EFFECT_MOST}, {"ready in", "under", EFFECT_INSIDE}},
    ['w' - 'a'] = {{"", "within", EFFECT_WITHIN}},
    [INITIALS - 1] = {{"approx", ".", EFFECT_NONE}, {"", "~", EFFECT_NONE}},
};

/* right behind the unit, by the first letter */
static const struct sign behind_it[INITIALS][12] = {
    ['a' - 'a'] = {{"at most", EFFECT_MOST},
                   {"at the most", EFFECT_MOST},
                   {"at least", EFFECT_LEAST},
                   {"at the least", EFFECT_LEAST},
                   {"altogether", EFFECT_TOTAL},
                   {"all up", EFFECT_TOTAL},
                   {"ahead", EFFECT_BEFORE},
                   {"ago", EFFECT_BEFORE},
                   {"after", EFFECT_BEFORE},
                   {"at a time", EFFECT_EVERY},
                   {"apart", EFFECT_EVERY}},
    ['b' - 'a'] = {{"beforehand", EFFECT_BEFORE},
                   {"before", EFFECT_BEFORE},
                   {"bursts", EFFECT_EVERY},
                   {"burst", EFFECT_EVERY},
                   {"bouts", EFFECT_EVERY},
                   {"blasts", EFFECT_EVERY}},
    ['e' - 'a'] = {{"extra", EFFECT_FURTHER}, {"early", EFFECT_BEFORE}, {"earlier", EFFECT_BEFORE}},
    ['f' - 'a'] = {{"further", EFFECT_FURTHER},
                   {"from the end", EFFECT_BEFORE},
                   {"fewer", EFFECT_INSIDE}},
    ['g' - 'a'] = {{"goes", EFFECT_EVERY}},
    ['i' - 'a'] = {{"in total", EFFECT_TOTAL},
                   {"in all", EFFECT_TOTAL},
                   {"in advance", EFFECT_BEFORE},
                   {"in ,", EFFECT_INSIDE},
                   {"into", EFFECT_INSIDE},
                   {"intervals", EFFECT_EVERY},
                   {"interval", EFFECT_EVERY},
                   {"increments", EFFECT_EVERY}},
    ['l' - 'a'] = {{"longer", EFFECT_FURTHER},
                   {"left", EFFECT_BEFORE},
                   {"later", EFFECT_INSIDE},
                   {"less", EFFECT_INSIDE}},
    ['m' - 'a'] = {{"more", EFFECT_FURTHER},
                   {"maximum", EFFECT_MOST},
                   {"max", EFFECT_MOST},
                   {"minimum", EFFECT_LEAST},
                   {"mark", EFFECT_INSIDE}},
    ['o' - 'a'] = {{"old", EFFECT_NOTHING}, {"of age", EFFECT_NOTHING}},
    ['p' - 'a'] = {{"prior", EFFECT_BEFORE}, {"pulses", EFFECT_EVERY}},
    ['r' - 'a'] = {{"remaining", EFFECT_BEFORE}, {"rounds", EFFECT_EVERY}},
    ['s' - 'a'] = {{"sooner", EFFECT_BEFORE},
                   {"shorter", EFFECT_INSIDE},
                   {"spurts", EFFECT_EVERY},
                   {"stages", EFFECT_EVERY},
                   {"stints", EFFECT_EVERY},
                   {"short bursts", EFFECT_EVERY}},
    ['t' - 'a'] = {{"tops", EFFECT_MOST}, {"total", EFFECT_TOTAL}, {"to go", EFFECT_BEFORE}},
    ['z' - 'a'] = {{"zaps", EFFECT_EVERY}},
};

/* words of a sign that ends right before word i; 0: it is not there */
static size_t
lead_before(const struct words *w, size_t i, const struct lead *sign)
{
    const struct slice word = w->items[i - 1].folded;
    size_t n = 1;
    if (sign->last[0] != word.at[0] || !initials_same(sign->last, word))
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
    const struct lead *sign = before_it[initial_of(w->items[i - 1].folded)];
    for (; sign->last != NULL; sign++) {
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
    const struct sign *sign = behind_it[initial_of(w->items[i].folded)];
    for (; sign->phrase != NULL; sign++) {
        size_t n = initials_words(sign->phrase, w, i);
        if (n > longest) {
            longest = n;
            *effect = sign->effect;
        }
    }
    return longest;
}
