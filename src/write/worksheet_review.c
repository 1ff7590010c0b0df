#include "write/worksheet_review.h"

#include "judge/review.h"

void
worksheet_review(struct text *t, const struct outcome *o)
{
    const struct reviewed_portion p = {&o->post, &o->dish, o->phases, o->tables};
    const struct limits *l = &o->tables->limits;
    text_add_string(t, "\nFor review\n\n");
    for (size_t i = 0; i < l->phase_count; i++) {
        text_addf(t, "One portion, %s: %s", l->phases[i].name,
                  standing_word(o->phases[i].standing));
        if (o->phases[i].best_standing != o->phases[i].standing)
            text_addf(t, "; at best %s", standing_word(o->phases[i].best_standing));
        text_add_byte(t, '\n');
    }
    text_add_string(
        t, "\nReviewed by ______________________  on ____________\n\n"
           "In the front matter of the post, which says so while nothing of this changes:\n\n"
           "reviewed:\n  by: \n  on: \n  digest: ");
    text_add(t, review_digest(t->arena, &p));
    text_add_byte(t, '\n');
}
