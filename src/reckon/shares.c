#include "reckon/shares.h"

#include <math.h>
#include <string.h>

#include "tables/serve_settle.h"

/* the largest share of what is pooled: in a sum over many foods small parts count by their moments,
 * together as one log-normal; what is larger counts with its own shape */
static const double SMALL = SHARE_POOLED;

enum { TOP = DISTRIBUTION_POINTS - 1 };

/* how much a gram of a part counts in a sitting, its sum's weight considered */
static double
part_weight(const struct phase *p, enum group part, enum group sum)
{
    return fmin(limits_weight(p, part), limits_weight(p, sum));
}

/* what an entry counts in a sitting, each group once: a sum by its own figure, or by its parts */
struct counted {
    enum group group;
    double weight;
};

/* What was looked for and not found counts nothing in a sitting: over many foods the limits of
 * detection alone would fill it. The project's own choice, the lower bound of EFSA Journal 2010;
 * 8(3): 1557 for data that are all left-censored (from memory). Against the limit of its own food
 * it counts with what it may be. */
static bool
is_counted(const struct content *c)
{
    return c->figure == NULL || c->figure->kind != FIGURE_BELOW;
}

static void
count_group(const struct composition *c, enum group g, double weight, struct counted *out,
            size_t *count)
{
    if (weight > 0 && is_counted(&c->groups[g]))
        out[(*count)++] = (struct counted){g, weight};
}

static size_t
count_groups(const struct shares *s, const struct composition *c, struct counted out[GROUPS])
{
    size_t count = 0;
    for (enum group sum = 0; sum < GROUPS; sum++) {
        double most = 0;
        if (!groups_in_sitting(sum))
            continue;
        if (!groups_is_sum(sum))
            count_group(c, sum, limits_weight(s->phase, sum), out, &count);
        for (enum group g = 0; g < GROUPS; g++) {
            if (!groups_is_part(g, sum))
                continue;
            most = fmax(most, part_weight(s->phase, g, sum));
            if (c->groups[sum].figure == NULL)
                count_group(c, g, part_weight(s->phase, g, sum), out, &count);
        }
        if (groups_is_sum(sum) && c->groups[sum].figure != NULL)
            count_group(c, sum, most, out, &count);
    }
    return count;
}

static void
count_entry(const struct shares *s, const struct composition *c, struct content *out)
{
    struct counted counted[GROUPS];
    const size_t count = count_groups(s, c, counted);
    for (size_t i = 0; i < count; i++) {
        const struct content *one = &c->groups[counted[i].group];
        out->mid += one->mid * counted[i].weight;
        out->memory += fmin(one->memory, one->mid) * counted[i].weight;
        out->top += one->top * counted[i].weight;
        out->bound += one->bound * counted[i].weight;
        out->open += one->open * counted[i].weight;
        const struct moments weight = {counted[i].weight, 0};
        out->known = moments_add(out->known, moments_times(one->known, weight));
        out->absent = moments_add(out->absent, moments_times(one->absent, weight));
        out->evidence = one->evidence > out->evidence ? one->evidence : out->evidence;
    }
}

void
shares_add_pooled(struct distribution *to, struct moments pooled)
{
    if (pooled.mean <= 0)
        return;
    const struct distribution d = distribution_samples(pooled.mean, sqrt(pooled.variance));
    *to = distribution_sum(to, &d);
}

static void
add_counted(struct distribution *sum, const struct distribution *d, double weight)
{
    struct distribution counted = distribution_scale(d, weight);
    *sum = distribution_sum(sum, &counted);
}

/* g of an entry in the portion that hardly any way passes */
static double
amount_top(const struct shares *s, size_t entry)
{
    double top = 0;
    for (const struct load *l = s->sheet->entries[entry].first; l != NULL; l = l->next)
        top += l->amount.points[TOP];
    return top;
}

/* most: of an amount of 1 g in 100, what it comes to as a share of the total of the sitting */
static void
build_sitting(const struct shares *s, size_t entry, double most)
{
    struct counted counted[GROUPS];
    const struct composition *c = s->sheet->entries[entry].composition;
    struct content *out = s->sitting[entry];
    const size_t count = count_groups(s, c, counted);
    struct moments pooled = {0, 0}, pooled_absent = {0, 0};
    for (size_t k = 0; k < count; k++) {
        const struct content *one = &c->groups[counted[k].group];
        const struct moments weight = {counted[k].weight, 0};
        if (one->top * counted[k].weight * most <= SMALL) {
            pooled = moments_add(pooled, moments_times(one->known, weight));
        } else {
            const struct distribution spread = composition_spread(c, counted[k].group);
            add_counted(&out->spread, &spread, counted[k].weight);
        }
        if (one->open * counted[k].weight * most <= SMALL) {
            pooled_absent = moments_add(pooled_absent, moments_times(one->absent, weight));
        } else {
            const struct distribution estimate = composition_estimate(c, counted[k].group);
            add_counted(&out->estimate, &estimate, counted[k].weight);
        }
    }
    shares_add_pooled(&out->spread, pooled);
    shares_add_pooled(&out->estimate, pooled_absent);
}

void
shares_build_sitting(struct shares *s)
{
    const struct figure *limit = limits_sitting(s->phase, s->reads);
    for (; limit != NULL && s->sitting_made < s->sheet->entry_count; s->sitting_made++) {
        const size_t i = s->sitting_made;
        const double most = amount_top(s, i) / (100 * limit->span.mid);
        if ((s->sitting[i]->top + s->sitting[i]->open) * most > SMALL)
            build_sitting(s, i, most);
    }
}

static unsigned
columns_held(const struct shares *s, const struct load *l)
{
    const struct composition *c = s->sheet->entries[l->entry].composition;
    return c->known | c->open | (content_is_something(s->sitting[l->entry]) ? 1u << SITTING : 0);
}

/* a serve takes the place of its food's limits by group; over the portion the food still counts */
static void
note_columns(struct arena *a, struct shares *s)
{
    const struct sheet *sheet = s->sheet;
    s->columns = arena_take_array(a, sheet->serve_count + 1, sizeof *s->columns);
    for (size_t i = 0; i < sheet->load_count; i++) {
        const struct load *l = &sheet->loads[i];
        const struct given_serve *serve = shares_serve(s, l);
        const unsigned held = columns_held(s, l);
        s->whole |= held;
        s->columns[sheet->entries[l->entry].serve] |= serve == NULL      ? held
                                                      : !serve->no_limit ? 1u << SERVED
                                                                         : 0;
    }
}

/* the contents of the first `made` entries are there */
static void
build_contents(struct arena *a, int phase, size_t made, struct shares *out)
{
    const struct sheet *s = out->sheet;
    out->serves = arena_take_raw(a, (s->load_count + 1) * sizeof *out->serves);
    for (size_t i = 0; i < s->load_count; i++)
        out->serves[i] =
            serves_of_food(s->loads[i].helping->food, s->loads[i].helping->form, phase, out->reads);
    for (size_t i = made; i < s->entry_count; i++) {
        out->sitting[i] = arena_take(a, sizeof *out->sitting[i]);
        count_entry(out, s->entries[i].composition, out->sitting[i]);
    }
    note_columns(a, out);
}

void
shares_build(struct arena *a, const struct sheet *s, int phase, struct reads *reads,
             struct shares *out)
{
    const struct limits *l = &s->tables->limits;
    *out = (struct shares){.sheet = s, .phase = &l->phases[phase], .reads = reads};
    out->over_at = l->over_at.span.mid;
    out->close_at = l->close_at.span.mid;
    out->sitting = arena_take_raw(a, (s->entry_count + 1) * sizeof *out->sitting);
    build_contents(a, phase, 0, out);
}

void
shares_change(struct arena *a, const struct shares *before, const struct sheet *s,
              struct shares *out)
{
    const size_t made = before->sheet->entry_count;
    *out = *before;
    out->sheet = s;
    out->whole = 0;
    out->sitting = arena_take_raw(a, (s->entry_count + 1) * sizeof *out->sitting);
    memcpy(out->sitting, before->sitting, made * sizeof *out->sitting);
    build_contents(a, (int)(before->phase - s->tables->limits.phases), made, out);
}

const struct content *
shares_content(const struct shares *s, size_t entry, size_t column)
{
    return column == SITTING ? s->sitting[entry]
                             : &s->sheet->entries[entry].composition->groups[column];
}

size_t
shares_first(const struct shares *s, const struct limit_case *c)
{
    return c->serve != SIZE_MAX        ? s->sheet->serves[c->serve]
           : s->sheet->entry_count > 0 ? 0
                                       : SIZE_MAX;
}

size_t
shares_next(const struct shares *s, const struct limit_case *c, size_t entry)
{
    return c->serve != SIZE_MAX                ? s->sheet->entries[entry].next
           : entry + 1 < s->sheet->entry_count ? entry + 1
                                               : SIZE_MAX;
}

bool
content_is_something(const struct content *c)
{
    return c->top > 0 || c->bound > 0;
}

const struct given_serve *
shares_serve(const struct shares *s, const struct load *l)
{
    return s->serves[l - s->sheet->loads];
}

bool
shares_concern(const struct shares *s, const struct limit_case *c, const struct load *l)
{
    const struct given_serve *serve = shares_serve(s, l);
    if (c->column == SERVED)
        return serve != NULL && !serve->no_limit;
    return (serve == NULL || c->serve == SIZE_MAX) &&
           content_is_something(shares_content(s, l->entry, c->column));
}

bool
shares_concern_any(const struct shares *s, const struct limit_case *c)
{
    const unsigned columns = c->serve == SIZE_MAX ? s->whole : s->columns[c->serve];
    return (columns >> c->column & 1) != 0;
}

bool
shares_taken(const struct shares *s, const struct load *l, const uint8_t *ways)
{
    const struct sheet_row *row = &s->sheet->rows[l->ingredient];
    return ways[l->ingredient] != WAY_NONE &&
           row->ways[ways[l->ingredient]].pick == (l->option < 254 ? l->option + 1 : 255);
}

void
entry_amount_add(struct entry_amount *sum, const struct load *l)
{
    if (sum->chief == NULL || l->grams > sum->chief->grams)
        sum->chief = l;
    sum->grams += l->grams;
    sum->moments = moments_add(sum->moments, l->moments);
    sum->extra += l->extra;
    sum->count++;
}

struct entry_amount
shares_amount(const struct shares *s, size_t entry, const uint8_t *ways)
{
    struct entry_amount sum = {.count = 0};
    for (const struct load *l = s->sheet->entries[entry].first; l != NULL; l = l->next)
        if (shares_taken(s, l, ways) && shares_serve(s, l) == NULL)
            entry_amount_add(&sum, l);
    return sum;
}

struct distribution
shares_amount_spread(const struct shares *s, size_t entry, const uint8_t *ways)
{
    struct distribution sum = distribution_exact(0);
    bool first = true;
    for (const struct load *l = s->sheet->entries[entry].first; l != NULL; l = l->next) {
        if (!shares_taken(s, l, ways) || shares_serve(s, l) != NULL)
            continue;
        sum = first ? l->amount : distribution_sum(&sum, &l->amount);
        first = false;
    }
    return sum;
}

/* a limit in g that can be divided by: a limit of zero makes any load far too much */
double
limit_divisor(const struct figure *limit)
{
    return fmax(limit->span.mid, 1e-6);
}
