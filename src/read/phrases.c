#include "read/phrases.h"

void
phrases_lay(const char **items, struct phrases *out)
{
    *out = (struct phrases){.items = items};
    for (; items != NULL && *items != NULL; items++) {
        uint32_t bit = words_beginning(*items);
        if (bit == BEGINNINGS)
            out->open = true;
        else
            out->begins[bit / 64] |= UINT64_C(1) << bit % 64;
    }
}

/* false: none of the words begins as one of the phrases */
static bool
may_occur(const struct words *w, const struct phrases *p)
{
    uint64_t both = p->open;
    for (size_t i = 0; i < BEGINNINGS / 64; i++)
        both |= w->seen[i] & p->begins[i];
    return both != 0;
}

const char *
phrases_any(const struct words *w, const struct phrases *p, size_t from, size_t to, size_t *at)
{
    return p->items != NULL && may_occur(w, p)
               ? words_any(w, (const char *const *)p->items, from, to, at)
               : NULL;
}

bool
phrases_occur(const struct words *w, const struct phrases *p)
{
    return phrases_any(w, p, 0, w->count, NULL) != NULL;
}
