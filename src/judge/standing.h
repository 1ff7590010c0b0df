/* Findings about the portion: over, over by a choice, close, unknown; one for a cause, with what
 * follows from it. */
#ifndef JUDGE_STANDING_H
#define JUDGE_STANDING_H

#include "judge/finding.h"
#include "reckon/nutrition.h"
#include "reckon/choices.h"
#include "reckon/remedy.h"

/* a portion as it was reckoned in the site's phase */
struct portion_reckoned {
    const struct post *post;
    const struct tables *tables;
    const struct sheet *sheet;
    const struct phase_stand *stand;
    const struct choices *choices;
    const struct remedies *remedies;
    const struct nutrition *nutrition;
};

void standing_judge(struct arena *a, const struct portion_reckoned *p, struct reads *reads,
                    struct notices *notices);

/* a load's food as the post writes it */
struct slice standing_name(const struct sheet *s, const struct load *l, struct reads *reads);
/* "with the lactose-free yoghurt and without the honey": what is settled; empty: nothing is */
struct slice standing_choice_words(struct arena *a, const struct sheet *s, const struct choices *c,
                                   struct reads *reads);

#endif
