#include "write/steps.h"

#include <math.h>

#include "base/list.h"
#include "write/heat_words.h"
#include "write/ingredient_name.h"
#include "write/length_words.h"
#include "write/links.h"
#include "write/markup.h"

struct marks {
    struct mark *items;
    size_t count, room;
};

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
        struct heat_cluster c = heat_cluster_of(heats, i);
        size_t from = c.first->from, to = c.last->to;
        struct mark mark = {from, to, MARK_HEAT, {NULL, 0}};
        struct slice words = slice_part(text, from, to), pieces[REGIONS_MOST];
        size_t open = slice_find_byte(words, '(', 0);
        if (open != SIZE_MAX && slice_find_byte(words, ')', open) == SIZE_MAX && to < text.length &&
            text.at[to] == ')')
            words = slice_part(text, from, mark.to = to + 1);
        if (c.first->no_unit || c.first->implausible || c.first->of == HEAT_OF_ROOM ||
            isnan(c.first->celsius.mid))
            continue;
        for (size_t k = 0; k < s->region_count; k++)
            pieces[k] = heat_words(s, &c, words, k);
        struct text html = text_new(s->arena);
        fragment_vary(&html, s, "span", pieces);
        mark.value = text_slice(&html);
        add_mark(s, m, mark);
    }
}

static void
mark_lengths(const struct fragment_context *s, struct slice text, struct marks *m)
{
    struct length l;
    for (size_t at = 0; length_find(text, at, &l); at = l.to) {
        struct slice pieces[REGIONS_MOST];
        struct text html = text_new(s->arena);
        for (size_t i = 0; i < s->region_count; i++)
            pieces[i] = length_words(s, &l, slice_part(text, l.from, l.to), i);
        fragment_vary(&html, s, "span", pieces);
        add_mark(s, m, (struct mark){l.from, l.to, MARK_LENGTH, text_slice(&html)});
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

/* a food of the list by the word that each region has for it */
static void
mark_ingredient(const struct fragment_context *s, struct slice text, const struct mention *m,
                struct marks *marks)
{
    struct mark mark = {m->from, m->to, MARK_INGREDIENT, {NULL, 0}};
    const bool whole = ingredient_name_around(s, m->ingredient, text, &mark.from, &mark.to);
    if (!whole)
        mark.from -=
            ingredient_name_before(s, m->ingredient, slice_part(text, 0, m->to), m->to - m->from);
    const struct slice words = slice_part(text, mark.from, mark.to);
    struct slice pieces[REGIONS_MOST];
    bool differ = false;
    for (size_t i = 0; i < s->region_count; i++) {
        struct slice word = words;
        struct text html = text_new(s->arena);
        if (m->sure || whole)
            word = ingredient_name_in_step(s, m->ingredient, word, i);
        differ = differ || word.at != words.at;
        markup_words(&html, word);
        pieces[i] = html.length > 0 ? text_slice(&html) : SLICE("");
    }
    if (differ) {
        struct text html = text_new(s->arena);
        fragment_vary(&html, s, "span", pieces);
        mark.value = text_slice(&html);
    }
    add_mark(s, marks, mark);
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
    mark_lengths(s, st->text, &marks);
    if (time != NULL) {
        mark_heats(s, st->text, &time->marks.heats, &marks);
        mark_durations(s, &time->marks.durations, &marks);
    }
    for (size_t i = 0; i < o->mentions.count; i++) {
        const struct mention *m = &o->mentions.items[i];
        if (m->part == part && m->step == step)
            mark_ingredient(s, st->text, m, &marks);
    }
    text_add_string(t, "<li id=\"");
    steps_anchor(t, o->post.slug, number);
    text_add_string(t, "\">");
    const size_t before = t->length;
    markup_step(t, st, marks.items, marks.count);
    links_resolve(t, before, o, false);
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
