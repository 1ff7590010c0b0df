/* An outcome made by hand: a post read as it is, and round figures put in place of what the larder
 * and the reckoning would say. For tests of what is written. */
#ifndef TESTS_BY_HAND_H
#define TESTS_BY_HAND_H

#include <string.h>

#include "compile/outcome.h"
#include "english.h"

static const char hand_post[] =
    "---\n"
    "title: Oat & rice \"slice\"\n"
    "summary: Plain and <quick>.\n"
    "published: 2026-03-14\n"
    "measures: uk\n"
    "yield: 8 slices\n"
    "portion: 2 slices\n"
    "category: Bake\n"
    "keywords: [oats, tin]\n"
    "author: Noa שלום\n"
    "equipment: [large tin]\n"
    "image: {file: img/slice.jpg, alt: A slice, width: 1200, height: 800}\n"
    "video: {url: \"https://video.example/1\", name: Film}\n"
    "ingredients:\n"
    "  The base:\n"
    "    - 2 tbsp (30 g) butter\n"
    "    - 1 cup courgettes, grated, plus 1 tsp to finish\n"
    "  The top:\n"
    "    - 1 tbsp honey or maple syrup\n"
    "    - a pinch of dust (optional)\n"
    "times: {prep: 10 min, cook: 25 to 30 min}\n"
    "storage: Keeps 3 days.\n"
    "claims: [vegetarian, vegan]\n"
    "---\n"
    "Prose with *stress*.\n"
    "\n"
    "## Method\n"
    "\n"
    "### The base\n"
    "\n"
    "1. Heat the oven to 180 °C and melt the butter for 2 minutes.\n"
    "2. Bake for 25 to 30 minutes.\n"
    "\n"
    "### The top\n"
    "\n"
    "1. Microwave the honey for 1 minute at 800 W.\n"
    "\n"
    "## Notes\n"
    "\n"
    "Keep it cold.\n";

static const struct figure hand_known = {
    .span = {1, 1, 1}, .source = "lab 12", .basis = BASIS_PUBLISHED};

static struct food *
hand_food(struct arena *a, const char *id, uint32_t allergens)
{
    struct food *f = arena_take(a, sizeof *f);
    f->id = f->name = id;
    f->identity = (struct entry){.digest = 1, .changed = "2026-05-01"};
    reads_entry_name(&f->identity, id);
    f->allergens = allergens;
    f->forms = arena_take(a, sizeof *f->forms);
    f->form_count = 1;
    f->forms->name = "whole";
    for (int g = 0; g < GROUPS; g++)
        f->contents[g] = hand_known;
    return f;
}

/* one food of a line, its words found in the line's text */
static struct helping
hand_helping(struct arena *a, const struct ingredient_line *line, const char *amount,
             const char *name, const struct unit *unit, const struct food *food, double grams)
{
    struct written_food *w = arena_take(a, sizeof *w);
    struct measured *m = arena_take(a, sizeof *m);
    w->name = slice_of(name);
    w->name_from = slice_find(line->text, name, 0);
    w->name_to = w->name_from + strlen(name);
    if (amount != NULL) {
        w->amounts = arena_take(a, sizeof *w->amounts);
        w->amount_count = 1;
        w->amounts[0].value = w->amounts[0].times = span_exact(1);
        w->amounts[0].unit = unit;
        w->amounts[0].from = slice_find(line->text, amount, 0);
        w->amounts[0].to = w->amounts[0].from + strlen(amount);
    }
    *m = (struct measured){.known = grams > 0, .grams = span_exact(grams), .density = &hand_known};
    struct weighing weighing = {.known = grams > 0, .measured = m, .count = 1};
    weighing.grams = weighing.edible = span_exact(grams);
    return (struct helping){.written = w,
                            .food = food,
                            .form = food != NULL ? food->forms : NULL,
                            .weighing = weighing,
                            .eaten = span_exact(grams)};
}

static struct ingredient
hand_ingredient(struct arena *a, const char *text, size_t part, size_t options)
{
    struct ingredient in = {.part = part, .option_count = options};
    in.line.text = slice_of(text);
    in.options = arena_take_array(a, options, sizeof *in.options);
    for (size_t i = 0; i < options; i++) {
        in.options[i].helpings = arena_take(a, sizeof *in.options[i].helpings);
        in.options[i].count = 1;
    }
    return in;
}

static void
written_amount(struct helping *h, double value)
{
    struct amount *amount = h->written->amounts;
    amount->value = span_exact(value);
    amount->from = amount->to = 0;
}

static void
hand_dish(struct arena *a, struct dish *d)
{
    static const struct unit tbsp = {.id = "tbsp", .kind = UNIT_VOLUME, .spoon = true},
                             cup = {.id = "cup", .kind = UNIT_VOLUME},
                             gram = {.id = "g", .kind = UNIT_WEIGHT},
                             pinch = {.id = "pinch", .kind = UNIT_VAGUE};
    struct food *courgette = hand_food(a, "courgette", 0);
    courgette->shown[1] = "zucchini";
    d->count = 5;
    d->ingredients = arena_take_array(a, d->count, sizeof *d->ingredients);
    struct ingredient *in = d->ingredients;
    in[0] = hand_ingredient(a, "2 tbsp (30 g) butter", 0, 1);
    in[0].options[0].helpings[0] = hand_helping(a, &in[0].line, "2 tbsp (30 g", "butter", &tbsp,
                                                hand_food(a, "butter", 1u << ALLERGEN_MILK), 30);
    struct written_food *both = arena_take(a, sizeof *both);
    *both = *in[0].options[0].helpings[0].written;
    both->amounts = arena_take_array(a, both->amount_count = 2, sizeof *both->amounts);
    both->amounts[0] = in[0].options[0].helpings[0].written->amounts[0];
    both->amounts[0].to -= sizeof " (30 g" - 1;
    both->amounts[1] = both->amounts[0];
    both->amounts[1].unit = &gram;
    both->amounts[1].from = both->amounts[0].to + 2;
    both->amounts[1].to = both->amounts[1].from + 4;
    in[0].options[0].helpings[0].written = both;
    in[1] = hand_ingredient(a, "1 cup courgettes, grated, plus 1 tsp to finish", 0, 1);
    in[1].options[0].helpings[0] =
        hand_helping(a, &in[1].line, "1 cup", "courgettes", &cup, courgette, 120);
    in[2] = hand_ingredient(a, "1 tbsp honey or maple syrup", 1, 2);
    in[2].options[0].helpings[0] =
        hand_helping(a, &in[2].line, "1 tbsp", "honey", &tbsp, hand_food(a, "honey", 0), 20);
    in[2].options[1].helpings[0] = hand_helping(a, &in[2].line, NULL, "maple syrup", &tbsp,
                                                hand_food(a, "maple-syrup", 0), 20);
    in[3] = hand_ingredient(a, "a pinch of dust (optional)", 1, 1);
    in[3].optional = true;
    in[3].options[0].helpings[0] = hand_helping(a, &in[3].line, "a pinch", "dust", &pinch, NULL, 0);
    /* given as a mapping: the amount stands in no line */
    in[4] = hand_ingredient(a, "sugar", 1, 1);
    in[4].options[0].helpings[0] =
        hand_helping(a, &in[4].line, "", "sugar", &gram, hand_food(a, "sugar", 0), 50);
    written_amount(&in[4].options[0].helpings[0], 50);
}

static struct tables *
hand_tables(struct arena *a)
{
    static struct source_row sources[] = {{"lab", "Works of the laboratory", "the laboratory"}};
    struct tables *t = arena_take(a, sizeof *t);
    t->measures.regions[0] = (struct region){.id = "uk",
                                             .name = "United Kingdom",
                                             .speech = "uk",
                                             .gas_marks = true,
                                             .allergens = "eu",
                                             .nutrition = "eu"};
    t->measures.regions[1] = (struct region){.id = "us",
                                             .name = "United States",
                                             .speech = "us",
                                             .fahrenheit = true,
                                             .month_first = true,
                                             .allergens = "us",
                                             .nutrition = "us"};
    t->measures.region_count = 2;
    t->sources.items = sources;
    t->sources.count = 1;
    t->sources.numbers = map_new(a);
    map_put(&t->sources.numbers, SLICE("lab"), (void *)(uintptr_t)1);
    t->limits.phase_count = 1;
    t->limits.phases[0].id = "strict";
    t->limits.phases[0].name = "elimination";
    t->site = (struct site){.title = "Kitchen & \"table\"",
                            .description = "",
                            .address = "https://kitchen.example/",
                            .author = "Noa",
                            .author_url = "",
                            .language = "en-GB",
                            .fragment_path = "/recipes/{slug}.html",
                            .images_path = "images/",
                            .tag_authority = "kitchen.example",
                            .tag_date = "2026",
                            .regions = {0, 1},
                            .region_count = 2,
                            .watts = {700, 1000},
                            .watt_count = 2,
                            .fan_lower = 20,
                            .feed_entries = 20,
                            .licence = ""};
    return t;
}

/* a limit for one food's serve */
static struct limit_stand
hand_limit(const struct dish *d, size_t ingredient, enum group g, struct span share,
           enum standing standing)
{
    static struct load loads[8];
    struct load *l = &loads[ingredient];
    l->ingredient = ingredient;
    l->helping = &d->ingredients[ingredient].options[0].helpings[0];
    struct limit_stand out = {
        .of = {g, ingredient}, .standing = standing, .best_standing = standing};
    out.worst = (struct share){.mid = share.mid,
                               .spread = distribution_range(share.low, share.mid, share.high),
                               .load = share.mid * 0.2,
                               .limit = 0.2,
                               .chance = standing == STANDING_OVER ? 1 : 0.22,
                               .chief = l};
    return out;
}

static void
hand_standing(struct arena *a, const struct dish *d, struct phase_stand *p)
{
    p->limits = arena_take_array(a, p->limit_count = 2, sizeof *p->limits);
    p->limits[0] = hand_limit(d, 2, EXCESS_FRUCTOSE, span_exact(2), STANDING_OVER);
    p->limits[0].best_standing = STANDING_CLOSE;
    p->limits[1] = hand_limit(d, 1, FRUCTAN, (struct span){0.5, 0.9, 1.1}, STANDING_CLOSE);
    p->nearest = &p->limits[0];
    p->groups[FRUCTAN] = (struct group_stand){.limited = true,
                                              .carried = true,
                                              .load = {0.1, 0.18, 0.22},
                                              .share = {0.5, 0.9, 1.1},
                                              .best_share = {0.5, 0.9, 1.1},
                                              .limit = 0.2,
                                              .standing = STANDING_CLOSE,
                                              .best_standing = STANDING_CLOSE};
    p->groups[EXCESS_FRUCTOSE] = (struct group_stand){.limited = true,
                                                      .carried = true,
                                                      .load = {0.3, 0.3, 0.3},
                                                      .share = {2, 2, 2},
                                                      .best_share = {0.1, 0.1, 0.1},
                                                      .limit = 0.15,
                                                      .standing = STANDING_OVER};
    p->groups[LACTOSE] = (struct group_stand){.limited = true};
    p->groups[SORBITOL] = (struct group_stand){
        .limited = true, .unknown = true, .unknown_ingredient = 3, .standing = STANDING_UNKNOWN};
    p->sitting_limited = true;
    p->sitting = span_exact(0.48);
    p->sitting_share = span_exact(0.96);
    p->standing = STANDING_OVER;
    p->best_standing = STANDING_CLOSE;
    p->tightest = EXCESS_FRUCTOSE;
}

static void
hand_judgement(struct arena *a, struct outcome *o)
{
    static const struct caution hot = {.id = "hot",
                                       .words = "Hot honey clings & burns.",
                                       .source = "lab 3",
                                       .defer = "local rules"};
    o->hazards.items = arena_take(a, sizeof *o->hazards.items);
    o->hazards.items[0] = (struct fired_caution){&hot, 1, 0};
    o->hazards.count = 1;
    o->claims.items = arena_take_array(a, 2, sizeof *o->claims.items);
    o->claims.items[0] = (struct claim){.front_value = {SLICE("vegetarian"), {0, 0, 0}},
                                        .id = "vegetarian",
                                        .because = SLICE("nothing breaks it"),
                                        .diet_url = "https://schema.org/VegetarianDiet"};
    o->claims.items[1] = (struct claim){.front_value = {SLICE("vegan"), {0, 0, 0}},
                                        .id = "vegan",
                                        .grounds = GROUNDS_FALSE,
                                        .diet_url = "https://schema.org/VeganDiet"};
    o->claims.count = 2;
    o->claims.allergens = arena_take(a, sizeof *o->claims.allergens);
    o->claims.allergens[0].allergen = ALLERGEN_MILK;
    o->claims.allergen_count = 1;
    o->claims.diets[DIET_VEGETARIAN] = true;
    o->choices.differ = true;
    o->choices.resolve = arena_take_array(a, 2, sizeof *o->choices.resolve);
    o->choices.resolve[0] = 2; /* the third line: the second way to make it */
    o->choices.resolve[1] = 2;
    o->choices.resolve_count = 1;
    o->choices.resolved = STANDING_CLOSE;
    o->remedies.items[0] = (struct remedy){.changes = {{.kind = CHANGE_PORTION, .amount = 1}},
                                           .count = 1,
                                           .sentence = SLICE("Eat 1 slice <not 2>.")};
    o->remedies.count = 1;
    o->nutrition.given = true;
    for (int n = 0; n < NUTRIENTS; n++)
        o->nutrition.known[n] = true;
    o->nutrition.amount[FAT] = 7.04;
    o->nutrition.amount[SATURATED_FAT] = 0.01;
    o->nutrition.amount[SODIUM_MG] = 200;
    o->nutrition.energy_kj = 418.4;
    o->nutrition.energy_kcal = 100;
    o->nutrition.salt = 0.5;
    o->nutrition.portion_grams = 50;
}

static struct outcome *
hand_outcome(struct arena *a)
{
    struct outcome *o = arena_take(a, sizeof *o);
    struct reads *reads = arena_take(a, sizeof *reads);
    struct notices notices = {.arena = a};
    *reads = reads_new(a);
    o->reads = reads;
    o->tables = hand_tables(a);
    post_read(a, english(), &(struct post_bytes){"posts/slice.md", slice_of(hand_post)}, &notices,
              &o->post);
    hand_dish(a, &o->dish);
    o->phases = arena_take(a, sizeof *o->phases);
    o->dish.portions_known = true;
    o->dish.portions = span_exact(4);
    hand_standing(a, &o->dish, &o->phases[0]);
    schedule_read(a, &o->post.body, NULL, &o->schedule);
    microwave_read(a, &o->post.body, &o->schedule, o->tables->site.watts, 2, &o->microwave);
    hand_judgement(a, o);
    o->picture = (struct picture){.state = PICTURE_HERE, .ending = "jpg", .size = {1200, 800}};
    o->publishable = true;
    findings_make(a, o->post.path, &notices, &o->findings);
    return o;
}

#endif
