#include "compile/recipe.h"
#include "judge/claims_said.h"
#include "judge/heats.h"
#include "judge/pieces.h"
#include "judge/review.h"
#include "judge/strained.h"
#include "reckon/dish_build.h"
#include "reckon/heat_doubt.h"
#include "reckon/remedy.h"
#include "tables/measures.h"

void
recipe_reckon(struct arena *a, const struct tables *t, struct notices *notices, struct outcome *o,
              struct sheet *sheet)
{
    struct reads *reads = o->reads;
    const int phase = t->site.phase;
    dish_build(a, &o->post, t, reads, notices, &o->dish);
    sheet_build(a, &o->dish, t, reads, sheet);
    for (size_t i = 0; i < t->limits.phase_count; i++)
        sheet_stand(a, sheet, (int)i, reads, &o->phases[i]);
    choices_find(a, sheet, &o->phases[phase], &o->choices);
    const struct remedy_asked asked = {sheet, phase, &o->phases[phase], &o->post.title_words};
    remedies_find(a, &asked, reads, &o->remedies);
    beside_reckon(a, &o->phases[phase], &o->beside);
    nutrition_reckon(a, &o->dish, reads, &o->nutrition);
    schedule_read(a, &o->post.body, &t->cooking, &o->schedule);
    heat_doubt_mark(&o->schedule);
    schedule_add_lines(a, &o->dish, &t->cooking, &o->schedule);
    microwave_read(a, &o->post.body, &o->schedule, t->site.watts, t->site.watt_count,
                   &o->microwave);
}

void
recipe_judge(struct arena *a, const struct tables *t, struct notices *notices, struct outcome *o,
             const struct sheet *sheet)
{
    struct reads *reads = o->reads;
    const struct phase_stand *stand = &o->phases[t->site.phase];
    names_read(a, &o->post, &o->dish, t->words, &o->names);
    const struct judging j = {a,         &o->post,    &o->dish, &o->schedule, t,
                              &o->names, &o->clauses, reads,    notices};
    clauses_read(&j, &o->clauses);
    const struct portion_reckoned portion = {
        &o->post, t, sheet, stand, &o->choices, &o->remedies, &o->nutrition};
    standing_judge(a, &portion, reads, notices);
    heats_judge(&j);
    timing_judge(&j, &o->microwave);
    unlisted_judge(&j, &o->method_foods);
    claims_judge(&j, stand, &o->method_foods, &o->claims);
    claims_said_judge(&j, unlisted_dish(a, &o->dish, &o->method_foods), &o->claims);
    hazards_judge(&j, &o->hazards);
    strained_judge(&j);
    pieces_judge(&j);
    method_judge(&j, &o->mentions);
}

void
recipe_compile(struct arena *a, const struct tables *t, struct notices *notices, struct outcome *o)
{
    struct sheet sheet;
    recipe_reckon(a, t, notices, o, &sheet);
    recipe_judge(a, t, notices, o, &sheet);
    const struct reviewed_portion reviewed = {&o->post, &o->dish, o->phases, t};
    o->reviewed = review_judge(a, &reviewed, notices);
}
