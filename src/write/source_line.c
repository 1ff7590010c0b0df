#include "write/source_line.h"

#include <string.h>

#include "tables/serve_settle.h"
#include "tables/table_ask.h"
#include "write/markup.h"

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
    const struct source_row *row = sources_find(&t->sources, id);
    if (row != NULL)
        return (size_t)(row - t->sources.items);
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
        [TOLD_SERVE - TOLD_ALL_GROUPS] = "the most of a serve",
        [TOLD_NUTRIENTS - TOLD_ALL_GROUPS] = "nutrients",
        [TOLD_DIETS - TOLD_ALL_GROUPS] = "allergens and diets",
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
        text_add_string(t, groups_name((enum group)g));
        first = false;
    }
}

const struct source_line *
source_line_of(struct arena *a, const struct tables *t, const struct figure *f, const char *who,
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
        lines->items[lines->count++] = source_line_of(a, t, f, food->name, told);
}

const struct food_lines *
source_lines_of_food(struct arena *a, const struct tables *t, const struct food *food)
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
    const struct given_serve *serve = serves_of_food(food, NULL, t->site.phase, NULL);
    if (serve != NULL)
        add_line(lines, a, t, food, &serve->grams, TOLD_SERVE);
    add_line(lines, a, t, food, &food->grounds, TOLD_DIETS);
    return lines;
}
