/* A table's bytes over a few good ones -> what is wrong in it, every food, and a post made with it.
 * The first byte says which table. */
#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>

#include "oracles.h"
#include "rooms.h"
#include "tables/larder.h"
#include "tables/table_cache.h"
#include "write/larder_page.h"
#include "write/report.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

static const char *const files[] = {"foods/fuzzed.yaml", "measures.yaml", "limits.yaml",
                                    "cautions.yaml",     "swaps.yaml",    "cooking.yaml",
                                    "site.yaml",         "words.yaml",    "sources.yaml"};
static const char post[] = "---\ntitle: Tofu\nportions: 2\nmeasures: us\ningredients:\n"
                           "  - 200 g firm tofu\n  - 1 cup soy milk\n  - 1 tbsp apple or pear\n"
                           "claims: [vegan]\n---\n## Method\n\n1. Fry the tofu for 5 minutes.\n";

/* foods of the good tables, which come first: one of them is looked at each time, all of the fuzzed
 * are */
static size_t
count_good(const char *folder)
{
    struct arena *a = arena_open((size_t)1 << 20);
    struct tables *t = arena_take(a, sizeof *t);
    struct failure f = {""};
    const struct table_layers layers = {.folders = {folder}, .count = 1};
    if (!tables_load(a, &layers, "", t, &f))
        abort();
    const size_t count = larder_count(t->larder);
    arena_close(a);
    return count;
}

static void
check(struct arena *a, const char *folder, size_t good, size_t looked_at)
{
    static char base[128], over[128];
    struct failure f = {""};
    struct tables *t = arena_take(a, sizeof *t);
    snprintf(base, sizeof base, "%s/base", folder);
    snprintf(over, sizeof over, "%s/over", folder);
    const struct table_layers layers = {.folders = {base, over}, .count = 2};
    if (!tables_load(a, &layers, "", t, &f))
        return;
    struct text faults = text_new(a);
    report_tables(&faults, t);
    for (size_t i = 0; i < larder_count(t->larder); i++) {
        if (i < good && i != looked_at % good)
            continue;
        struct text page = text_new(a), json = text_new(a);
        larder_page_text(&page, larder_food(t->larder, i), t);
        larder_page_json(&json, larder_food(t->larder, i), t);
        oracles_json(text_slice(&json));
    }
    oracles_post(t, "posts/tofu.md", SLICE(post));
}

int
LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    static const char *folder;
    static size_t good;
    if (length < 1)
        return 0;
    if (folder == NULL) {
        char base[128];
        folder = rooms_open();
        snprintf(base, sizeof base, "%s/base", folder);
        rooms_put_tables(base);
        json_set_alloc_funcs(arena_lent_malloc, arena_lent_free);
        good = count_good(base);
    }
    char over[128];
    snprintf(over, sizeof over, "%s/over", folder);
    rooms_remove(over);
    rooms_put(over, files[bytes[0] % (sizeof files / sizeof *files)], bytes + 1, length - 1);
    struct arena *a = arena_open((size_t)1 << 20), *before = arena_lend(a);
    if (setjmp(*arena_guard(a)) == 0)
        check(a, folder, good, length);
    arena_lend(before);
    arena_close(a);
    return 0;
}
