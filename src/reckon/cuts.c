#include "reckon/cuts.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum { LINES_MOST = CUT_NEEDS_MOST + 2 * CUT_SET_MOST };

/* a constraint: the sum of at[i] * x[i] is `least` or more */
struct line {
    double at[CUT_SET_MOST];
    double least;
};

struct corner_search {
    size_t things, lines;
    size_t needs;        /* the first so many lines are needs; then each thing cut whole */
    size_t corner_lines; /* the first so many lines make corners */
    struct line line[LINES_MOST];
    double weight[CUT_SET_MOST];
    double best; /* weight of what is held, INFINITY at first */
    double held[CUT_SET_MOST];
};

/* solves the square system of the chosen lines; false when they do not meet in one point */
static bool
meet(const struct corner_search *s, const size_t *chosen, double x[CUT_SET_MOST])
{
    double m[CUT_SET_MOST][CUT_SET_MOST + 1];
    const size_t n = s->things;
    for (size_t r = 0; r < n; r++) {
        memcpy(m[r], s->line[chosen[r]].at, sizeof s->line[0].at);
        m[r][n] = s->line[chosen[r]].least;
    }
    for (size_t c = 0; c < n; c++) {
        size_t pivot = c;
        for (size_t r = c + 1; r < n; r++)
            if (fabs(m[r][c]) > fabs(m[pivot][c]))
                pivot = r;
        if (fabs(m[pivot][c]) < 1e-12)
            return false;
        for (size_t k = 0; k <= n && pivot != c; k++) {
            double swap = m[c][k];
            m[c][k] = m[pivot][k];
            m[pivot][k] = swap;
        }
        for (size_t r = 0; r < n; r++) {
            double by = r == c ? 0 : m[r][c] / m[c][c];
            for (size_t k = c; k <= n; k++)
                m[r][k] -= by * m[c][k];
        }
    }
    for (size_t c = 0; c < n; c++)
        x[c] = m[c][n] / m[c][c];
    return true;
}

static bool
holds_all(const struct corner_search *s, const double x[CUT_SET_MOST])
{
    for (size_t l = 0; l < s->lines; l++) {
        double sum = 0;
        for (size_t i = 0; i < s->things; i++)
            sum += s->line[l].at[i] * x[i];
        if (sum < s->line[l].least - 1e-9)
            return false;
    }
    return true;
}

/* A corner and the ways out of it: along edge[k] the chosen line k gains 1 and all the others stay
 * as they are. */
struct vertex {
    size_t chosen[CUT_SET_MOST];
    double x[CUT_SET_MOST];
    double edge[CUT_SET_MOST][CUT_SET_MOST];
};

/* a corner counts as clear only where all that decides it is larger than this */
static const double CLEAR = 1e-4;

static double
along(const struct corner_search *s, const double *coefficients, const double *x)
{
    double sum = 0;
    for (size_t i = 0; i < s->things; i++)
        sum += coefficients[i] * x[i];
    return sum;
}

static bool
is_chosen(const struct corner_search *s, const struct vertex *v, size_t line)
{
    for (size_t k = 0; k < s->things; k++)
        if (v->chosen[k] == line)
            return true;
    return false;
}

/* the edge that lowers the cost most; CUT_SET_MOST where none does */
static size_t
steepest(const struct corner_search *s, const struct vertex *v)
{
    size_t best = CUT_SET_MOST;
    double least = 0;
    for (size_t k = 0; k < s->things; k++) {
        const double cost = along(s, s->weight, v->edge[k]);
        if (cost < least) {
            least = cost;
            best = k;
        }
    }
    return best;
}

/* goes along an edge to the next corner; false where no line that makes corners clearly ends it */
static bool
step(const struct corner_search *s, struct vertex *v, size_t edge)
{
    size_t end = s->lines;
    double length = INFINITY, rate = 0;
    for (size_t l = 0; l < s->lines; l++) {
        const double falls = -along(s, s->line[l].at, v->edge[edge]);
        if (!(falls > 0) || is_chosen(s, v, l))
            continue;
        const double reach = fmax(0, along(s, s->line[l].at, v->x) - s->line[l].least) / falls;
        if (reach < length) {
            length = reach;
            end = l;
            rate = -falls;
        }
    }
    if (end >= s->corner_lines || rate > -CLEAR)
        return false;
    for (size_t i = 0; i < s->things; i++) {
        v->x[i] += length * v->edge[edge][i];
        v->edge[edge][i] /= rate;
    }
    for (size_t k = 0; k < s->things; k++) {
        const double by = along(s, s->line[end].at, v->edge[k]);
        for (size_t i = 0; k != edge && i < s->things; i++)
            v->edge[k][i] -= by * v->edge[edge][i];
    }
    v->chosen[edge] = end;
    return true;
}

/* whether nothing else comes near: no other line is all but met, and every way out costs */
static bool
is_clear(const struct corner_search *s, const struct vertex *v)
{
    const double whole = along(s, s->weight, (const double[CUT_SET_MOST]){1, 1, 1, 1});
    for (size_t k = 0; k < s->things; k++)
        if (along(s, s->weight, v->edge[k]) < CLEAR * whole)
            return false;
    for (size_t l = 0; l < s->lines; l++)
        if (!is_chosen(s, v, l) && along(s, s->line[l].at, v->x) < s->line[l].least + CLEAR)
            return false;
    return true;
}

/* From where all is cut whole down along the edges, as long as that costs less: the corner that is
 * left is the least. False where it is not clear of others, so that the order in which corners are
 * tried decides. */
static bool
descend(const struct corner_search *s, size_t *chosen)
{
    enum { STEPS_MOST = 24 };
    struct vertex v;
    memset(&v, 0, sizeof v);
    for (size_t i = 0; i < s->things; i++) {
        v.chosen[i] = s->needs + i;
        v.x[i] = 1;
        v.edge[i][i] = -1;
    }
    for (int steps = 0; steps < STEPS_MOST; steps++) {
        const size_t edge = steepest(s, &v);
        if (edge < CUT_SET_MOST && !step(s, &v, edge))
            return false;
        if (edge < CUT_SET_MOST)
            continue;
        if (!is_clear(s, &v))
            return false;
        size_t count = 0; /* in order, as they are tried one by one */
        for (size_t l = 0; l < s->corner_lines; l++)
            if (is_chosen(s, &v, l))
                chosen[count++] = l;
        return count == s->things;
    }
    return false;
}

static void
try_corner(struct corner_search *s, const size_t *chosen)
{
    double x[CUT_SET_MOST], cost = 0;
    if (!meet(s, chosen, x) || !holds_all(s, x))
        return;
    for (size_t i = 0; i < s->things; i++)
        cost += x[i] * s->weight[i];
    if (cost < s->best - 1e-12) {
        s->best = cost;
        memcpy(s->held, x, sizeof s->held);
    }
}

/* The least of a linear cost over a bounded polytope lies on a corner: all of them are tried, but
 * those where a thing is not cut at all: a smaller set would do, and none did. */
static void
try_corners(struct corner_search *s, size_t *chosen, size_t depth, size_t from)
{
    if (depth < s->things) {
        for (size_t l = from; l < s->corner_lines; l++) {
            chosen[depth] = l;
            try_corners(s, chosen, depth + 1, l + 1);
        }
        return;
    }
    try_corner(s, chosen);
}

static void
add_line(struct corner_search *s, size_t thing, double at, double least)
{
    struct line *line = &s->line[s->lines++];
    memset(line, 0, sizeof *line);
    line->at[thing] = at;
    line->least = least;
}

/* whether cutting all of the set meets every need */
static bool
set_suffices(const struct cut_problem *p, const size_t *set, size_t size)
{
    for (size_t n = 0; n < p->needs; n++) {
        double sum = 0;
        for (size_t i = 0; i < size; i++)
            sum += p->effect[set[i]][n];
        if (sum < p->need[n] - 1e-12)
            return false;
    }
    return true;
}

/* how many things at least meet a need, those that bring most of it first */
static size_t
least_things(const struct cut_problem *p, size_t need)
{
    double most[CUT_SET_MOST] = {0}, sum = 0;
    for (size_t i = 0; i < p->things; i++) {
        double effect = p->effect[i][need];
        for (size_t k = 0; k < CUT_SET_MOST; k++)
            if (effect > most[k]) {
                const double less = most[k];
                most[k] = effect;
                effect = less;
            }
    }
    size_t size = 0;
    while (size < CUT_SET_MOST && sum < p->need[need] - 1e-9)
        sum += most[size++];
    return sum < p->need[need] - 1e-9 ? SIZE_MAX : size;
}

/* no smaller set than of so many things meets all needs */
static size_t
least_size(const struct cut_problem *p)
{
    size_t size = 1;
    for (size_t n = 0; n < p->needs && size <= CUT_SET_MOST; n++) {
        const size_t least = least_things(p, n);
        size = least > size ? least : size;
    }
    return size;
}

/* the least weight that meets one need alone, what brings most for its weight cut first */
static double
least_for(const struct cut_problem *p, const size_t *set, size_t size, size_t need)
{
    bool taken[CUT_SET_MOST] = {false};
    double left = p->need[need], weight = 0;
    for (size_t step = 0; step < size && left > 0; step++) {
        size_t pick = size;
        for (size_t i = 0; i < size; i++)
            if (!taken[i] && (pick == size || p->effect[set[i]][need] * p->weight[set[pick]] >
                                                  p->effect[set[pick]][need] * p->weight[set[i]]))
                pick = i;
        const double effect = p->effect[set[pick]][need];
        if (effect >= left) /* and nothing is left, whatever rounding makes of it */
            return weight + p->weight[set[pick]] * (left / effect);
        taken[pick] = true;
        left -= effect;
        weight += p->weight[set[pick]];
    }
    return weight;
}

/* false: some need alone takes as much as the best set does */
static bool
may_better(const struct cut_problem *p, const size_t *set, size_t size, double best)
{
    for (size_t n = 0; best < INFINITY && n < p->needs; n++)
        if (least_for(p, set, size, n) > best * (1 + 1e-6) + 1e-6)
            return false;
    return true;
}

static bool
try_set(const struct cut_problem *p, const size_t *set, size_t size, double *best,
        double cut[CUT_THINGS_MOST])
{
    if (!set_suffices(p, set, size) || !may_better(p, set, size, *best))
        return false;
    struct corner_search s; /* of its lines, those that are laid */
    s.lines = 0;
    s.things = size;
    s.best = INFINITY;
    for (size_t n = 0; n < p->needs; n++) {
        struct line *line = &s.line[s.lines++];
        for (size_t i = 0; i < size; i++)
            line->at[i] = p->effect[set[i]][n];
        line->least = p->need[n];
    }
    s.needs = s.lines;
    for (size_t i = 0; i < size; i++) {
        s.weight[i] = p->weight[set[i]];
        add_line(&s, i, -1, -1);
    }
    s.corner_lines = s.lines;
    for (size_t i = 0; i < size; i++)
        add_line(&s, i, 1, 0);
    size_t chosen[CUT_SET_MOST];
    if (descend(&s, chosen))
        try_corner(&s, chosen);
    else
        try_corners(&s, chosen, 0, 0);
    if (!(s.best < *best))
        return false;
    *best = s.best;
    memset(cut, 0, CUT_THINGS_MOST * sizeof *cut);
    for (size_t i = 0; i < size; i++)
        cut[set[i]] = fmin(1, fmax(0, s.held[i]));
    return true;
}

/* all sets of `size` things out of those from `from` on */
static bool
try_sets(const struct cut_problem *p, size_t *set, size_t depth, size_t size, size_t from,
         double *best, double cut[CUT_THINGS_MOST])
{
    if (depth == size)
        return try_set(p, set, size, best, cut);
    bool any = false;
    for (size_t i = from; i < p->things; i++) {
        set[depth] = i;
        any = try_sets(p, set, depth + 1, size, i + 1, best, cut) || any;
    }
    return any;
}

/* whether what meets need a always meets need b */
static bool
need_covers(const struct cut_problem *p, size_t a, size_t b)
{
    for (size_t i = 0; i < p->things; i++)
        if (p->effect[i][b] * p->need[a] < p->effect[i][a] * p->need[b])
            return false;
    return true;
}

/* the problem without the needs that another one covers: each line more multiplies the corners */
static void
leave_covered(const struct cut_problem *all, struct cut_problem *out)
{
    out->things = all->things;
    out->needs = 0;
    memcpy(out->weight, all->weight, sizeof out->weight);
    for (size_t n = 0; n < all->needs; n++) {
        bool covered = false;
        for (size_t k = 0; k < all->needs && !covered; k++)
            covered = k != n && need_covers(all, k, n) && (k < n || !need_covers(all, n, k));
        if (covered)
            continue;
        for (size_t i = 0; i < all->things; i++)
            out->effect[i][out->needs] = all->effect[i][n];
        out->need[out->needs++] = all->need[n];
    }
}

bool
cuts_fewest(const struct cut_problem *all, double cut[CUT_THINGS_MOST])
{
    struct cut_problem p;
    leave_covered(all, &p);
    memset(cut, 0, CUT_THINGS_MOST * sizeof *cut);
    for (size_t size = least_size(&p); size <= CUT_SET_MOST && size <= p.things; size++) {
        size_t set[CUT_SET_MOST];
        double best = INFINITY;
        if (try_sets(&p, set, 0, size, 0, &best, cut))
            return true;
    }
    return false;
}
