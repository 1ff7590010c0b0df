/* An SVG file looked through for what could run or fetch when a browser opens it by its own
 * address: SVG 2, sections 14 (links), 15 (scripting) and 19 (animation). */
#ifndef JUDGE_DRAWING_SCAN_H
#define JUDGE_DRAWING_SCAN_H

#include "base/text.h"

enum drawing_kind {
    DRAWING_NONE,  /* no SVG in UTF-8 */
    DRAWING_STILL, /* shapes, text, styles */
    DRAWING_ACTIVE /* a script, an event attribute, foreign content, entities of its own, a link to
                      anything but itself, a picture in it or a web page */
};

enum drawing_kind drawing_scan(struct slice bytes);

#endif
