/* Claims of a post held against the larder over every variant; allergens contained. */
#ifndef JUDGE_CLAIMS_H
#define JUDGE_CLAIMS_H

#include "judge/unlisted.h"
#include "reckon/portion.h"

enum grounds { GROUNDS_HOLDS, GROUNDS_FALSE, GROUNDS_ON_CHOICE, GROUNDS_LABEL, GROUNDS_UNKNOWN };

struct claim {
    struct front_value front_value; /* as written */
    const char *id; /* vegan, gluten-free, low-lactose, under-time, ingredient-count, one-pot;
                       NULL: none of these */
    enum grounds grounds;
    struct slice because; /* for readers: "no ingredient carries milk" */
    const char *diet_url; /* schema.org RestrictedDiet member, or NULL */
};

struct carried_allergen {
    enum allergen allergen;
    bool on_choice;      /* only in some variants */
    bool may_carry;      /* only unless the label says otherwise */
    size_t *ingredients; /* of the list; behind them what the method adds (unlisted_dish) */
    size_t count;
};

struct claims {
    struct claim *items;
    size_t count;
    struct carried_allergen *allergens;
    size_t allergen_count;
    struct slice unknown; /* lines whose allergens nobody knows: “3 tbsp house sauce”; or empty */
    bool diets[DIETS]; /* hold for every variant, claimed or not; false where a food is unknown */
};

/* notices, with what fills them:
 * CLAIM_FALSE, CLAIM_ON_CHOICE, CLAIM_LABEL, CLAIM_UNKNOWN: {what} the claim, {more} the lines that
 * decide it, or why ("“50 g parmesan”", "the steps name a saucepan and a baking tray")
 * TIME_CLAIM: {what} the claim, {more} as least_time_words or "the total declared is 45 min"
 * CLAIM_HEALTH: see health.h */
void claims_judge(const struct judging *j, const struct phase_stand *stand,
                  const struct method_foods *foods, struct claims *out);

#endif
