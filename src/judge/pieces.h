/* How many pieces the method cuts, held against the yield or the portions. */
#ifndef JUDGE_PIECES_H
#define JUDGE_PIECES_H

#include "judge/clauses.h"

/* notices PIECES_MISFIT: {what} the words of the step; {more} "the yield is 16 squares" or "it
 * serves 8". Of several the last counts: a dough is halved before it is cut. */
void pieces_judge(const struct judging *j);

#endif
