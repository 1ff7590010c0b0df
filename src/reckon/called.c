#include "reckon/called.h"

#include <string.h>

#include "reckon/dish.h"

/* what is gathered of one line */
struct gathering {
    struct arena *arena;
    struct called *out;
};

static void
know_words(struct gathering *g, const struct words *w)
{
    struct called *out = g->out;
    struct stem *known = arena_take_array(g->arena, out->known_count + w->count + 1, sizeof *known);
    if (out->known_count > 0)
        memcpy(known, out->known, out->known_count * sizeof *known);
    out->known = known;
    for (size_t i = 0; i < w->count; i++) {
        if (w->items[i].kind != WORD_LETTERS)
            continue;
        struct stem *stem = &known[out->known_count++];
        *stem = stem_of(g->arena, w->items[i].folded);
        out->marks |= stem_mark(stem);
    }
}

static void
add_name(struct gathering *g, struct slice text)
{
    struct words w;
    struct stem stems[NAME_WORDS_MOST];
    size_t count = 0;
    words_read(g->arena, text, &w);
    for (size_t i = 0; i < w.count && count < NAME_WORDS_MOST; i++) {
        if (word_is(&w.items[i], ",") || word_is(&w.items[i], "("))
            break;
        const struct stem stem = stem_of(g->arena, w.items[i].folded);
        if (w.items[i].kind == WORD_LETTERS && stem.text.length > 1 && !stem_describes(&stem))
            stems[count++] = stem;
    }
    if (count == 0 && w.count > 0) /* "whole", "greens": all it is called */
        stems[count++] = stem_of(g->arena, w.items[w.count - 1].folded);
    if (count == 0)
        return;
    struct name *name = &g->out->names[g->out->name_count++];
    name->stems = arena_take_array(g->arena, count, sizeof *stems);
    name->count = count;
    memcpy(name->stems, stems, count * sizeof *stems);
    g->out->stem_count += count;
}

const struct called *
called_lay(struct arena *a, const struct ingredient *in)
{
    struct gathering g = {a, arena_take(a, sizeof *g.out)};
    size_t helpings = 0;
    for (size_t o = 0; o < in->option_count; o++)
        helpings += in->options[o].count;
    g.out->names = arena_take_array(a, helpings + 1, sizeof *g.out->names);
    know_words(&g, in->words);
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            const struct helping *h = &in->options[o].helpings[k];
            struct words w;
            add_name(&g, h->written->name);
            if (h->food == NULL)
                continue;
            words_read(a, slice_of(h->food->name), &w);
            know_words(&g, &w);
        }
    return g.out;
}
