#include "write/weighing.h"

#include "base/list.h"
#include "judge/rules.h"
#include "tables/table_ask.h"

void
weighing_add(struct arena *a, struct weighed_line *line, const struct helping *h, size_t option)
{
    line->foods = list_room(a, line->foods, &line->room, line->count, sizeof *line->foods);
    line->foods[line->count++] =
        (struct weighed_food){h->written, h->food, h->form, &h->weighing, h->passed, option};
}

static int
decimals_for(double value)
{
    return value < 1 ? 3 : value < 10 ? 2 : value < 100 ? 1 : 0;
}

void
weighing_span(struct text *t, struct span s, const char *unit)
{
    int decimals = decimals_for(s.mid);
    text_add_number(t, s.mid, decimals);
    if (s.low < s.high) {
        text_add_string(t, " (");
        text_add_number(t, s.low, decimals);
        text_add_string(t, " to ");
        text_add_number(t, s.high, decimals);
        text_add_string(t, ")");
    }
    text_addf(t, " %s", unit);
}

static void
figure_line(struct text *t, const struct tables *tables, const char *label, const struct figure *f,
            const char *unit)
{
    text_addf(t, "      %-10s", label);
    if (f->span.low < f->span.high)
        weighing_span(t, f->span, unit);
    else { /* a unit's size is exact */
        text_add_number(t, f->span.mid, 10);
        text_addf(t, " %s", unit);
    }
    text_addf(t, "; %s: %s\n", figure_basis_word(f->basis),
              tables_source(tables, t->arena, f->source));
}

static void
measured_text(struct text *t, const struct weighed_line *line, const struct measured *m, bool used,
              const struct tables *tables)
{
    struct slice written = slice_part(line->line, m->from, m->to);
    text_addf(t, "    %.*s%s\n", SLICE_ARGS(written.length > 0 ? written : SLICE("to taste")),
              used ? "" : " (held against it)");
    if (figure_known(m->unit))
        figure_line(t, tables, "unit", m->unit, m->kind == UNIT_WEIGHT ? "g" : "mL");
    if (m->has_millilitres) {
        text_add_string(t, "      volume    ");
        weighing_span(t, m->millilitres, "mL\n");
    }
    if (m->density != NULL)
        figure_line(t, tables, "density", m->density, "g/mL");
    if (m->piece != NULL)
        figure_line(t, tables, m->piece_word, m->piece, "g");
    if (!m->known) {
        text_add_string(t, "      weight not known\n");
        return;
    }
    text_add_string(t, "      makes     ");
    weighing_span(t, m->grams, "g\n");
}

static void
food_text(struct text *t, const struct weighed_line *line, const struct weighed_food *f,
          const struct tables *tables)
{
    const struct weighing *w = f->weighing;
    if (f->option > 0)
        text_add_string(t, "  or:\n");
    if (f->food != NULL)
        text_addf(t, "  %s [%s, %s]\n", f->food->name, f->food->id, f->form->name);
    else
        text_addf(t, "  %.*s: not in the larder\n", SLICE_ARGS(f->written->name));
    for (size_t i = 0; i < w->count; i++)
        measured_text(t, line, &w->measured[i], i == w->used, tables);
    if (!w->known) {
        text_add_string(t, "    grams not known\n");
        return;
    }
    text_add_string(t, "    as bought   ");
    weighing_span(t, w->grams, "g\n");
    if (w->edible_share != NULL)
        figure_line(t, tables, "edible", w->edible_share, "of it");
    text_add_string(t, "    edible      ");
    weighing_span(t, w->edible, "g\n");
    if (w->unmeasured)
        text_add_string(t, "    and some without an amount\n");
}

void
weighing_text(struct text *t, const struct weighed_line *line, const struct tables *tables)
{
    text_addf(t, "%.*s%s\n", SLICE_ARGS(line->written), line->optional ? "  [optional]" : "");
    for (size_t i = 0; i < line->count; i++) {
        food_text(t, line, &line->foods[i], tables);
        for (size_t k = 0; k < line->findings[i].count; k++) {
            const struct finding *f = &line->findings[i].items[k];
            text_addf(t, "    %s: %.*s [%s]\n", finding_level_word(f->level),
                      SLICE_ARGS(f->message), rules_row(f->rule)->id);
            if (f->mend.length > 0)
                text_addf(t, "      %.*s\n", SLICE_ARGS(f->mend));
        }
    }
}

static void
span_json(struct json_writer *n, const char *key, bool known, struct span s)
{
    json_key(n, key);
    if (!known) {
        json_raw(n, SLICE("null"));
        return;
    }
    json_open(n, '{');
    json_key(n, "low");
    json_number(n, s.low, 3);
    json_key(n, "mid");
    json_number(n, s.mid, 3);
    json_key(n, "high");
    json_number(n, s.high, 3);
    json_close(n, '}');
}

static void
amounts_json(struct json_writer *n, const struct written_food *written)
{
    json_member_open(n, "amounts", '[');
    for (size_t i = 0; i < written->amount_count; i++) {
        const struct amount *a = &written->amounts[i];
        struct span value = a->each && a->times.mid > 0 ? span_times(a->value, a->times) : a->value;
        if (a->container)
            continue;
        json_open(n, '{');
        if (value.low < value.high) {
            span_json(n, "value", true, value);
        } else {
            json_key(n, "value");
            json_number(n, value.mid, 6);
        }
        json_key(n, "unit");
        if (a->unit != NULL)
            json_text(n, slice_of(a->unit->id));
        else
            json_raw(n, SLICE("null"));
        json_close(n, '}');
    }
    json_close(n, ']');
}

static void
food_json(struct json_writer *n, const struct weighed_food *f)
{
    json_key(n, "food");
    if (f->food != NULL)
        json_text(n, slice_of(f->food->id));
    else
        json_raw(n, SLICE("null"));
    json_key(n, "form");
    if (f->form != NULL)
        json_text(n, slice_of(f->form->name));
    else
        json_raw(n, SLICE("null"));
    amounts_json(n, f->written);
    span_json(n, "grams", f->weighing->known, f->weighing->grams);
    span_json(n, "edible_grams", f->weighing->known, f->weighing->edible);
    json_member(n, "preparation", f->written->after);
    json_member(n, "passed_over", f->passed);
}

static void
findings_json(struct json_writer *n, const struct weighed_line *line, size_t from, size_t to)
{
    json_member_open(n, "findings", '[');
    for (size_t i = from; i < to; i++)
        for (size_t k = 0; k < line->findings[i].count; k++) {
            const struct finding *f = &line->findings[i].items[k];
            json_open(n, '{');
            json_member_string(n, "rule", rules_row(f->rule)->id);
            json_member_string(n, "level", finding_level_word(f->level));
            json_member(n, "message", f->message);
            json_close(n, '}');
        }
    json_close(n, ']');
}

void
weighing_json(struct text *t, const struct weighed_line *line)
{
    size_t first = 0;
    while (first < line->count && line->foods[first].option == 0)
        first++;
    for (size_t i = 0; i < first; i++) {
        struct json_writer n = json_new(t);
        bool with_others = i == 0 && first < line->count;
        json_open(&n, '{');
        json_key(&n, "line");
        json_text(&n, line->written);
        food_json(&n, &line->foods[i]);
        json_key(&n, "optional");
        json_truth(&n, line->optional);
        if (with_others) {
            json_member_open(&n, "alternatives", '[');
            for (size_t k = first; k < line->count; k++) {
                json_open(&n, '{');
                food_json(&n, &line->foods[k]);
                findings_json(&n, line, k, k + 1);
                json_close(&n, '}');
            }
            json_close(&n, ']');
        }
        findings_json(&n, line, i, i + 1);
        json_close(&n, '}');
        text_add_byte(t, '\n');
    }
}
