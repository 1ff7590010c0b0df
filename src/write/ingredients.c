#include "write/ingredients.h"

#include "base/list.h"
#include "reckon/household_room.h"
#include "write/ingredient_name.h"
#include "write/linked_line.h"
#include "write/markup.h"

/* bytes from..to of a line, and what a region shows there */
struct edit {
    size_t from, to;
    struct slice pieces[REGIONS_MOST];
};

struct edits {
    struct edit *items;
    size_t count, room;
};

/* whether the line itself says a weight, or a volume that a jug shows */
static bool
has_metric(const struct written_food *w)
{
    for (size_t i = 0; i < w->amount_count; i++) {
        const struct unit *u = w->amounts[i].unit;
        if (u != NULL && (u->kind == UNIT_WEIGHT || slice_is(slice_of(u->id), "ml") ||
                          slice_is(slice_of(u->id), "l")))
            return true;
    }
    return false;
}

/* "4 onions", "2 large eggs": pieces, of no unit */
static bool
is_counted(const struct written_food *w)
{
    return w->amount_count > 0 && w->amounts[0].unit == NULL;
}

static bool
is_vague(const struct written_food *w)
{
    return w->amount_count > 0 && w->amounts[0].unit != NULL &&
           w->amounts[0].unit->kind == UNIT_VAGUE;
}

/* the main amount of a line that adds more behind it ("2 tbsp oil, plus 1 tsp for the tin"): the
 * household's figures hold both together, so what stands in front is put into words by itself */
static void
write_main(const struct fragment_context *s, const struct helping *h, size_t i,
           struct household *house)
{
    const struct measured *m = &h->weighing.measured[h->weighing.used];
    const struct unit *unit = h->written->amounts[0].unit;
    double rounded = 0;
    struct text grams = text_new(s->arena);
    *house = (struct household){0};
    if (unit != NULL && unit->kind == UNIT_VOLUME && m->has_millilitres)
        house->measure = household_volume(s->arena, m->millilitres.mid, s->regions[i], s->tables,
                                          true, s->o->reads, &rounded);
    const bool own = s->regions[i] == s->o->dish.region || rounded <= 0;
    const double kept = own ? m->grams.mid : m->grams.mid * rounded / m->millilitres.mid;
    if (!m->known || household_grams(kept, false) <= 0)
        return;
    text_add_string(&grams, "about ");
    text_add_number(&grams, household_grams(kept, false), kept < 2 ? 1 : 0);
    text_add_string(&grams, " g");
    house->grams = text_slice(&grams);
}

/* a jug says enough: nobody weighs what was poured into it */
static bool
is_poured(struct slice measure)
{
    static const char *const jugs[] = {" ml", " mL", " L", " l", " litre", " litres", " liter"};
    for (size_t i = 0; i < sizeof jugs / sizeof *jugs; i++)
        if (slice_ends(measure, jugs[i]))
            return true;
    return false;
}

/* the measure region i works with, and what it comes to: either may be empty */
struct measure_words {
    struct slice measure, metric;
};

/* the author's own words in the author's region. weighed: the line says the weight itself,
 * behind the name */
static struct measure_words
measure_of(const struct fragment_context *s, const struct helping *h, struct slice words,
           bool weighed, size_t i)
{
    const struct outcome *o = s->o;
    const bool own = s->regions[i] == o->dish.region, vague = is_vague(h->written);
    struct household house = {0};
    if (h->weighing.known && !vague)
        household_write_safely(s->arena, h, s->regions[i], o->dish.region, s->tables, s->stand,
                               o->reads, &house);
    if (h->weighing.known && !vague && h->written->extra != NULL && words.length > 0 &&
        h->weighing.used < h->weighing.count)
        write_main(s, h, i, &house);
    const bool tins = h->written->amount_count > 0 && h->written->amounts[0].each;
    const bool converted = !own && !tins && (house.measure.length > 0 || house.grams.length > 0);
    struct measure_words m = {.measure = converted || words.length == 0 ? house.measure : words};
    if (m.measure.length == 0)
        m.measure = house.grams;
    else if (!is_poured(m.measure) && (converted ? !weighed : !has_metric(h->written)))
        m.metric = house.grams;
    return m;
}

static void
add_measure(struct text *t, struct slice measure)
{
    if (measure.length == 0)
        return;
    text_add_string(t, "<span class=\"dl-measure\">");
    markup_measure(t, measure);
    text_add_string(t, "</span>");
}

static void
add_metric(struct text *t, struct slice metric)
{
    if (metric.length == 0)
        return;
    text_add_string(t, " <span class=\"dl-grams\">(");
    markup_measure(t, metric);
    text_add_string(t, ")</span>");
}

/* whether the amount stands behind the name, though others stand before it: "2 oranges (400 g)" */
static bool
is_behind(const struct written_food *w, size_t i)
{
    return w->name_from < w->name_to && w->amounts[0].from < w->name_from &&
           w->amounts[i].from >= w->name_to;
}

/* the bytes of a line that hold the amounts of a food, those before the name or those behind; a
 * bracket opened inside is closed */
static bool
amounts_stretch(struct slice line, const struct written_food *w, bool behind, size_t *from,
                size_t *to)
{
    *from = SIZE_MAX;
    *to = 0;
    for (size_t i = 0; i < w->amount_count; i++) {
        if (is_behind(w, i) != behind)
            continue;
        if (w->amounts[i].from < *from)
            *from = w->amounts[i].from;
        if (w->amounts[i].to > *to)
            *to = w->amounts[i].to;
    }
    if (*to > line.length || *from >= *to)
        return false;
    size_t open = slice_find_byte(slice_part(line, *from, *to), '(', 0);
    if (open != SIZE_MAX && slice_find_byte(slice_part(line, *from, *to), ')', open) == SIZE_MAX &&
        *to < line.length && line.at[*to] == ')')
        ++*to;
    return true;
}

static struct edit *
add_edit(const struct fragment_context *s, struct edits *e, size_t from, size_t to)
{
    size_t at = e->count;
    while (at > 0 && e->items[at - 1].from >= to)
        at--;
    if (at > 0 && e->items[at - 1].to > from)
        return NULL;
    (void)*LIST_GROW(s->arena, e);
    for (size_t i = e->count - 1; i > at; i--)
        e->items[i] = e->items[i - 1];
    e->items[at] = (struct edit){.from = from, .to = to};
    return &e->items[at];
}

/* "plus 1 tsp to brush": the extra's volume in the region's spoons */
static void
edit_extra(const struct fragment_context *s, struct slice line, const struct written_food *w,
           struct edits *e)
{
    const struct amount *x = w->extra;
    if (x == NULL || x->unit == NULL || x->unit->kind != UNIT_VOLUME || x->to > line.length ||
        x->from >= x->to)
        return;
    struct edit *edit = add_edit(s, e, x->from, x->to);
    for (size_t i = 0; edit != NULL && i < s->region_count; i++) {
        struct text t = text_new(s->arena);
        double rounded;
        struct slice words = slice_part(line, x->from, x->to);
        if (s->regions[i] != s->o->dish.region)
            words = household_volume(s->arena, x->value.mid * x->unit->size.mid, s->regions[i],
                                     s->tables, true, s->o->reads, &rounded);
        text_add_html(&t, words);
        edit->pieces[i] = text_slice(&t);
    }
}

/* "2 oranges (about 400 g)": where a region's own measure stands before the name, what the author
 * wrote behind it is not said again; whether it stays all the same */
static bool
edit_behind(const struct fragment_context *s, struct slice line, const struct helping *h,
            struct edits *e)
{
    size_t from, to;
    if (!amounts_stretch(line, h->written, true, &from, &to))
        return false;
    size_t open = from;
    while (open > 0 && line.at[open - 1] != '(' && line.at[open - 1] != ')')
        open--;
    if (open == 0 || line.at[open - 1] != '(' || to >= line.length || line.at[to] != ')')
        return has_metric(h->written); /* not alone in its bracket */
    from = open - 1 - (open > 1 && line.at[open - 2] == ' ');
    struct edit *edit = add_edit(s, e, from, to + 1);
    for (size_t i = 0; edit != NULL && i < s->region_count; i++) {
        struct text t = text_new(s->arena);
        if (s->regions[i] == s->o->dish.region)
            text_add_html(&t, slice_part(line, from, to + 1));
        edit->pieces[i] = text_slice(&t);
    }
    return edit == NULL;
}

static void
edit_helping(const struct fragment_context *s, struct slice line, const struct helping *h,
             struct edits *e)
{
    const struct written_food *w = h->written;
    const bool named = w->name_from < w->name_to && w->name_to <= line.length;
    const bool behind = named && is_counted(w); /* "4 onions (about 490 g)" */
    size_t from, to;
    struct edit *edit;
    struct measure_words m[REGIONS_MOST] = {0};
    bool weighed = edit_behind(s, line, h, e);
    if (amounts_stretch(line, w, false, &from, &to) && (edit = add_edit(s, e, from, to)) != NULL)
        for (size_t i = 0; i < s->region_count; i++) {
            struct text t = text_new(s->arena);
            m[i] = measure_of(s, h, slice_part(line, from, to), weighed, i);
            add_measure(&t, m[i].measure);
            if (!behind)
                add_metric(&t, m[i].metric);
            edit->pieces[i] = text_slice(&t);
        }
    edit_extra(s, line, w, e);
    if (named && (edit = add_edit(s, e, w->name_from, w->name_to)) != NULL)
        for (size_t i = 0; i < s->region_count; i++) {
            struct text t = text_new(s->arena);
            text_add(&t,
                     ingredient_name_write(s, h, slice_part(line, w->name_from, w->name_to), i));
            if (behind)
                add_metric(&t, m[i].metric);
            edit->pieces[i] = text_slice(&t);
        }
}

/* whether the amounts stand elsewhere than in the line's words: it was given as a mapping */
static bool
is_built(const struct ingredient *in)
{
    for (size_t k = 0; k < in->option_count; k++)
        for (size_t j = 0; j < in->options[k].count; j++) {
            const struct written_food *w = in->options[k].helpings[j].written;
            if (w->name_to == 0 || (w->amount_count > 0 && w->amounts[0].to == 0))
                return true;
        }
    return false;
}

/* a line given as a mapping has no plain words of its own: measure and name in turn */
static void
write_built(struct text *t, const struct fragment_context *s, const struct ingredient *in)
{
    for (size_t k = 0; k < in->option_count; k++) {
        text_add_string(t, k > 0 ? " <em class=\"dl-or\">or</em> " : "");
        for (size_t j = 0; j < in->options[k].count; j++) {
            const struct helping *h = &in->options[k].helpings[j];
            struct slice measures[REGIONS_MOST], names[REGIONS_MOST];
            size_t bytes = 0;
            for (size_t i = 0; i < s->region_count; i++) {
                const struct measure_words m = measure_of(s, h, SLICE(""), false, i);
                struct text piece = text_new(s->arena);
                add_measure(&piece, m.measure);
                add_metric(&piece, m.metric);
                measures[i] = text_slice(&piece);
                names[i] = ingredient_name_write(s, h, slice_trim(h->written->name), i);
                bytes += measures[i].length;
            }
            text_add_string(t, j > 0 ? " and " : "");
            fragment_vary(t, s, "span", measures);
            text_add_string(t, bytes > 0 ? " " : "");
            fragment_vary(t, s, "span", names);
            if (h->written->after.length > 0) {
                text_add_string(t, ", ");
                markup_words(t, slice_trim(h->written->after));
            }
        }
    }
}

struct slice
ingredients_words(struct arena *a, const struct outcome *o, const struct ingredient *in)
{
    struct text t = text_new(a);
    if (!is_built(in))
        return slice_trim(in->line.text);
    for (size_t k = 0; k < in->option_count; k++)
        for (size_t j = 0; j < in->options[k].count; j++) {
            const struct helping *h = &in->options[k].helpings[j];
            struct household house;
            household_write(a, h, o->dish.region, o->dish.region, o->tables, false, o->reads,
                            &house);
            struct slice measure = house.measure.length > 0 ? house.measure : house.grams;
            text_add_string(&t, k == 0 && j == 0 ? "" : j > 0 ? " and " : " or ");
            text_add(&t, measure);
            text_add_string(&t, measure.length > 0 ? " " : "");
            text_add(&t, slice_trim(h->written->name));
            if (h->written->after.length > 0) {
                text_add_string(&t, ", ");
                text_add(&t, slice_trim(h->written->after));
            }
        }
    text_add_string(&t, in->optional ? " (optional)" : "");
    return text_slice(&t);
}

static void
write_line(struct text *t, const struct fragment_context *s, const struct ingredient *in)
{
    struct slice line = in->line.text;
    struct edit few[4]; /* enough for most lines: no list to make for each */
    struct edits e = {.items = few, .room = sizeof few / sizeof *few};
    if (is_built(in)) {
        write_built(t, s, in);
        return;
    }
    for (size_t k = 0; k < in->option_count; k++)
        for (size_t j = 0; j < in->options[k].count; j++)
            edit_helping(s, line, &in->options[k].helpings[j], &e);
    struct linked_line l = linked_line_begin(t, s->o, &in->line);
    size_t at = 0;
    for (size_t i = 0; i < e.count; i++) {
        linked_line_words(&l, at, e.items[i].from);
        fragment_vary(t, s, "span", e.items[i].pieces);
        at = e.items[i].to;
        linked_line_advance(&l, at);
    }
    linked_line_words(&l, at, line.length);
    linked_line_end(&l);
}

/* groups that the phase limits and this food has no figure for, as far as that leaves them unknown
 */
static void
add_missing_groups(struct text *t, const struct fragment_context *s, const struct helping *h)
{
    struct reads *reads = s->o->reads;
    bool first = true;
    for (enum group g = 0; g < GROUPS; g++) {
        if (!s->stand->groups[g].unknown || groups_is_sum(g) ||
            figure_known(food_content(h->food, g, reads)) ||
            figure_known(food_content(h->food, group_sum(g), reads)))
            continue;
        text_add_string(t, first ? "no published figure for " : ", ");
        text_add_string(t, groups_name((enum group)g));
        first = false;
    }
}

static void
write_notes(struct text *t, const struct fragment_context *s, const struct ingredient *in)
{
    struct text note = text_new(s->arena);
    for (size_t k = 0; k < in->option_count; k++)
        for (size_t j = 0; j < in->options[k].count; j++) {
            const struct helping *h = &in->options[k].helpings[j];
            size_t before = note.length;
            text_add_string(&note, before > 0 ? "; " : "");
            size_t start = note.length;
            if (h->food == NULL)
                text_add_string(&note, "no figures for this food");
            else if (!h->weighing.known && !h->weighing.unmeasured)
                text_add_string(&note, "its weight is not known");
            else if (s->stand->standing == STANDING_UNKNOWN)
                add_missing_groups(&note, s, h);
            if (note.length == start)
                note.length = before;
        }
    /* "optional" or "Optional": said by the cook already */
    if (in->optional && slice_find(in->line.text, "ptional", 0) == SIZE_MAX)
        text_add_string(t, " <em class=\"dl-optional\">(optional)</em>");
    if (in->line.has_stays) {
        text_add_string(t, " <small class=\"dl-note\">");
        text_add_number(t, in->line.stays.mid * 100, 0);
        text_add_string(t, " % is eaten</small>");
    }
    if (note.length > 0) {
        text_add_string(t, " <small class=\"dl-note\">");
        text_add(t, text_slice(&note));
        text_add_string(t, "</small>");
    }
}

void
ingredients_write(struct text *t, const struct fragment_context *s)
{
    const struct outcome *o = s->o;
    for (size_t p = 0; p < o->post.front.part_count; p++) {
        struct slice name = o->post.front.parts[p].name.text;
        if (name.length > 0) {
            struct text words = text_new(s->arena);
            markup_words(&words, name);
            fragment_heading(t, s, 2, text_slice(&words));
        }
        text_add_string(t, "<ul class=\"dl-list\"");
        text_add(t, s->authors_language);
        text_add_string(t, ">\n");
        for (size_t i = 0; i < o->dish.count; i++) {
            const struct ingredient *in = &o->dish.ingredients[i];
            if (in->part != p)
                continue;
            text_add_string(t, in->optional ? "<li class=\"dl-may\">" : "<li>");
            /* to be ticked off with an elbow: the whole line is the label */
            text_add_string(t, "<label><input type=\"checkbox\"><span>");
            write_line(t, s, in);
            write_notes(t, s, in);
            text_add_string(t, "</span></label></li>\n");
        }
        text_add_string(t, "</ul>\n");
    }
}
