#include "write/sources.h"

#include <string.h>

#include "base/list.h"
#include "write/markup.h"

/* what one source gave, to be listed under its title */
struct cited {
    struct slice id;    /* of the publication in the table of sources */
    struct slice title; /* empty: free text stands alone in the lines */
    struct text lines;
};

struct citations {
    const struct setting *s;
    struct cited *items;
    size_t count, room;
    LIST_OF(const struct figure *) seen; /* figures already listed */
};

static bool
is_id_byte(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
}

/* where a source is listed; *locator is what stands behind its id, or all of a free text */
static struct cited *
cited_under(struct citations *c, struct slice source, struct slice *locator)
{
    const struct tables *t = c->s->tables;
    struct cited new = {.lines = text_new(c->s->arena)};
    size_t end = 0;
    while (end < source.length && is_id_byte(source.at[end]))
        end++;
    struct slice id = slice_part(source, 0, end);
    while (end < source.length && (source.at[end] == ':' || source.at[end] == ','))
        end++;
    *locator = slice_trim(slice_part(source, end, source.length));
    for (size_t i = 0; i < c->count; i++)
        if (c->items[i].id.length > 0 && slice_equal(c->items[i].id, id))
            return &c->items[i];
    for (size_t i = 0; i < t->sources.count && new.id.length == 0; i++)
        if (slice_is(id, t->sources.items[i].id)) {
            new.id = id;
            new.title = slice_of(t->sources.items[i].title);
        }
    if (new.id.length == 0) {
        *locator = source;
        for (size_t i = 0; i < c->count; i++)
            if (c->items[i].id.length == 0)
                return &c->items[i];
    }
    *LIST_GROW(c->s->arena, c) = new;
    return &c->items[c->count - 1];
}

/* what a figure names beside the source it is listed under, by name and not by id */
static struct slice
spelt_out(const struct citations *c, const struct cited *under, const struct figure *f,
          struct slice locator)
{
    struct text words = text_new(c->s->arena);
    if (under->id.length == 0 || slice_find(locator, "; ", 0) == SIZE_MAX) {
        sources_add_words(&c->s->tables->sources, locator, &words);
        return text_slice(&words);
    }
    const struct slice all = slice_of(tables_source(c->s->tables, c->s->arena, f->source));
    const size_t title = slice_find(under->title, "; locator", 0);
    const struct slice head =
        slice_part(under->title, 0, title == SIZE_MAX ? under->title.length : title);
    if (all.length <= head.length || memcmp(all.at, head.at, head.length) != 0)
        return locator;
    const struct slice rest = slice_part(all, head.length, all.length);
    return slice_trim(slice_begins(rest, ":") ? slice_part(rest, 1, rest.length) : rest);
}

static const char *
basis_said(enum basis b)
{
    switch (b) {
    case BASIS_CALCULATED:
        return " (calculated from it)";
    case BASIS_MEASURED:
        return " (measured)";
    case BASIS_PRACTICE:
        return " (common practice)";
    case BASIS_MEMORY:
        return " (from memory, not looked up)";
    default:
        return "";
    }
}

static void
cite(struct citations *c, struct slice who, const char *what, const struct figure *f)
{
    if (f == NULL || !figure_known(f) || f->source == NULL)
        return;
    for (size_t i = 0; i < c->seen.count; i++)
        if (c->seen.items[i] == f)
            return;
    *LIST_GROW(c->s->arena, &c->seen) = f;
    struct slice locator;
    struct cited *under = cited_under(c, slice_of(f->source), &locator);
    locator = spelt_out(c, under, f, locator);
    text_add_string(&under->lines, "<li>");
    markup_words(&under->lines, who);
    text_add_string(&under->lines, ", ");
    text_add_string(&under->lines, what);
    if (locator.length > 0) {
        text_add_string(&under->lines, ": ");
        text_add_html(&under->lines, locator);
    }
    /* many a source says so itself */
    if (f->basis != BASIS_MEMORY || slice_find(locator, "remembered", 0) == SIZE_MAX)
        text_add_string(&under->lines, basis_said(f->basis));
    text_add_string(&under->lines, "</li>\n");
}

static void
cite_weighing(struct citations *c, struct slice who, const struct weighing *w)
{
    if (!w->known || w->used >= w->count)
        return;
    const struct measured *m = &w->measured[w->used];
    cite(c, who, "weight by volume", m->density);
    cite(c, who, "weight of one", m->piece);
    cite(c, who, "edible part", w->edible_share);
}

/* contents of the groups that the phase limits, several groups of one source in one line */
static void
cite_contents(struct citations *c, struct slice who, const struct food *food)
{
    const struct setting *s = c->s;
    bool told[GROUPS] = {false};
    for (int g = 0; g < GROUPS; g++) {
        const struct figure *f = food_content(food, (enum group)g, s->o->reads);
        if (told[g] || f == NULL || !figure_known(f))
            continue;
        struct text what = text_new(s->arena);
        int count = 0;
        for (int k = g; k < GROUPS; k++) {
            const struct figure *other = food_content(food, (enum group)k, s->o->reads);
            if (other == NULL || !figure_known(other) || other->basis != f->basis ||
                (other != f && strcmp(other->source, f->source) != 0))
                continue;
            text_add_string(&what, what.length > 0 ? ", " : "");
            text_add_string(&what, group_name((enum group)k));
            told[k] = true;
            count++;
        }
        cite(c, who, count == GROUPS ? "all groups" : what.bytes, f);
    }
    cite(c, who, "serve taken as tested", food_tested_serve(food, s->o->reads));
}

static void
cite_limits(struct citations *c)
{
    const struct tables *t = c->s->tables;
    const struct phase *phase = &t->limits.phases[t->site.phase];
    for (int g = 0; g < GROUPS; g++)
        if (phase->groups[g].per_portion.source != NULL && c->s->stand->groups[g].limited)
            cite(c, SLICE("Limit"), group_name((enum group)g), &phase->groups[g].per_portion);
    if (c->s->stand->sitting_limited)
        cite(c, SLICE("Limit"), "one sitting", &phase->sitting);
}

static void
gather(struct citations *c)
{
    const struct setting *s = c->s;
    cite_limits(c);
    for (size_t i = 0; i < s->o->dish.count; i++) {
        const struct ingredient *in = &s->o->dish.ingredients[i];
        for (size_t k = 0; k < in->option_count; k++)
            for (size_t j = 0; j < in->options[k].count; j++) {
                const struct helping *h = &in->options[k].helpings[j];
                if (h->food == NULL)
                    continue;
                struct slice who = slice_of(h->food->name);
                cite_weighing(c, who, &h->weighing);
                cite_contents(c, who, h->food);
                if (s->o->nutrition.given)
                    cite(c, who, "nutrients", food_nutrient(h->food, PROTEIN, s->o->reads));
            }
    }
}

void
sources_write(struct text *t, const struct setting *s)
{
    struct citations c = {.s = s};
    gather(&c);
    if (c.count == 0)
        return;
    text_add_string(t, "<details class=\"dl-sources\"><summary>Where the figures come "
                       "from</summary>\n<dl>\n");
    for (size_t i = 0; i < c.count; i++) {
        text_add_string(t, "<dt>");
        if (c.items[i].title.length > 0)
            text_add_html(t, c.items[i].title);
        else
            text_add_string(t, "Others");
        text_add_string(t, "</dt>\n<dd><ul>\n");
        text_add(t, text_slice(&c.items[i].lines));
        text_add_string(t, "</ul></dd>\n");
    }
    text_add_string(t, "</dl>\n</details>\n");
}
