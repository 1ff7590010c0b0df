/* Reads the table of words (words.yaml) into the lists of read/word_lists.h. */
#ifndef TABLES_WORDS_H
#define TABLES_WORDS_H

#include "read/word_lists.h"
#include "read/yaml_tree.h"

/* all lists, empty; call once, before the first layer */
void words_open(struct arena *a, struct word_lists *out);
/* Takes one layer of the table in: its words are added to those before, and what stands behind a
 * word takes the place of what stood there. Findings for lists that nobody knows and words that no
 * text could have. */
void words_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
                struct word_lists *out);
/* lays the entry; call once, after the last layer */
void words_close(struct word_lists *w);

#endif
