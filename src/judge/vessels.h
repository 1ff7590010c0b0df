/* Pots, pans and trays that a method cooks in. */
#ifndef JUDGE_VESSELS_H
#define JUDGE_VESSELS_H

#include "reckon/schedule.h"

/* how many kinds of vessel the steps cook in; `named` tells them: "a saucepan and a baking tray" */
size_t vessels_count(struct arena *a, const struct schedule *s, struct slice *named);

#endif
