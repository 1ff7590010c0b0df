#include "read/nearest.h"

enum { WORD_MOST = 40 };

static char
lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static unsigned
least(unsigned a, unsigned b)
{
    return a < b ? a : b;
}

/* edits (insert, delete, replace, swap neighbours) from one to the other, regardless of case; both
 * at most WORD_MOST long */
static unsigned
distance(struct slice a, struct slice b)
{
    unsigned rows[3][WORD_MOST + 1];
    for (unsigned j = 0; j <= b.length; j++)
        rows[0][j] = j;
    for (unsigned i = 1; i <= a.length; i++) {
        unsigned *row = rows[i % 3], *last = rows[(i + 2) % 3], *before = rows[(i + 1) % 3];
        row[0] = i;
        for (unsigned j = 1; j <= b.length; j++) {
            char x = lower(a.at[i - 1]), y = lower(b.at[j - 1]);
            unsigned n = last[j - 1] + (x != y);
            n = least(n, least(last[j], row[j - 1]) + 1);
            if (i > 1 && j > 1 && x == lower(b.at[j - 2]) && lower(a.at[i - 2]) == y)
                n = least(n, before[j - 2] + 1);
            row[j] = n;
        }
    }
    return rows[a.length % 3][b.length];
}

unsigned
word_distance(struct slice a, struct slice b)
{
    return a.length > WORD_MOST || b.length > WORD_MOST ? WORD_MOST : distance(a, b);
}

bool
word_is_swapped(struct slice a, struct slice b)
{
    size_t i = 0;
    while (i < a.length && i < b.length && lower(a.at[i]) == lower(b.at[i]))
        i++;
    return a.length == b.length && i + 1 < a.length && lower(a.at[i]) == lower(b.at[i + 1]) &&
           lower(a.at[i + 1]) == lower(b.at[i]) && distance(a, b) == 1;
}

const char *
nearest_word(struct slice word, const char *const *known)
{
    const char *best = NULL;
    unsigned best_distance = word.length <= 3 ? 2 : word.length <= 6 ? 3 : 4;
    if (word.length == 0 || word.length > WORD_MOST)
        return NULL;
    for (size_t i = 0; known[i] != NULL; i++) {
        struct slice candidate = slice_of(known[i]);
        if (candidate.length > WORD_MOST)
            continue;
        unsigned n = distance(word, candidate);
        if (n < best_distance) {
            best = known[i];
            best_distance = n;
        }
    }
    return best;
}
