/* Foods that a method takes out of water, stock or milk again: what dissolves of them stays. */
#ifndef JUDGE_STRAINED_H
#define JUDGE_STRAINED_H

#include "judge/clauses.h"

/* notices STRAINED_OUT: {what} the ingredient's words, {more} empty; each ingredient once */
void strained_judge(const struct judging *j);

#endif
