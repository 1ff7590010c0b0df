#include "base/edit.h"

enum { LETTERS_MOST = 64 };

static size_t
least(size_t a, size_t b)
{
    return a < b ? a : b;
}

size_t
edit_distance(struct slice a, struct slice b, size_t most)
{
    size_t apart = a.length > b.length ? a.length - b.length : b.length - a.length;
    if (apart > most || a.length > LETTERS_MOST || b.length > LETTERS_MOST)
        return most + 1;
    if (most == 0)
        return slice_equal(a, b) ? 0 : 1;
    size_t rows[3][LETTERS_MOST + 1];
    size_t *before = rows[0], *last = rows[1], *now = rows[2];
    for (size_t j = 0; j <= b.length; j++)
        last[j] = j;
    for (size_t i = 1; i <= a.length; i++) {
        size_t best = now[0] = i;
        for (size_t j = 1; j <= b.length; j++) {
            now[j] =
                least(least(last[j], now[j - 1]) + 1, last[j - 1] + (a.at[i - 1] != b.at[j - 1]));
            if (i > 1 && j > 1 && a.at[i - 1] == b.at[j - 2] && a.at[i - 2] == b.at[j - 1])
                now[j] = least(now[j], before[j - 2] + 1);
            best = least(best, now[j]);
        }
        if (best > most)
            return most + 1;
        size_t *spare = before;
        before = last;
        last = now;
        now = spare;
    }
    return least(last[b.length], most + 1);
}
