/* The portion panel, the drawing of the time, the nutrition table, the sources: parts of a
 * fragment. */
#ifndef WRITE_PANEL_H
#define WRITE_PANEL_H

#include "judge/outcome.h"

void panel_portion(struct text *t, const struct outcome *o, int heading_level);
void panel_schedule(struct text *t, const struct outcome *o, int heading_level);
void panel_microwave(struct text *t, const struct outcome *o, int heading_level);
void panel_nutrition(struct text *t, const struct outcome *o, int region, int heading_level);
void panel_cautions(struct text *t, const struct outcome *o, int heading_level);
void panel_claims(struct text *t, const struct outcome *o, int heading_level);
void panel_sources(struct text *t, const struct outcome *o, int heading_level);

#endif
