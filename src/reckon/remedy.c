#include "reckon/remedy.h"

#include <math.h>
#include <string.h>

#include "reckon/household.h"
#include "reckon/remedy_candidates.h"
#include "reckon/remedy_change.h"
#include "reckon/remedy_words.h"

/* less than this part of a line, or of a portion, makes another dish; common practice, no source */
static const double LINE_LEAST = 1.0 / 3, PORTION_LEAST = 2.0 / 3;

/* dishes reckoned in the search for one of two changes; halvings in the search for an amount */
enum { PAIRS_MOST = 40, HALVINGS = 5, ALONE_HALVINGS = 9 };

struct search {
    struct arena *arena;
    const struct remedy_asked *asked;
    struct reads *reads;
    struct candidates candidates;
    struct remedies *out;
    size_t pairs;
    const struct lack
        *open; /* sought is what is not over, as no change makes this known; or NULL */
};

/* the limits that no change touches stand as before */
static bool
stays_within(const struct search *s, const bool *changed, enum standing most)
{
    const struct phase_stand *stand = s->asked->stand;
    for (size_t i = 0; i < stand->limit_count && stand->limits[i].standing > most; i++)
        if (stand->limits[i].of.serve != SIZE_MAX && !changed[stand->limits[i].of.serve])
            return false;
    return true;
}

static bool
is_within(struct search *s, const struct remedy *r)
{
    const enum standing most = s->open != NULL ? STANDING_UNKNOWN : STANDING_WITHIN;
    struct dish d = change_apply(s->arena, s->asked->sheet->dish, r->changes, r->count);
    struct sheet sheet;
    struct shares shares;
    bool *changed;
    sheet_change(s->arena, s->asked->sheet, &d, s->reads, &sheet, &changed);
    if (!stays_within(s, changed, most))
        return false;
    shares_change(s->arena, s->asked->stand->shares, &sheet, &shares);
    return portion_keeps(s->arena, &shares, changed, most);
}

/* whether a change of these serves can be enough: of each that must be changed, some is */
static bool
covers(const struct search *s, uint64_t serves)
{
    return ((s->open != NULL ? s->candidates.must_over : s->candidates.must) & ~serves) == 0;
}

/* sets how much of a line is left: what a cook can measure, not above the part */
static bool
measure_cut(struct search *s, struct change *c, double part)
{
    const struct dish *d = s->asked->sheet->dish;
    const struct helping *h =
        &d->ingredients[c->ingredient].options[c->option].helpings[c->helping];
    struct slice words;
    double kept;
    if (!household_part(s->arena, h, part, d->region, s->asked->sheet->tables, s->reads, &words,
                        &kept) ||
        kept < LINE_LEAST - 1e-9 || kept > 1 - 1e-9)
        return false;
    c->words = words;
    c->kept = kept;
    return true;
}

/* the least that a line may be cut to: a third, or what can be measured above it */
static bool
measure_least(struct search *s, struct change *c)
{
    for (double part = LINE_LEAST + 1e-9; part < 0.7; part += 0.06)
        if (measure_cut(s, c, part))
            return true;
    return false;
}

/* as much of the line as keeps the portion within; it does so with what it has */
static void
raise_cut(struct search *s, struct remedy *r, struct change *c)
{
    double low = c->kept, high = 1;
    for (int i = 0; i < HALVINGS; i++) {
        const struct change was = *c;
        const double mid = (low + high) / 2;
        const bool measured = measure_cut(s, c, mid) && c->kept > was.kept;
        const bool within = measured && is_within(s, r);
        if (!within)
            *c = was;
        if (within || !measured)
            low = mid;
        else
            high = mid;
    }
}

/* whether all changes together do; cuts are made as small as they may be */
static bool
try_changes(struct search *s, struct remedy *r)
{
    for (size_t i = 0; i < r->count; i++)
        if (r->changes[i].kind == CHANGE_CUT && !measure_least(s, &r->changes[i]))
            return false;
    if (!is_within(s, r))
        return false;
    for (size_t i = 0; i < r->count; i++)
        if (r->changes[i].kind == CHANGE_CUT)
            raise_cut(s, r, &r->changes[i]);
    return true;
}

static void
keep(struct search *s, const struct remedy *r)
{
    if (s->out->count < REMEDIES_MOST) {
        s->out->items[s->out->count] = *r;
        s->out->items[s->out->count++].open = s->open;
    }
}

/* one change of each kind, as long as there is room */
static void
try_single(struct search *s)
{
    bool found[CHANGE_PORTION] = {false};
    for (size_t i = 0; i < s->candidates.count && s->out->count < REMEDIES_MOST; i++) {
        const struct candidate *c = &s->candidates.items[i];
        struct remedy r = {.changes = {c->change}, .count = 1};
        if (found[c->change.kind] || !covers(s, c->serves) || !try_changes(s, &r))
            continue;
        found[c->change.kind] = true;
        keep(s, &r);
    }
}

/* the first two changes that do together */
static void
try_two(struct search *s)
{
    const struct candidates *all = &s->candidates;
    for (size_t i = 0; i < all->count; i++)
        for (size_t k = i + 1; k < all->count && s->pairs < PAIRS_MOST; k++) {
            struct remedy r = {.changes = {all->items[i].change, all->items[k].change}, .count = 2};
            if ((all->items[i].serves & all->items[k].serves) != 0 ||
                !covers(s, all->items[i].serves | all->items[k].serves))
                continue;
            s->pairs++;
            if (!try_changes(s, &r))
                continue;
            keep(s, &r);
            return;
        }
}

/* three swaps, one for each of three foods: onion, garlic and pasta */
static void
try_swaps(struct search *s)
{
    struct remedy r = {.count = 0};
    uint64_t serves = 0;
    for (size_t i = 0; i < s->candidates.count && r.count < CHANGES_MOST; i++) {
        const struct candidate *c = &s->candidates.items[i];
        if (c->change.kind != CHANGE_SWAP || (c->serves & serves) != 0)
            continue;
        r.changes[r.count++] = c->change;
        serves |= c->serves;
    }
    if (r.count == CHANGES_MOST && covers(s, serves) && is_within(s, &r))
        keep(s, &r);
}

/* the largest portion that is within, down to two thirds of what it is */
static void
try_portion(struct search *s)
{
    const struct dish *d = s->asked->sheet->dish;
    const double said = change_portion_said(d), now = dish_divisor(d);
    const double step = said > 0 && d->yield_kind != YIELD_COUNT && said >= 20 ? 5 : 1;
    struct remedy r = {.changes = {{.kind = CHANGE_PORTION}}, .count = 1};
    for (int i = 1; i <= 24; i++) {
        const double amount = said > 0 ? said - i * step : floor(now) + i;
        const double part = said > 0 ? amount / said : now / amount;
        if (part < PORTION_LEAST - 1e-9)
            return;
        r.changes[0].amount = amount;
        if (!is_within(s, &r))
            continue;
        keep(s, &r);
        return;
    }
}

/* whether so many g of a food are within by themselves */
static bool
keeps_alone(struct search *s, const struct helping *h, double grams)
{
    struct dish d = change_alone(s->arena, h, grams);
    struct sheet sheet;
    struct shares shares;
    sheet_build(s->arena, &d, s->asked->sheet->tables, s->reads, &sheet);
    shares_build(s->arena, &sheet, s->asked->phase, s->reads, &shares);
    return portion_keeps(s->arena, &shares, NULL, STANDING_WITHIN);
}

/* how much of a load's food a portion may hold by itself; all that it holds where that is within */
static double
most_alone(struct search *s, const struct load *l)
{
    double low = 0, high = l->grams;
    if (high <= 0 || keeps_alone(s, l->helping, high))
        return high;
    for (int i = 0; i < ALONE_HALVINGS; i++) {
        const double mid = (low + high) / 2;
        if (keeps_alone(s, l->helping, mid))
            low = mid;
        else
            high = mid;
    }
    return low;
}

/* the foods that are too much by themselves, each once; where none is, those that are together */
static void
refuse(struct search *s)
{
    struct remedies *out = s->out;
    const struct candidates *all = &s->candidates;
    double most[CULPRITS_MOST];
    out->together = true;
    for (size_t i = 0; i < all->culprit_count; i++) {
        most[i] = all->culprits[i].unknown ? 0 : most_alone(s, all->culprits[i].load);
        if (!all->culprits[i].unknown && most[i] < all->culprits[i].load->grams)
            out->together = false;
    }
    for (size_t i = 0; i < all->culprit_count && out->refused_count < REFUSED_MOST; i++) {
        const struct load *l = all->culprits[i].load;
        bool known = all->culprits[i].unknown || (!out->together && most[i] >= l->grams);
        for (size_t k = 0; k < out->refused_count; k++)
            known = known || candidates_serve(s->asked, out->refused[k].load) ==
                                 candidates_serve(s->asked, l);
        if (!known)
            out->refused[out->refused_count++] = (struct refused){l, most[i]};
    }
}

static void
say(struct search *s)
{
    const struct remedy_asked *asked = s->asked;
    const struct tables *t = asked->sheet->tables;
    const struct dish *d = asked->sheet->dish;
    const struct kitchen k = {d, t, d->region, s->reads};
    struct remedies *out = s->out;
    for (size_t i = 0; i < out->count; i++)
        out->items[i].sentence = remedy_words(s->arena, &k, &out->items[i]);
    if (out->refused_count > 0)
        out->refusal = remedies_refusal(s->arena, &k, out, t->limits.phases[asked->phase].name);
}

static void
try_all(struct search *s)
{
    s->pairs = 0;
    try_single(s);
    if (s->out->count == 0)
        try_two(s);
    if (s->out->count == 0)
        try_swaps(s);
    if (s->out->count < REMEDIES_MOST && s->asked->stand->standing != STANDING_UNKNOWN)
        try_portion(s);
}

/* what is not known of the nearest limit that is not; NULL: nothing */
static const struct lack *
unknown_of(const struct phase_stand *stand)
{
    for (size_t i = 0; i < stand->limit_count; i++)
        if (stand->limits[i].standing == STANDING_UNKNOWN &&
            stand->limits[i].worst.lack.load != NULL)
            return &stand->limits[i].worst.lack;
    return NULL;
}

void
remedies_find(struct arena *a, const struct remedy_asked *asked, struct reads *reads,
              struct remedies *out)
{
    memset(out, 0, sizeof *out);
    if (asked->stand->standing == STANDING_WITHIN || !asked->sheet->dish->portions_known)
        return;
    struct search s = {.arena = a, .asked = asked, .reads = reads, .out = out};
    out->sought = true;
    candidates_find(a, asked, reads, &s.candidates);
    try_all(&s);
    if (out->count == 0 && asked->stand->standing == STANDING_OVER)
        s.open = unknown_of(asked->stand);
    if (s.open != NULL)
        try_all(&s);
    if (out->count == 0 && asked->stand->best_standing == STANDING_OVER)
        refuse(&s);
    say(&s);
}
