/* Promises of the diet itself, in the title, the summary or the prose, held against the standing:
 * "low-FODMAP onion fry", "won't bloat you". A promise about a disease is a health claim besides.
 */
#ifndef JUDGE_DIET_PROMISE_H
#define JUDGE_DIET_PROMISE_H

#include "judge/judging.h"
#include "reckon/portion.h"

/* notices, at the first place that promises it (claimed: the claims do already, and are told of):
 * CLAIM_FALSE where one portion is over, CLAIM_ON_CHOICE where a choice decides, CLAIM_CLOSE,
 * CLAIM_UNKNOWN; CLAIM_HEALTH for a disease, whatever the standing */
void diet_promise_judge(const struct judging *j, const struct phase_stand *stand, bool claimed);

/* how a portion stands to the promise, for a claim: "one portion is over the limits, most by the
 * onion"; the rule to raise, or RULES where it holds */
enum rule diet_promise_rule(struct arena *a, const struct phase_stand *stand,
                            struct slice *because);

/* whether a claim is this promise */
bool diet_promise_claimed(struct arena *a, const struct word_lists *lists, struct slice text);

#endif
