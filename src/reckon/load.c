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

struct bounds { /* g that what is not known can add at most */
    double grams[GROUPS];
};

static const struct figure *
desk_limit(struct limit_desk *desk, enum group g, enum food_class c)
{
    if (!desk->asked[g][c]) {
        desk->asked[g][c] = true;
        desk->limits[g][c] = limit_for(desk->phase, g, c, desk->reads);
    }
    return desk->limits[g][c];
}

static const struct figure *
desk_fresh(struct limit_desk *desk)
{
    if (!desk->fresh_asked) {
        desk->fresh_asked = true;
        desk->fresh = limit_fresh(desk->phase, EXCESS_FRUCTOSE, desk->reads);
    }
    return desk->fresh;
}

double
load_limit(const struct figure *limit)
{
    return fmax(limit->span.mid, 1e-6);
}

static bool
is_nothing(struct span s)
{
    return s.high <= 0;
}

/* what one base group brings: its load where the content is known, else its bound */
static void
load_base(const struct helping *h, enum group g, const struct tables *t, struct reads *reads,
          struct helping_load *out, struct bounds *bounds)
{
    const bool weighed = h->weighing.known;
    const struct figure *content = h->food == NULL ? NULL : food_content(h->food, g, reads);
    if (content != NULL && figure_known(content)) {
        out->content[g] = content;
        out->known[g] = weighed || is_nothing(content->span);
        if (is_nothing(content->span))
            return; /* as with most groups of most foods */
        out->load[g] = span_scale(span_times(out->grams, content->span), 0.01);
        if (weighed && !h->weighing.unmeasured)
            return;
        /* "plus extra" without an amount is taken as at most as much again */
        bounds->grams[g] = weighed ? out->load[g].high : INFINITY;
        return;
    }
    bounds->grams[g] = INFINITY;
    if (h->food == NULL || !weighed)
        return;
    const struct figure *most = larder_class_most(t->larder, h->food->food_class, g, reads);
    if (most != NULL && figure_known(most))
        bounds->grams[g] =
            out->grams.high * (h->weighing.unmeasured ? 2 : 1) * most->span.high / 100;
}

static const struct figure *
sum_figure(struct arena *a, const struct figure *first, const struct figure *second)
{
    struct figure *sum = arena_take(a, sizeof *sum);
    sum->span = span_add(first->span, second->span);
    sum->source = "the sum of its two parts";
    /* a sum is no better founded than the weaker of its parts; the weaker stands later */
    sum->basis = BASIS_CALCULATED;
    if (first->basis > sum->basis)
        sum->basis = first->basis;
    if (second->basis > sum->basis)
        sum->basis = second->basis;
    return sum;
}

static void
load_sum(struct arena *a, const struct helping *h, const struct sum_group *s, struct reads *reads,
         struct helping_load *out, struct bounds *bounds)
{
    const enum group parts[2] = {s->first, s->second};
    if (out->content[s->first] != NULL && out->content[s->second] != NULL) {
        out->content[s->sum] = sum_figure(a, out->content[s->first], out->content[s->second]);
        out->known[s->sum] = out->known[s->first] && out->known[s->second];
        out->load[s->sum] = span_add(out->load[s->first], out->load[s->second]);
        bounds->grams[s->sum] = bounds->grams[s->first] + bounds->grams[s->second];
        return;
    }
    const struct figure *total = h->food == NULL ? NULL : food_content(h->food, s->sum, reads);
    if (total == NULL || !figure_known(total)) {
        /* the part that is known is carried for certain, the other adds its bound */
        out->load[s->sum] = span_add(out->load[s->first], out->load[s->second]);
        bounds->grams[s->sum] = bounds->grams[s->first] + bounds->grams[s->second];
        return;
    }
    out->content[s->sum] = total;
    out->known[s->sum] = h->weighing.known || is_nothing(total->span);
    out->load[s->sum] = span_scale(span_times(out->grams, total->span), 0.01);
    if (!is_nothing(total->span) && (!h->weighing.known || h->weighing.unmeasured))
        bounds->grams[s->sum] = h->weighing.known ? out->load[s->sum].high : INFINITY;
    for (size_t i = 0; i < 2; i++)
        if (out->content[parts[i]] == NULL)
            bounds->grams[parts[i]] =
                fmin(bounds->grams[parts[i]], out->load[s->sum].high + bounds->grams[s->sum]);
}

static void
share_out(const struct helping *h, struct limit_desk *desk, struct helping_load *out,
          const struct bounds *bounds)
{
    const enum food_class c = h->food == NULL ? CLASS_OTHER : h->food->food_class;
    for (enum group g = 0; g < GROUPS; g++) {
        if (is_nothing(out->load[g]) && bounds->grams[g] <= 0)
            continue;
        const struct figure *limit = desk_limit(desk, g, c);
        if (limit == NULL)
            continue;
        out->limit[g] = limit;
        const double grams = load_limit(limit);
        out->share[g] = span_scale(out->load[g], 1 / grams);
        out->bound[g] = bounds->grams[g] / grams;
    }
    out->fresh_share = out->share[EXCESS_FRUCTOSE];
    out->fresh_bound = out->bound[EXCESS_FRUCTOSE];
    if (out->limit[EXCESS_FRUCTOSE] == NULL || h->food == NULL || !h->food->fresh)
        return;
    const struct figure *fresh = desk_fresh(desk);
    if (fresh == NULL)
        return;
    out->fresh = true;
    out->fresh_share = span_scale(out->load[EXCESS_FRUCTOSE], 1 / load_limit(fresh));
    out->fresh_bound = bounds->grams[EXCESS_FRUCTOSE] / load_limit(fresh);
}

/* puts a serve's share in place of what the composition gives its group (and the sum it is in) */
static void
take_serve(struct span serve_share, const struct helping *h, struct limit_desk *desk,
           struct helping_load *out)
{
    const enum group g = h->food->serve_group;
    const struct figure *limit = desk_limit(desk, g, h->food->food_class);
    out->serve_used = true;
    out->known[g] = true;
    out->bound[g] = h->weighing.unmeasured ? serve_share.high : 0;
    out->limit[g] = limit;
    out->share[g] = serve_share;
    const bool composed = out->content[g] != NULL;
    out->load[g] = span_scale(serve_share, load_limit(limit));
    if (g == EXCESS_FRUCTOSE) {
        out->fresh_share = serve_share;
        out->fresh_bound = out->bound[g];
    }
    for (size_t i = 0; i < SUM_GROUPS; i++) {
        const struct sum_group *s = &sum_groups[i];
        /* a total that has a figure of its own stays */
        if ((s->first != g && s->second != g) || (!composed && out->content[s->sum] != NULL))
            continue;
        const enum group other = s->first == g ? s->second : s->first;
        out->load[s->sum] = span_add(out->load[g], out->load[other]);
        out->known[s->sum] = true;
        out->bound[s->sum] = 0;
        const struct figure *sum_limit = desk_limit(desk, s->sum, h->food->food_class);
        out->limit[s->sum] = sum_limit;
        if (sum_limit != NULL)
            out->share[s->sum] = span_scale(out->load[s->sum], 1 / load_limit(sum_limit));
    }
}

/* a serve holds for the limits as published; a reader's own wider limit widens it alike */
static double
serve_multiple(const struct limit_desk *desk, enum group g, enum food_class c,
               const struct figure *limit)
{
    if (desk->phase == desk->published)
        return 1;
    const struct figure *published = limit_for(desk->published, g, c, desk->reads);
    return published == NULL ? 1 : load_limit(limit) / load_limit(published);
}

/* A serve that was tested as suitable was tested with all that is in it: no group of it passes its
 * limit at that serve, so a group without a figure adds at most grams / serve. */
static void
heed_serve(const struct helping *h, struct limit_desk *desk, struct reads *reads,
           struct helping_load *out)
{
    const struct figure *serve = h->food == NULL ? NULL : food_tested_serve(h->food, reads);
    if (serve == NULL || !figure_known(serve) || serve->span.low <= 0 || !h->weighing.known ||
        is_nothing(out->grams))
        return;
    const enum group g = h->food->serve_group;
    const struct figure *limit = desk_limit(desk, g, h->food->food_class);
    if (limit != NULL) {
        double multiple = serve_multiple(desk, g, h->food->food_class, limit);
        struct span share = span_scale(span_over(out->grams, serve->span), 1 / multiple);
        bool disagrees = false, stricter = false;
        if (out->content[g] != NULL) {
            out->serve_share = span_scale(span_times(serve->span, out->content[g]->span),
                                          multiple / 100 / load_limit(limit));
            stricter = out->serve_share.high < SERVE_AGREES_FROM;
            disagrees = stricter || out->serve_share.low > 1;
        }
        out->serve_disagrees = disagrees;
        if (out->content[g] == NULL || stricter)
            take_serve(share, h, desk, out);
    }
    for (enum group k = 0; k < GROUPS; k++)
        if (out->content[k] == NULL && out->limit[k] != NULL && out->bound[k] > 0)
            out->bound[k] = fmin(out->bound[k], out->grams.high / serve->span.low *
                                                    (h->weighing.unmeasured ? 2 : 1));
}

void
load_reckon(struct arena *a, const struct helping *h, double divisor, const struct tables *t,
            struct limit_desk *desk, struct helping_load *out)
{
    struct bounds bounds;
    memset(&bounds, 0, sizeof bounds);
    if (h->weighing.known)
        out->grams = span_scale(h->eaten, 1 / divisor);
    for (size_t i = 0; i < BASE_GROUPS; i++)
        load_base(h, base_groups[i], t, desk->reads, out, &bounds);
    for (size_t i = 0; i < SUM_GROUPS; i++)
        load_sum(a, h, &sum_groups[i], desk->reads, out, &bounds);
    share_out(h, desk, out, &bounds);
    heed_serve(h, desk, desk->reads, out);
    for (enum group g = 0; g < GROUPS; g++)
        out->trace[g] = out->bound[g] > 0 && out->bound[g] <= 1 + 1e-9;
    /* a sum holds its parts; lactose stays aside, and what a reader has lifted with it */
    static const enum group counted[] = {EXCESS_FRUCTOSE, OLIGOSACCHARIDES, POLYOLS};
    for (size_t i = 0; i < 3; i++) {
        if (desk->phase->groups[counted[i]].lifted)
            continue;
        if (!is_nothing(out->load[counted[i]]))
            out->sitting = span_add(out->sitting, out->load[counted[i]]);
        out->sitting_unknown = out->sitting_unknown ||
                               (bounds.grams[counted[i]] > 0 && out->bound[counted[i]] > 1 + 1e-9);
    }
}
