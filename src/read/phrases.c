#include "read/phrases.h"

void
phrases_lay(struct arena *a, const char *const *items, struct phrases *out)
{
    size_t count = 0;
    *out = (struct phrases){.items = items};
    while (items != NULL && items[count] != NULL)
        count++;
    out->codes = arena_take_array(a, count, sizeof *out->codes);
    for (size_t i = 0; i < count; i++) {
        uint32_t bit = words_beginning(items[i]);
        out->codes[i] = (uint16_t)bit;
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
    if (p->items == NULL || !may_occur(w, p))
        return NULL;
    for (size_t k = 0; p->items[k] != NULL; k++) {
        uint32_t code = p->codes[k];
        if (code != BEGINNINGS && (w->seen[code / 64] >> code % 64 & 1) == 0)
            continue;
        for (size_t i = from; i < to && i < w->count; i++)
            if (words_at(w, i, p->items[k]) > 0) {
                if (at != NULL)
                    *at = i;
                return p->items[k];
            }
    }
    return NULL;
}

bool
phrases_occur(const struct words *w, const struct phrases *p)
{
    return phrases_any(w, p, 0, w->count, NULL) != NULL;
}
