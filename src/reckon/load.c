#include "reckon/load.h"

#include <math.h>
#include <string.h>

static const enum group base_groups[] = {
    LACTOSE, EXCESS_FRUCTOSE, FRUCTAN, GALACTO_OLIGOSACCHARIDE, SORBITOL, MANNITOL};
enum { BASE_GROUPS = sizeof base_groups / sizeof *base_groups };

static const struct sum_group {
    enum group sum, first, second;
} sum_groups[] = {{OLIGOSACCHARIDES, FRUCTAN, GALACTO_OLIGOSACCHARIDE},
                  {POLYOLS, SORBITOL, MANNITOL}};
enum { SUM_GROUPS = sizeof sum_groups / sizeof *sum_groups };

/* a composition and a tested serve exclude each other where the composition brings a serve wholly
 * over the limit, or wholly under this part of it */
static const double SERVE_AGREES_FROM = 0.5;

/* the limit of a group for a food's class, read from the desk's phase; or NULL */
static const struct figure *
limit_scope_limit(const struct limit_scope *limit_scope, enum group g, enum food_class c)
{
    return limit_for(limit_scope->phase, g, c, limit_scope->reads);
}

static bool
is_nothing(struct span s)
{
    return s.high <= 0;
}

static bool
is_told(const struct helping_load *l, enum group g)
{
    return (l->told >> g & 1) != 0;
}

static bool
is_composed(const struct helping_load *l, enum group g)
{
    return (l->composed >> g & 1) != 0;
}

static void
mark(uint8_t *bits, enum group g)
{
    *bits = (uint8_t)(*bits | 1u << g);
}

/* the class whose most bounds what nobody knows: the lactose of what milk may have gone into is
 * bounded by milk foods, whatever else it is made of */
static enum food_class
bounding_class(const struct food *f, enum group g)
{
    const bool milk = ((f->allergens | f->may_carry) >> ALLERGEN_MILK & 1) != 0;
    return g == LACTOSE && milk ? CLASS_DAIRY : f->food_class;
}

/* what a base group brings of which something is there, or nobody knows how much: its load where
 * the content is known, else its bound */
static void
load_base(const struct helping *h, enum group g, const struct figure *content,
          const struct tables *t, struct reads *reads, struct helping_load *out)
{
    const bool weighed = h->weighing.known;
    mark(&out->composed, g);
    if (content != NULL && figure_known(content)) {
        mark(&out->told, g);
        out->known[g] = weighed;
        out->columns[g].load = span_scale(span_times(out->grams, content->span), 0.01);
        if (weighed && !h->weighing.unmeasured)
            return;
        /* "plus extra" without an amount is taken as at most as much again */
        out->open[g] = weighed ? out->columns[g].load.high : INFINITY;
        return;
    }
    out->open[g] = INFINITY;
    if (content == NULL || !weighed)
        return;
    const struct figure *most = larder_class_most(t->larder, bounding_class(h->food, g), g, reads);
    if (most != NULL && figure_known(most))
        out->open[g] = out->grams.high * (h->weighing.unmeasured ? 2 : 1) * most->span.high / 100;
}

static void
load_bases(const struct helping *h, const struct tables *t, struct reads *reads,
           struct helping_load *out)
{
    for (size_t i = 0; i < BASE_GROUPS; i++) {
        const enum group g = base_groups[i];
        const struct figure *content = h->food == NULL ? NULL : food_content(h->food, g, reads);
        if (content == NULL || content->basis == BASIS_NONE || !is_nothing(content->span)) {
            load_base(h, g, content, t, reads, out);
            continue;
        }
        mark(&out->told, g); /* nothing in it, as with most groups of most foods */
        out->known[g] = true;
    }
}

static struct figure
sum_figure(const struct figure *first, const struct figure *second)
{
    struct figure sum = {.span = span_add(first->span, second->span),
                         .source = "the sum of its two parts",
                         /* no better founded than the weaker of its parts; the weaker stands later
                          */
                         .basis = BASIS_CALCULATED};
    if (first->basis > sum.basis)
        sum.basis = first->basis;
    if (second->basis > sum.basis)
        sum.basis = second->basis;
    return sum;
}

/* the figure that a told content is, by value: a sum has none of its own where its parts are told
 */
static struct figure
told_content(const struct helping *h, const struct helping_load *l, enum group g)
{
    for (size_t i = 0; i < SUM_GROUPS; i++) {
        const struct sum_group *s = &sum_groups[i];
        if (s->sum == g && is_told(l, s->first) && is_told(l, s->second))
            return sum_figure(&h->food->contents[s->first], &h->food->contents[s->second]);
    }
    return h->food->contents[g];
}

const struct figure *
load_content(struct arena *a, const struct helping *h, const struct helping_load *l, enum group g)
{
    if (!is_told(l, g))
        return NULL;
    struct figure *content = arena_take(a, sizeof *content);
    *content = told_content(h, l, g);
    return content;
}

static void
load_sum(const struct helping *h, const struct sum_group *s, struct reads *reads,
         struct helping_load *out)
{
    const enum group parts[2] = {s->first, s->second};
    const bool parts_told = is_told(out, s->first) && is_told(out, s->second);
    if (parts_told) {
        mark(&out->told, s->sum);
        out->known[s->sum] = out->known[s->first] && out->known[s->second];
        if (!is_composed(out, s->first) && !is_composed(out, s->second))
            return;
    }
    mark(&out->composed, s->sum);
    const struct figure *total =
        parts_told || h->food == NULL ? NULL : food_content(h->food, s->sum, reads);
    if (total == NULL || !figure_known(total)) {
        /* of parts that are not told: the one that is known is carried for certain, the other adds
         * its bound */
        out->columns[s->sum].load =
            span_add(out->columns[s->first].load, out->columns[s->second].load);
        out->open[s->sum] = out->open[s->first] + out->open[s->second];
        return;
    }
    mark(&out->told, s->sum);
    out->known[s->sum] = h->weighing.known || is_nothing(total->span);
    out->columns[s->sum].load = span_scale(span_times(out->grams, total->span), 0.01);
    if (!is_nothing(total->span) && (!h->weighing.known || h->weighing.unmeasured))
        out->open[s->sum] = h->weighing.known ? out->columns[s->sum].load.high : INFINITY;
    for (size_t i = 0; i < 2; i++)
        if (!is_told(out, parts[i]))
            out->open[parts[i]] =
                fmin(out->open[parts[i]], out->columns[s->sum].load.high + out->open[s->sum]);
}

static void
share_out(const struct helping *h, const struct limit_scope *limit_scope, struct helping_load *out)
{
    const enum food_class c = h->food == NULL ? CLASS_OTHER : h->food->food_class;
    for (enum group g = 0; g < GROUPS; g++) {
        if (!is_composed(out, g) || (is_nothing(out->columns[g].load) && out->open[g] <= 0))
            continue;
        const struct figure *limit = limit_scope_limit(limit_scope, g, c);
        if (limit == NULL)
            continue;
        out->columns[g].limit = limit;
        const double grams = load_limit(limit);
        out->columns[g].share = span_scale(out->columns[g].load, 1 / grams);
        out->columns[g].bound = out->open[g] / grams;
    }
    out->fresh_share = out->columns[EXCESS_FRUCTOSE].share;
    out->fresh_bound = out->columns[EXCESS_FRUCTOSE].bound;
    if (out->columns[EXCESS_FRUCTOSE].limit == NULL || h->food == NULL || !h->food->fresh)
        return;
    const struct figure *fresh =
        limit_fresh(limit_scope->phase, EXCESS_FRUCTOSE, limit_scope->reads);
    if (fresh == NULL)
        return;
    out->fresh = true;
    out->fresh_share = span_scale(out->columns[EXCESS_FRUCTOSE].load, 1 / load_limit(fresh));
    out->fresh_bound = out->open[EXCESS_FRUCTOSE] / load_limit(fresh);
}

/* puts a serve's share in place of what the composition gives its group (and the sum it is in) */
static void
take_serve(struct span serve_share, const struct helping *h, const struct limit_scope *limit_scope,
           struct helping_load *out)
{
    const enum group g = h->food->serve_group;
    const struct figure *limit = limit_scope_limit(limit_scope, g, h->food->food_class);
    out->serve_used = true;
    out->known[g] = true;
    out->columns[g].bound = h->weighing.unmeasured ? serve_share.high : 0;
    out->columns[g].limit = limit;
    out->columns[g].share = serve_share;
    const bool composed = is_told(out, g);
    mark(&out->composed, g);
    out->columns[g].load = span_scale(serve_share, load_limit(limit));
    if (g == EXCESS_FRUCTOSE) {
        out->fresh_share = serve_share;
        out->fresh_bound = out->columns[g].bound;
    }
    for (size_t i = 0; i < SUM_GROUPS; i++) {
        const struct sum_group *s = &sum_groups[i];
        /* a total that has a figure of its own stays */
        if ((s->first != g && s->second != g) || (!composed && is_told(out, s->sum)))
            continue;
        const enum group other = s->first == g ? s->second : s->first;
        mark(&out->composed, s->sum);
        out->columns[s->sum].load = span_add(out->columns[g].load, out->columns[other].load);
        out->known[s->sum] = true;
        out->columns[s->sum].bound = 0;
        const struct figure *sum_limit =
            limit_scope_limit(limit_scope, s->sum, h->food->food_class);
        out->columns[s->sum].limit = sum_limit;
        if (sum_limit != NULL)
            out->columns[s->sum].share =
                span_scale(out->columns[s->sum].load, 1 / load_limit(sum_limit));
    }
}

/* a serve holds for the limits as published; a reader's own wider limit widens it alike */
static double
serve_multiple(const struct limit_scope *limit_scope, enum group g, enum food_class c,
               const struct figure *limit)
{
    if (limit_scope->phase == limit_scope->published)
        return 1;
    const struct figure *published = limit_for(limit_scope->published, g, c, limit_scope->reads);
    return published == NULL ? 1 : load_limit(limit) / load_limit(published);
}

/* A serve that was tested as suitable was tested with all that is in it: no group of it passes its
 * limit at that serve, so a group without a figure adds at most grams / serve. */
static void
apply_serve(const struct helping *h, const struct limit_scope *limit_scope, struct reads *reads,
            struct helping_load *out)
{
    const struct figure *serve = h->food == NULL ? NULL : food_tested_serve(h->food, reads);
    if (serve == NULL || !figure_known(serve) || serve->span.low <= 0 || !h->weighing.known ||
        is_nothing(out->grams))
        return;
    const enum group g = h->food->serve_group;
    const struct figure *limit = limit_scope_limit(limit_scope, g, h->food->food_class);
    if (limit != NULL) {
        double multiple = serve_multiple(limit_scope, g, h->food->food_class, limit);
        struct span share = span_scale(span_over(out->grams, serve->span), 1 / multiple);
        bool disagrees = false, stricter = false;
        if (is_told(out, g)) {
            const struct figure content = told_content(h, out, g);
            out->serve_share = span_scale(span_times(serve->span, content.span),
                                          multiple / 100 / load_limit(limit));
            stricter = out->serve_share.high < SERVE_AGREES_FROM;
            disagrees = stricter || out->serve_share.low > 1;
        }
        out->serve_disagrees = disagrees;
        if (!is_told(out, g) || stricter)
            take_serve(share, h, limit_scope, out);
    }
    for (enum group k = 0; k < GROUPS; k++)
        if (!is_told(out, k) && out->columns[k].limit != NULL && out->columns[k].bound > 0)
            out->columns[k].bound =
                fmin(out->columns[k].bound,
                     out->grams.high / serve->span.low * (h->weighing.unmeasured ? 2 : 1));
}

/* what counts towards the total of a sitting. A sum holds its parts; lactose stays aside, and what
 * a reader has lifted with it. */
static void
count_sitting(const struct limit_scope *limit_scope, struct helping_load *out)
{
    static const enum group counted[] = {EXCESS_FRUCTOSE, OLIGOSACCHARIDES, POLYOLS};
    for (size_t i = 0; i < 3; i++) {
        const enum group g = counted[i];
        if (!is_composed(out, g) || limit_scope->phase->groups[g].lifted)
            continue;
        if (!is_nothing(out->columns[g].load))
            out->columns[SITTING].load = span_add(out->columns[SITTING].load, out->columns[g].load);
        if (out->open[g] > 0 && out->columns[g].bound > 1 + 1e-9) /* an unknown amount, no trace */
            out->columns[SITTING].bound = INFINITY;
    }
}

/* from what a helping brings to how that stands to the limits of a phase */
static void
load_finish(const struct helping *h, const struct limit_scope *limit_scope,
            struct helping_load *out)
{
    if (out->composed != 0)
        share_out(h, limit_scope, out);
    apply_serve(h, limit_scope, limit_scope->reads, out);
    if (out->composed == 0)
        return;
    count_sitting(limit_scope, out);
    for (size_t c = 0; c < COLUMNS; c++)
        if (!is_nothing(out->columns[c].load) || out->columns[c].bound > 0)
            out->touched = (uint16_t)(out->touched | 1u << c);
    for (enum group g = 0; load_groups(out) >> g != 0; g++)
        out->trace[g] = out->columns[g].bound > 0 && out->columns[g].bound <= 1 + 1e-9;
}

void
load_reckon(const struct helping *h, double divisor, const struct tables *t,
            const struct limit_scope *limit_scope, struct helping_load *out)
{
    memset(out, 0, sizeof *out);
    if (h->weighing.known)
        out->grams = span_scale(h->eaten, 1 / divisor);
    load_bases(h, t, limit_scope->reads, out);
    for (size_t i = 0; i < SUM_GROUPS; i++)
        load_sum(h, &sum_groups[i], limit_scope->reads, out);
    load_finish(h, limit_scope, out);
}
