#include "judge/contents.h"

#include "base/list.h"
#include "read/words.h"

/* the diet, or the allergens, that are asked about */
struct asked {
    struct arena *arena;
    const struct word_lists *lists; /* of the line at hand */
    bool by_diet;
    enum diet diet;
    uint32_t allergens;
    struct reads *reads;
};

/* whether a label settles the diet: "vegan, vegetarian" */
static bool
settles(const struct word_value *label, enum diet d)
{
    const char *word = groups_diet_word(d);
    for (struct slice rest = slice_of(label->text); rest.length > 0;) {
        const size_t end = slice_find(rest, ", ", 0);
        if (slice_is(slice_part(rest, 0, end), word))
            return true;
        rest = slice_part(rest, end == SIZE_MAX ? rest.length : end + 2, rest.length);
    }
    return false;
}

/* whether the words on the line settle it: "gluten-free", "certified gluten-free", "vegan" */
static bool
line_says(struct arena *a, const struct word_lists *lists, const struct helping *h, enum diet d)
{
    const struct word_list *labels = word_lists_get(lists, WORDS_DIET_LABELS);
    const struct slice texts[] = {h->written->name, h->written->after};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct words w;
        words_read(a, lists, texts[i], &w);
        for (size_t k = 0; k < labels->count; k++)
            if (settles(&labels->values[k], d) &&
                words_find(&w, labels->words[k], 0, w.count) != SIZE_MAX)
                return true;
    }
    return false;
}

/* "ice-cold water", "pasta cooking water": not known by that name, but water all the same */
static bool
is_water(const struct helping *h)
{
    return slice_ends(slice_trim(h->written->name), "water");
}

static enum stands
diet_stands(const struct asked *q, const struct helping *h)
{
    const enum diet d = q->diet;
    uint32_t bit = 1u << d;
    const bool doubt = (h->doubt_diets & bit) != 0;
    if (h->food != NULL && !doubt && (h->food->breaks & bit) == 0 && (h->food->labelled & bit) == 0)
        return STANDS_KEEPS;
    if (line_says(q->arena, q->lists, h, d))
        return STANDS_KEEPS;
    if (h->food == NULL)
        return is_water(h) ? STANDS_KEEPS : STANDS_UNKNOWN;
    if ((h->food->breaks & bit) != 0)
        return STANDS_BREAKS;
    return doubt ? STANDS_UNKNOWN : STANDS_LABEL;
}

/* those of some allergens that the words on the line rule out */
static uint32_t
ruled_out(const struct asked *q, const struct helping *h, uint32_t allergens)
{
    uint32_t out = 0;
    for (int d = 0; d < DIETS; d++) {
        const uint32_t rules_out = groups_diet((enum diet)d)->rules_out;
        if ((rules_out & allergens) != 0 && line_says(q->arena, q->lists, h, (enum diet)d))
            out |= rules_out;
    }
    return out;
}

static enum stands
allergens_stand(const struct asked *q, const struct helping *h)
{
    const uint32_t allergens = q->allergens;
    if (h->food == NULL)
        return is_water(h) ? STANDS_KEEPS : STANDS_UNKNOWN;
    const uint32_t maybe = h->food->may_carry | h->food->traces;
    const uint32_t carried = (h->food->allergens | maybe | h->doubt_allergens) & allergens;
    if (carried == 0)
        return STANDS_KEEPS;
    const uint32_t left = carried & ~ruled_out(q, h, carried);
    if ((h->food->allergens & left) != 0)
        return STANDS_BREAKS;
    if ((h->doubt_allergens & left) != 0)
        return STANDS_UNKNOWN;
    return (maybe & left) != 0 ? STANDS_LABEL : STANDS_KEEPS;
}

/* whether each food keeps to it whatever the line says, as most do to most: no more need be asked.
 * All foods are looked at, and noted. */
static bool
keeps(const struct asked *q, const struct ingredient *in)
{
    bool keep = in->option_count > 0;
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            const struct helping *h = &in->options[o].helpings[k];
            const struct food *f = h->food;
            if (f == NULL || h->doubt_diets != 0 || h->doubt_allergens != 0) {
                keep = false;
                continue;
            }
            reads_note(q->reads, &f->identity);
            keep = keep &&
                   (q->by_diet ? (f->breaks | f->labelled) >> q->diet & 1
                               : (f->allergens | f->may_carry | f->traces) & q->allergens) == 0;
        }
    return keep;
}

/* how one option stands: as the worst of its foods */
static enum stands
option_stands(const struct asked *q, const struct dish_option *o)
{
    enum stands worst = STANDS_KEEPS;
    for (size_t i = 0; i < o->count; i++) {
        const struct helping *h = &o->helpings[i];
        enum stands s = q->by_diet ? diet_stands(q, h) : allergens_stand(q, h);
        worst = s > worst ? s : worst;
    }
    return worst;
}

/* whether something on the line that was not understood could hold one */
static bool
is_doubtful(const struct ingredient *in, uint32_t allergens)
{
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            if ((in->options[o].helpings[k].doubt_allergens & allergens) != 0)
                return true;
        }
    return false;
}

static void
add(struct arena *a, struct culprits *list, size_t ingredient)
{
    *LIST_GROW(a, list) = ingredient;
}

static void
weigh_up(struct asked *q, const struct dish *d, struct contents *out)
{
    struct arena *a = q->arena;
    *out = (struct contents){0};
    for (size_t i = 0; i < d->count; i++) {
        const struct ingredient *in = &d->ingredients[i];
        q->lists = in->words != NULL ? in->words->lists : NULL;
        size_t counts[STANDS_BREAKS + 1] = {0};
        if (keeps(q, in))
            continue;
        for (size_t o = 0; o < in->option_count; o++)
            counts[option_stands(q, &in->options[o])]++;
        if (counts[STANDS_BREAKS] > 0 && counts[STANDS_BREAKS] == in->option_count && !in->optional)
            add(a, &out->breaking, i);
        else if (counts[STANDS_BREAKS] > 0)
            add(a, &out->choosing, i);
        if (counts[STANDS_LABEL] > 0)
            add(a, &out->labelling, i);
        if (counts[STANDS_UNKNOWN] > 0 || in->option_count == 0 ||
            (!q->by_diet && is_doubtful(in, q->allergens)))
            add(a, &out->unknowing, i);
    }
    out->breaks = out->breaking.count > 0;
    out->on_choice = out->choosing.count > 0;
    out->label = out->labelling.count > 0;
    out->unknown = out->unknowing.count > 0;
}

void
contents_of_diet(struct arena *a, const struct dish *d, enum diet diet, struct reads *reads,
                 struct contents *out)
{
    weigh_up(&(struct asked){.arena = a, .by_diet = true, .diet = diet, .reads = reads}, d, out);
}

void
contents_of_allergens(struct arena *a, const struct dish *d, uint32_t allergens,
                      struct reads *reads, struct contents *out)
{
    weigh_up(&(struct asked){.arena = a, .allergens = allergens, .reads = reads}, d, out);
}

void
contents_sum(const struct dish *d, struct reads *reads, struct contents_sum *out)
{
    *out = (struct contents_sum){0};
    for (size_t i = 0; i < d->count; i++) {
        const struct ingredient *in = &d->ingredients[i];
        out->unknown = out->unknown || in->option_count == 0;
        for (size_t o = 0; o < in->option_count; o++)
            for (size_t k = 0; k < in->options[o].count; k++) {
                const struct helping *h = &in->options[o].helpings[k];
                const struct food *f = h->food;
                out->unknown = out->unknown || f == NULL || h->doubt_allergens != 0;
                if (f == NULL)
                    continue;
                reads_note(reads, &f->identity);
                out->diets |= f->breaks | f->labelled;
                out->allergens |= f->allergens | f->may_carry | f->traces;
            }
    }
}
