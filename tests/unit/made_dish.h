/* Tables and dishes made by hand, for the tests of the reckoning. The limits are the published
 * cut-offs: Varney et al., J Gastroenterol Hepatol 2017; 32 Suppl 1: 53-61. */
#ifndef TESTS_MADE_DISH_H
#define TESTS_MADE_DISH_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/list.h"
#include "read/yaml_tree.h"
#include "reckon/portion.h"
#include "tables/larder.h"
#include "tables/measure_rows.h"

enum { MADE_INGREDIENTS_MOST = 24, MADE_OPTIONS_MOST = 6, MADE_HELPINGS_MOST = 4 };

/* cmocka's own compares as float */
#define assert_near(value, wanted, within)                                                   \
    do {                                                                                     \
        double value_ = (value), wanted_ = (wanted);                                         \
        if (!(fabs(value_ - wanted_) <= (within)))                                           \
            fail_msg("%s is %.12g, not %.12g (line %d)", #value, value_, wanted_, __LINE__); \
    } while (0)

struct made {
    struct arena *arena;
    struct tables tables;
    struct notices notices;
    struct reads reads;
    struct dish dish;
};

static const char made_limits[] =
    "over-at: {mid: 0.5, source: test, basis: practice}\n"
    "close-at: {mid: 0.2, source: test, basis: practice}\n"
    "phases:\n"
    "  strict:\n"
    "    name: strict\n"
    "    groups:\n"
    "      lactose: {grams: 1.0, scope: portion, source: varney2017, basis: published}\n"
    "      excess-fructose: {grams: 0.15, fresh-produce: 0.40, source: varney2017, basis: "
    "published}\n"
    "      fructan: {grams: 0.20, by-class: {grain: 0.30, legume: 0.30, nut: 0.30, seed: "
    "0.30}, source: varney2017, basis: calculated}\n"
    "      galacto-oligosaccharide: {grams: 0.20, by-class: {grain: 0.30, legume: 0.30, nut: "
    "0.30, seed: 0.30}, source: varney2017, basis: calculated}\n"
    "      oligosaccharides: {grams: 0.20, by-class: {grain: 0.30, legume: 0.30, nut: 0.30, "
    "seed: 0.30}, source: varney2017, basis: published}\n"
    "      sorbitol: {grams: 0.20, source: varney2017, basis: published}\n"
    "      mannitol: {grams: 0.20, source: varney2017, basis: published}\n"
    "      polyols: {grams: 0.40, source: varney2017, basis: published}\n"
    "    sitting: {grams: 0.5, source: varney2017, basis: published}\n"
    "  wider:\n"
    "    name: wider\n"
    "    base: strict\n"
    "    groups:\n"
    "      lactose: {lifted: yes, source: test, basis: practice}\n"
    "      excess-fructose: {multiple: 2, source: test, basis: practice}\n"
    "      fructan: {multiple: 3, source: test, basis: practice}\n"
    "      galacto-oligosaccharide: {multiple: 3, source: test, basis: practice}\n"
    "      oligosaccharides: {multiple: 3, source: test, basis: practice}\n"
    "      sorbitol: {multiple: 2, source: test, basis: practice}\n"
    "      mannitol: {multiple: 2, source: test, basis: practice}\n"
    "      polyols: {multiple: 2, source: test, basis: practice}\n";

/* one region with metric spoons is enough here */
static const char made_measures[] =
    "units:\n"
    "  ml: {kind: volume, words: [ml], shown: mL, size: {mid: 1, source: t, basis: published}}\n"
    "  tsp: {kind: volume, spoon: yes, words: [tsp], shown: tsp}\n"
    "  tbsp: {kind: volume, spoon: yes, words: [tbsp], shown: tbsp}\n"
    "  cup: {kind: volume, words: [cup, cups], shown: {one: cup, many: cups}}\n"
    "  g: {kind: weight, words: [g], shown: g, size: {mid: 1, source: t, basis: published}}\n"
    "  oz: {kind: weight, words: [oz], shown: oz, size: {mid: 28.349523125, source: t, basis: "
    "published}}\n"
    "  clove: {kind: piece, words: [clove, cloves], shown: {one: clove, many: cloves}}\n"
    "regions:\n"
    "  au: {name: Australia, speech: au, fahrenheit: no, gas-marks: no, month-first: no, "
    "allergens: eu, nutrition: eu,\n"
    "    units: {tsp: {mid: 5, source: t, basis: published}, tbsp: {mid: 20, source: t, basis: "
    "published}, cup: {mid: 250, source: t, basis: published}}}\n"
    "  us: {name: US, speech: us, fahrenheit: yes, gas-marks: no, month-first: yes, allergens: us, "
    "nutrition: us,\n"
    "    units: {tsp: {mid: 4.92892159375, source: t, basis: published}, tbsp: {mid: "
    "14.78676478125, source: t, basis: published}, cup: {mid: 236.5882365, source: t, basis: "
    "published}}}\n"
    "  uk: {name: UK, speech: uk, fahrenheit: no, gas-marks: yes, month-first: no, allergens: eu, "
    "nutrition: eu,\n"
    "    units: {tsp: {mid: 5, source: t, basis: published}, tbsp: {mid: 15, source: t, basis: "
    "published}, cup: {mid: 250, source: t, basis: published}}}\n";

static inline const struct yaml_node *
made_yaml(struct made *m, const char *text)
{
    const struct yaml_node *root = yaml_tree_read(m->arena, slice_of(text), 1, &m->notices);
    if (root == NULL)
        fail_msg("the test's own YAML cannot be read, line %u", m->notices.items[0].place.line);
    return root;
}

/* tables with these foods, in the format of content/tables/foods */
static inline struct made *
made_open(const char *foods)
{
    struct arena *a = arena_open(1 << 16);
    struct made *m = arena_take(a, sizeof *m);
    m->arena = a;
    m->notices.arena = a;
    m->reads = reads_new(a);
    measure_rows_take(a, made_yaml(m, made_measures), &m->notices, &m->tables.measures);
    measure_rows_build(a, &m->tables.measures);
    limits_load(a, made_yaml(m, made_limits), &m->notices, &m->tables.limits);
    limits_close(a, &m->tables.limits);
    m->tables.larder = larder_open(a, &m->tables.measures, NULL);
    larder_add(m->tables.larder, made_yaml(m, foods), &m->notices);
    larder_close(m->tables.larder);
    for (size_t i = 0; i < m->notices.count; i++)
        fail_msg("notice %d on the test's tables, line %u: %.*s %.*s",
                 (int)m->notices.items[i].rule, m->notices.items[i].place.line,
                 SLICE_ARGS(m->notices.items[i].what), SLICE_ARGS(m->notices.items[i].more));
    m->dish.ingredients = arena_take_array(a, MADE_INGREDIENTS_MOST, sizeof *m->dish.ingredients);
    return m;
}

static inline void
made_close(struct made *m)
{
    arena_close(m->arena);
}

static inline void
made_portions(struct made *m, double portions)
{
    m->dish.portions = span_exact(portions);
    m->dish.portions_known = true;
}

/* a food weighed as eaten; an unknown id is a food that is not in the larder */
static inline struct helping
made_weighed(struct made *m, const char *food, struct span grams)
{
    struct helping h;
    memset(&h, 0, sizeof h);
    struct written_food *w = arena_take(m->arena, sizeof *w);
    w->name = slice_of(food);
    w->name_to = w->name.length;
    h.written = w;
    h.food = larder_by_id(m->tables.larder, slice_of(food));
    h.form = h.food == NULL ? NULL : &h.food->forms[0];
    h.weighing.known = true;
    h.weighing.grams = h.weighing.edible = h.eaten = grams;
    struct amount *amount = arena_take(m->arena, sizeof *amount);
    struct measured *measured = arena_take(m->arena, sizeof *measured);
    amount->value = grams;
    amount->unit = &measures_unit_by_id(&m->tables.measures, 0, "g", NULL)->unit;
    amount->times = span_exact(1);
    w->amounts = amount;
    w->amount_count = 1;
    *measured = (struct measured){.known = true, .grams = grams};
    h.weighing.measured = measured;
    h.weighing.count = 1;
    return h;
}

/* `count` of a volume unit, of `density` g per mL */
static inline struct helping
made_spooned(struct made *m, const char *food, double count, const char *unit, double density)
{
    const struct unit *u = &measures_unit_by_id(&m->tables.measures, 0, unit, NULL)->unit;
    const double ml = count * u->size.mid;
    struct helping h = made_weighed(m, food, span_exact(ml * density));
    h.written->amounts[0].value = span_exact(count);
    h.written->amounts[0].unit = u;
    h.weighing.measured[0].has_millilitres = true;
    h.weighing.measured[0].millilitres = span_exact(ml);
    return h;
}

/* `count` of a thing of `each` g */
static inline struct helping
made_counted(struct made *m, const char *food, double count, struct span each)
{
    struct helping h = made_weighed(m, food, span_scale(each, count));
    h.written->amounts[0].value = span_exact(count);
    h.written->amounts[0].unit = NULL;
    h.weighing.measured[0].has_pieces = true;
    h.weighing.measured[0].pieces = span_exact(count);
    return h;
}

static inline struct ingredient *
made_ingredient(struct made *m, bool optional)
{
    struct ingredient *in = &m->dish.ingredients[m->dish.count++];
    memset(in, 0, sizeof *in);
    in->optional = optional;
    in->options = arena_take_array(m->arena, MADE_OPTIONS_MOST, sizeof *in->options);
    return in;
}

static inline void
made_option(struct made *m, struct ingredient *in, struct helping first)
{
    struct dish_option *o = &in->options[in->option_count++];
    o->helpings = arena_take_array(m->arena, MADE_HELPINGS_MOST, sizeof *o->helpings);
    o->helpings[o->count++] = first;
}

static inline void
made_and(struct ingredient *in, struct helping next)
{
    struct dish_option *o = &in->options[in->option_count - 1];
    o->helpings[o->count++] = next;
}

/* a plain ingredient of one food, weighed exactly */
static inline void
made_line(struct made *m, const char *food, double grams)
{
    made_option(m, made_ingredient(m, false), made_weighed(m, food, span_exact(grams)));
}

static inline struct phase_stand
made_stand(struct made *m)
{
    struct phase_stand s;
    portion_stand(m->arena, &m->dish, &m->tables, 0, &m->reads, &s);
    return s;
}

#endif
