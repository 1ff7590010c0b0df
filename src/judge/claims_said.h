/* Claims that the title, summary or prose makes in passing: "this vegan loaf". They must hold as
 * those under `claims:` do. */
#ifndef JUDGE_CLAIMS_SAID_H
#define JUDGE_CLAIMS_SAID_H

#include "judge/claims.h"

/* dish: with what the method adds; claimed: those under `claims:`, which are told already. Notices
 * CLAIM_FALSE and CLAIM_ON_CHOICE: {what} the words, {more} the lines that decide */
void claims_said_judge(const struct judging *j, const struct dish *dish,
                       const struct claims *claimed);

#endif
