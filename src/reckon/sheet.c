#include "reckon/sheet.h"

#include <math.h>
#include <string.h>

/* what the rows of a sheet are laid from */
struct laying {
    struct arena *arena;
    const struct dish *dish;
    const struct tables *tables;
    double divisor;
    struct sheet *sheet;
};

/* in place: this runs for every ingredient of every post */
static inline void
grow(struct span *sum, const struct span *by)
{
    sum->low += by->low;
    sum->mid += by->mid;
    sum->high += by->high;
}

static void
way_open(struct arena *a, struct sheet_way *way)
{
    way->columns = arena_take_array(a, COLUMNS, sizeof *way->columns);
    way->alone = true;
}

/* adds what is brought of the touched columns */
static inline void
columns_add(struct sheet_way *sum, const struct brought *columns, unsigned touched)
{
    sum->touched = (uint16_t)(sum->touched | touched);
    for (unsigned left = touched; left != 0; left &= left - 1) {
        const size_t c = (size_t)__builtin_ctz(left);
        struct brought *to = &sum->columns[c];
        grow(&to->load, &columns[c].load);
        grow(&to->share, &columns[c].share);
        to->bound += columns[c].bound;
    }
}

/* tells the rows that are settled, and adds these up, from those that are choices */
static void
part_rows(struct arena *a, struct sheet *s)
{
    struct sheet_way *sum = &s->fixed;
    way_open(a, sum);
    s->choices = arena_take_raw(a, (s->count + 1) * sizeof *s->choices);
    for (size_t i = 0; i < s->count; i++) {
        const struct sheet_way *way = &s->rows[i].ways[0];
        if (s->rows[i].count > 1) {
            s->choices[s->choice_count++] = i;
            continue;
        }
        sum->alone = sum->alone && way_alone(s, way);
        columns_add(sum, way->columns, way->touched);
        if (!column_touched(way->touched, EXCESS_FRUCTOSE))
            continue;
        grow(&sum->fresh_share, &way->fresh_share);
        sum->fresh_bound += way->fresh_bound;
    }
}

const struct helping_load *
sheet_load(const struct sheet *s, const struct dish *d, size_t ingredient, size_t option,
           size_t helping)
{
    const struct helping_load *loads = s->rows[ingredient].loads;
    for (size_t o = 0; o < option; o++)
        loads += d->ingredients[ingredient].options[o].count;
    return loads + helping;
}

/* what a helping makes of a way: whether it is of fructose alone, and what it could carry */
static void
way_add(struct sheet_way *way, const struct helping_load *h)
{
    for (enum group g = 0; load_groups(h) >> g != 0; g++) {
        if (g == EXCESS_FRUCTOSE)
            continue;
        if (h->columns[g].bound > 0)
            way->traces = (uint8_t)(way->traces | 1u << g);
        /* a mid of 0 with a width is "none detected": no group that is present beside it */
        if (h->columns[g].load.mid > 0 || (h->columns[g].bound > 0 && !h->trace[g]))
            way->alone = false;
    }
}

static void
way_lay(struct arena *a, struct helping_load *helpings, size_t count, struct sheet_way *way)
{
    way->alone = true;
    for (size_t k = 0; k < count; k++)
        way_add(way, &helpings[k]);
    if (count == 1) {
        way->touched = helpings->touched;
        way->columns = helpings->columns;
        way->fresh_share = helpings->fresh_share;
        way->fresh_bound = helpings->fresh_bound;
        return;
    }
    const bool alone = way->alone;
    way_open(a, way);
    way->alone = alone;
    for (size_t k = 0; k < count; k++) {
        const struct helping_load *h = &helpings[k];
        columns_add(way, h->columns, h->touched);
        grow(&way->fresh_share, &h->fresh_share);
        way->fresh_bound += h->fresh_bound;
    }
}

static void
lay_ways(struct arena *a, const struct ingredient *in, struct sheet_row *row)
{
    struct helping_load *helping = row->loads;
    row->ways = arena_take_array(a, in->option_count + 1, sizeof *row->ways);
    if (in->optional || in->option_count == 0)
        way_open(a, &row->ways[row->count++]);
    for (size_t o = 0; o < in->option_count; helping += in->options[o++].count) {
        struct sheet_way *way = &row->ways[row->count++];
        way->pick = (uint8_t)(o < 254 ? o + 1 : 255);
        way_lay(a, helping, in->options[o].count, way);
    }
    for (size_t w = 0; w < row->count; w++) {
        row->touched |= row->ways[w].touched;
        row->traces |= row->ways[w].traces;
    }
    for (size_t k = 0; k < row->load_count; k++)
        for (enum group g = 0; load_groups(&row->loads[k]) >> g != 0; g++) {
            const struct brought *b = &row->loads[k].columns[g];
            if (b->limit != NULL)
                row->limited = (uint8_t)(row->limited | 1u << g);
            row->unsure = row->unsure || b->bound > 0;
        }
}

/* shares of the total of a sitting; that its limit is read, the whole sheet notes */
static void
lay_sitting(const struct phase *phase, struct sheet_row *row)
{
    if (!column_touched(row->touched, SITTING))
        return;
    const struct figure *limit = limit_sitting(phase, NULL);
    for (size_t w = 0; w < row->count; w++) {
        const struct sheet_way *way = &row->ways[w];
        if (!column_touched(way->touched, SITTING))
            continue;
        if (limit != NULL)
            way->columns[SITTING].share =
                span_scale(way->columns[SITTING].load, 1 / load_limit(limit));
        else
            way->columns[SITTING].bound = 0;
    }
}

/* the row of one ingredient, its loads at `loads` */
static void
lay_row(const struct laying *l, const struct ingredient *in, struct helping_load *loads,
        struct sheet_row *row)
{
    const struct limit_scope *limit_scope = &l->sheet->limit_scope;
    *row = (struct sheet_row){.loads = loads};
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++)
            load_reckon(&in->options[o].helpings[k], l->divisor, l->tables, limit_scope,
                        &loads[row->load_count++]);
    lay_ways(l->arena, in, row);
    lay_sitting(limit_scope->phase, row);
}

/* Traces of a group that together could pass its limit are no traces. */
static void
weigh_traces(struct sheet *s)
{
    uint8_t traces = 0;
    for (size_t i = 0; i < s->count; i++)
        traces |= s->rows[i].traces;
    for (enum group g = 0; traces >> g != 0; g++) {
        double together = 0;
        for (size_t i = 0; (traces >> g & 1) != 0 && i < s->count; i++) {
            double most = 0;
            if ((s->rows[i].traces >> g & 1) == 0)
                continue;
            for (size_t w = 0; w < s->rows[i].count; w++) {
                const struct sheet_way *way = &s->rows[i].ways[w];
                if ((way->traces >> g & 1) != 0 && isfinite(way->columns[g].bound) &&
                    way->columns[g].bound > most)
                    most = way->columns[g].bound;
            }
            together += most;
        }
        if (together > 1 + 1e-9)
            s->heavy = (uint8_t)(s->heavy | 1u << g);
    }
}

static void
lay_rows(struct laying *l)
{
    struct sheet *s = l->sheet;
    for (size_t i = 0; i < s->count; i++) {
        lay_row(l, &l->dish->ingredients[i], s->helpings + s->helping_count, &s->rows[i]);
        s->helping_count += s->rows[i].load_count;
    }
}

/* the limit of a sitting's total, where something counts towards it */
static void
limit_sittings(struct sheet *s)
{
    const struct figure *limit = column_touched(s->touched, SITTING)
                                     ? limit_sitting(s->limit_scope.phase, s->limit_scope.reads)
                                     : NULL;
    s->limited[SITTING] = limit != NULL;
    s->sitting_limit = limit != NULL ? load_limit(limit) : 0;
}

static void
lay(struct laying *l)
{
    struct sheet *s = l->sheet;
    s->close_at = 0.8;
    s->portions_known = l->dish->portions_known;
    s->count = l->dish->count;
    s->rows = arena_take_raw(l->arena, (s->count + 1) * sizeof *s->rows);
    lay_rows(l);
    unsigned limited = 0;
    for (size_t i = 0; i < s->count; i++) {
        s->touched |= s->rows[i].touched;
        limited |= s->rows[i].limited;
        s->unsure = s->unsure || s->rows[i].unsure;
    }
    for (enum group g = 0; g < GROUPS; g++)
        s->limited[g] = (limited >> g & 1) != 0;
    if (limited != 0) /* its entry holds the share from which a portion is close */
        reads_note(s->limit_scope.reads, &s->limit_scope.phase->entry);
    weigh_traces(s);
    limit_sittings(s);
    part_rows(l->arena, s);
}

static struct limit_scope
limit_scope_at(const struct tables *t, int phase, struct reads *reads)
{
    return (struct limit_scope){&t->limits.phases[phase], &t->limits.phases[0], reads};
}

void
sheet_lay(struct arena *a, const struct dish *d, const struct tables *t, int phase,
          struct reads *reads, struct sheet *out)
{
    struct laying l = {a, d, t, dish_divisor(d), out};
    size_t count = 0;
    for (size_t i = 0; i < d->count; i++)
        for (size_t o = 0; o < d->ingredients[i].option_count; o++)
            count += d->ingredients[i].options[o].count;
    memset(out, 0, sizeof *out);
    out->limit_scope = limit_scope_at(t, phase, reads);
    out->helpings = arena_take_raw(a, (count + 1) * sizeof *out->helpings);
    lay(&l);
}
