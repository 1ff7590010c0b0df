/* The lists of words of the repository's tables, for tests that need no other table. */
#ifndef ENGLISH_H
#define ENGLISH_H

#include "read/yaml_tree.h"
#include <stdio.h>

#include "read/words.h"
#include "tables/words.h"

/* tests run from the repository's top; the lists live as long as the test */
static inline const struct word_lists *
english(void)
{
    static struct word_lists lists;
    static struct arena *a;
    char *bytes;
    if (a != NULL)
        return &lists;
    FILE *file = fopen("content/tables/words.yaml", "r");
    assert_non_null(file);
    a = arena_open(1 << 18);
    bytes = arena_take(a, 1 << 20);
    const struct slice text = {bytes, fread(bytes, 1, 1 << 20, file)};
    fclose(file);
    struct notices notices = {.arena = a};
    words_open(a, &lists);
    words_load(a, yaml_tree_read(a, text, 1, &notices), &notices, &lists);
    words_close(&lists);
    assert_int_equal(notices.count, 0);
    return &lists;
}

/* a text cut into words that know the lists */
static inline const struct words *
words_in(struct arena *a, struct slice text)
{
    struct words *w = arena_take(a, sizeof *w);
    words_read(a, english(), text, w);
    return w;
}

#endif
