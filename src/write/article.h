/* The article and the structured data of any post, recipe or round-up. */
#ifndef WRITE_ARTICLE_H
#define WRITE_ARTICLE_H

#include "write/fragment.h"

void article_write(struct text *t, const struct outcome *o, const struct fragment_manner *manner);
void article_data_write(struct text *t, const struct outcome *o);

#endif
