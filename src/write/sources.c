#include "write/sources.h"

#include "base/list.h"
#include "tables/serve_settle.h"
#include "write/markup.h"

enum { HEADS = 128, USUAL = 64 }; /* HEADS: a power of two */

/* lists are chained by number + 1; 0: the end */

/* what one source gave, to be listed under its title */
struct cited {
    size_t source; /* in the table of sources; their count: free text, of none */
    uint32_t first, last;
};

/* whose a line is, when it is said of several */
struct owner {
    struct slice who;
    uint32_t next;
};

struct cited_line {
    const struct source_line *line;
    uint32_t next;        /* of the same source */
    uint32_t alike;       /* of the same head */
    uint32_t first, last; /* its owners */
};

struct seen { /* a figure, or the contents of a food */
    const void *what;
    uint32_t next; /* of the same head */
};

struct citations {
    const struct fragment_context *s;
    LIST_OF(struct cited) sources; /* in the order in which they are cited */
    uint32_t *by_source;           /* number + 1 in sources, or 0 */
    LIST_OF(struct cited_line) lines;
    LIST_OF(struct owner) owners;
    LIST_OF(struct seen) seen; /* what is listed already */
    uint32_t heads[HEADS], line_heads[HEADS];
};

/* whether it is cited for the first time */
static bool
is_new(struct citations *c, const void *what)
{
    uint32_t *head =
        &c->heads[(uint64_t)(uintptr_t)what * UINT64_C(0x9e3779b97f4a7c15) >> 32 & (HEADS - 1)];
    for (uint32_t i = *head; i != 0; i = c->seen.items[i - 1].next)
        if (c->seen.items[i - 1].what == what)
            return false;
    *LIST_GROW(c->s->arena, &c->seen) = (struct seen){what, *head};
    *head = (uint32_t)c->seen.count;
    return true;
}

/* the line that says the same, of whomever; NULL: none yet */
static struct cited_line *
find_alike(const struct citations *c, const struct source_line *line)
{
    for (uint32_t i = c->line_heads[line->digest & (HEADS - 1)]; i != 0;) {
        struct cited_line *other = &c->lines.items[i - 1];
        if (other->line->digest == line->digest && other->line->source == line->source &&
            (other->line->what.at == line->what.at || slice_equal(other->line->what, line->what)))
            return other;
        i = other->alike;
    }
    return NULL;
}

static void
add_owner(struct citations *c, struct cited_line *line, struct slice who)
{
    for (uint32_t i = line->first; i != 0; i = c->owners.items[i - 1].next)
        if (slice_equal(c->owners.items[i - 1].who, who))
            return;
    *LIST_GROW(c->s->arena, &c->owners) = (struct owner){who, 0};
    const uint32_t number = (uint32_t)c->owners.count;
    if (line->first == 0)
        line->first = number;
    else
        c->owners.items[line->last - 1].next = number;
    line->last = number;
}

static void
list_new(struct citations *c, const struct source_line *line)
{
    uint32_t *head = &c->line_heads[line->digest & (HEADS - 1)];
    *LIST_GROW(c->s->arena, &c->lines) = (struct cited_line){.line = line, .alike = *head};
    const uint32_t number = *head = (uint32_t)c->lines.count;
    uint32_t *place = &c->by_source[line->source];
    add_owner(c, &c->lines.items[number - 1], line->who);
    if (*place == 0) {
        *LIST_GROW(c->s->arena, &c->sources) = (struct cited){line->source, number, number};
        *place = (uint32_t)c->sources.count;
        return;
    }
    struct cited *under = &c->sources.items[*place - 1];
    c->lines.items[under->last - 1].next = number;
    under->last = number;
}

static void
list(struct citations *c, const struct source_line *line)
{
    struct cited_line *alike = find_alike(c, line);
    if (alike != NULL)
        add_owner(c, alike, line->who);
    else
        list_new(c, line);
}

static void
cite(struct citations *c, const char *who, unsigned told, const struct figure *f)
{
    if (f != NULL && figure_known(f) && f->source != NULL && is_new(c, f))
        list(c, source_line_of(c->s->arena, c->s->tables, f, who, told));
}

static void
cite_weighing(struct citations *c, const char *who, const struct weighing *w)
{
    if (!w->known || w->used >= w->count)
        return;
    const struct measured *m = &w->measured[w->used];
    cite(c, who, TOLD_DENSITY, m->density);
    cite(c, who, TOLD_PIECE, m->piece);
    cite(c, who, TOLD_EDIBLE, w->edible_share);
}

/* all contents, each read for the record; the lines are a food's own */
static void
cite_contents(struct citations *c, const struct food *food)
{
    for (int g = 0; g < GROUPS; g++)
        (void)food_content(food, (enum group)g, c->s->o->reads);
    (void)serves_of_food(food, NULL, 0, c->s->o->reads);
    if (!is_new(c, food))
        return;
    const struct food_lines *lines = source_lines_of_food(c->s->arena, c->s->tables, food);
    for (size_t i = 0; i < lines->count; i++)
        list(c, lines->items[i]);
}

static void
cite_limits(struct citations *c)
{
    static const char who[] = "Limit";
    const struct tables *t = c->s->tables;
    const struct phase *phase = &t->limits.phases[t->site.phase];
    for (int g = 0; g < GROUPS; g++)
        if (phase->groups[g].grams.source != NULL && c->s->stand->groups[g].limited)
            cite(c, who, 1u << g, &phase->groups[g].grams);
    if (c->s->stand->sitting_limited)
        cite(c, who, TOLD_SITTING, &phase->sitting);
}

static void
gather(struct citations *c)
{
    const struct fragment_context *s = c->s;
    cite_limits(c);
    for (size_t i = 0; i < s->o->dish.count; i++) {
        const struct ingredient *in = &s->o->dish.ingredients[i];
        for (size_t k = 0; k < in->option_count; k++)
            for (size_t j = 0; j < in->options[k].count; j++) {
                const struct helping *h = &in->options[k].helpings[j];
                if (h->food == NULL)
                    continue;
                cite_weighing(c, h->food->name, &h->weighing);
                cite_contents(c, h->food);
                if (s->o->nutrition.given)
                    cite(c, h->food->name, TOLD_NUTRIENTS,
                         food_nutrient(h->food, PROTEIN, s->o->reads));
            }
    }
}

static void
add_line(struct text *t, const struct citations *c, const struct cited_line *line)
{
    text_add_string(t, "<li>");
    for (uint32_t i = line->first; i != 0; i = c->owners.items[i - 1].next) {
        text_add(t, c->owners.items[i - 1].who);
        text_add_string(t, c->owners.items[i - 1].next != 0 ? "; " : "");
    }
    text_add(t, line->line->what);
    text_add_string(t, "</li>\n");
}

void
sources_write(struct text *t, const struct fragment_context *s)
{
    const struct sources *table = &s->tables->sources;
    struct citations c = {.s = s};
    c.by_source = arena_take_array(s->arena, table->count + 1, sizeof *c.by_source);
    c.lines.items = arena_take_raw(s->arena, USUAL * sizeof *c.lines.items);
    c.owners.items = arena_take_raw(s->arena, USUAL * sizeof *c.owners.items);
    c.seen.items = arena_take_raw(s->arena, USUAL * sizeof *c.seen.items);
    c.lines.room = c.owners.room = c.seen.room = USUAL;
    gather(&c);
    if (c.sources.count == 0)
        return;
    fragment_fold(t, "dl-sources", "Where the figures come from");
    text_add_string(t, "<dl>\n");
    for (size_t i = 0; i < c.sources.count; i++) {
        const struct cited *from = &c.sources.items[i];
        text_add_string(t, "<dt>");
        if (from->source < table->count)
            text_add_html(t, slice_of(table->items[from->source].title));
        else
            text_add_string(t, "Others");
        text_add_string(t, "</dt>\n<dd><ul>\n");
        for (uint32_t n = from->first; n != 0; n = c.lines.items[n - 1].next)
            add_line(t, &c, &c.lines.items[n - 1]);
        text_add_string(t, "</ul></dd>\n");
    }
    text_add_string(t, "</dl>\n</details>\n");
}
