#include "reckon/household.h"

#include <math.h>
#include <string.h>

#include "reckon/fraction.h"
#include "reckon/spoons.h"

/* a food that pours: by its density and how little that spreads */
static const double POURS_FROM = 0.88, POURS_TO = 1.08, POURS_SPREAD = 0.07;

/* leaves and loose pieces: a cup of them is a cup more or less */
static const double LOOSE_SPREAD = 0.3;

static const double OUNCES_POUND = 16;

static double
step_to(double value, double step, bool down)
{
    return (down ? floor(value / step + 1e-9) : floor(value / step + 0.5)) * step;
}

double
household_grams(double grams, bool round_down)
{
    if (grams < 2 && !round_down)
        return step_to(grams, 0.1, false);
    return step_to(grams, grams < 20 ? 1 : 5, round_down);
}

struct slice
household_volume(struct arena *a, double millilitres, int region, const struct tables *t,
                 bool round_down, struct reads *reads, double *rounded_ml)
{
    struct text text = text_new(a);
    struct spoons spoons;
    *rounded_ml = 0;
    enum spoons_keep keep = spoons_weighing_region(&t->measures, region) ? KEEP_LITRES : KEEP_ANY;
    if (!spoons_fit(&t->measures, region, millilitres, keep, round_down, reads, &spoons))
        return text_slice(&text);
    *rounded_ml = spoons.millilitres;
    spoons_write(&text, &spoons);
    return text_slice(&text);
}

/* the measure that the cook wrote first, if it could be brought to grams; else the one used */
static size_t
first_measured(const struct helping *h)
{
    return h->weighing.count > 0 && h->weighing.measured[0].known ? 0 : h->weighing.used;
}

/* the amount on the line that the k-th measure begins with */
static const struct amount *
amount_of(const struct helping *h, size_t k)
{
    for (size_t i = 0; i < h->written->amount_count; i++)
        if (!h->written->amounts[i].plus && k-- == 0)
            return &h->written->amounts[i];
    return NULL;
}

static bool
is_alone(const struct helping *h, const struct amount *amount)
{
    const struct amount *end = h->written->amounts + h->written->amount_count;
    return h->written->extra == NULL && (amount + 1 == end || !amount[1].plus);
}

static void
write_value(struct text *t, struct span value)
{
    fraction_add(t, value.low);
    if (value.high > value.low) {
        text_add_string(t, "–");
        fraction_add(t, value.high);
    }
}

static void
write_unit(struct text *t, const struct unit *unit, bool many)
{
    struct slice shown = many ? unit->shown_many : unit->shown_one;
    text_add_byte(t, ' ');
    text_add(t, shown.length > 0 ? shown : slice_of(unit->id));
}

/* "2–3 large", "1 heaped tbsp", "2 x 400 g" */
static void
write_amount(struct text *t, const struct amount *amount)
{
    static const char *const sizes[] = {"", " small", " medium", " large"};
    static const char *const fills[] = {"",       " level",  " rounded", " heaped",
                                        " scant", " packed", " sifted"};
    if (amount->each) {
        write_value(t, amount->times);
        text_add_string(t, " x ");
    }
    write_value(t, amount->value);
    text_add_string(t, fills[amount->fill]);
    text_add_string(t, sizes[amount->size]);
    if (amount->unit != NULL)
        write_unit(t, amount->unit, amount->value.high > 1 + 1e-9);
}

/* all amounts of the first measure, as the cook wrote them */
static void
write_as_written(struct text *t, const struct helping *h, const struct amount *first)
{
    const struct amount *end = h->written->amounts + h->written->amount_count;
    write_amount(t, first);
    for (const struct amount *next = first + 1; next < end && next->plus; next++) {
        text_add_string(t, " + ");
        write_amount(t, next);
    }
    if (h->written->extra != NULL) {
        text_add_string(t, ", plus ");
        write_amount(t, h->written->extra);
    }
}

static bool
pours(const struct measured *m)
{
    if (m->density == NULL)
        return false;
    const struct span d = m->density->span;
    return d.mid >= POURS_FROM && d.mid <= POURS_TO && d.high - d.low <= POURS_SPREAD * d.mid;
}

/* total mL of a helping: what its first measure says, and any "plus ..." in the same proportion */
static double
all_millilitres(const struct helping *h, const struct measured *m)
{
    return m->millilitres.mid * (m->grams.mid > 0 ? h->weighing.grams.mid / m->grams.mid : 1);
}

void
household_write_metric(struct text *t, double amount, const char *unit, const char *thousand)
{
    const bool large = amount >= 1000;
    text_add_number(t, large ? amount / 1000 : amount, large ? 2 : amount < 2 ? 1 : 0);
    text_add_string(t, large ? thousand : unit);
}

/* what pours is measured in a jug: nobody weighs it */
static bool
write_poured(struct arena *a, const struct helping *h, const struct measured *m,
             struct household *out)
{
    if (m == NULL || !m->has_millilitres || !pours(m) || h->weighing.grams.mid <= 0)
        return false;
    const double part = out->grams_rounded > 0 ? out->grams_rounded / h->weighing.grams.mid : 1;
    const double ml = all_millilitres(h, m) * part, rounded = step_to(ml, ml < 20 ? 1 : 5, false);
    struct text t = text_new(a);
    if (rounded <= 0)
        return false;
    text_add_string(&t, fabs(ml - rounded) > 0.005 * ml ? "about " : "");
    household_write_metric(&t, rounded, " mL", " L");
    out->grams = text_slice(&t);
    return true;
}

static void
write_grams(struct arena *a, const struct helping *h, double grams, bool exact, bool round_down,
            struct household *out)
{
    struct text t = text_new(a);
    double rounded = exact ? grams : household_grams(grams, round_down);
    if (rounded <= 0)
        return;
    if (!exact || h->weighing.grams.low < h->weighing.grams.high)
        text_add_string(&t, "about ");
    household_write_metric(&t, rounded, " g", " kg");
    out->grams = text_slice(&t);
    if (out->measure.length == 0)
        out->grams_rounded = rounded;
}

/* puts a volume into a region's measures; false where a weight is what its cooks want */
static bool
write_volume(struct arena *a, const struct helping *h, const struct measured *m,
             const struct unit *written, int region, const struct tables *t, bool round_down,
             struct reads *reads, struct household *out)
{
    const double ml = all_millilitres(h, m);
    const bool weighs = spoons_weighing_region(&t->measures, region);
    const bool spoon = written != NULL && written->spoon;
    if (!spoon && weighs && h->weighing.known && !pours(m))
        return false;
    enum spoons_keep keep = spoon ? KEEP_SPOONS : weighs ? KEEP_LITRES : KEEP_ANY;
    struct spoons spoons;
    struct text text = text_new(a);
    if (!spoons_fit(&t->measures, region, ml, keep, round_down, reads, &spoons))
        return false;
    spoons_write(&text, &spoons);
    out->measure = text_slice(&text);
    out->by_volume = true;
    out->grams_rounded = h->weighing.known ? h->weighing.grams.mid * spoons.millilitres / ml : 0;
    return true;
}

static bool
is_us(const struct region *r)
{
    return strcmp(r->speech, "us") == 0 && strcmp(r->nutrition, "us") == 0;
}

/* a weight in ounces, for what no cup holds there: "4½ oz", "1 lb 5 oz" */
static bool
write_weight_by_ounce(struct arena *a, const struct helping *h, int region, const struct tables *t,
                      bool round_down, struct reads *reads, struct household *out)
{
    if (!is_us(&t->measures.regions[region]))
        return false;
    const struct unit_row *row = measures_unit_by_id(&t->measures, region, "oz", reads);
    if (row == NULL || row->unit.size.mid <= 0)
        return false;
    const double wanted = h->weighing.grams.mid / row->unit.size.mid;
    const double step = wanted < 4 ? 0.25 : wanted < 2 * OUNCES_POUND ? 0.5 : 1;
    const double ounces = step_to(wanted, step, round_down);
    if (wanted < 1 || ounces <= 0)
        return false;
    const double pounds = floor(ounces / OUNCES_POUND), rest = ounces - pounds * OUNCES_POUND;
    struct text text = text_new(a);
    if (pounds > 0)
        text_addf(&text, "%.0f lb%s", pounds, rest > 0 ? " " : "");
    if (rest > 0) {
        fraction_add(&text, rest);
        text_add_string(&text, " oz");
    }
    out->measure = text_slice(&text);
    out->grams_rounded = ounces * row->unit.size.mid;
    return true;
}

/* a weight by the cup, for a region that has few scales */
static bool
write_weight_by_cup(struct arena *a, const struct helping *h, int region, const struct tables *t,
                    bool round_down, struct reads *reads, struct household *out)
{
    if (!is_us(&t->measures.regions[region]) || h->form == NULL)
        return false;
    const struct figure *density = foods_form_density(h->form, reads);
    if (density == NULL || !figure_known(density) || density->span.mid <= 0)
        return false;
    double grams = h->form->weighed_bought ? h->weighing.grams.mid : h->weighing.edible.mid;
    double ml = grams / density->span.mid;
    const bool loose = density->span.high - density->span.low > LOOSE_SPREAD * density->span.mid;
    struct spoons spoons;
    if (!spoons_fit(&t->measures, region, ml, loose ? KEEP_CUPS : KEEP_ANY, round_down, reads,
                    &spoons))
        return false;
    struct text text = text_new(a);
    spoons_write(&text, &spoons);
    out->measure = text_slice(&text);
    out->by_volume = true;
    out->grams_rounded = h->weighing.grams.mid * spoons.millilitres / ml;
    return true;
}

/* a piece that is a weight where the cook writes, and nothing elsewhere: a stick of butter */
static bool
is_piece_of_there(const struct unit *unit, const struct region *here)
{
    return unit != NULL && unit->kind == UNIT_PIECE && unit->size.mid > 0 &&
           map_get(&here->sizes, slice_of(unit->id)) == NULL;
}

void
household_write(struct arena *a, const struct helping *h, int region, int post_region,
                const struct tables *t, bool round_down, struct reads *reads, struct household *out)
{
    memset(out, 0, sizeof *out);
    const size_t k = first_measured(h);
    const struct amount *amount = amount_of(h, k);
    if (amount == NULL)
        return;
    const struct measured *m = k < h->weighing.count ? &h->weighing.measured[k] : NULL;
    const bool known = h->weighing.known;
    const bool weight = amount->unit != NULL && amount->unit->kind == UNIT_WEIGHT && !amount->each;
    const bool volume = amount->unit != NULL && amount->unit->kind == UNIT_VOLUME && !amount->each;
    struct text text = text_new(a);
    bool done = false;
    const bool tin = m != NULL && m->drained; /* a cup holds other than a tin */
    if (region != post_region && m != NULL && m->has_millilitres && volume && !tin)
        done = write_volume(a, h, m, amount->unit, region, t, round_down, reads, out) || known;
    else if (region != post_region && weight && known)
        done = write_weight_by_cup(a, h, region, t, round_down, reads, out) ||
               write_weight_by_ounce(a, h, region, t, round_down, reads, out) || known;
    else if (region != post_region && !amount->each &&
             is_piece_of_there(amount->unit, &t->measures.regions[region]))
        done = known;
    bool grams_alone = weight && (strcmp(amount->unit->id, "g") == 0);
    if (!done && !(grams_alone && known && is_alone(h, amount))) {
        write_as_written(&text, h, amount);
        out->measure = text_slice(&text);
        out->grams_rounded = known ? h->weighing.grams.mid : 0;
    }
    if (!known)
        return;
    if (out->measure.length > 0 && volume && write_poured(a, h, m, out))
        return;
    const bool measured_rounded = out->measure.length > 0 && out->grams_rounded > 0;
    write_grams(a, h, measured_rounded ? out->grams_rounded : h->weighing.grams.mid,
                grams_alone && !measured_rounded, round_down, out);
}

void
household_write_weight(struct arena *a, const struct helping *h, int region, const struct tables *t,
                       bool round_down, struct reads *reads, struct household *out)
{
    memset(out, 0, sizeof *out);
    if (!h->weighing.known)
        return;
    const bool ounces = write_weight_by_ounce(a, h, region, t, round_down, reads, out);
    const bool exact = !ounces && h->weighing.grams.low >= h->weighing.grams.high;
    write_grams(a, h, ounces ? out->grams_rounded : h->weighing.grams.mid, exact, round_down, out);
}

double
household_scale(const struct helping *h)
{
    if (h->food == NULL || !h->weighing.known || h->weighing.grams.mid <= 0)
        return 1;
    for (size_t i = 0; i < h->food->form_count; i++)
        if (slice_is(slice_of(h->food->forms[i].name), "tin") &&
            h->weighing.edible_share == &h->food->forms[i].edible)
            return h->weighing.edible.mid / h->weighing.grams.mid;
    return 1;
}

static bool
part_of_weight(struct text *text, double grams, const struct unit *unit, double *kept_grams)
{
    if (unit != NULL && (strcmp(unit->id, "oz") == 0 || strcmp(unit->id, "lb") == 0)) {
        double step = strcmp(unit->id, "oz") == 0 ? 0.25 : 0.125;
        double value = step_to(grams / unit->size.mid, step, true);
        *kept_grams = value * unit->size.mid;
        if (value <= 0)
            return false;
        fraction_add(text, value);
        write_unit(text, unit, value > 1);
        return true;
    }
    *kept_grams = household_grams(grams, true);
    text_add_number(text, *kept_grams, 0);
    text_add_string(text, " g");
    return *kept_grams > 0;
}

static bool
part_of_volume(struct text *text, double ml, const struct unit *unit, int region,
               const struct tables *t, struct reads *reads, double *kept_ml)
{
    if (unit != NULL && unit->kind == UNIT_VOLUME &&
        (strcmp(unit->id, "ml") == 0 || strcmp(unit->id, "l") == 0) && ml >= 5) {
        *kept_ml = step_to(ml, 5, true);
        text_add_number(text, *kept_ml, 0);
        text_add_string(text, " mL");
        return true;
    }
    struct spoons spoons;
    enum spoons_keep keep = unit != NULL && unit->spoon ? KEEP_SPOONS : KEEP_ANY;
    if (!spoons_fit(&t->measures, region, ml, keep, true, reads, &spoons))
        return false;
    spoons_write(text, &spoons);
    *kept_ml = spoons.millilitres;
    return true;
}

bool
household_part(struct arena *a, const struct helping *h, double factor, int region,
               const struct tables *t, struct reads *reads, struct slice *words, double *kept)
{
    if (!h->weighing.known || h->weighing.grams.mid <= 0)
        return false;
    const size_t k = first_measured(h);
    const struct amount *amount = amount_of(h, k);
    const struct measured *m = k < h->weighing.count ? &h->weighing.measured[k] : NULL;
    const struct unit *unit = amount == NULL ? NULL : amount->unit;
    struct text text = text_new(a);
    double part = 0;
    bool measurable;
    if (m != NULL && m->has_millilitres && !m->drained &&
        (unit == NULL || unit->kind == UNIT_VOLUME)) {
        const double ml = all_millilitres(h, m);
        measurable = part_of_volume(&text, ml * factor, unit, region, t, reads, &part);
        *kept = part / ml;
    } else if (m != NULL && m->has_pieces && amount != NULL && is_alone(h, amount) &&
               !amount->each) {
        const double pieces = amount->value.low;
        part = step_to(pieces * factor, pieces * factor < 1 ? 0.25 : 0.5, true);
        measurable = part > 0 && pieces > 0;
        *kept = measurable ? part / pieces : 0;
        struct amount scaled = *amount;
        scaled.value = span_exact(part);
        write_amount(&text, &scaled);
    } else {
        const double grams = h->weighing.grams.mid * household_scale(h);
        measurable = part_of_weight(&text, grams * factor, unit, &part);
        *kept = part / grams;
    }
    *kept = fmin(*kept, 1);
    *words = text_slice(&text);
    return measurable && *kept > 0;
}
