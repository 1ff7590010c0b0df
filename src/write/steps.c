#include "write/steps.h"

#include <math.h>

#include "base/list.h"
#include "reckon/household.h"
#include "write/markup.h"

struct marks {
    struct mark *items;
    size_t count, room;
};

/* a temperature and the other ways it is written behind it: heats first..last of a step */
struct cluster {
    const struct heat *first, *last;
    bool fan, gas, celsius, fahrenheit;
};

static struct cluster
cluster_of(const struct heats *h, size_t i)
{
    struct cluster c = {.first = &h->items[i], .last = &h->items[i]};
    for (size_t k = i; k < h->count && (k == i || h->items[k].pair); k++) {
        const struct heat *heat = &h->items[k];
        c.last = heat;
        c.fan = c.fan || heat->fan;
        c.gas = c.gas || heat->scale == HEAT_GAS;
        c.celsius = c.celsius || heat->scale == HEAT_CELSIUS;
        c.fahrenheit = c.fahrenheit || heat->scale == HEAT_FAHRENHEIT;
    }
    return c;
}

/* an oven to the mark on its dial; a food never below what is said */
static double
rounded(double degrees, enum heat_of of, double dial)
{
    if (of == HEAT_OF_OVEN || of == HEAT_OF_UNKNOWN)
        return round(degrees / dial) * dial;
    return of == HEAT_OF_FOOD ? ceil(degrees - 1e-9) : round(degrees);
}

static void
add_degrees(struct text *t, const struct heat *h, bool fahrenheit)
{
    double low = fahrenheit ? heat_fahrenheit(h->celsius.low) : h->celsius.low;
    double high = fahrenheit ? heat_fahrenheit(h->celsius.high) : h->celsius.high;
    double dial = fahrenheit ? 25 : 10;
    low = rounded(low, h->of, dial);
    high = rounded(high, h->of, dial);
    text_add_number(t, low, 0);
    if (high > low) {
        text_add_string(t, "–");
        text_add_number(t, high, 0);
    }
    text_add_string(t, fahrenheit ? " °F" : " °C");
}

/* "fan 160 °C, gas 4": the other settings of a Celsius oven that the region's cooks look for */
static void
add_settings(struct text *t, const struct fragment_context *s, const struct region *r,
             const struct cluster *c)
{
    const struct heat *h = c->first;
    double mark = r->gas_marks && !c->gas ? heat_gas_mark(h->celsius.mid) : NAN;
    bool fan = s->tables->site.fan_lower > 0 && h->scale == HEAT_CELSIUS;
    if (h->of != HEAT_OF_OVEN || c->fan || (!fan && isnan(mark)))
        return;
    if (t->bytes[t->length - 1] == ')') {
        t->length--;
        text_add_string(t, "; ");
    } else {
        text_add_string(t, " (");
    }
    if (fan) {
        text_add_string(t, "fan ");
        text_add_number(t, h->celsius.mid - s->tables->site.fan_lower, 0);
        text_add_string(t, " °C");
    }
    if (!isnan(mark)) {
        text_add_string(t, fan ? ", gas " : "gas ");
        household_fraction(t, mark);
    }
    text_add_byte(t, ')');
}

static struct slice
heat_piece(const struct fragment_context *s, const struct cluster *c, struct slice words, size_t i)
{
    const struct region *r = fragment_region(s, i);
    struct text t = text_new(s->arena);
    bool has = r->fahrenheit ? c->fahrenheit : c->celsius || (c->gas && r->gas_marks);
    if (!has) {
        add_degrees(&t, c->first, r->fahrenheit);
        text_add_string(&t, " (");
    }
    text_add_html(&t, words);
    if (!has)
        text_add_byte(&t, ')');
    else if (!r->fahrenheit)
        add_settings(&t, s, r, c);
    return text_slice(&t);
}

static void
add_mark(const struct fragment_context *s, struct marks *m, struct mark mark)
{
    size_t at = m->count;
    while (at > 0 && m->items[at - 1].from >= mark.to)
        at--;
    if (mark.from >= mark.to || (at > 0 && m->items[at - 1].to > mark.from))
        return;
    (void)*LIST_GROW(s->arena, m);
    for (size_t i = m->count - 1; i > at; i--)
        m->items[i] = m->items[i - 1];
    m->items[at] = mark;
}

static void
mark_heats(const struct fragment_context *s, struct slice text, const struct heats *heats,
           struct marks *m)
{
    for (size_t i = 0; i < heats->count; i++) {
        if (heats->items[i].pair)
            continue;
        struct cluster c = cluster_of(heats, i);
        size_t from = c.first->from, to = c.last->to;
        struct mark mark = {from, to, MARK_HEAT, {NULL, 0}};
        struct slice words = slice_part(text, from, to), pieces[REGIONS_MOST];
        size_t open = slice_find_byte(words, '(', 0);
        if (open != SIZE_MAX && slice_find_byte(words, ')', open) == SIZE_MAX && to < text.length &&
            text.at[to] == ')')
            words = slice_part(text, from, mark.to = to + 1);
        if (c.first->no_unit || c.first->of == HEAT_OF_ROOM || isnan(c.first->celsius.mid))
            continue;
        for (size_t k = 0; k < s->region_count; k++)
            pieces[k] = heat_piece(s, &c, words, k);
        struct text html = text_new(s->arena);
        fragment_vary(&html, s, "span", pieces);
        mark.value = text_slice(&html);
        add_mark(s, m, mark);
    }
}

static void
mark_durations(const struct fragment_context *s, const struct durations *d, struct marks *m)
{
    for (size_t i = 0; i < d->count; i++) {
        const struct duration *one = &d->items[i];
        struct text iso = text_new(s->arena);
        duration_write_iso(&iso, one->seconds.mid);
        add_mark(s, m, (struct mark){one->core_from, one->core_to, MARK_TIME, text_slice(&iso)});
    }
}

static const struct step_time *
time_of(const struct outcome *o, size_t part, size_t step)
{
    for (size_t i = 0; i < o->schedule.count; i++)
        if (o->schedule.steps[i].part == part && o->schedule.steps[i].step == step)
            return &o->schedule.steps[i];
    return NULL;
}

static void
add_cautions(struct text *t, const struct outcome *o, size_t part, size_t step)
{
    for (size_t i = 0; i < o->hazards.count; i++) {
        const struct fired_caution *f = &o->hazards.items[i];
        if (f->part != part || f->step != step)
            continue;
        text_add_string(t, "<p class=\"dl-caution\"><strong>Take care.</strong> ");
        text_add_html(t, slice_of(f->caution->words));
        text_add_string(t, "</p>");
    }
}

void
steps_anchor(struct text *t, struct slice slug, size_t number)
{
    text_add(t, slug);
    text_add_string(t, "-step-");
    text_add_number(t, (double)number, 0);
}

static void
write_step(struct text *t, const struct fragment_context *s, size_t part, size_t step,
           size_t number)
{
    const struct outcome *o = s->o;
    const struct step *st = &o->post.body.parts[part].steps[step];
    const struct step_time *time = time_of(o, part, step);
    struct marks marks = {0};
    if (time != NULL) {
        mark_heats(s, st->text, &time->marks.heats, &marks);
        mark_durations(s, &time->marks.durations, &marks);
    }
    for (size_t i = 0; i < o->mentions.count; i++) {
        const struct mention *m = &o->mentions.items[i];
        if (m->part == part && m->step == step)
            add_mark(s, &marks, (struct mark){m->from, m->to, MARK_INGREDIENT, {NULL, 0}});
    }
    text_add_string(t, "<li id=\"");
    steps_anchor(t, o->post.slug, number);
    text_add_string(t, "\">");
    markup_step(t, st, marks.items, marks.count);
    add_cautions(t, o, part, step);
    text_add_string(t, "</li>\n");
}

void
steps_write(struct text *t, const struct fragment_context *s)
{
    const struct body *body = &s->o->post.body;
    size_t number = 0;
    for (size_t p = 0; p < body->part_count; p++) {
        const struct method_part *part = &body->parts[p];
        if (part->name.length > 0) {
            struct text words = text_new(s->arena);
            markup_words(&words, part->name);
            fragment_heading(t, s, 2, text_slice(&words));
        }
        if (part->count == 0)
            continue;
        text_add_string(t, "<ol class=\"dl-steps\"");
        text_add(t, s->authors_language);
        if (number > 0) {
            text_add_string(t, " start=\"");
            text_add_number(t, (double)number + 1, 0);
            text_add_byte(t, '"');
        }
        text_add_string(t, ">\n");
        for (size_t i = 0; i < part->count; i++)
            write_step(t, s, p, i, ++number);
        text_add_string(t, "</ol>\n");
    }
}
