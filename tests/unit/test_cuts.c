/* The smallest cuts, against all corners of every set solved one by one. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "reckon/cuts.h"

enum { PROBLEMS = 1500, ROWS_MOST = CUT_NEEDS_MOST + CUT_SET_MOST };

struct set_problem {
    size_t size, rows;
    double at[ROWS_MOST][CUT_SET_MOST], least[ROWS_MOST], weight[CUT_SET_MOST];
};

static double
random_part(uint64_t *seed)
{
    *seed = *seed * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (double)(*seed >> 11) / 9007199254740992.0;
}

/* where the rows of `picks` are met exactly; false when they are in no one point */
static bool
solve(const struct set_problem *p, const size_t *picks, double x[CUT_SET_MOST])
{
    double m[CUT_SET_MOST][CUT_SET_MOST + 1];
    const size_t n = p->size;
    for (size_t r = 0; r < n; r++) {
        memcpy(m[r], p->at[picks[r]], sizeof p->at[0]);
        m[r][n] = p->least[picks[r]];
    }
    for (size_t c = 0; c < n; c++) {
        size_t best = c;
        for (size_t r = c; r < n; r++)
            best = fabs(m[r][c]) > fabs(m[best][c]) ? r : best;
        if (fabs(m[best][c]) < 1e-10)
            return false;
        for (size_t k = 0; k <= n; k++) {
            const double was = m[c][k];
            m[c][k] = m[best][k];
            m[best][k] = was;
        }
        for (size_t r = 0; r < n; r++) {
            const double by = r == c ? 0 : m[r][c] / m[c][c];
            for (size_t k = c; k <= n; k++)
                m[r][k] -= by * m[c][k];
        }
    }
    for (size_t c = 0; c < n; c++)
        x[c] = m[c][n] / m[c][c];
    return true;
}

static double
cost_of(const struct set_problem *p, const double *x)
{
    double cost = 0;
    for (size_t i = 0; i < p->size; i++) {
        if (x[i] < -1e-9)
            return INFINITY;
        cost += x[i] * p->weight[i];
    }
    for (size_t r = 0; r < p->rows; r++) {
        double sum = 0;
        for (size_t i = 0; i < p->size; i++)
            sum += p->at[r][i] * x[i];
        if (sum < p->least[r] - 1e-9)
            return INFINITY;
    }
    return cost;
}

static double
least_of_set(const struct set_problem *p, size_t *picks, size_t depth, size_t from)
{
    double best = INFINITY, x[CUT_SET_MOST];
    if (depth == p->size)
        return solve(p, picks, x) ? cost_of(p, x) : INFINITY;
    for (size_t r = from; r < p->rows; r++) {
        picks[depth] = r;
        best = fmin(best, least_of_set(p, picks, depth + 1, r + 1));
    }
    return best;
}

/* the least that a set of so many things costs; `set` bits: the things */
static double
least_cost(const struct cut_problem *p, unsigned set)
{
    struct set_problem s;
    memset(&s, 0, sizeof s);
    size_t picks[CUT_SET_MOST];
    for (size_t i = 0; i < p->things; i++) {
        if ((set >> i & 1) == 0)
            continue;
        for (size_t n = 0; n < p->needs; n++)
            s.at[n][s.size] = p->effect[i][n];
        s.weight[s.size++] = p->weight[i];
    }
    memcpy(s.least, p->need, p->needs * sizeof *p->need);
    s.rows = p->needs;
    for (size_t i = 0; i < s.size; i++) { /* no more of a thing than the whole */
        s.at[s.rows][i] = -1;
        s.least[s.rows++] = -1;
    }
    return least_of_set(&s, picks, 0, 0);
}

static size_t
bits_of(unsigned set)
{
    size_t count = 0;
    for (; set != 0; set &= set - 1)
        count++;
    return count;
}

/* the fewest things that do, and the least that so many cost; 0 where CUT_SET_MOST do not */
static size_t
fewest(const struct cut_problem *p, double *cost)
{
    for (size_t size = 1; size <= CUT_SET_MOST; size++) {
        *cost = INFINITY;
        for (unsigned set = 0; set < 1u << p->things; set++)
            if (bits_of(set) == size)
                *cost = fmin(*cost, least_cost(p, set));
        if (*cost < INFINITY)
            return size;
    }
    return 0;
}

static void
make(struct cut_problem *p, uint64_t *seed)
{
    memset(p, 0, sizeof *p);
    p->things = 2 + (size_t)(random_part(seed) * 4);
    p->needs = 1 + (size_t)(random_part(seed) * 4);
    for (size_t n = 0; n < p->needs; n++) {
        double whole = 0;
        for (size_t i = 0; i < p->things; i++) {
            p->effect[i][n] = random_part(seed) < 0.3 ? 0 : random_part(seed) * 2;
            whole += p->effect[i][n];
        }
        p->need[n] = 0.01 + whole * random_part(seed) * 0.95;
    }
    for (size_t i = 0; i < p->things; i++) /* alike now and then, so that corners cost the same */
        p->weight[i] = random_part(seed) < 0.2 ? 50 : 0.01 + random_part(seed) * 300;
}

static void
cuts_are_the_fewest_and_cost_least(void **state)
{
    (void)state;
    uint64_t seed = 20260314;
    size_t solved = 0;
    for (int k = 0; k < PROBLEMS; k++) {
        struct cut_problem p;
        double cut[CUT_THINGS_MOST], cost, least, met = 0;
        make(&p, &seed);
        const size_t size = fewest(&p, &least);
        const bool found = cuts_fewest(&p, cut);
        if (found != (size > 0))
            fail_msg("problem %d: found %d, fewest %zu", k, found, size);
        if (!found)
            continue;
        solved++;
        size_t count = 0;
        cost = 0;
        for (size_t i = 0; i < p.things; i++) {
            count += cut[i] > 1e-9;
            cost += cut[i] * p.weight[i];
            assert_true(cut[i] >= 0 && cut[i] <= 1);
        }
        for (size_t n = 0; n < p.needs; n++, met = 0) {
            for (size_t i = 0; i < p.things; i++)
                met += cut[i] * p.effect[i][n];
            assert_true(met >= p.need[n] - 1e-6);
        }
        if (count > size || fabs(cost - least) > 1e-6 * (1 + least))
            fail_msg("problem %d: %zu things at %.9g, not %zu at %.9g", k, count, cost, size,
                     least);
    }
    assert_true(solved > PROBLEMS / 2);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(cuts_are_the_fewest_and_cost_least)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
