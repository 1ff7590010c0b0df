#include "write/source_line.h"

#include <string.h>

#include "base/map.h"
#include "tables/table_ask.h"
#include "write/markup.h"

enum { HELD_MOST = 2 << 20, BLOCK = 64 << 10 };

/* all that a line is made of, as the key that it is remembered by. The addresses are the tables',
 * which stay as they are. */
struct made_of {
    const char *source, *who;
    unsigned told, basis;
};

struct source_memo {
    struct arena *arena; /* first: it owns it */
    const struct tables *tables;
    struct map lines; /* made_of -> source_line */
    struct map foods; /* address -> food_lines */
    struct map whats; /* text -> itself */
};

static void
forget(struct source_memo *m)
{
    arena_reset(m->arena);
    m->lines = map_new(m->arena);
    m->foods = map_new(m->arena);
    m->whats = map_new(m->arena);
}

struct source_memo *
source_memo_open(void)
{
    struct source_memo *m = arena_owner_open(sizeof *m, BLOCK);
    if (m != NULL)
        forget(m);
    return m;
}

void
source_memo_close(struct source_memo *m)
{
    arena_owner_close(m);
}

void
source_memo_begin(struct source_memo *m)
{
    if (m != NULL && arena_size(m->arena) > HELD_MOST)
        forget(m);
}

static bool
is_id_byte(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
}

/* the number of the source that a figure's text begins with; *locator is what stands behind its id,
 * or all of a free text */
static size_t
source_of(const struct tables *t, struct slice text, struct slice *locator)
{
    size_t end = 0;
    while (end < text.length && is_id_byte(text.at[end]))
        end++;
    const struct slice id = slice_part(text, 0, end);
    while (end < text.length && (text.at[end] == ':' || text.at[end] == ','))
        end++;
    *locator = slice_trim(slice_part(text, end, text.length));
    for (size_t i = 0; i < t->sources.count; i++)
        if (id.length > 0 && slice_is(id, t->sources.items[i].id))
            return i;
    *locator = text;
    return t->sources.count;
}

/* what a figure names beside the source it is listed under, by name and not by id */
static struct slice
spelt_out(const struct tables *t, struct arena *a, size_t source, const struct figure *f,
          struct slice locator)
{
    struct text words = text_new(a);
    if (source == t->sources.count || slice_find(locator, "; ", 0) == SIZE_MAX) {
        sources_add_words(&t->sources, locator, &words);
        return text_slice(&words);
    }
    const struct slice all = slice_of(tables_source(t, a, f->source));
    const struct slice title = slice_of(t->sources.items[source].title);
    const size_t end = slice_find(title, "; locator", 0);
    const struct slice head = slice_part(title, 0, end == SIZE_MAX ? title.length : end);
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
add_told(struct text *t, unsigned told)
{
    static const char *const words[] = {
        [TOLD_ALL_GROUPS - TOLD_ALL_GROUPS] = "all groups",
        [TOLD_DENSITY - TOLD_ALL_GROUPS] = "weight by volume",
        [TOLD_PIECE - TOLD_ALL_GROUPS] = "weight of one",
        [TOLD_EDIBLE - TOLD_ALL_GROUPS] = "edible part",
        [TOLD_SERVE - TOLD_ALL_GROUPS] = "serve taken as tested",
        [TOLD_NUTRIENTS - TOLD_ALL_GROUPS] = "nutrients",
        [TOLD_SITTING - TOLD_ALL_GROUPS] = "one sitting",
    };
    if (told >= TOLD_ALL_GROUPS) {
        text_add_string(t, words[told - TOLD_ALL_GROUPS]);
        return;
    }
    bool first = true;
    for (int g = 0; g < GROUPS; g++) {
        if ((told & 1u << g) == 0)
            continue;
        text_add_string(t, first ? "" : ", ");
        text_add_string(t, group_name((enum group)g));
        first = false;
    }
}

static struct source_line *
write_line(struct arena *a, const struct tables *t, const struct figure *f, const char *who,
           unsigned told)
{
    struct source_line *line = arena_take(a, sizeof *line);
    struct text name = text_new(a), what = text_new(a);
    struct slice locator;
    markup_words(&name, slice_of(who));
    line->who = text_slice(&name);
    line->source = source_of(t, slice_of(f->source), &locator);
    locator = spelt_out(t, a, line->source, f, locator);
    text_add_string(&what, " (");
    add_told(&what, told);
    text_add_byte(&what, ')');
    if (locator.length > 0) {
        text_add_string(&what, ": ");
        text_add_html(&what, locator);
    }
    /* many a source says so itself */
    if (f->basis != BASIS_MEMORY || slice_find(locator, "remembered", 0) == SIZE_MAX)
        text_add_string(&what, basis_said(f->basis));
    line->what = text_slice(&what);
    line->digest = slice_digest(line->what, line->source);
    return line;
}

/* lines that tell the same share its bytes: they are known as alike without a look at them */
static void
share_what(struct source_memo *m, struct source_line *line)
{
    const char *known = map_get(&m->whats, line->what);
    if (known != NULL)
        line->what.at = known;
    else
        map_put(&m->whats, line->what, (void *)(uintptr_t)line->what.at);
}

/* a function of its own, so that nothing is kept in registers where the guard returns to */
static struct source_line *
learn_guarded(struct source_memo *m, const struct tables *t, const struct figure *f,
              const struct made_of *key)
{
    if (setjmp(*arena_guard(m->arena)) != 0)
        return NULL;
    struct source_line *line = write_line(m->arena, t, f, key->who, key->told);
    share_what(m, line);
    map_put(&m->lines, slice_copy(m->arena, (struct slice){(const char *)key, sizeof *key}), line);
    return line;
}

/* what was remembered of other tables is of none of these */
static void
hold_to(struct source_memo *m, const struct tables *t)
{
    if (m->tables == t)
        return;
    forget(m);
    m->tables = t;
}

const struct source_line *
source_line_of(struct source_memo *m, struct arena *a, const struct tables *t,
               const struct figure *f, const char *who, unsigned told)
{
    const struct made_of key = {f->source, who, told, (unsigned)f->basis};
    if (m == NULL)
        return write_line(a, t, f, who, told);
    hold_to(m, t);
    struct source_line *line = map_get(&m->lines, (struct slice){(const char *)&key, sizeof key});
    if (line == NULL)
        line = learn_guarded(m, t, f, &key);
    return line != NULL ? line : write_line(a, t, f, who, told);
}

/* whether two figures come from one place */
static bool
is_akin(const struct figure *a, const struct figure *b)
{
    return a->basis == b->basis && (a->source == b->source || strcmp(a->source, b->source) == 0);
}

static void
add_line(struct food_lines *lines, struct arena *a, const struct tables *t, const struct food *food,
         const struct figure *f, unsigned told)
{
    if (f->source != NULL)
        lines->items[lines->count++] = write_line(a, t, f, food->name, told);
}

static struct food_lines *
write_food(struct arena *a, const struct tables *t, const struct food *food)
{
    struct food_lines *lines = arena_take(a, sizeof *lines);
    unsigned left = 0;
    for (int g = 0; g < GROUPS; g++)
        left |= figure_known(&food->contents[g]) ? 1u << g : 0;
    for (int g = 0; g < GROUPS; g++) {
        unsigned told = 0;
        if ((left & 1u << g) == 0)
            continue;
        for (int k = g; k < GROUPS; k++)
            if ((left & 1u << k) != 0 && is_akin(&food->contents[g], &food->contents[k]))
                told |= 1u << k;
        left &= ~told;
        add_line(lines, a, t, food, &food->contents[g], told);
    }
    if (figure_known(&food->tested_serve))
        add_line(lines, a, t, food, &food->tested_serve, TOLD_SERVE);
    return lines;
}

/* guarded in a function of its own, as above */
static struct food_lines *
learn_food_guarded(struct source_memo *m, const struct tables *t, const struct food *food)
{
    if (setjmp(*arena_guard(m->arena)) != 0)
        return NULL;
    struct food_lines *lines = write_food(m->arena, t, food);
    for (size_t i = 0; i < lines->count; i++)
        share_what(m, lines->items[i]);
    const struct slice key = {(const char *)&food, sizeof(const struct food *)};
    map_put(&m->foods, slice_copy(m->arena, key), lines);
    return lines;
}

const struct food_lines *
source_lines_of_food(struct source_memo *m, struct arena *a, const struct tables *t,
                     const struct food *food)
{
    if (m == NULL)
        return write_food(a, t, food);
    hold_to(m, t);
    const struct slice key = {(const char *)&food, sizeof(const struct food *)};
    struct food_lines *lines = map_get(&m->foods, key);
    if (lines == NULL)
        lines = learn_food_guarded(m, t, food);
    return lines != NULL ? lines : write_food(a, t, food);
}
