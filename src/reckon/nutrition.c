#include "reckon/nutrition.h"

#include <math.h>
#include <string.h>

static const double COVERAGE_LEAST = 0.95;

/* Regulation (EU) 1169/2011 Annex XIV: kJ and kcal per g */
static const struct energy_factor {
    double kj, kcal;
} per_fat = {37, 9}, per_carbohydrate = {17, 4}, per_protein = {17, 4}, per_fibre = {8, 2};

/* what energy is reckoned from: without these there is no label */
static const enum nutrient core[] = {PROTEIN, FAT, CARBOHYDRATE, FIBRE};
enum { CORE = sizeof core / sizeof *core };

struct tally {
    double grams;              /* edible, all helpings that are weighed */
    double covered[NUTRIENTS]; /* of these with a figure */
    double covered_core;
    bool unweighed; /* an amount is written that could not be brought to grams */
};

/* known: bits 1 << nutrient */
static bool
has_core(unsigned known)
{
    for (size_t i = 0; i < CORE; i++)
        if ((known >> core[i] & 1) == 0)
            return false;
    return true;
}

/* adds one helping; false when it lacks figures or an amount */
static bool
add_helping(const struct helping *h, struct reads *reads, struct nutrition *out,
            struct tally *tally)
{
    if (!h->weighing.known) {
        tally->unweighed = tally->unweighed || h->written->amount_count > 0;
        return false;
    }
    const double grams = h->eaten.mid;
    tally->grams += grams;
    if (h->food == NULL)
        return false;
    unsigned known = 0;
    for (enum nutrient n = 0; n < NUTRIENTS; n++) {
        const struct figure *figure = food_nutrient(h->food, n, reads);
        if (!figure_known(figure))
            continue;
        known |= 1u << n;
        tally->covered[n] += grams;
        out->amount[n] += grams * figure->span.mid / 100;
    }
    if (!has_core(known))
        return false;
    tally->covered_core += grams;
    return true;
}

static bool
add_ingredient(const struct ingredient *in, struct reads *reads, struct nutrition *out,
               struct tally *tally)
{
    bool whole = true;
    for (size_t k = 0; in->option_count > 0 && k < in->options[0].count; k++)
        whole = add_helping(&in->options[0].helpings[k], reads, out, tally) && whole;
    return whole;
}

void
nutrition_reckon(struct arena *a, const struct dish *d, struct reads *reads, struct nutrition *out)
{
    memset(out, 0, sizeof *out);
    struct tally tally;
    memset(&tally, 0, sizeof tally);
    out->missing = arena_take_array(a, d->count + 1, sizeof *out->missing);
    for (size_t i = 0; i < d->count; i++)
        if (!add_ingredient(&d->ingredients[i], reads, out, &tally))
            out->missing[out->missing_count++] = i;
    const double divisor = dish_divisor(d);
    out->portion_grams = tally.grams / divisor;
    out->given = tally.grams > 0 && !tally.unweighed && d->portions_known;
    out->coverage = tally.grams > 0 ? tally.covered_core / tally.grams : 0;
    for (enum nutrient n = 0; n < NUTRIENTS; n++) {
        out->amount[n] /= divisor;
        out->known[n] = tally.grams > 0 && tally.covered[n] >= COVERAGE_LEAST * tally.grams;
    }
    for (size_t i = 0; i < CORE; i++)
        out->given = out->given && out->known[core[i]];
    out->given = out->given && out->coverage >= COVERAGE_LEAST;
    out->available_carbohydrate = fmax(0, out->amount[CARBOHYDRATE] - out->amount[FIBRE]);
    out->energy_kj = out->amount[FAT] * per_fat.kj + out->amount[PROTEIN] * per_protein.kj +
                     out->available_carbohydrate * per_carbohydrate.kj +
                     out->amount[FIBRE] * per_fibre.kj;
    out->energy_kcal = out->amount[FAT] * per_fat.kcal + out->amount[PROTEIN] * per_protein.kcal +
                       out->available_carbohydrate * per_carbohydrate.kcal +
                       out->amount[FIBRE] * per_fibre.kcal;
    out->salt = out->amount[SODIUM_MG] * 2.5 / 1000;
}

/* amount to the nearest `step`, halves up */
static void
write_step(struct text *t, double amount, double step)
{
    text_add_number(t, floor(amount / step + 0.5 + 1e-9) * step, 2);
}

/* 21 CFR 101.9(c)(1) to (7) */
static void
write_us(struct text *t, enum nutrient n, double amount)
{
    switch (n) {
    case ENERGY_KCAL:
        if (amount < 5)
            text_add_string(t, "0");
        else
            write_step(t, amount, amount <= 50 ? 5 : 10);
        return;
    case SODIUM_MG:
        if (amount < 5)
            text_add_string(t, "0");
        else
            write_step(t, amount, amount <= 140 ? 5 : 10);
        return;
    case FAT:
    case SATURATED_FAT:
        if (amount < 0.5)
            text_add_string(t, "0");
        else
            write_step(t, amount, amount < 5 ? 0.5 : 1);
        return;
    default:
        if (amount < 0.5)
            text_add_string(t, "0");
        else if (amount < 1)
            text_add_string(t, "<1");
        else
            write_step(t, amount, 1);
    }
}

/* at or below `least` an amount is not told from nothing */
static void
write_eu_grams(struct text *t, double amount, double least)
{
    if (amount <= 0) {
        text_add_string(t, "0");
    } else if (amount <= least) {
        text_add_byte(t, '<');
        text_add_number(t, least, 1);
    } else {
        write_step(t, amount, amount < 10 ? 0.1 : 1);
    }
}

/* European Commission, guidance on tolerances for nutrient values declared on a label, December
 * 2012, table 4 */
static void
write_eu(struct text *t, enum nutrient n, double amount)
{
    switch (n) {
    case ENERGY_KCAL:
        write_step(t, amount, 1);
        return;
    case SODIUM_MG:
        if (amount <= 0)
            text_add_string(t, "0");
        else if (amount <= 5)
            text_add_string(t, "<5");
        else
            write_step(t, amount, amount < 1000 ? 10 : 100);
        return;
    case SATURATED_FAT:
        write_eu_grams(t, amount, 0.1);
        return;
    default:
        write_eu_grams(t, amount, 0.5);
    }
}

void
nutrition_write(struct text *t, const char *manner, enum nutrient n, double amount)
{
    if (strcmp(manner, "us") == 0)
        write_us(t, n, amount);
    else
        write_eu(t, n, amount);
}

void
nutrition_write_salt(struct text *t, double grams)
{
    if (grams <= 0)
        text_add_string(t, "0");
    else if (grams <= 0.0125)
        text_add_string(t, "<0.01");
    else
        write_step(t, grams, grams < 1 ? 0.01 : 0.1);
}
