#include "reckon/ingredient_names.h"

#include <string.h>

#include "read/stem.h"
#include "reckon/dish.h"

static void
know_words(struct arena *a, struct ingredient_names *out, const struct words *w)
{
    for (size_t i = 0; i < w->count; i++) {
        if (w->items[i].kind != WORD_LETTERS)
            continue;
        const struct stem stem = stem_of(a, w->items[i].folded);
        *LIST_GROW(a, &out->known) = stem;
        out->marks |= stem_mark(&stem);
    }
}

static void
add_name(struct arena *a, const struct word_lists *lists, struct ingredient_names *out,
         struct slice text)
{
    struct words w;
    struct stem stems[NAME_WORDS_MOST];
    size_t count = 0;
    words_read(a, lists, text, &w);
    for (size_t i = 0; i < w.count && count < NAME_WORDS_MOST; i++) {
        if (word_is(&w.items[i], ",") || word_is(&w.items[i], "("))
            break;
        const struct stem stem = stem_of(a, w.items[i].folded);
        if (w.items[i].kind == WORD_LETTERS && stem.text.length > 1 &&
            !stem_describes(lists, &stem))
            stems[count++] = stem;
    }
    if (count == 0 && w.count > 0) /* "whole", "greens": all it is called */
        stems[count++] = stem_of(a, w.items[w.count - 1].folded);
    if (count == 0)
        return;
    struct name *name = &out->names[out->name_count++];
    name->stems = arena_take_array(a, count, sizeof *stems);
    name->count = count;
    memcpy(name->stems, stems, count * sizeof *stems);
    out->stem_count += count;
}

const struct ingredient_names *
ingredient_names_read(struct arena *a, const struct word_lists *lists, const struct ingredient *in)
{
    struct ingredient_names *out = arena_take(a, sizeof *out);
    size_t helpings = 0;
    for (size_t o = 0; o < in->option_count; o++)
        helpings += in->options[o].count;
    out->names = arena_take_array(a, helpings + 1, sizeof *out->names);
    know_words(a, out, in->words);
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            const struct helping *h = &in->options[o].helpings[k];
            struct words w;
            add_name(a, lists, out, h->written->name);
            if (h->food == NULL)
                continue;
            words_read(a, lists, slice_of(h->food->name), &w);
            know_words(a, out, &w);
        }
    return out;
}
