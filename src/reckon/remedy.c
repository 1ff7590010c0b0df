#include "reckon/remedy.h"

#include <math.h>
#include <string.h>

#include "reckon/remedy_rank.h"
#include "reckon/remedy_words.h"
#include "reckon/remedy_cuts.h"
#include "reckon/remedy_mixed.h"

/* a list of thousands of choices is no recipe: lines tried times lines reckoned for each */
enum { PORTIONS_MOST = 200, WORK_MOST = 1 << 13 };

void
remedy_sheet(const struct remedy_search *f, const struct dish *d, struct sheet *out)
{
    const struct tables *t = f->tables;
    sheet_lay(f->arena, d, t, (int)(f->sheet.limit_scope.phase - t->limits.phases), NULL, out);
}

enum standing
remedy_stand_of(struct remedy_search *f, const struct dish *d)
{
    struct sheet sheet;
    double share;
    remedy_sheet(f, d, &sheet);
    return sheet_worst(&sheet, &share);
}

double
remedy_mid_allowed(const struct remedy_search *f)
{
    return f->target == STANDING_WITHIN ? f->sheet.close_at * (1 - 1e-6) : 1;
}

struct excesses
remedy_excesses(const struct remedy_search *f)
{
    struct excesses e = {.count = 0};
    for (size_t c = 0; c < COLUMNS; c++) {
        struct span share;
        double upper;
        sheet_column(&f->sheet, c, &share, &upper);
        const double over[3] = {share.mid - remedy_mid_allowed(f), share.high - 1,
                                upper > share.high ? upper - 1 : 0};
        for (int end = END_MID; end <= END_UPPER; end++)
            if (over[end] > 1e-9)
                e.items[e.count++] = (struct excess){c, (enum share_end)end, over[end]};
    }
    return e;
}

struct remedy *
remedy_add(struct remedy_search *f, enum remedy_kind kind, double amount, enum standing after)
{
    struct remedy *r = LIST_GROW(f->arena, &f->found);
    *r = (struct remedy){.kind = kind, .amount = amount, .after = after};
    return r;
}

/* a dish whose ingredients can be changed without touching the one it was copied from */
struct dish
remedy_copy_dish(const struct remedy_search *f)
{
    struct dish d = *f->dish;
    d.ingredients = arena_take_raw(f->arena, (d.count + 1) * sizeof *d.ingredients);
    memcpy(d.ingredients, f->dish->ingredients, d.count * sizeof *d.ingredients);
    return d;
}

/* how small a portion must be, as part of what it is now; 0 when no size is small enough */
static double
portion_factor(const struct remedy_search *f)
{
    double factor = 1;
    for (size_t c = 0; c < COLUMNS; c++) {
        struct span share;
        double upper;
        sheet_column(&f->sheet, c, &share, &upper);
        if (share.mid > 0)
            factor = fmin(factor, remedy_mid_allowed(f) / share.mid);
        if (upper > 0)
            factor = fmin(factor, 1 / upper);
    }
    return factor < 1e-4 ? 0 : factor;
}

/* the amount of one portion that loads were divided by, or 0 where a stated number of portions was
 */
static double
portion_said(const struct dish *d)
{
    if (d->yield_kind == YIELD_NONE || d->portion.high <= 0)
        return 0;
    double made = d->yield.low / d->portion.high;
    return fabs(made - dish_divisor(d)) < 1e-6 * made ? d->portion.high : 0;
}

static double
portion_step(const struct dish *d, double amount)
{
    if (d->yield_kind == YIELD_COUNT)
        return amount >= 1 ? 1 : 0.25;
    return amount < 20 ? 1 : 5;
}

/* the worst standing where only the portion is another */
static enum standing
stand_of_portion(struct remedy_search *f, const struct dish *d)
{
    return f->sheet.unsure ? remedy_stand_of(f, d)
                           : sheet_worst_of(&f->sheet, dish_divisor(f->dish) / dish_divisor(d));
}

static void
try_portion(struct remedy_search *f, double factor)
{
    const double front_value = portion_said(f->dish);
    if (front_value <= 0)
        return;
    const double step = portion_step(f->dish, front_value * factor);
    for (double amount = floor(front_value * factor / step + 1e-9) * step; amount > 0;
         amount -= step) {
        struct dish d = *f->dish;
        d.portion = span_exact(amount);
        d.portions = span_over(d.yield, d.portion);
        enum standing after = stand_of_portion(f, &d);
        if (after > f->target)
            continue;
        struct remedy *r = remedy_add(f, REMEDY_PORTION, amount, after);
        r->sentence =
            remedy_portion_words(f->arena, f->dish, f->tables, f->reads, amount, front_value);
        return;
    }
}

static void
try_portions(struct remedy_search *f, double factor)
{
    const double now = dish_divisor(f->dish);
    for (double n = ceil(now / factor - 1e-9); n <= PORTIONS_MOST; n++) {
        struct dish d = *f->dish;
        d.portions = span_exact(n);
        enum standing after = stand_of_portion(f, &d);
        if (after > f->target)
            continue;
        struct remedy *r = remedy_add(f, REMEDY_PORTIONS, n, after);
        r->sentence = remedy_portions_words(f->arena, n, now);
        return;
    }
}

void
remedy_settle(struct dish *d, size_t ingredient, size_t pick)
{
    struct ingredient *in = &d->ingredients[ingredient];
    if (pick == 0) {
        in->options = NULL;
        in->option_count = 0;
    } else {
        in->options += pick - 1;
        in->option_count = 1;
        in->optional = false;
    }
}

/* settles pairs of ingredient and pick; kept when it is enough */
static bool
try_settle(struct remedy_search *f, const size_t *pairs, size_t count)
{
    struct dish d = remedy_copy_dish(f);
    bool drops = true;
    for (size_t k = 0; k < count; k++) {
        remedy_settle(&d, pairs[2 * k], pairs[2 * k + 1]);
        drops = drops && pairs[2 * k + 1] == 0;
    }
    enum standing after = remedy_stand_of(f, &d);
    if (after > f->target)
        return false;
    struct remedy *r = remedy_add(f, drops ? REMEDY_DROP : REMEDY_ALTERNATIVE, 0, after);
    r->cuts = arena_take_array(f->arena, count, sizeof *r->cuts);
    r->cut_count = count;
    for (size_t k = 0; k < count; k++) {
        r->cuts[k].settles = true;
        r->cuts[k].ingredient = pairs[2 * k];
        r->cuts[k].option = pairs[2 * k + 1] == 0 ? SIZE_MAX : pairs[2 * k + 1] - 1;
        r->amount = (double)pairs[2 * k + 1];
    }
    r->sentence = remedy_settle_words(f->arena, f->dish, pairs, count);
    return true;
}

bool
remedy_affords(const struct remedy_search *f)
{
    size_t ways = 0;
    for (size_t k = 0; k < f->sheet.choice_count; k++)
        ways += f->sheet.rows[f->sheet.choices[k]].count;
    return ways == 0 || f->dish->count <= WORK_MOST / ways;
}

static bool
try_choices(struct remedy_search *f)
{
    bool any = false;
    if (!remedy_affords(f))
        return false;
    for (size_t i = 0; i < f->dish->count; i++) {
        const struct sheet_row *row = &f->sheet.rows[i];
        for (size_t w = 0; row->count > 1 && w < row->count; w++) {
            const size_t pair[2] = {i, row->ways[w].pick};
            any = try_settle(f, pair, 1) || any;
        }
    }
    if (!any && f->choices->settle_count > 1 && f->choices->settled <= f->target)
        any = try_settle(f, f->choices->settle, f->choices->settle_count);
    return any;
}

static void
find_all(struct remedy_search *f)
{
    struct excesses e = remedy_excesses(f);
    if (e.count == 0)
        return;
    remedy_effects(f, &e);
    bool alone = try_choices(f);
    alone = remedy_reduce(f, &e) || alone;
    if (!alone) {
        remedy_fewest_cuts(f, &e);
        remedy_mixed(f);
    }
    double factor = portion_factor(f);
    if (factor > 0 && factor < 1) {
        try_portion(f, factor);
        try_portions(f, factor);
    }
}

/* leaving out and cutting to nothing say the same: the first stays */
static void
drop_repeats(struct remedies *r)
{
    size_t kept = 0;
    for (size_t i = 0; i < r->count; i++) {
        bool front_value = false;
        for (size_t k = 0; k < kept; k++)
            front_value = front_value || slice_equal(r->items[k].sentence, r->items[i].sentence);
        if (!front_value)
            r->items[kept++] = r->items[i];
    }
    r->count = kept;
}

void
remedies_find(struct arena *a, const struct dish *d, const struct tables *t, struct reads *reads,
              const struct sheet *sheet, const struct phase_stand *stand,
              const struct choices *choices, struct remedies *out)
{
    memset(out, 0, sizeof *out);
    if (stand->standing == STANDING_WITHIN || !d->portions_known)
        return;
    struct remedy_search f;
    memset(&f, 0, sizeof f);
    f.arena = a;
    f.dish = d;
    f.tables = t;
    f.reads = reads;
    f.stand = stand;
    f.choices = choices;
    f.sheet = *sheet;
    for (f.target = STANDING_WITHIN;
         f.found.count == 0 && f.target < stand->standing && f.target <= STANDING_CLOSE; f.target++)
        find_all(&f);
    f.found.count = remedies_rank(d, f.found.items, f.found.count);
    for (size_t i = 0; i < f.found.count; i++)
        if (f.found.items[i].after == STANDING_CLOSE)
            f.found.items[i].sentence = remedy_close_words(a, f.found.items[i].sentence);
    out->items = f.found.items;
    out->count = f.found.count;
    drop_repeats(out);
    for (size_t i = 0; i < out->count; i++)
        out->items[i].told = remedy_words(a, d, t, reads, d->region, &out->items[i]);
}
