/* The clips of a post's video: as WebVTT chapters (W3C), as plain lines to paste below a video, and
 * as schema.org Clips. */
#ifndef WRITE_CHAPTERS_H
#define WRITE_CHAPTERS_H

#include "compile/outcome.h"
#include "write/json_writer.h"

/* whether there are chapters to write: clips, and a length for the last of them to end at */
bool chapters_known(const struct outcome *o);
/* WebVTT with a cue a clip; only where chapters_known */
void chapters_write_vtt(struct text *t, const struct outcome *o);
/* "0:42 The batter", a line a clip */
void chapters_write_lines(struct text *t, const struct outcome *o);
/* the Clips of the video, as its hasPart; nothing where there are none */
void chapters_add_parts(struct json_writer *n, const struct outcome *o);
/* the Clip of a step, as its video; nothing where none shows it. Steps are numbered from 1 */
void chapters_add_of_step(struct json_writer *n, const struct outcome *o, size_t step);
/* the Clips of the round-up's film that show a dish of it, as its video; nothing where none does */
void chapters_add_of_dish(struct json_writer *n, const struct outcome *o);

#endif
