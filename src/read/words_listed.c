#include "read/words_listed.h"

#include <string.h>

bool
words_one_of(const struct words *w, size_t i, enum word_list_number list)
{
    return word_lists_have(w->lists, list, w->items[i].folded);
}

size_t
words_longest(const struct words *w, enum word_list_number list, size_t i, size_t *which)
{
    const char *const *phrases = words_list(w, list);
    size_t longest = 0;
    for (size_t k = 0; phrases[k] != NULL; k++) {
        const size_t n = words_at(w, i, phrases[k]);
        if (n > longest) {
            longest = n;
            *which = k;
        }
    }
    return longest;
}

size_t
words_range(const struct words *w, enum word_list_number list, size_t i, struct span *out)
{
    size_t which, n = words_longest(w, list, i, &which);
    if (n > 0)
        *out = word_lists_get(w->lists, list)->values[which].range;
    return n;
}

size_t
words_longest_before(const struct words *w, enum word_list_number list, size_t i, size_t *which)
{
    const char *const *phrases = words_list(w, list);
    size_t longest = 0;
    for (size_t k = 0; phrases[k] != NULL; k++) {
        size_t n = 1;
        for (const char *p = phrases[k]; *p != '\0'; p++)
            n += *p == ' ';
        if (n > longest && i >= n && words_at(w, i - n, phrases[k]) == n) {
            longest = n;
            *which = k;
        }
    }
    return longest;
}

const char *
words_any_meaning(const struct words *w, enum word_list_number list, const char *meaning,
                  size_t *at)
{
    const struct word_list *l = word_lists_get(w->lists, list);
    for (size_t k = 0; k < l->count; k++) {
        const char *one[] = {l->words[k], NULL};
        if (strcmp(l->values[k].text, meaning) == 0 && words_any(w, one, 0, w->count, at) != NULL)
            return l->words[k];
    }
    return NULL;
}
