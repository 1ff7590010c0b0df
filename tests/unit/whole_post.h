/* A post read and laid out with the project's own tables, for the rooms that judge. */
#ifndef WHOLE_POST_H
#define WHOLE_POST_H

#include <stdlib.h>

#include "judge/clauses.h"
#include "reckon/dish_build.h"
#include "reckon/microwave.h"
#include "reckon/portion.h"
#include "reckon/schedule.h"
#include "tables/table_cache.h"

struct whole_post {
    struct post post;
    struct reads reads;
    struct notices notices; /* of what is tried; those of reading are left out */
    struct dish dish;
    struct schedule schedule;
    struct microwave microwave;
    struct phase_stand stand;
    struct names names;
    struct clauses clauses;
};

static struct arena *tables_arena;
static struct tables tables;

static int
load_tables(void **state)
{
    (void)state;
    struct failure f = {{0}};
    struct table_layers layers;
    tables_arena = arena_open(1 << 20);
    setenv("DARIOLE_TABLES", "content/tables", 1);
    if (setjmp(*arena_guard(tables_arena)) != 0 ||
        !tables_layers(tables_arena, "content", &layers, &f) ||
        !tables_load(tables_arena, &layers, "", &tables, &f)) {
        fprintf(stderr, "%s\n", f.text);
        return 1;
    }
    return 0;
}

static int
drop_tables(void **state)
{
    (void)state;
    arena_close(tables_arena);
    return 0;
}

static inline void
read_whole_post(struct arena *a, const char *bytes, struct whole_post *w)
{
    struct notices reading = {.arena = a};
    *w = (struct whole_post){.reads = reads_new(a), .notices = {.arena = a}};
    post_read(a, tables.words, &(struct post_bytes){"a-dish.md", slice_of(bytes)}, &reading,
              &w->post);
    dish_build(a, &w->post, &tables, &w->reads, &reading, &w->dish);
    portion_stand(a, &w->dish, &tables, tables.site.phase, &w->reads, &w->stand);
    schedule_read(a, &w->post.body, &tables.cooking, &w->schedule);
    schedule_add_lines(a, &w->dish, &tables.cooking, &w->schedule);
    microwave_read(a, &w->post.body, &w->schedule, tables.site.watts, tables.site.watt_count,
                   &w->microwave);
}

/* what the rules of its method look at */
static inline const struct judging *
judging(struct arena *a, struct whole_post *w)
{
    struct judging *j = arena_take(a, sizeof *j);
    names_read(a, &w->post, &w->dish, tables.words, &w->names);
    *j = (struct judging){a,         &w->post,    &w->dish,  &w->schedule, &tables,
                          &w->names, &w->clauses, &w->reads, &w->notices};
    clauses_read(j, &w->clauses);
    return j;
}

/* front matter from lines divided by ";", and a method of steps divided by "|" */
static inline const char *
compose(struct arena *a, const char *title, const char *keys, const char *lines, const char *steps,
        const char *notes)
{
    struct text t = text_new(a);
    text_addf(&t, "---\ntitle: \"%s\"\nportions: 4\n%singredients:\n", title, keys);
    struct slice rest = slice_of(lines);
    while (rest.length > 0) {
        size_t end = slice_find_byte(rest, ';', 0);
        end = end == SIZE_MAX ? rest.length : end;
        struct slice line = slice_trim(slice_part(rest, 0, end));
        text_addf(&t, "  - \"%.*s\"\n", SLICE_ARGS(line));
        rest = slice_part(rest, end + 1, rest.length);
    }
    text_add_string(&t, "---\n\n## Method\n\n");
    rest = slice_of(steps);
    for (int number = 1; rest.length > 0; number++) {
        size_t end = slice_find_byte(rest, '|', 0);
        end = end == SIZE_MAX ? rest.length : end;
        text_addf(&t, "%d. %.*s\n", number, SLICE_ARGS(slice_trim(slice_part(rest, 0, end))));
        rest = slice_part(rest, end + 1, rest.length);
    }
    if (notes != NULL)
        text_addf(&t, "\n## Notes\n\n%s\n", notes);
    return text_slice(&t).at;
}

static inline size_t
count_rule(const struct notices *n, enum rule rule)
{
    size_t count = 0;
    for (size_t i = 0; i < n->count; i++)
        count += n->items[i].rule == rule;
    return count;
}

#endif
