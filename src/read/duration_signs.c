#include "read/duration_signs.h"

#include "read/words_listed.h"

static size_t
effect_of(const struct words *w, enum word_list_number list, size_t n, size_t which,
          enum effect *effect)
{
    if (n > 0)
        *effect = (enum effect)word_lists_get(w->lists, list)->values[which].kind;
    return n;
}

size_t
duration_sign_before(const struct words *w, size_t i, enum effect *effect)
{
    size_t which = 0, n = words_longest_before(w, WORDS_BEFORE_TIMES, i, &which);
    return effect_of(w, WORDS_BEFORE_TIMES, n, which, effect);
}

size_t
duration_sign_behind(const struct words *w, size_t i, enum effect *effect)
{
    size_t which = 0, n = words_longest(w, WORDS_BEHIND_TIMES, i, &which);
    return effect_of(w, WORDS_BEHIND_TIMES, n, which, effect);
}
