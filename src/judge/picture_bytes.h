/* What a picture's bytes are, held against the ending of its name: a browser goes by the bytes, or
 * by the ending, and what is neither is not published. */
#ifndef JUDGE_PICTURE_BYTES_H
#define JUDGE_PICTURE_BYTES_H

#include "judge/picture.h"

/* PICTURE_FOUND: of the kind that the ending says; PICTURE_OTHER_KIND; PICTURE_ACTIVE: a drawing
 * that can do more than be looked at (judge/drawing_scan.h) */
enum picture_found picture_bytes_judge(struct slice file, struct slice bytes);

#endif
