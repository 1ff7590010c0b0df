#include "read/nearest.h"

#include <string.h>

#include "base/edit.h"

enum { WORD_MOST = 40 };

static char
lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

size_t
nearest_distance(struct slice a, struct slice b, size_t most)
{
    char low_a[WORD_MOST], low_b[WORD_MOST];
    if (a.length > WORD_MOST || b.length > WORD_MOST)
        return most + 1;
    for (size_t i = 0; i < a.length; i++)
        low_a[i] = lower(a.at[i]);
    for (size_t i = 0; i < b.length; i++)
        low_b[i] = lower(b.at[i]);
    return edit_distance((struct slice){low_a, a.length}, (struct slice){low_b, b.length}, most);
}

bool
nearest_is_swapped(struct slice a, struct slice b)
{
    size_t i = 0;
    while (i < a.length && i < b.length && lower(a.at[i]) == lower(b.at[i]))
        i++;
    return a.length == b.length && i + 1 < a.length && lower(a.at[i]) == lower(b.at[i + 1]) &&
           lower(a.at[i + 1]) == lower(b.at[i]) && nearest_distance(a, b, 1) == 1;
}

const char *
nearest_word(struct slice word, const char *const *known)
{
    const char *best = NULL;
    size_t most = word.length <= 3 ? 1 : word.length <= 6 ? 2 : 3;
    for (size_t i = 0; known[i] != NULL && word.length > 0; i++) {
        size_t n = nearest_distance(word, slice_of(known[i]), most);
        if (n > most)
            continue;
        best = known[i];
        if (n == 0)
            break;
        most = n - 1;
    }
    return best;
}
