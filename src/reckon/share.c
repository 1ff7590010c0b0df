#include "reckon/share.h"

#include <math.h>
#include <string.h>

/* the part of its limit up to which another group leaves the allowance for fresh produce */
static const double FRESH_BESIDE = 0.25;
/* g of a dried herb or spice in a portion that is no ground for not knowing */
static const double SEASONING_GRAMS = 0.5;
/* a share so small that in a sum its spread is no matter */
static const double SMALL = 0.01;

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

/* how much a gram of a part counts in a sitting, its sum's weight considered */
static double
part_weight(const struct phase *p, enum group part, enum group sum)
{
    return fmin(limit_weight(p, part), limit_weight(p, sum));
}

static void
add_weighted(struct content *sum, const struct content *c, double weight)
{
    if (weight <= 0)
        return;
    struct distribution d = distribution_scale(&c->spread, weight);
    sum->mid += c->mid * weight;
    sum->spread = distribution_sum(&sum->spread, &d);
    sum->bound += c->bound * weight;
    d = distribution_scale(&c->estimate, weight);
    sum->estimate = distribution_sum(&sum->estimate, &d);
    if (c->evidence > sum->evidence)
        sum->evidence = c->evidence;
}

/* what counts in a sitting, each once: the parts of a sum apart where they weigh differently */
static void
lay_sitting(const struct shares *s, const struct composition *c, struct content *out)
{
    for (enum group sum = 0; sum < GROUPS; sum++) {
        double most = 0, least = 1;
        for (enum group g = 0; g < GROUPS; g++)
            if (group_is_part(g, sum)) {
                most = fmax(most, part_weight(s->phase, g, sum));
                least = fmin(least, part_weight(s->phase, g, sum));
            }
        if (!group_in_sitting(sum))
            continue;
        if (!group_is_sum(sum)) {
            add_weighted(out, &c->groups[sum], limit_weight(s->phase, sum));
            continue;
        }
        if (c->groups[sum].figure != NULL || least >= 1) {
            add_weighted(out, &c->groups[sum], most);
            continue;
        }
        for (enum group g = 0; g < GROUPS; g++)
            if (group_is_part(g, sum))
                add_weighted(out, &c->groups[g], part_weight(s->phase, g, sum));
    }
}

void
shares_lay(struct arena *a, const struct sheet *s, int phase, struct reads *reads,
           struct shares *out)
{
    const struct limits *l = &s->tables->limits;
    *out = (struct shares){.sheet = s, .phase = &l->phases[phase], .reads = reads};
    out->over_at = l->over_at.span.mid;
    out->close_at = l->close_at.span.mid;
    out->sitting = arena_take_array(a, s->entry_count + 1, sizeof *out->sitting);
    unsigned counted = 0; /* groups that a sitting takes in */
    for (enum group g = 0; g < GROUPS; g++)
        counted |= group_in_sitting(group_sum(g)) ? 1u << g : 0;
    for (size_t i = 0; i < s->entry_count; i++) {
        const struct composition *c = &s->entries[i].composition;
        if (((c->known | c->open) & counted) != 0)
            lay_sitting(out, c, &out->sitting[i]);
    }
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
    return c->spread.points[TOP] > 0 || c->bound > 0;
}

bool
share_concerns(const struct shares *s, const struct limit_case *c)
{
    for (size_t i = 0; i < s->sheet->entry_count; i++)
        if (is_of(s, c, i) && is_something(content_of(s, i, c->column)))
            return true;
    return false;
}

static bool
is_taken(const struct shares *s, const struct load *l, const uint8_t *ways)
{
    const struct sheet_row *row = &s->sheet->rows[l->ingredient];
    return row->ways[ways[l->ingredient]].pick == (l->option < 254 ? l->option + 1 : 255);
}

/* all lines of one entry together: the content is one figure, whatever the lines */
struct amount_of {
    double grams, extra;
    struct distribution spread;
    const struct load *chief; /* the line that brings most of it */
    size_t count;
    bool fresh;
};

static struct amount_of
amount_of(const struct shares *s, size_t entry, const uint8_t *ways)
{
    struct amount_of sum = {.fresh = true};
    for (size_t i = 0; i < s->sheet->load_count; i++) {
        const struct load *l = &s->sheet->loads[i];
        if (l->entry != entry || !is_taken(s, l, ways))
            continue;
        sum.spread = sum.count == 0 ? l->amount : distribution_sum(&sum.spread, &l->amount);
        if (sum.chief == NULL || l->grams > sum.chief->grams)
            sum.chief = l;
        sum.grams += l->grams;
        sum.extra += l->extra;
        sum.fresh = sum.fresh && l->fresh;
        sum.count++;
    }
    return sum;
}

/* a limit in g that can be divided by: a limit of zero makes any load far too much */
static double
limit_grams(const struct figure *limit)
{
    return fmax(limit->span.mid, 1e-6);
}

/* Whether nothing but excess fructose is present in a serve. What was looked for and not found is
 * not present, what is estimated from kin neither; what nobody can tell is. */
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
            const struct amount_of amount = amount_of(s, i, ways);
            const struct figure *limit = limit_for(
                s->phase, g, e->food == NULL ? CLASS_OTHER : e->food->food_class, s->reads);
            if (limit == NULL || amount.count == 0)
                continue;
            const bool below = content->figure != NULL && content->figure->kind != FIGURE_RANGE &&
                               content->figure->kind != FIGURE_SAMPLES;
            const double open = content->kin == NULL ? content->bound : 0;
            present +=
                amount.grams * ((below ? 0 : content->mid) + open) / 100 / limit_grams(limit);
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
    struct distribution most; /* out->spread with what is absent at its most */
    double exact;             /* what is too small to have its spread counted */
    double open;
    bool whole; /* over all foods of the portion */
};

/* adds a distribution of shares; small ones of many by their middle alone */
static void
add_spread(const struct summing *m, struct distribution *to, const struct distribution *of)
{
    if (m->whole && of->points[TOP] <= SMALL) {
        struct distribution middle = distribution_exact(of->points[TOP / 2]);
        *to = distribution_sum(to, &middle);
    } else {
        *to = distribution_sum(to, of);
    }
}

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

/* Over many foods not everything absent is at its most at once: each enters with the spread of its
 * estimate. Of one food it is its bound. */
static struct distribution
absent_spread(const struct summing *m, const struct content *c)
{
    return m->whole ? c->estimate : distribution_exact(c->bound);
}

static void
add_entry(struct summing *m, size_t entry, const struct amount_of *amount, double limit)
{
    const struct content *c = content_of(m->shares, entry, m->limit_case->column);
    const struct food *food = m->shares->sheet->entries[entry].food;
    struct share *out = m->out;
    const bool pinch = food != NULL && food->seasoning && amount->grams <= SEASONING_GRAMS;
    const double per = 1 / (100 * limit), mid = amount->grams * c->mid * per;
    if (c->spread.points[TOP] > 0 && amount->grams > 0) {
        struct distribution spread = distribution_product(&amount->spread, &c->spread);
        spread = distribution_scale(&spread, per);
        add_spread(m, &out->spread, &spread);
        add_spread(m, &m->most, &spread);
        out->memory += mid * memory_part(m->shares, entry, m->limit_case->column);
        out->mid += mid;
        if (mid > out->chief_part) {
            out->chief_part = mid;
            out->chief = amount->chief;
            out->limit = limit;
        }
    }
    if (c->bound > 0 && amount->grams > 0 && !pinch) {
        struct distribution absent = absent_spread(m, c);
        absent = distribution_product(&amount->spread, &absent);
        absent = distribution_scale(&absent, per);
        add_spread(m, &m->most, &absent);
        note_lack(m, entry, amount, amount->grams * c->bound * per, false);
    }
    if (amount->extra > 0 && !(pinch && isfinite(amount->extra))) {
        const double more = fmin(amount->extra * (c->spread.points[TOP] + c->bound) * per, 1e6);
        struct distribution extra = distribution_exact(more);
        m->most = distribution_sum(&m->most, &extra);
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
    out->chance = distribution_over(&out->spread, 1);
    out->most_chance = fmax(distribution_over(&m->most, 1), out->chance);
    out->standing = standing_between(standing_by(s, out->chance), standing_by(s, out->most_chance));
    out->larger_standing =
        larger <= 1 ? out->standing
                    : standing_between(standing_by(s, distribution_over(&out->spread, larger)),
                                       standing_by(s, distribution_over(&m->most, larger)));
    const double allowed = 1 - distribution_quantile(&out->spread, 1 - s->close_at);
    if (out->lack.load != NULL && !out->lack.amount && out->lack.load->grams > 0 && out->limit > 0)
        out->lack.allows = fmax(allowed, 0) * out->limit * 100 / out->lack.load->grams;
    if (!s->sheet->dish->portions_known && out->standing != STANDING_WITHIN)
        out->standing = out->larger_standing = STANDING_UNKNOWN;
}

void
share_reckon(const struct shares *s, const struct limit_case *c, const uint8_t *ways,
             struct share *out)
{
    struct summing m = {.shares = s, .limit_case = c, .out = out, .whole = c->serve == SIZE_MAX};
    memset(out, 0, sizeof *out);
    memset(&m.most, 0, sizeof m.most);
    out->fresh = c->column == EXCESS_FRUCTOSE && c->serve != SIZE_MAX &&
                 limit_fresh(s->phase, EXCESS_FRUCTOSE, s->reads) != NULL &&
                 is_fresh_serve(s, c, ways);
    for (size_t i = 0; i < s->sheet->entry_count; i++) {
        if (!is_of(s, c, i) || !is_something(content_of(s, i, c->column)))
            continue;
        const struct amount_of amount = amount_of(s, i, ways);
        if (amount.count == 0)
            continue;
        const struct figure *limit = limit_of(s, c, i, out->fresh);
        if (limit == NULL)
            continue;
        if (out->limit <= 0)
            out->limit = limit_grams(limit);
        add_entry(&m, i, &amount, limit_grams(limit));
    }
    if (out->mid > 0) {
        out->memory /= out->mid;
        out->chief_part /= out->mid;
    }
    out->mid = distribution_quantile(&out->spread, 0.5);
    out->load = out->mid * out->limit;
    stand(s, &m);
}
