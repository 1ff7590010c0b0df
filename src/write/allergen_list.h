/* What a portion contains of the allergens that each region's law names, and what it may contain.
 */
#ifndef WRITE_ALLERGEN_LIST_H
#define WRITE_ALLERGEN_LIST_H

#include "write/fragment_context.h"

/* "Contains: eggs, milk (depends on a choice)."; a paragraph, varied by region */
void allergen_list_write(struct text *t, const struct fragment_context *s);

#endif
