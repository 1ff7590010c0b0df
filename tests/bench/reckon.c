/* The reckoning of one post with 20 ingredients and 6 choices, after it was read: standing, choices
 * and the judging of both. Prints the median and the least of 2,000 runs, in microseconds. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "judge/standing.h"
#include "reckon/dish_build.h"

enum { RUNS = 2000 };

static const char post_text[] =
    "---\ntitle: Twenty\nportions: 4\nmeasures: au\ningredients:\n"
    "  - 200 g rice\n  - 1 cup polenta\n  - 300 g firm tofu\n  - 2 carrots\n  - 1 zucchini\n"
    "  - 100 g spinach\n  - 2 tbsp olive oil\n  - 1 tbsp maple syrup or brown sugar\n"
    "  - 2 tbsp lemon juice or white wine vinegar\n  - 100 g tomatoes or red capsicum\n"
    "  - ½ cup peanuts or walnuts\n  - 1 tsp cumin (optional)\n  - 2 tbsp parsley (optional)\n"
    "  - 1 tsp salt\n  - ½ tsp black pepper\n  - 40 g butter\n  - 2 eggs\n  - 100 g cheddar\n"
    "  - 1 tsp baking powder\n  - 250 ml water\n---\n\n## Method\n1. Mix.\n";

static double
microseconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e6 + (double)t.tv_nsec / 1e3;
}

static int
ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double
run_once(struct arena *a, const struct post *post, const struct dish *dish, const struct tables *t)
{
    struct reads reads = reads_new(a);
    struct notices notices = {.arena = a};
    struct phase_stand stand;
    struct choices choices;
    double start = microseconds();
    struct sheet sheet;
    sheet_build(a, dish, t, &reads, &sheet);
    sheet_stand(a, &sheet, t->site.phase, &reads, &stand);
    choices_find(a, &sheet, &stand, &choices);
    const struct portion_reckoned portion = {post, t, &sheet, &stand, &choices, NULL, NULL};
    standing_judge(a, &portion, &reads, &notices);
    return microseconds() - start;
}

int
main(void)
{
    struct arena *whole = arena_open(1 << 20), *each = arena_open(1 << 20);
    struct table_layers layers = {.folders = {"content/tables"}, .count = 1};
    struct failure f = {""};
    static struct tables tables;
    static struct post post;
    static double times[RUNS];
    struct dish dish;
    if (whole == NULL || each == NULL || setjmp(*arena_guard(whole)) != 0 ||
        setjmp(*arena_guard(each)) != 0 || !tables_load(whole, &layers, "", &tables, &f)) {
        fprintf(stderr, "bench: %s\n", f.text);
        return 3;
    }
    struct notices notices = {.arena = whole};
    struct reads reads = reads_new(whole);
    post_read(whole, tables.words, &(struct post_bytes){"twenty.md", SLICE(post_text)}, &notices,
              &post);
    dish_build(whole, &post, &tables, &reads, &notices, &dish);
    struct sheet sheet;
    struct phase_stand stand;
    struct choices choices;
    sheet_build(whole, &dish, &tables, &reads, &sheet);
    sheet_stand(whole, &sheet, tables.site.phase, &reads, &stand);
    choices_find(whole, &sheet, &stand, &choices);
    for (size_t i = 0; i < RUNS; i++) {
        arena_reset(each);
        times[i] = run_once(each, &post, &dish, &tables);
    }
    qsort(times, RUNS, sizeof *times, ascending);
    printf("%zu ingredients, %zu choices, %.0f variants: median %.1f us, least %.1f us\n",
           dish.count, choices.choice_count, choices.variant_count, times[RUNS / 2], times[0]);
    arena_close(each);
    arena_close(whole);
    return 0;
}
