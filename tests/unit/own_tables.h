/* Tables for tests: those of the repository, or a few rows written in the test itself. */
#ifndef OWN_TABLES_H
#define OWN_TABLES_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "read/yaml_tree.h"
#include "tables/larder_rows.h"
#include "tables/table_cache.h"

/* the repository's own tables, without a cache; tests run from its top */
static inline struct tables *
repository_tables(struct arena *a)
{
    struct table_layers layers = {.folders = {"content/tables"}, .count = 1};
    struct failure f = {""};
    struct tables *t = arena_take(a, sizeof *t);
    if (!tables_load(a, &layers, "", t, &f))
        fail_msg("%s", f.text);
    return t;
}

/* setup and teardown of a group whose state is these tables */
static inline int
take_repository_tables(void **state)
{
    *state = repository_tables(arena_open(1 << 20));
    return 0;
}

static inline int
drop_repository_tables(void **state)
{
    const struct tables *t = *state;
    arena_close(t->larder->arena);
    return 0;
}

static inline const struct yaml_node *
yaml_of(struct arena *a, const char *text, struct notices *notices)
{
    const struct yaml_node *root = yaml_tree_read(a, slice_of(text), 1, notices);
    assert_non_null(root);
    return root;
}

static inline void
write_file(const char *path, const char *text)
{
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, strlen(text), file), strlen(text));
    assert_int_equal(fclose(file), 0);
}

#endif
