/* The judging of one post, after it was read and reckoned: names, clauses and every rule. Each of
 * the posts given is judged in turn, 200 times. Prints the mean of the posts' medians and the
 * slowest, in microseconds. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "compile/recipe.h"
#include "read/post.h"

enum { RUNS = 200 };

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

static struct slice
file_read(struct arena *a, const char *path)
{
    struct text t = text_new(a);
    FILE *file = fopen(path, "r");
    for (int c; file != NULL && (c = fgetc(file)) != EOF;)
        text_add_byte(&t, (char)c);
    if (file != NULL)
        fclose(file);
    return text_slice(&t);
}

static double
judged(struct arena *a, const struct tables *t, const char *path, struct slice bytes)
{
    static double times[RUNS];
    for (size_t i = 0; i < RUNS; i++) {
        arena_reset(a);
        struct reads reads = reads_new(a);
        struct notices notices = {.arena = a};
        struct outcome *o = arena_take(a, sizeof *o);
        struct sheet sheet;
        *o = outcome_new(a, t, &reads);
        const struct post_bytes file = {.path = path, .bytes = bytes};
        post_read(a, t->words, &file, &notices, &o->post);
        recipe_reckon(a, t, &notices, o, &sheet);
        const double start = microseconds();
        recipe_judge(a, t, &notices, o, &sheet);
        times[i] = microseconds() - start;
    }
    qsort(times, RUNS, sizeof *times, ascending);
    return times[RUNS / 2];
}

int
main(int count, char **paths)
{
    struct arena *whole = arena_open(1 << 20), *each = arena_open(1 << 20);
    struct table_layers layers = {.folders = {"content/tables"}, .count = 1};
    struct failure f = {""};
    static struct tables tables;
    double sum = 0, slowest = 0;
    if (whole == NULL || each == NULL || setjmp(*arena_guard(whole)) != 0 ||
        setjmp(*arena_guard(each)) != 0 || !tables_load(whole, &layers, "", &tables, &f)) {
        fprintf(stderr, "bench: %s\n", f.text);
        return 3;
    }
    for (int i = 1; i < count; i++) {
        const double one = judged(each, &tables, paths[i], file_read(whole, paths[i]));
        sum += one;
        slowest = one > slowest ? one : slowest;
    }
    printf("%d posts judged: mean %.1f us, slowest %.1f us\n", count - 1,
           sum / (count > 1 ? count - 1 : 1), slowest);
    arena_close(each);
    arena_close(whole);
    return 0;
}
