/* The larder: all foods of the tables, built file by file, and gone through in their order. */
#ifndef TABLES_LARDER_H
#define TABLES_LARDER_H

#include "read/word_lists.h"
#include "tables/foods.h"

/* all foods in the order of the tables; a name or part of one for `dariole larder` */
size_t larder_count(const struct larder *l);
const struct food *larder_food(const struct larder *l, size_t i);
const struct food *larder_by_id(const struct larder *l, struct slice id);

/* all names of a food, for `dariole larder`: "courgette (uk)", NULL-terminated */
const char **larder_names_of(const struct larder *l, struct arena *a, const struct food *f);

/* builds a larder file by file; a later file's food takes the place of an earlier one of its id.
 * Texts of the trees are kept, their nodes are not. */
struct larder *larder_open(struct arena *a, const struct measures *measures,
                           const struct word_lists *words);
/* takes in the foods of one file of foods/; rows that are wrong are left out with a notice */
void larder_add(struct larder *l, const struct yaml_node *root, struct notices *notices);
/* lays out the names; call once, after the last file */
void larder_close(struct larder *l);

/* the digest of a food's entry ("food:banana/mashed") or of a class's most; 0: there is none */
uint64_t larder_ask(const struct larder *l, struct slice key);

#endif
