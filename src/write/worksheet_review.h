/* What a reviewer signs, behind the worksheet. */
#ifndef WRITE_WORKSHEET_REVIEW_H
#define WRITE_WORKSHEET_REVIEW_H

#include "compile/outcome.h"

/* the verdict in each phase, a line to sign, and the front matter that holds as long as nothing
 * that the verdict rests on changes */
void worksheet_review(struct text *t, const struct outcome *o);

#endif
