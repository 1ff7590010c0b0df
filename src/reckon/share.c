#include "reckon/share.h"

#include <math.h>
#include <string.h>

#include "tables/serve_settle.h"

/* the part of its limit up to which another group leaves the allowance for fresh produce */
static const double FRESH_BESIDE = 0.25;
/* g of a dried herb or spice in a portion that is no ground for not knowing */
static const double SEASONING_GRAMS = 0.5;
/* the part of what a portion may hold that a food of a serve without limit counts for at most */
static const double UNLIMITED_PART = 0.5;
/* the largest share of what is pooled: in a sum over many foods small parts count by their moments,
 * together as one log-normal; what is larger counts with its own shape */
static const double SMALL = 0.1;

enum { TOP = DISTRIBUTION_POINTS - 1 };

static const char *const words[] = {"within", "close", "unknown", "over"};

const char *
standing_word(enum standing s)
{
    return words[s];
}

const char *
standing_sentence(enum standing s)
{
    static const char *const sentences[] = {
        "One portion stays within the limits.",
        "One portion stays within the limits, but comes close to one of them.",
        "How one portion stands is not known: a figure is missing.",
        "One portion is over a limit.",
    };
    return sentences[s];
}

const char *
column_name(size_t column)
{
    return column == SITTING  ? "all that counts in one sitting"
           : column == SERVED ? "its serve"
                              : group_name((enum group)column);
}

const char *
column_word(size_t column)
{
    return column == SITTING  ? "sitting"
           : column == SERVED ? "serve"
                              : group_word((enum group)column);
}

/* how much a gram of a part counts in a sitting, its sum's weight considered */
static double
part_weight(const struct phase *p, enum group part, enum group sum)
{
    return fmin(limit_weight(p, part), limit_weight(p, sum));
}

/* what an entry counts in a sitting, each group once: a sum by its own figure, or by its parts */
struct counted {
    enum group group;
    double weight;
};

/* What was looked for and not found counts nothing in a sitting: the published total was set by
 * tables in which it counts nothing, and over many foods the limits of detection alone would fill
 * it. Against the limit of its own food it counts with what it may be. */
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
        if (!group_in_sitting(sum))
            continue;
        if (!group_is_sum(sum))
            count_group(c, sum, limit_weight(s->phase, sum), out, &count);
        for (enum group g = 0; g < GROUPS; g++) {
            if (!group_is_part(g, sum))
                continue;
            most = fmax(most, part_weight(s->phase, g, sum));
            if (c->groups[sum].figure == NULL)
                count_group(c, g, part_weight(s->phase, g, sum), out, &count);
        }
        if (group_is_sum(sum) && c->groups[sum].figure != NULL)
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
        out->top += one->top * counted[i].weight;
        out->bound += one->bound * counted[i].weight;
        out->open += one->open * counted[i].weight;
        const struct moments weight = {counted[i].weight, 0};
        out->known = moments_add(out->known, moments_times(one->known, weight));
        out->absent = moments_add(out->absent, moments_times(one->absent, weight));
        out->evidence = one->evidence > out->evidence ? one->evidence : out->evidence;
    }
}

static void
add_pooled(struct distribution *to, struct moments pooled)
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
    for (size_t i = 0; i < s->sheet->load_count; i++)
        if (s->sheet->loads[i].entry == entry)
            top += s->sheet->loads[i].amount.points[TOP];
    return top;
}

/* most: of an amount of 1 g in 100, what it comes to as a share of the total of the sitting */
static void
build_sitting(const struct shares *s, size_t entry, double most)
{
    struct counted counted[GROUPS];
    const struct composition *c = &s->sheet->entries[entry].composition;
    struct content *out = &s->sitting[entry];
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
    add_pooled(&out->spread, pooled);
    add_pooled(&out->estimate, pooled_absent);
}

void
shares_build_sitting(struct shares *s)
{
    const struct figure *limit = limit_sitting(s->phase, s->reads);
    for (size_t i = 0; limit != NULL && i < s->sheet->entry_count; i++) {
        const double most = amount_top(s, i) / (100 * limit->span.mid);
        if ((s->sitting[i].top + s->sitting[i].open) * most > SMALL)
            build_sitting(s, i, most);
    }
}

void
shares_build(struct arena *a, const struct sheet *s, int phase, struct reads *reads,
             struct shares *out)
{
    const struct limits *l = &s->tables->limits;
    *out = (struct shares){.sheet = s, .phase = &l->phases[phase], .reads = reads};
    out->over_at = l->over_at.span.mid;
    out->close_at = l->close_at.span.mid;
    out->sitting = arena_take_array(a, s->entry_count + 1, sizeof *out->sitting);
    out->serves = arena_take_array(a, s->load_count + 1, sizeof *out->serves);
    for (size_t i = 0; i < s->load_count; i++)
        out->serves[i] =
            food_serve(s->loads[i].helping->food, s->loads[i].helping->form, phase, reads);
    for (size_t i = 0; i < s->entry_count; i++)
        count_entry(out, &s->entries[i].composition, &out->sitting[i]);
}

static const struct content *
content_of(const struct shares *s, size_t entry, size_t column)
{
    return column == SITTING ? &s->sitting[entry]
                             : &s->sheet->entries[entry].composition.groups[column];
}

static bool
is_of(const struct shares *s, const struct limit_case *c, size_t entry)
{
    return c->serve == SIZE_MAX || s->sheet->entries[entry].serve == c->serve;
}

static bool
is_something(const struct content *c)
{
    return c->top > 0 || c->bound > 0;
}

/* the writer's serve of a load; NULL: its composition holds */
static const struct given_serve *
serve_of(const struct shares *s, const struct load *l)
{
    return s->serves[l - s->sheet->loads];
}

/* a serve takes the place of its food's limits by group; over the portion the food still counts */
static bool
concerns(const struct shares *s, const struct limit_case *c, const struct load *l)
{
    const struct given_serve *serve = serve_of(s, l);
    if (!is_of(s, c, l->entry))
        return false;
    if (c->column == SERVED)
        return serve != NULL && !serve->no_limit;
    return (serve == NULL || c->serve == SIZE_MAX) &&
           is_something(content_of(s, l->entry, c->column));
}

bool
share_concerns(const struct shares *s, const struct limit_case *c)
{
    for (size_t i = 0; i < s->sheet->load_count; i++)
        if (concerns(s, c, &s->sheet->loads[i]))
            return true;
    return false;
}

static bool
is_taken(const struct shares *s, const struct load *l, const uint8_t *ways)
{
    const struct sheet_row *row = &s->sheet->rows[l->ingredient];
    return ways[l->ingredient] != WAY_NONE &&
           row->ways[ways[l->ingredient]].pick == (l->option < 254 ? l->option + 1 : 255);
}

/* all lines of one entry together that have no serve: the content is one figure, whatever the lines
 */
struct amount_of {
    double grams, extra;
    struct moments moments;
    struct distribution spread;
    const struct load *chief; /* the line that brings most of it */
    size_t count;
    bool fresh;
};

static void
add_load(struct amount_of *sum, const struct load *l, bool plain)
{
    if (!plain)
        sum->spread = sum->count == 0 ? l->amount : distribution_sum(&sum->spread, &l->amount);
    if (sum->chief == NULL || l->grams > sum->chief->grams)
        sum->chief = l;
    sum->grams += l->grams;
    sum->moments = moments_add(sum->moments, l->moments);
    sum->extra += l->extra;
    sum->fresh = sum->fresh && l->fresh;
    sum->count++;
}

static struct amount_of
amount_of(const struct shares *s, size_t entry, const uint8_t *ways, bool plain)
{
    struct amount_of sum = {.fresh = true};
    for (size_t i = 0; i < s->sheet->load_count; i++) {
        const struct load *l = &s->sheet->loads[i];
        if (l->entry == entry && is_taken(s, l, ways) && serve_of(s, l) == NULL)
            add_load(&sum, l, plain);
    }
    return sum;
}

/* a limit in g that can be divided by: a limit of zero makes any load far too much */
static double
limit_grams(const struct figure *limit)
{
    return fmax(limit->span.mid, 1e-6);
}

/* g per 100 g that were measured: what was looked for and not found is not present, and a sum that
 * nobody gave is that of its parts */
static double
measured_of(const struct sheet_entry *e, enum group g)
{
    const struct content *content = &e->composition.groups[g];
    if (content->figure != NULL)
        return content->figure->kind == FIGURE_RANGE || content->figure->kind == FIGURE_SAMPLES
                   ? content->mid
                   : 0;
    double sum = 0;
    for (enum group part = 0; part < GROUPS; part++)
        if (group_is_part(part, g))
            sum += measured_of(e, part);
    return sum;
}

/* Whether nothing but excess fructose is present in a serve; what is estimated from kin is not
 * present either, what nobody can tell is. */
static bool
is_alone(const struct shares *s, const struct limit_case *c, const uint8_t *ways)
{
    for (enum group g = 0; g < GROUPS; g++) {
        double present = 0;
        if (g == EXCESS_FRUCTOSE)
            continue;
        for (size_t i = 0; i < s->sheet->entry_count; i++) {
            const struct sheet_entry *e = &s->sheet->entries[i];
            const struct content *content = &e->composition.groups[g];
            if (!is_of(s, c, i) || !is_something(content))
                continue;
            const struct amount_of amount = amount_of(s, i, ways, true);
            const struct figure *limit = limit_for(
                s->phase, g, e->food == NULL ? CLASS_OTHER : e->food->food_class, s->reads);
            if (limit == NULL || amount.count == 0)
                continue;
            const double open = content->kin == NULL ? content->bound : 0;
            present += amount.grams * (measured_of(e, g) + open) / 100 / limit_grams(limit);
        }
        if (present > FRESH_BESIDE)
            return false;
    }
    return true;
}

static bool
is_fresh_serve(const struct shares *s, const struct limit_case *c, const uint8_t *ways)
{
    bool fresh = true;
    for (size_t i = 0; i < s->sheet->load_count && fresh; i++) {
        const struct load *l = &s->sheet->loads[i];
        if (is_of(s, c, l->entry) && is_taken(s, l, ways))
            fresh = l->fresh;
    }
    return fresh && is_alone(s, c, ways);
}

static const struct figure *
limit_of(const struct shares *s, const struct limit_case *c, size_t entry, bool fresh)
{
    const struct food *f = s->sheet->entries[entry].food;
    if (c->column == SITTING)
        return limit_sitting(s->phase, s->reads);
    if (fresh)
        return limit_fresh(s->phase, EXCESS_FRUCTOSE, s->reads);
    return limit_for(s->phase, (enum group)c->column, f == NULL ? CLASS_OTHER : f->food_class,
                     s->reads);
}

static double
content_memory(const struct content *c)
{
    return c->figure != NULL &&
                   (c->figure->basis == BASIS_MEMORY || c->figure->basis == BASIS_PRACTICE)
               ? c->mid
               : 0;
}

/* the part of a content that figures from memory or practice make, 0 to 1 */
static double
memory_part(const struct shares *s, size_t entry, size_t column)
{
    const struct content *groups = s->sheet->entries[entry].composition.groups;
    const double mid = content_of(s, entry, column)->mid;
    double memory = 0;
    if (mid <= 0)
        return 0;
    if (column < GROUPS && groups[column].figure != NULL)
        return content_memory(&groups[column]) / mid;
    for (enum group g = 0; g < GROUPS; g++)
        if (column == SITTING ? group_in_sitting(g) : group_is_part(g, (enum group)column))
            memory += memory_part(s, entry, g) * groups[g].mid;
    return fmin(memory / mid, 1);
}

/* the group of an entry that is absent and adds most to a column */
static enum group
group_lacking(const struct shares *s, size_t entry, size_t column)
{
    const struct content *groups = s->sheet->entries[entry].composition.groups;
    enum group most = column < GROUPS ? (enum group)column : 0;
    double adds = -1;
    for (enum group g = 0; g < GROUPS; g++) {
        const bool in = column == SITTING ? group_in_sitting(group_sum(g)) && !group_is_sum(g)
                                          : group_is_part(g, (enum group)column);
        if (in && groups[g].bound > adds) {
            adds = groups[g].bound;
            most = g;
        }
    }
    return most;
}

/* what the entries of a case bring, while it is summed */
struct summing {
    const struct shares *shares;
    const struct limit_case *limit_case;
    struct share *out;
    struct distribution absent;           /* what is absent adds, at its most */
    struct moments pooled, pooled_absent; /* what is small, of both */
    bool whole;                           /* over all foods of the portion */
    bool plain;                           /* by middles alone */
};

static void
note_lack(struct summing *m, size_t entry, const struct amount_of *amount, double adds, bool none)
{
    struct lack *lack = &m->out->lack;
    if (!(adds > lack->adds))
        return;
    *lack = (struct lack){.load = amount->chief,
                          .group = group_lacking(m->shares, entry, m->limit_case->column),
                          .amount = none,
                          .adds = adds};
}

static struct distribution
known_spread(const struct summing *m, size_t entry)
{
    const size_t column = m->limit_case->column;
    return column == SITTING ? m->shares->sitting[entry].spread
                             : composition_spread(&m->shares->sheet->entries[entry].composition,
                                                  (enum group)column);
}

/* Over many foods not everything absent is at its most at once: each enters with the spread of its
 * estimate. Of one food it is its bound. */
static struct distribution
absent_spread(const struct summing *m, size_t entry)
{
    const size_t column = m->limit_case->column;
    if (!m->whole)
        return distribution_exact(content_of(m->shares, entry, column)->bound);
    return column == SITTING ? m->shares->sitting[entry].estimate
                             : composition_estimate(&m->shares->sheet->entries[entry].composition,
                                                    (enum group)column);
}

static bool
is_pooled(const struct summing *m, const struct amount_of *amount, double top, double per)
{
    return m->whole && amount->spread.points[TOP] * top * per <= SMALL;
}

static void
pool(struct moments *to, const struct amount_of *amount, struct moments content, double per)
{
    const struct moments share = {per, 0};
    content = moments_times(moments_times(amount->moments, content), share);
    *to = moments_add(*to, content);
}

/* adds what so much of a content comes to, with its own shape */
static void
add_product(struct distribution *to, const struct amount_of *amount,
            const struct distribution *content, double per)
{
    struct distribution d = distribution_product(&amount->spread, content);
    d = distribution_scale(&d, per);
    *to = distribution_sum(to, &d);
}

static void
add_known(struct summing *m, size_t entry, const struct amount_of *amount, double limit)
{
    const struct content *c = content_of(m->shares, entry, m->limit_case->column);
    struct share *out = m->out;
    const double mid = amount->grams * c->mid / (100 * limit), per = 1 / (100 * limit);
    out->memory += mid * memory_part(m->shares, entry, m->limit_case->column);
    out->mid += mid;
    if (mid > out->chief_part) {
        out->chief_part = mid;
        out->chief = amount->chief;
        out->limit = limit;
    }
    if (m->plain)
        return;
    if (is_pooled(m, amount, c->top, per)) {
        pool(&m->pooled, amount, c->known, per);
        return;
    }
    const struct distribution known = known_spread(m, entry);
    add_product(&out->spread, amount, &known, per);
}

static void
add_absent(struct summing *m, size_t entry, const struct amount_of *amount, double per)
{
    const struct content *c = content_of(m->shares, entry, m->limit_case->column);
    note_lack(m, entry, amount, amount->grams * c->bound * per, false);
    if (m->plain)
        return;
    if (is_pooled(m, amount, c->open, per)) {
        pool(&m->pooled_absent, amount, c->absent, per);
        return;
    }
    const struct distribution absent = absent_spread(m, entry);
    add_product(&m->absent, amount, &absent, per);
}

static void
add_entry(struct summing *m, size_t entry, const struct amount_of *amount, double limit)
{
    const struct content *c = content_of(m->shares, entry, m->limit_case->column);
    const struct food *food = m->shares->sheet->entries[entry].food;
    const bool pinch = food != NULL && food->seasoning && amount->grams <= SEASONING_GRAMS;
    const double per = 1 / (100 * limit);
    if (c->top > 0 && amount->grams > 0)
        add_known(m, entry, amount, limit);
    if (c->bound > 0 && amount->grams > 0 && !pinch)
        add_absent(m, entry, amount, per);
    if (amount->extra > 0 && !(pinch && isfinite(amount->extra))) {
        const double more = fmin(amount->extra * (c->top + c->bound) * per, 1e6);
        struct distribution extra = distribution_exact(more);
        m->absent = distribution_sum(&m->absent, &extra);
        note_lack(m, entry, amount, more, true);
    }
}

static enum standing
standing_by(const struct shares *s, double chance)
{
    return chance > s->over_at    ? STANDING_OVER
           : chance > s->close_at ? STANDING_CLOSE
                                  : STANDING_WITHIN;
}

/* Absent contents at nothing and at their most: alike, that stands; within and close, close. Over
 * is said by what is known alone: what only the unknown could bring over is not known. */
static enum standing
standing_between(enum standing least, enum standing most)
{
    return least != STANDING_OVER && most == STANDING_OVER ? STANDING_UNKNOWN : most;
}

static void
stand(const struct shares *s, struct summing *m)
{
    struct share *out = m->out;
    const double larger = s->sheet->larger;
    const struct distribution most = distribution_sum(&out->spread, &m->absent);
    out->chance = distribution_over(&out->spread, 1);
    out->most_chance = fmax(distribution_over(&most, 1), out->chance);
    out->standing = standing_between(standing_by(s, out->chance), standing_by(s, out->most_chance));
    out->larger_standing =
        larger <= 1 ? out->standing
                    : standing_between(standing_by(s, distribution_over(&out->spread, larger)),
                                       standing_by(s, distribution_over(&most, larger)));
    const double allowed = 1 - distribution_quantile(&out->spread, 1 - s->close_at);
    if (out->lack.load != NULL && !out->lack.amount && out->lack.load->grams > 0 && out->limit > 0)
        out->lack.allows = fmax(allowed, 0) * out->limit * 100 / out->lack.load->grams;
    if (!s->sheet->dish->portions_known && out->standing != STANDING_WITHIN)
        out->standing = out->larger_standing = STANDING_UNKNOWN;
}

/* grams against the writer's serve */
static void
add_served(struct summing *m, const struct load *l)
{
    struct share *out = m->out;
    const double grams = limit_grams(&serve_of(m->shares, l)->grams);
    out->mid += l->grams / grams;
    if (l->grams / grams > out->chief_part) {
        out->chief_part = l->grams / grams;
        out->chief = l;
        out->limit = grams;
    }
    if (m->plain)
        return;
    struct distribution spread = distribution_scale(&l->amount, 1 / grams);
    out->spread = distribution_sum(&out->spread, &spread);
    if (l->extra > 0) {
        const struct amount_of amount = {.chief = l};
        struct distribution extra = distribution_exact(fmin(l->extra / grams, 1e6));
        m->absent = distribution_sum(&m->absent, &extra);
        note_lack(m, l->entry, &amount, fmin(l->extra / grams, 1e6), true);
    }
}

static void
cap(struct distribution *of, const struct distribution *most)
{
    for (size_t k = 0; k <= TOP; k++)
        of->points[k] = fmin(of->points[k], most->points[k]);
}

/* What has a serve counts over the whole portion by its composition, at most by its part of the
 * serve; without limit, at most by half of what a portion may hold. */
static void
add_capped(struct summing *m, const struct load *l)
{
    const struct given_serve *serve = serve_of(m->shares, l);
    const struct figure *limit = limit_of(m->shares, m->limit_case, l->entry, false);
    struct share one = {.mid = 0}, *out = m->out;
    struct summing alone = *m;
    struct amount_of amount = {.fresh = true};
    const double part = serve->no_limit ? 0 : 1 / limit_grams(&serve->grams);
    if (limit == NULL)
        return;
    alone.out = &one;
    alone.absent = distribution_exact(0);
    add_load(&amount, l, m->plain);
    add_entry(&alone, l->entry, &amount, limit_grams(limit));
    add_pooled(&one.spread, alone.pooled);
    add_pooled(&alone.absent, alone.pooled_absent);
    const struct distribution most =
        serve->no_limit ? distribution_exact(UNLIMITED_PART) : distribution_scale(&l->amount, part);
    cap(&one.spread, &most);
    cap(&alone.absent, &most);
    one.mid = fmin(one.mid, serve->no_limit ? UNLIMITED_PART : l->grams * part);
    out->mid += one.mid;
    out->memory += one.memory;
    if (out->limit <= 0)
        out->limit = limit_grams(limit);
    if (one.mid > out->chief_part) {
        out->chief_part = one.mid;
        out->chief = l;
    }
    if (one.lack.adds > out->lack.adds && alone.absent.points[TOP] > 0)
        out->lack = one.lack;
    out->spread = distribution_sum(&out->spread, &one.spread);
    m->absent = distribution_sum(&m->absent, &alone.absent);
}

/* lines of the same food that have no serve, as dried fruit beside fresh, add the share of the
 * group that stands nearest by them */
static void
add_unserved(struct summing *m, const uint8_t *ways)
{
    const struct shares *s = m->shares;
    struct share nearest = {.mid = 0};
    for (enum group g = 0; g < GROUPS; g++) {
        const struct limit_case c = {g, m->limit_case->serve};
        struct share share;
        if (s->phase->groups[g].scope == SCOPE_PORTION || !share_concerns(s, &c) ||
            !limit_holds(s->phase, g, s->reads))
            continue;
        share_reckon(s, &c, ways, false, &share);
        if (share.mid > nearest.mid)
            nearest = share;
    }
    if (nearest.mid <= 0)
        return;
    m->out->mid += nearest.mid;
    m->out->spread = distribution_sum(&m->out->spread, &nearest.spread);
}

static void
sum_entries(struct summing *m, const uint8_t *ways)
{
    const struct shares *s = m->shares;
    const struct limit_case *c = m->limit_case;
    for (size_t i = 0; c->column != SERVED && i < s->sheet->entry_count; i++) {
        if (!is_of(s, c, i) || !is_something(content_of(s, i, c->column)))
            continue;
        const struct amount_of amount = amount_of(s, i, ways, m->plain);
        if (amount.count == 0)
            continue;
        const struct figure *limit = limit_of(s, c, i, m->out->fresh);
        if (limit == NULL)
            continue;
        if (m->out->limit <= 0)
            m->out->limit = limit_grams(limit);
        add_entry(m, i, &amount, limit_grams(limit));
    }
    add_pooled(&m->out->spread, m->pooled);
    add_pooled(&m->absent, m->pooled_absent);
    m->pooled = m->pooled_absent = (struct moments){0, 0};
    for (size_t i = 0; i < s->sheet->load_count; i++) {
        const struct load *l = &s->sheet->loads[i];
        if (serve_of(s, l) == NULL || !concerns(s, c, l) || !is_taken(s, l, ways))
            continue;
        if (c->column == SERVED)
            add_served(m, l);
        else
            add_capped(m, l);
    }
    if (c->column == SERVED)
        add_unserved(m, ways);
}

double
share_most(const struct shares *s, const struct limit_case *c)
{
    double most = 0;
    for (size_t i = 0; i < s->sheet->load_count; i++) {
        const struct load *l = &s->sheet->loads[i];
        if (c->column == SERVED && is_of(s, c, l->entry)) {
            if (serve_of(s, l) == NULL)
                return INFINITY;
            if (!serve_of(s, l)->no_limit)
                most += (l->amount.points[TOP] + l->extra) / limit_grams(&serve_of(s, l)->grams);
        }
        if (c->column == SERVED || !concerns(s, c, l))
            continue;
        const struct content *content = content_of(s, l->entry, c->column);
        const struct figure *limit = limit_of(s, c, l->entry, false);
        if (limit != NULL)
            most += (l->amount.points[TOP] + l->extra) * (content->top + content->open) /
                    (100 * limit_grams(limit));
    }
    return most;
}

void
share_reckon(const struct shares *s, const struct limit_case *c, const uint8_t *ways, bool plain,
             struct share *out)
{
    struct summing m = {
        .shares = s, .limit_case = c, .out = out, .whole = c->serve == SIZE_MAX, .plain = plain};
    memset(out, 0, sizeof *out);
    out->fresh = c->column == EXCESS_FRUCTOSE && c->serve != SIZE_MAX &&
                 limit_fresh(s->phase, EXCESS_FRUCTOSE, s->reads) != NULL &&
                 is_fresh_serve(s, c, ways);
    sum_entries(&m, ways);
    if (out->mid > 0) {
        out->memory /= out->mid;
        out->chief_part /= out->mid;
    }
    if (plain)
        out->spread = distribution_exact(out->mid);
    out->mid = distribution_quantile(&out->spread, 0.5);
    out->load = out->mid * out->limit;
    stand(s, &m);
}

/* point by point the larger, or the smaller */
static void
take_extreme(struct distribution *of, const struct distribution *other, int sign)
{
    for (size_t k = 0; k <= TOP; k++)
        of->points[k] = sign * fmax(sign * of->points[k], sign * other->points[k]);
}

void
share_bound(const struct shares *s, const struct limit_case *c, const size_t *rows, size_t count,
            int sign, struct share *out)
{
    uint8_t ways[UINT8_MAX + 1] = {0};
    struct summing m = {.shares = s, .limit_case = c, .out = out, .whole = true};
    memset(out, 0, sizeof *out);
    for (size_t k = 0; k < count; k++)
        ways[rows[k]] = WAY_NONE;
    sum_entries(&m, ways);
    memset(ways, WAY_NONE, sizeof ways);
    for (size_t k = 0; k < count; k++) {
        struct distribution known, absent;
        for (size_t w = 0; w < s->sheet->rows[rows[k]].count; w++) {
            struct share one = {.mid = 0};
            struct summing way = {.shares = s, .limit_case = c, .out = &one, .whole = true};
            ways[rows[k]] = (uint8_t)w;
            sum_entries(&way, ways);
            if (w == 0) {
                known = one.spread;
                absent = way.absent;
            }
            take_extreme(&known, &one.spread, sign);
            take_extreme(&absent, &way.absent, sign);
        }
        ways[rows[k]] = WAY_NONE;
        out->spread = distribution_sum(&out->spread, &known);
        m.absent = distribution_sum(&m.absent, &absent);
    }
    stand(s, &m);
}
