#include "write/understood.h"

#include "base/list.h"
#include "write/weighing.h"

enum { TABLE_COLUMNS = 5, WIDTH_MOST = 44 };

static const char *const heads[TABLE_COLUMNS] = {"Line", "Food", "Grams", "Preparation",
                                                 "Passed over"};

/* one food of a line */
struct understood_row {
    struct slice cells[TABLE_COLUMNS];
};

struct understood_rows {
    struct arena *arena;
    struct understood_row *items;
    size_t count, room;
};

static struct slice
grams_of(struct arena *a, const struct helping *h)
{
    const struct weighing *w = &h->weighing;
    struct text t = text_new(a);
    if (!w->known)
        return w->unmeasured ? SLICE("to taste") : SLICE("not known");
    weighing_span(&t, h->eaten, "g");
    return text_slice(&t);
}

/* "or ", "and ": how a food stands to the one before it */
static const char *
joined(size_t option, size_t food)
{
    return food > 0 ? "and " : option > 0 ? "or " : "";
}

static void
add_ingredient(struct understood_rows *rows, const struct ingredient *in)
{
    struct arena *a = rows->arena;
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            const struct helping *h = &in->options[o].helpings[k];
            struct understood_row *row = LIST_GROW(a, rows);
            const char *form = h->form != NULL ? h->form->name : "whole";
            *row = (struct understood_row){{SLICE("")}};
            if (o == 0 && k == 0)
                row->cells[0] = text_formatted(a, "%.*s%s", SLICE_ARGS(slice_trim(in->line.text)),
                                               in->optional ? " [optional]" : "");
            row->cells[1] = h->food == NULL
                                ? text_formatted(a, "%s%.*s: not known", joined(o, k),
                                                 SLICE_ARGS(h->written->name))
                                : text_formatted(a, "%s%s [%s]", joined(o, k), h->food->name, form);
            row->cells[2] = grams_of(a, h);
            row->cells[3] = slice_trim(h->written->after);
            row->cells[4] = h->passed;
        }
}

/* the dishes of the post: its own, or those in the file of a round-up */
static void
add_dishes(struct understood_rows *rows, const struct outcome *o)
{
    for (size_t i = 0; i < o->dish.count; i++)
        add_ingredient(rows, &o->dish.ingredients[i]);
    for (size_t m = 0; m < o->member_count; m++)
        if (o->members[m].outcome != NULL && o->members[m].outcome->part_of == o)
            add_dishes(rows, o->members[m].outcome);
}

static void
pad(struct text *t, struct slice cell, size_t width)
{
    text_add(t, cell);
    for (size_t n = slice_characters(cell); n < width + 2; n++)
        text_add_byte(t, ' ');
}

static void
add_line(struct text *t, const struct slice cells[TABLE_COLUMNS],
         const size_t widths[TABLE_COLUMNS])
{
    size_t last = TABLE_COLUMNS;
    while (last > 0 && cells[last - 1].length == 0)
        last--;
    for (size_t c = 0; c + 1 < last; c++)
        pad(t, cells[c], widths[c]);
    if (last > 0)
        text_add(t, cells[last - 1]);
    text_add_byte(t, '\n');
}

void
understood_text(struct text *t, const struct outcome *o)
{
    struct understood_rows rows = {.arena = t->arena};
    size_t widths[TABLE_COLUMNS] = {0};
    struct slice head[TABLE_COLUMNS];
    add_dishes(&rows, o);
    for (size_t c = 0; c < TABLE_COLUMNS; c++) {
        head[c] = slice_of(heads[c]);
        widths[c] = head[c].length;
        for (size_t i = 0; i < rows.count; i++) {
            const size_t n = slice_characters(rows.items[i].cells[c]);
            widths[c] = n > widths[c] && n <= WIDTH_MOST ? n : widths[c];
        }
    }
    add_line(t, head, widths);
    for (size_t i = 0; i < rows.count; i++)
        add_line(t, rows.items[i].cells, widths);
}

/* what was said of the line: findings that stand on it */
static void
line_findings(struct arena *a, const struct outcome *o, const struct ingredient *in,
              struct findings *out)
{
    const struct place place = written_line_place(&in->line, 0, in->line.text.length);
    *out = (struct findings){0};
    size_t room = 0;
    for (size_t i = 0; i < o->findings.count; i++)
        if (in->line.node != NULL && o->findings.items[i].place.line == place.line) {
            out->items = list_room(a, out->items, &room, out->count, sizeof *out->items);
            out->items[out->count++] = o->findings.items[i];
        }
}

static void
ingredient_json(struct text *t, const struct outcome *o, const struct ingredient *in)
{
    struct arena *a = t->arena;
    struct weighed_line line = {.optional = in->optional};
    size_t room = 0;
    line.written = in->line.node != NULL ? in->line.node->text : in->line.text;
    line.line = in->line.text;
    for (size_t k = 0; k < in->option_count; k++)
        for (size_t i = 0; i < in->options[k].count; i++) {
            line.findings = list_room(a, line.findings, &room, line.count, sizeof *line.findings);
            line.findings[line.count] = (struct findings){0};
            if (line.count == 0)
                line_findings(a, o, in, &line.findings[0]);
            weighing_add(a, &line, &in->options[k].helpings[i], k);
        }
    weighing_json(t, &line);
}

void
understood_json(struct text *t, const struct outcome *o)
{
    for (size_t i = 0; i < o->dish.count; i++)
        ingredient_json(t, o, &o->dish.ingredients[i]);
    for (size_t m = 0; m < o->member_count; m++)
        if (o->members[m].outcome != NULL && o->members[m].outcome->part_of == o)
            understood_json(t, o->members[m].outcome);
}

void
understood_html(struct text *t, const struct outcome *o)
{
    struct understood_rows rows = {.arena = t->arena};
    add_dishes(&rows, o);
    if (rows.count == 0)
        return;
    text_add_string(t, "<details class=\"understood\">\n<summary>How each line was understood"
                       "</summary>\n<table>\n<thead><tr>");
    for (size_t c = 0; c < TABLE_COLUMNS; c++)
        text_addf(t, "<th scope=\"col\">%s</th>", heads[c]);
    text_add_string(t, "</tr></thead>\n<tbody>\n");
    for (size_t i = 0; i < rows.count; i++) {
        text_add_string(t, "<tr>");
        for (size_t c = 0; c < TABLE_COLUMNS; c++) {
            text_add_string(t, "<td>");
            text_add_html(t, rows.items[i].cells[c]);
            text_add_string(t, "</td>");
        }
        text_add_string(t, "</tr>\n");
    }
    text_add_string(t, "</tbody>\n</table>\n</details>\n");
}
