#include "tables/food_kin.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "tables/larder_rows.h"

/* g per 100 g: what a zero stands for, that nobody gives a limit of detection for */
static const double ZERO_MOST = 0.01;
static const double Z975 = 1.9599639845400545;

/* one food's figure, as a value or as a bound that it lies below */
struct finding_of {
    double value;
    double most; /* the upper end of its spread */
    bool censored;
};

static bool
is_evidence(const struct food *f, enum group g)
{
    return figure_known(&f->contents[g]) && f->contents[g].basis != BASIS_PRACTICE &&
           (f->reckoned >> g & 1) == 0;
}

static struct finding_of
finding_of(const struct figure *f)
{
    if (f->kind == FIGURE_NONE || f->kind == FIGURE_BELOW || f->span.mid <= 0)
        return (struct finding_of){f->span.high > 0 ? f->span.high : ZERO_MOST,
                                   f->span.high > 0 ? f->span.high : ZERO_MOST, true};
    return (struct finding_of){f->span.mid, fmax(f->span.mid, f->span.high), false};
}

static int
by_value(const void *a, const void *b)
{
    const struct finding_of *one = a, *other = b;
    if (one->censored != other->censored)
        return one->censored ? -1 : 1;
    return (one->value > other->value) - (one->value < other->value);
}

/* the standard normal's quantile; Abramowitz and Stegun, Handbook of Mathematical Functions,
 * 26.2.23 (from memory), good to 0.0005 */
static double
normal_quantile(double p)
{
    const double t = sqrt(-2 * log(p < 0.5 ? p : 1 - p));
    const double z = t - (2.515517 + t * (0.802853 + t * 0.010328)) /
                             (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
    return p < 0.5 ? -z : z;
}

/* the logarithms of what was found, and the line through them over normal order statistics */
struct found_logs {
    double count, z, y, zz, zy, yy, most;
};

static struct found_logs
sum_logs(const struct finding_of *found, size_t count)
{
    struct found_logs s = {0, 0, 0, 0, 0, 0, 0};
    for (size_t i = 0; i < count; i++) {
        s.most = fmax(s.most, found[i].most);
        if (found[i].censored)
            continue;
        const double z = normal_quantile(((double)i + 1 - 0.375) / ((double)count + 0.25));
        const double y = log(found[i].value);
        s.count++;
        s.z += z, s.y += y, s.zz += z * z, s.zy += z * y, s.yy += y * y;
    }
    return s;
}

/* The regression of the logarithms on normal order statistics: what was not found takes the lowest
 * ranks, and the line goes through the rest (Helsel, Nondetects and Data Analysis, 2005; from
 * memory). That is the estimate. The bound is higher where few hold any: a food that holds some
 * must lie under it as well, so it is the 97.5th percentile of those alone, as one more of them. */
static void
fit(struct finding_of *found, size_t count, struct kin *out)
{
    qsort(found, count, sizeof *found, by_value);
    const struct found_logs s = sum_logs(found, count);
    out->foods = count;
    const double spread = s.count * s.zz - s.z * s.z;
    if (s.count < 3 || spread <= 0) { /* too few were found at all: none held more than the most */
        out->bound = figure_rounded(s.most);
        out->sigma = 1;
        out->median = figure_rounded(s.most * exp(-Z975));
        return;
    }
    const double slope = fmax((s.count * s.zy - s.z * s.y) / spread, 0);
    const double mean = s.y / s.count;
    const double variance = fmax(s.yy / s.count - mean * mean, 0) * s.count / (s.count - 1);
    out->sigma = figure_rounded(slope);
    out->median = figure_rounded(exp((s.y - slope * s.z) / s.count));
    out->bound = figure_rounded(fmax(out->median * exp(Z975 * out->sigma),
                                     exp(mean + Z975 * sqrt(variance * (1 + 1 / s.count)))));
}

static bool
is_of(const struct kin *k, const struct food *f)
{
    if (k->family == NULL)
        return f->food_class == k->food_class;
    return f->family != NULL && f->part != NULL && strcmp(f->family, k->family) == 0 &&
           strcmp(f->part, k->part) == 0;
}

/* each food once, however many entries count as it */
static bool
is_first(const struct larder *l, const struct kin *k, size_t at)
{
    const struct food *f = &l->items[at]->food;
    if (f->counts_with == NULL)
        return true;
    for (size_t i = 0; i < l->count; i++) {
        const struct food *other = &l->items[i]->food;
        if (other != f && is_evidence(other, k->group) && is_of(k, other) &&
            strcmp(food_lead(other), food_lead(f)) == 0 && (i < at || other->counts_with == NULL))
            return false;
    }
    return true;
}

static void
fit_kin(const struct larder *l, struct arena *a, const struct food *without, struct kin *k)
{
    struct finding_of *found = arena_take_array(a, l->count + 1, sizeof *found);
    size_t count = 0;
    for (size_t i = 0; i < l->count; i++) {
        const struct food *f = &l->items[i]->food;
        if (!f->kinless && is_of(k, f) && is_evidence(f, k->group) && is_first(l, k, i) &&
            (without == NULL || strcmp(food_lead(f), food_lead(without)) != 0))
            found[count++] = finding_of(&f->contents[k->group]);
    }
    if (count >= KIN_LEAST)
        fit(found, count, k);
}

static struct kin *
kin_of(const struct larder *l, const struct kin *like)
{
    for (size_t i = 0; i < l->kin_count; i++) {
        struct kin *k = &l->kin[i];
        if (k->group == like->group && (k->family == NULL) == (like->family == NULL) &&
            (k->family == NULL
                 ? k->food_class == like->food_class
                 : strcmp(k->family, like->family) == 0 && strcmp(k->part, like->part) == 0))
            return k;
    }
    return NULL;
}

static struct kin
kin_asked(const struct food *f, enum group g, bool family)
{
    struct kin k = {.food_class = f->food_class, .group = g};
    if (family) {
        k.family = f->family;
        k.part = f->part;
    }
    return k;
}

static bool
has_family(const struct food *f)
{
    return f->family != NULL && f->part != NULL;
}

static void
add_kin(struct larder *l, struct kin k)
{
    if (kin_of(l, &k) != NULL)
        return;
    fit_kin(l, l->scratch, NULL, &k);
    reads_entry_name(&k.entry, k.family != NULL ? text_format(l->arena, "kin:%s/%s/%s", k.family,
                                                              k.part, groups_word(k.group))
                                                : text_format(l->arena, "kin:%s/%s",
                                                              groups_class_word(k.food_class),
                                                              groups_word(k.group)));
    const double numbers[] = {(double)k.foods, k.median, k.sigma, k.bound};
    k.entry.digest = slice_digest((struct slice){(const char *)numbers, sizeof numbers}, 1);
    l->kin[l->kin_count++] = k;
}

void
food_kin_fit(struct larder *l)
{
    size_t families = 0;
    for (size_t i = 0; i < l->count; i++)
        families += has_family(&l->items[i]->food);
    l->kin = arena_take_array(l->arena, (families + CLASSES) * GROUPS, sizeof *l->kin);
    for (enum group g = 0; g < GROUPS; g++) {
        for (enum food_class c = 0; c < CLASSES; c++)
            add_kin(l, (struct kin){.food_class = c, .group = g});
        for (size_t i = 0; i < l->count; i++)
            if (has_family(&l->items[i]->food))
                add_kin(l, kin_asked(&l->items[i]->food, g, true));
    }
}

const struct kin *
food_kin(const struct larder *l, const struct food *f, enum group g, struct reads *reads)
{
    for (int family = has_family(f); !f->kinless && family >= 0; family--) {
        const struct kin asked = kin_asked(f, g, family > 0);
        const struct kin *k = kin_of(l, &asked);
        if (k == NULL)
            continue;
        reads_note(reads, &k->entry);
        if (k->foods >= KIN_LEAST)
            return k;
    }
    return NULL;
}

struct kin
food_kin_without(const struct larder *l, struct arena *a, const struct food *f, enum group g)
{
    struct kin k = kin_asked(f, g, has_family(f));
    if (k.family != NULL)
        fit_kin(l, a, f, &k);
    if (k.foods < KIN_LEAST) {
        k = kin_asked(f, g, false);
        fit_kin(l, a, f, &k);
    }
    return k;
}

uint64_t
food_kin_ask(const struct larder *l, struct slice key)
{
    for (size_t i = 0; i < l->kin_count; i++)
        if (slice_is(key, l->kin[i].entry.key))
            return l->kin[i].entry.digest;
    return 0;
}
