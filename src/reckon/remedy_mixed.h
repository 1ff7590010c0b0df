/* Remedies that settle choices and cut amounts together. */
#ifndef RECKON_REMEDY_MIXED_H
#define RECKON_REMEDY_MIXED_H

#include "reckon/remedy_cuts.h"

/* choices settled and what has no figure left out, then amounts down as far as that is not enough.
 * Takes the place of the remedy found last where it asks for fewer changes. */
void remedy_mixed(struct remedy_search *f);

#endif
