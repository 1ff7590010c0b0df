#include "write/label.h"

#include <math.h>

#include "write/drawing.h"
#include "write/markup.h"

struct row {
    const char *name, *unit;
    enum nutrient nutrient;
    bool within; /* a part of the row above */
};

/* the order of Regulation (EU) 1169/2011 Annex XV, and of 21 CFR 101.9(c) */
static const struct row eu_rows[] = {
    {"Fat", " g", FAT, false},
    {"of which saturates", " g", SATURATED_FAT, true},
    {"Carbohydrate", " g", CARBOHYDRATE, false},
    {"of which sugars", " g", SUGARS, true},
    {"Fibre", " g", FIBRE, false},
    {"Protein", " g", PROTEIN, false},
};
static const struct row us_rows[] = {
    {"Calories", "", ENERGY_KCAL, false},
    {"Total fat", " g", FAT, false},
    {"Saturated fat", " g", SATURATED_FAT, true},
    {"Sodium", " mg", SODIUM_MG, false},
    {"Total carbohydrate", " g", CARBOHYDRATE, false},
    {"Dietary fiber", " g", FIBRE, true},
    {"Total sugars", " g", SUGARS, true},
    {"Protein", " g", PROTEIN, false},
};

static void
begin_row(struct text *t, const char *name, bool within)
{
    text_add_string(t,
                    within ? "<tr class=\"dl-part\"><th scope=\"row\">" : "<tr><th scope=\"row\">");
    text_add_string(t, name);
    text_add_string(t, "</th><td>");
}

/* a rounded number may begin with "<" */
static void
add_amount(struct text *t, const char *manner, enum nutrient nutrient, double amount)
{
    struct text number = text_new(t->arena);
    nutrition_write(&number, manner, nutrient, amount);
    text_add_html(t, text_slice(&number));
}

static void
add_rows(struct text *t, const struct nutrition *n, const struct row *rows, size_t count,
         const char *manner)
{
    for (size_t i = 0; i < count; i++) {
        if (!n->known[rows[i].nutrient])
            continue;
        begin_row(t, rows[i].name, rows[i].within);
        add_amount(t, manner, rows[i].nutrient,
                   rows[i].nutrient == ENERGY_KCAL ? n->energy_kcal : n->amount[rows[i].nutrient]);
        text_add_string(t, rows[i].unit);
        text_add_string(t, "</td></tr>\n");
    }
}

static void
add_eu(struct text *t, const struct nutrition *n)
{
    begin_row(t, "Energy", false);
    text_add_whole(t, (size_t)fmax(0, round(n->energy_kj)));
    text_add_string(t, " kJ, ");
    add_amount(t, "eu", ENERGY_KCAL, n->energy_kcal);
    text_add_string(t, " kcal</td></tr>\n");
    add_rows(t, n, eu_rows, sizeof eu_rows / sizeof *eu_rows, "eu");
    if (n->known[SODIUM_MG]) {
        begin_row(t, "Salt", false);
        struct text salt = text_new(t->arena);
        nutrition_write_salt(&salt, n->salt);
        text_add_html(t, text_slice(&salt));
        text_add_string(t, " g</td></tr>\n");
    }
}

static void
add_missing(struct text *t, const struct fragment_context *s)
{
    const struct nutrition *n = &s->o->nutrition;
    text_add_string(t, "<p>Not given: less than 95 % of the weight has figures");
    for (size_t i = 0; i < n->missing_count; i++) {
        text_add_string(t, i == 0 ? "; missing: " : ", ");
        markup_words(t, fragment_ingredient(s, n->missing[i], s->regions[0]));
    }
    text_add_string(t, ".</p>\n");
}

static struct slice
nutrition_piece(const struct fragment_context *s, size_t i)
{
    const struct nutrition *n = &s->o->nutrition;
    const struct region *r = fragment_region(s, i);
    bool us = r->nutrition != NULL && slice_is(slice_of(r->nutrition), "us");
    struct text t = text_new(s->arena);
    text_add_string(&t, "<table class=\"dl-table\">\n<caption>In one portion, ");
    if (n->portion_grams > 0) {
        text_add_string(&t, "about ");
        text_add_whole(&t, (size_t)round(n->portion_grams));
        text_add_string(&t, " g before cooking");
    }
    text_add_string(&t, "</caption>\n<tbody>\n");
    if (us)
        add_rows(&t, n, us_rows, sizeof us_rows / sizeof *us_rows, "us");
    else
        add_eu(&t, n);
    text_add_string(&t, "</tbody>\n</table>\n");
    return text_slice(&t);
}

void
label_nutrition(struct text *t, const struct fragment_context *s)
{
    struct slice pieces[REGIONS_MOST];
    if (!s->o->nutrition.given && s->o->nutrition.missing_count == 0)
        return;
    fragment_fold(t, "dl-nutrition", "Nutrition");
    if (!s->o->nutrition.given) {
        add_missing(t, s);
    } else {
        for (size_t i = 0; i < s->region_count; i++)
            pieces[i] = nutrition_piece(s, i);
        fragment_vary(t, s, "div", pieces);
        text_add_string(t, "<p class=\"dl-small\">Reckoned from tables of foods, for the first way "
                           "written of each ingredient; not analysed.</p>\n");
    }
    text_add_string(t, "</details>\n");
}

/* number of a step over all parts, from 1 */
static size_t
step_number(const struct body *body, size_t part, size_t step)
{
    size_t number = step + 1;
    for (size_t p = 0; p < part; p++)
        number += body->parts[p].count;
    return number;
}

static void
add_step(struct text *t, const struct fragment_context *s, const struct microwave_row *row)
{
    text_add_string(t, "Step ");
    text_add_whole(t, step_number(&s->o->post.body, row->part, row->step));
    text_add_string(t, ", ");
    duration_write_words(t, row->stated_seconds);
}

static void
add_powers(struct text *t, const struct fragment_context *s)
{
    const struct microwave *m = &s->o->microwave;
    const struct site *site = &s->tables->site;
    text_add_string(t,
                    "<div class=\"dl-wide\" tabindex=\"0\" role=\"group\" aria-label=\"Microwave "
                    "times\">\n<table class=\"dl-table\">\n<thead><tr><th "
                    "scope=\"col\">Power</th>");
    for (size_t i = 0; i < m->count; i++) {
        text_add_string(t, "<th scope=\"col\">");
        add_step(t, s, &m->rows[i]);
        text_add_string(t, " at ");
        text_add_number(t, m->rows[i].watts, 0);
        text_add_string(t, " W</th>");
    }
    text_add_string(t, "</tr></thead>\n<tbody>\n");
    for (size_t w = 0; w < site->watt_count; w++) {
        text_add_string(t, "<tr><th scope=\"row\">");
        text_add_number(t, site->watts[w], 0);
        text_add_string(t, " W</th>");
        for (size_t i = 0; i < m->count; i++) {
            text_add_string(t, "<td>");
            duration_write_words(t, m->rows[i].seconds[w]);
            text_add_string(t, "</td>");
        }
        text_add_string(t, "</tr>\n");
    }
    text_add_string(t,
                    "</tbody>\n</table>\n</div>\n<p class=\"dl-small\">The same energy, rounded "
                    "up to 5 seconds. A start, not a promise: look early. The power meant is the "
                    "output that the maker states by IEC 60705.</p>\n");
}

/* from a time without a power no other can be reckoned */
static void
add_without_power(struct text *t, const struct fragment_context *s)
{
    const struct microwave *m = &s->o->microwave;
    text_add_string(t, "<p>No power is stated for ");
    for (size_t i = 0; i < m->bare_count; i++) {
        struct text one = text_new(s->arena);
        add_step(&one, s, &m->bare[i]);
        text_add_string(t, i == 0 ? "" : i + 1 == m->bare_count ? " and " : "; ");
        text_add_byte(t, 's');
        text_add(t, slice_part(text_slice(&one), 1, one.length));
    }
    text_add_string(t, m->bare_count > 1
                           ? ". The times cannot be put to other powers: begin with less, and look."
                             "</p>\n"
                           : ". The time cannot be put to other powers: begin with less, and look."
                             "</p>\n");
}

void
label_microwave(struct text *t, const struct fragment_context *s)
{
    const struct microwave *m = &s->o->microwave;
    bool table = m->count > 0 && s->tables->site.watt_count > 0;
    if (!table && m->bare_count == 0)
        return;
    fragment_fold(t, "dl-microwave",
                  table ? "In a microwave of another power" : "In the microwave");
    if (table)
        add_powers(t, s);
    if (m->bare_count > 0)
        add_without_power(t, s);
    text_add_string(t, "</details>\n");
}
