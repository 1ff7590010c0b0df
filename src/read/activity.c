#include "read/activity.h"

#include "read/words_listed.h"

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
activity_of(const struct words *w, size_t i)
{
    const struct word_list *verbs = word_lists_get(w->lists, WORDS_ACTIVITIES);
    if (w->items[i].kind != WORD_LETTERS || w->items[i].folded.length < 3)
        return ACTIVITY_NONE;
    for (size_t k = 0; k < verbs->count; k++)
        if (form_of(w->items[i].folded, verbs->words[k]))
            return (enum activity)(verbs->values[k].kind + 1);
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
    if (i + 1 < w->count && words_one_of(w, i + 1, WORDS_THINGS_OF_VERBS))
        return true;
    return i > 0 && words_one_of(w, i, WORDS_NOUN_VERBS) &&
           words_one_of(w, i - 1, WORDS_BEFORE_NOUN_VERBS);
}

/* "the soaked beans" are a thing; "soaked overnight" and "baked for" are done */
static bool
participle_of_a_thing(const struct words *w, size_t i)
{
    const struct word *word = &w->items[i];
    if (!slice_ends(word->folded, "ed") && !word_is(word, "frozen") && !word_is(word, "left") &&
        !word_is(word, "risen"))
        return false;
    return i + 1 >= w->count ||
           (!words_one_of(w, i + 1, WORDS_BEHIND_DONE) && w->items[i + 1].kind != WORD_NUMBER);
}

/* "leave to set", "until set"; not "set a timer" */
static bool
sets_by_itself(const struct words *w, size_t i)
{
    return i > 0 && words_one_of(w, i - 1, WORDS_SET_BY_ITSELF);
}

/* "in the switched-off oven": nothing cooks there any more */
static bool
oven_is_off(const struct words *w, size_t i)
{
    if (!word_is(&w->items[i], "oven"))
        return false;
    for (size_t k = 1; k <= 3 && k <= i; k++)
        if (words_one_of(w, i - k, WORDS_OVENS_OFF))
            return true;
    return false;
}

static enum activity
activity_at(const struct words *w, size_t i)
{
    enum activity found = activity_of(w, i);
    if (oven_is_off(w, i))
        return ACTIVITY_RESTING;
    return found != ACTIVITY_NONE && (names_a_thing(w, i) || participle_of_a_thing(w, i) ||
                                      (word_is(&w->items[i], "set") && !sets_by_itself(w, i)))
               ? ACTIVITY_NONE
               : found;
}

/* "leave", "let", "cook": another verb of the clause says more */
static bool
weak(const struct words *w, size_t i)
{
    return words_one_of(w, i, WORDS_PLAIN_VERBS);
}

/* "stirring now and then" leaves the hands free */
static bool
seldom(const struct words *w, size_t i)
{
    size_t to = words_sentence_to(w, i);
    for (size_t j = i + 1; j < to && j <= i + 5 && !word_is(&w->items[j], ","); j++)
        if (words_any(w, words_list(w, WORDS_NOW_AND_THEN), j, j + 1, NULL) != NULL)
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
        if (found == ACTIVITY_NONE || weak(w, j))
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
        bool open = found == ACTIVITY_COOKING || weak(w, i - 1);
        return open ? front_behind(w, end, to, found) : found;
    }
    enum activity plain = front_behind(w, end, to, ACTIVITY_NONE);
    for (; plain == ACTIVITY_NONE && i > from; i--)
        plain = activity_at(w, i - 1);
    return plain;
}
