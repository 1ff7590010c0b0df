#include "compile/outcome.h"

#include "tables/measures.h"

/* own: the sheet of the site's phase */
static void
reckon(struct arena *a, const struct tables *t, struct reads *reads, struct notices *notices,
       struct outcome *o, struct sheet *own)
{
    int phase = t->site.phase;
    dish_lay(a, &o->post, t, reads, notices, &o->dish);
    for (size_t i = 0; i < t->limits.phase_count; i++) {
        struct sheet sheet;
        sheet_lay(a, &o->dish, t, (int)i, reads, &sheet);
        sheet_stand(a, &sheet, &o->phases[i]);
        if ((int)i == phase)
            *own = sheet;
    }
    sheet_choices(a, own, &o->choices);
    remedies_find(a, &o->dish, t, reads, own, &o->phases[phase], &o->choices, &o->remedies);
    nutrition_reckon(a, &o->dish, reads, &o->nutrition);
    schedule_lay(a, &o->post.body, &o->schedule);
    microwave_lay(a, &o->post.body, &o->schedule, t->site.watts, t->site.watt_count, &o->microwave);
}

static void
judge(struct arena *a, const struct tables *t, struct reads *reads, struct notices *notices,
      struct outcome *o, const struct sheet *own)
{
    const struct phase_stand *stand = &o->phases[t->site.phase];
    names_lay(a, &o->post, &o->dish, &o->names);
    const struct judging j = {a,         &o->post,    &o->dish, &o->schedule, t,
                              &o->names, &o->clauses, reads,    notices};
    clauses_lay(&j, &o->clauses);
    standing_judge(a, &o->post, &o->dish, t, own, stand, &o->remedies, &o->nutrition, reads,
                   notices);
    timing_judge(a, &o->post, &o->schedule, &o->microwave, t, notices);
    claims_judge(a, &o->post, &o->dish, &o->schedule, t, stand, reads, notices, &o->claims);
    hazards_judge(&j, &o->hazards);
    method_judge(&j, &o->mentions);
    recommended_judge(&o->post, notices);
}

/* room for the standings, which zeroes itself where it is reckoned */
static void
lay_phases(struct arena *a, struct outcome *o)
{
    const size_t count = o->tables->limits.phase_count;
    o->phases = o->post.readable && count > 0
                    ? arena_take_raw(a, count * sizeof *o->phases)
                    : arena_take_array(a, count > 0 ? count : 1, sizeof *o->phases);
}

void
outcome_compile(struct arena *a, const char *path, struct slice bytes, const struct tables *tables,
                const struct picture_finder *finder, struct reads *reads, struct outcome *out)
{
    *out = (struct outcome){.tables = tables, .reads = reads};
    struct notices notices = {.arena = a};
    reads_note(reads, &tables->site.entry);
    post_read(a, path, bytes, &notices, &out->post);
    lay_phases(a, out);
    if (out->post.readable) {
        struct sheet own;
        reckon(a, tables, reads, &notices, out, &own);
        judge(a, tables, reads, &notices, out, &own);
        clips_judge(&out->post, &notices, &out->clips);
        picture_judge(&out->post, finder, &notices, &out->picture);
    }
    out->publishable = out->post.readable && !out->post.front.draft;
    findings_make(a, path, &notices, &out->findings);
    findings_answer(a, path, out->post.front.answers, out->post.front.answer_count, &out->findings);
}
