#include "reckon/sheet.h"

#include <math.h>
#include <string.h>

/* a dish and the sheet that was laid for it in the phase at hand */
struct sheet_source {
    const struct dish *dish;
    const struct sheet *sheet;
};

/* in place: this runs for every ingredient of every post */
static void
grow(struct span *sum, const struct span *by)
{
    sum->low += by->low;
    sum->mid += by->mid;
    sum->high += by->high;
}

static void
way_sum(struct sheet_way *sum, const struct sheet_way *way)
{
    sum->alone = sum->alone && way->alone;
    sum->touched |= way->touched;
    for (size_t c = 0; way->touched >> c != 0; c++) {
        if (!column_touched(way->touched, c))
            continue;
        grow(&sum->load[c], &way->load[c]);
        grow(&sum->share[c], &way->share[c]);
        sum->bound[c] += way->bound[c];
    }
    if (!column_touched(way->touched, EXCESS_FRUCTOSE))
        return;
    grow(&sum->fresh_share, &way->fresh_share);
    sum->fresh_bound += way->fresh_bound;
}

/* tells the rows that are settled from those that are choices */
static void
part_rows(struct arena *a, struct sheet *s)
{
    s->fixed.alone = true;
    s->choices = arena_take_array(a, s->count + 1, sizeof *s->choices);
    for (size_t i = 0; i < s->count; i++)
        if (s->rows[i].count > 1)
            s->choices[s->choice_count++] = i;
        else
            way_sum(&s->fixed, &s->rows[i].ways[0]);
}

size_t
sheet_helping(const struct sheet *s, const struct dish *d, size_t ingredient, size_t option,
              size_t helping)
{
    size_t at = s->firsts[ingredient] + helping;
    for (size_t o = 0; o < option; o++)
        at += d->ingredients[ingredient].options[o].count;
    return at;
}

static void
mark(uint16_t *columns, size_t column)
{
    *columns = (uint16_t)(*columns | 1u << column);
}

static void
way_add(struct sheet_way *way, const struct helping_load *h)
{
    for (enum group g = 0; h->touched >> g != 0; g++) {
        if (h->load[g].high <= 0 && h->bound[g] <= 0)
            continue;
        mark(&way->touched, g);
        grow(&way->load[g], &h->load[g]);
        grow(&way->share[g], &h->share[g]);
        way->bound[g] += h->bound[g];
        /* a mid of 0 with a width is "none detected": no group that is present beside it */
        if (g != EXCESS_FRUCTOSE && (h->load[g].mid > 0 || (h->bound[g] > 0 && !h->trace[g])))
            way->alone = false;
    }
    if (column_touched(way->touched, EXCESS_FRUCTOSE)) {
        grow(&way->fresh_share, &h->fresh_share);
        way->fresh_bound += h->fresh_bound;
    }
    if (h->sitting.high <= 0 && !h->sitting_unknown)
        return;
    mark(&way->touched, SITTING);
    grow(&way->load[SITTING], &h->sitting);
    if (h->sitting_unknown)
        way->bound[SITTING] = INFINITY;
}

static void
lay_row(struct arena *a, const struct ingredient *in, const struct helping_load **helping,
        struct sheet_row *row)
{
    row->ways = arena_take_array(a, in->option_count + (in->optional || in->option_count == 0),
                                 sizeof *row->ways);
    if (in->optional)
        row->ways[row->count++].alone = true;
    for (size_t o = 0; o < in->option_count; o++) {
        struct sheet_way *way = &row->ways[row->count++];
        way->pick = (uint8_t)(o < 254 ? o + 1 : 255);
        way->alone = true;
        for (size_t k = 0; k < in->options[o].count; k++)
            way_add(way, (*helping)++);
    }
    if (row->count == 0)
        row->ways[row->count++].alone = true;
}

/* Traces of a group that together could pass its limit are no traces: then what carries one does
 * not leave excess fructose alone. */
static void
check_traces(struct sheet *s, const bool bounded[GROUPS])
{
    for (enum group g = 0; g < GROUPS; g++) {
        double together = 0;
        if (!bounded[g])
            continue;
        for (size_t i = 0; i < s->count; i++) {
            double most = 0;
            for (size_t w = 0; w < s->rows[i].count; w++)
                if (isfinite(s->rows[i].ways[w].bound[g]) && s->rows[i].ways[w].bound[g] > most)
                    most = s->rows[i].ways[w].bound[g];
            together += most;
        }
        if (g == EXCESS_FRUCTOSE || together <= 1 + 1e-9)
            continue;
        for (size_t i = 0; i < s->count; i++)
            for (size_t w = 0; w < s->rows[i].count; w++)
                if (s->rows[i].ways[w].bound[g] > 0)
                    s->rows[i].ways[w].alone = false;
    }
}

static void
lay_sitting(struct sheet *s, const struct phase *phase, struct reads *reads)
{
    const bool carried = column_touched(s->touched, SITTING);
    const struct figure *limit = carried ? limit_sitting(phase, reads) : NULL;
    s->limited[SITTING] = limit != NULL && figure_known(limit);
    s->sitting_limit = s->limited[SITTING] ? load_limit(limit) : 0;
    for (size_t i = 0; carried && i < s->count; i++)
        for (size_t w = 0; w < s->rows[i].count; w++) {
            struct sheet_way *way = &s->rows[i].ways[w];
            if (!column_touched(way->touched, SITTING))
                continue;
            if (s->limited[SITTING])
                way->share[SITTING] = span_scale(way->load[SITTING], 1 / s->sitting_limit);
            else
                way->bound[SITTING] = 0;
        }
}

/* the loads of an option's helpings where they are known from a sheet of the dish that this one was
 * copied from: what is shared with that was not changed; else NULL */
static const struct helping_load *
known_loads(const struct sheet_source *from, size_t ingredient, const struct dish_option *option)
{
    if (from == NULL)
        return NULL;
    const struct ingredient *in = &from->dish->ingredients[ingredient];
    size_t at = from->sheet->firsts[ingredient];
    for (size_t o = 0; o < in->option_count; at += in->options[o++].count)
        if (in->options[o].helpings == option->helpings)
            return &from->sheet->helpings[at];
    return NULL;
}

static void
lay_loads(const struct dish *d, const struct tables *t, struct limit_desk *desk,
          const struct sheet_source *from, struct helping_load *next)
{
    const double divisor = dish_divisor(d);
    if (from != NULL && dish_divisor(from->dish) != divisor)
        from = NULL;
    for (size_t i = 0; i < d->count; i++)
        for (size_t o = 0; o < d->ingredients[i].option_count; o++) {
            const struct dish_option *option = &d->ingredients[i].options[o];
            const struct helping_load *known = known_loads(from, i, option);
            if (known != NULL)
                memcpy(next, known, option->count * sizeof *next);
            for (size_t k = 0; known == NULL && k < option->count; k++) {
                memset(&next[k], 0, sizeof next[k]);
                load_reckon(&option->helpings[k], divisor, t, desk, &next[k]);
            }
            next += option->count;
        }
}

static void
lay(struct arena *a, const struct dish *d, const struct tables *t, int phase, struct reads *reads,
    const struct sheet_source *from, struct sheet *out)
{
    memset(out, 0, sizeof *out);
    struct limit_desk desk;
    memset(&desk, 0, sizeof desk);
    desk.phase = &t->limits.phases[phase];
    desk.published = &t->limits.phases[0];
    desk.reads = reads;
    out->close_at = t->limits.close_at > 0 ? t->limits.close_at : 0.8;
    out->portions_known = d->portions_known;
    out->count = d->count;
    out->rows = arena_take_array(a, d->count + 1, sizeof *out->rows);
    out->firsts = arena_take_array(a, d->count + 1, sizeof *out->firsts);
    for (size_t i = 0; i < d->count; i++) {
        for (size_t o = 0; o < d->ingredients[i].option_count; o++)
            out->helping_count += d->ingredients[i].options[o].count;
        out->firsts[i + 1] = out->helping_count;
    }
    out->helpings = arena_take_raw(a, (out->helping_count + 1) * sizeof *out->helpings);
    lay_loads(d, t, &desk, from, out->helpings);
    const struct helping_load *helping = out->helpings;
    for (size_t i = 0; i < d->count; i++) {
        lay_row(a, &d->ingredients[i], &helping, &out->rows[i]);
        for (size_t w = 0; w < out->rows[i].count; w++)
            out->touched |= out->rows[i].ways[w].touched;
    }
    bool bounded[GROUPS] = {false};
    for (size_t i = 0; i < out->helping_count; i++)
        for (enum group g = 0; out->helpings[i].touched >> g != 0; g++) {
            out->limited[g] |= out->helpings[i].limit[g] != NULL;
            bounded[g] |= out->helpings[i].bound[g] > 0;
        }
    for (enum group g = 0; g < GROUPS; g++)
        if (out->limited[g]) /* its entry holds the share from which a portion is close */
            reads_note(reads, &desk.phase->entry);
    check_traces(out, bounded);
    lay_sitting(out, desk.phase, reads);
    part_rows(a, out);
}

void
sheet_lay(struct arena *a, const struct dish *d, const struct tables *t, int phase,
          struct reads *reads, struct sheet *out)
{
    lay(a, d, t, phase, reads, NULL, out);
}

void
sheet_lay_changed(struct arena *a, const struct dish *d, const struct tables *t, int phase,
                  const struct dish *was, const struct sheet *known, struct sheet *out)
{
    const struct sheet_source from = {was, known};
    lay(a, d, t, phase, NULL, &from, out);
}
