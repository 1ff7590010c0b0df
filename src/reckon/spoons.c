#include "reckon/spoons.h"

#include <math.h>
#include <string.h>

#include "reckon/fraction.h"

/* what sets of spoons and cups hold, and what a cook can do with them */
static const double teaspoons[] = {0.125, 0.25, 0.5, 0.75, 1, 1.5, 2, 2.5, 3, 3.5};
static const double teaspoons_beside[] = {0.5, 1, 2, 3}; /* a tablespoon, as far as it holds more */
static const double cup_parts[] = {0, 0.25, 1.0 / 3, 0.5, 2.0 / 3, 0.75};
enum { CUPS_MOST = 40, TABLESPOONS_MOST = 12, TABLESPOONS_HANDY = 4 };

/* beside more cups than these nobody counts tablespoons */
static const double CUPS_EXACT = 2;
enum { TEASPOON_STEPS = sizeof teaspoons / sizeof *teaspoons };
enum { BESIDE_STEPS = sizeof teaspoons_beside / sizeof *teaspoons_beside };
enum { CUP_PARTS = sizeof cup_parts / sizeof *cup_parts };

/* two measures, or half a tablespoon, are taken only where they come closer by this much */
static const double TWO_COST = 0.03, HALF_SPOON_COST = 0.02;

struct search {
    double wanted;
    bool round_down;
    double cost; /* of what is held */
    bool found;
    struct spoons held;
    const struct unit *tsp, *tbsp, *cup; /* NULL: the region has none */
};

static double
holds(struct spoonful s)
{
    return s.value * (s.unit == NULL ? 1 : s.unit->size.mid);
}

static void
try_two(struct search *s, struct spoonful one, struct spoonful two, double cost)
{
    if (s->found && cost >= s->cost - 1e-9)
        return;
    double ml = holds(one) + holds(two);
    if (ml <= 0 || (s->round_down && ml > s->wanted * (1 + 1e-9)))
        return;
    cost += fabs(ml - s->wanted) / s->wanted;
    if (s->found && cost >= s->cost - 1e-9)
        return;
    s->found = true;
    s->cost = cost;
    s->held = (struct spoons){{one, two}, two.value > 0 ? 2 : 1, ml};
}

static void
try_one(struct search *s, double value, const struct unit *unit, double cost)
{
    try_two(s, (struct spoonful){value, unit}, (struct spoonful){0, NULL}, cost);
}

/* whether nothing from `least` to `most` mL that costs so much comes closer than what is held: most
 * of what there is need not be tried one by one */
static bool
cannot_help(const struct search *s, double least, double most, double cost)
{
    if (!s->found)
        return false;
    const double room = (s->cost - cost) * s->wanted;
    return room <= 0 || least - s->wanted >= room || s->wanted - most >= room;
}

static void
try_cups(struct search *s, enum spoons_keep keep)
{
    if (s->cup == NULL || s->wanted > (CUPS_MOST + 1) * s->cup->size.mid)
        return;
    const double about = floor(s->wanted / s->cup->size.mid);
    for (double whole = fmax(0, about - 1); whole <= about + 1; whole++)
        for (size_t i = 0; i < CUP_PARTS; i++) {
            struct spoonful cups = {whole + cup_parts[i], s->cup};
            if (cups.value <= 0)
                continue;
            try_two(s, cups, (struct spoonful){0, NULL}, 0);
            if (s->tbsp == NULL ||
                cannot_help(s, holds(cups), holds(cups) + 3 * s->tbsp->size.mid, TWO_COST))
                continue;
            for (double n = 1; n <= 3 && cups.value < (keep == KEEP_CUPS ? 1 : CUPS_EXACT); n++)
                try_two(s, cups, (struct spoonful){n, s->tbsp}, TWO_COST);
        }
}

static void
try_spoons(struct search *s, enum spoons_keep keep)
{
    if (s->tbsp != NULL)
        for (double n = 0.5; n <= TABLESPOONS_MOST; n += 0.5) {
            /* from a third of a cup on, cups are what a cook reaches for */
            if (keep != KEEP_SPOONS && s->cup != NULL &&
                (n > TABLESPOONS_HANDY || n * s->tbsp->size.mid > s->cup->size.mid / 3))
                break;
            if (n > 4.5 && keep == KEEP_LITRES)
                break;
            if (cannot_help(s, n * s->tbsp->size.mid, INFINITY, 0))
                break;
            try_one(s, n, s->tbsp, n == floor(n) ? 0 : HALF_SPOON_COST);
            if (s->tsp == NULL || n != floor(n) ||
                cannot_help(s, n * s->tbsp->size.mid, (n + 1) * s->tbsp->size.mid, TWO_COST))
                continue;
            for (size_t k = 0; k < BESIDE_STEPS; k++)
                if (keep != KEEP_CUPS && (n < 2 || teaspoons_beside[k] < 3) &&
                    teaspoons_beside[k] * s->tsp->size.mid < s->tbsp->size.mid)
                    try_two(s, (struct spoonful){n, s->tbsp},
                            (struct spoonful){teaspoons_beside[k], s->tsp}, TWO_COST);
        }
    if (s->tsp != NULL)
        for (size_t i = s->round_down ? 1 : 0;
             i < TEASPOON_STEPS && !cannot_help(s, teaspoons[i] * s->tsp->size.mid, INFINITY, 0);
             i++)
            if (s->tbsp == NULL || teaspoons[i] * s->tsp->size.mid < s->tbsp->size.mid)
                try_one(s, teaspoons[i], s->tsp, 0);
}

static double
to_step(double value, double step, bool down)
{
    return (down ? floor(value / step + 1e-9) : floor(value / step + 0.5)) * step;
}

static const struct unit *
unit_by_id(const struct measures *m, int region, const char *id, struct reads *reads)
{
    const struct unit_row *row = measures_unit_by_id(m, region, id, reads);
    return row == NULL || row->unit.size.mid <= 0 ? NULL : &row->unit;
}

bool
spoons_weighing_region(const struct measures *m, int region)
{
    return strcmp(m->regions[region].id, "uk") == 0 || strcmp(m->regions[region].id, "metric") == 0;
}

bool
spoons_fit(const struct measures *m, int region, double millilitres, enum spoons_keep keep,
           bool round_down, struct reads *reads, struct spoons *out)
{
    memset(out, 0, sizeof *out);
    if (!(millilitres > 0))
        return false;
    struct search s;
    memset(&s, 0, sizeof s);
    s.wanted = millilitres;
    s.round_down = round_down;
    s.tsp = unit_by_id(m, region, "tsp", reads);
    s.tbsp = unit_by_id(m, region, "tbsp", reads);
    s.cup = keep == KEEP_ANY || keep == KEEP_CUPS ? unit_by_id(m, region, "cup", reads) : NULL;
    const double spoons_to = s.tbsp == NULL ? 0 : 4.5 * s.tbsp->size.mid;
    const double cups_to = s.cup == NULL ? 0 : CUPS_MOST * s.cup->size.mid;
    if ((keep == KEEP_LITRES || s.cup == NULL) && keep != KEEP_SPOONS && millilitres > spoons_to) {
        try_one(&s, to_step(millilitres, millilitres < 100 ? 5 : 10, round_down), NULL, 0);
    } else if (millilitres >
               fmax(cups_to, TABLESPOONS_MOST * (s.tbsp == NULL ? 0 : s.tbsp->size.mid))) {
        try_one(&s, to_step(millilitres, 10, round_down), NULL, 0);
    } else {
        try_cups(&s, keep);
        try_spoons(&s, keep);
    }
    *out = s.held;
    return s.found;
}

void
spoons_write(struct text *t, const struct spoons *s)
{
    for (size_t i = 0; i < s->count; i++) {
        const struct spoonful *one = &s->items[i];
        if (i > 0)
            text_add_string(t, " + ");
        if (one->unit == NULL && one->value >= 1000) {
            text_add_number(t, one->value / 1000, 2);
            text_add_string(t, " L");
        } else if (one->unit == NULL) {
            text_add_number(t, one->value, 0);
            text_add_string(t, " mL");
        } else {
            fraction_add(t, one->value);
            text_add_byte(t, ' ');
            text_add(t, one->value > 1 + 1e-9 ? one->unit->shown_many : one->unit->shown_one);
        }
    }
}
