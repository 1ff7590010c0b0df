/* The name of a food in an ingredient line: in the words of a region, its allergens emphasised as
 * the region's law has it. */
#ifndef WRITE_INGREDIENT_NAME_H
#define WRITE_INGREDIENT_NAME_H

#include "write/fragment_context.h"

/* HTML of the author's words for a food as region i of the setting says them. Its allergens are
 * emphasised within the list; where the name does not tell one, its name stands behind it
 * (Regulation (EU) 1169/2011 Article 21) */
struct slice ingredient_name_write(const struct fragment_context *s, const struct helping *h,
                                   struct slice words, size_t i);
/* whether a region's law names the allergen: the EU's 14, the US's 9 */
bool ingredient_name_by_law(const struct region *r, enum allergen a);

/* widens from..to, a mention in a step's text, to the whole name that the list has where it stands
 * there: "bicarbonate" to "bicarbonate of soda" */
bool ingredient_name_around(const struct fragment_context *s, size_t ingredient, struct slice text,
                            size_t *from, size_t *to);
/* bytes of the name that stand in front of its last `length` bytes at the end of a text: "red " of
 * "the red pepper", where "pepper" alone was seen */
size_t ingredient_name_before(const struct fragment_context *s, size_t ingredient,
                              struct slice text, size_t length);
/* what a step calls an ingredient, as region i would; the words as they are where they need not
 * mean the food of the list ("pepper" may be the spice) */
struct slice ingredient_name_in_step(const struct fragment_context *s, size_t ingredient,
                                     struct slice words, size_t i);

#endif
