/* A file of foods while it is read, for the rooms that read its rows alone: food_rows.c,
 * food_forms.c, food_contents.c, food_entries.c. */
#ifndef TABLES_FOOD_PAGE_H
#define TABLES_FOOD_PAGE_H

#include "base/list.h"
#include "tables/larder_rows.h"
#include "tables/row.h"

struct page {
    struct larder *larder;
    struct row row;  /* the food being read */
    struct food all; /* its contents hold for foods that do not say otherwise */
    LIST_OF(struct food_name) names;
};

/* a figure, its source kept with the other texts of the larder */
bool food_page_figure(struct page *page, const struct yaml_node *node,
                      const struct figure_asked *asked, struct figure *out);
/* the texts of a list, NULL-terminated; a text alone is a list of one */
const char **food_page_texts(struct page *page, const struct yaml_node *list, const char *part);
/* the bits of a list of diets */
uint32_t food_page_diets(struct page *page, const struct yaml_node *list, const char *part);
/* a date of change, or NULL after it was said to be none; no node is no date */
const char *food_page_changed(struct page *page, const struct yaml_node *node);

#endif
