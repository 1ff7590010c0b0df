/* From what is written to grams: mL or pieces, g as bought, g edible. Each step is kept for the
 * worksheet. All in spans; see DEVELOPERS.md for what has a width and why. */
#ifndef RECKON_MASS_H
#define RECKON_MASS_H

#include "reckon/weighing.h"

/* weighs a written food; food NULL: only weights and volumes are brought to g / mL. Notices: amount
 * missing, weight unknown, measures disagree. */
void mass_weigh(struct arena *a, const struct ingredient_line *line,
                const struct written_food *written, const struct found *found, int region,
                const struct measures *measures, struct reads *reads, struct notices *notices,
                struct weighing *out);

/* how the food of these amounts is measured: by spoon, cup, weight, piece, bunch */
enum measured_by mass_measured_by(const struct written_food *written);

#endif
