#include "own_tables.h"

#include <dirent.h>

#include "compile/compile.h"
#include "tables/larder.h"
#include "tables/table_ask.h"

/* the bytes of a post */
static struct slice
read_whole(struct arena *a, const char *path)
{
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    char *bytes = arena_take(a, 1 << 16);
    size_t length = fread(bytes, 1, 1 << 16, file);
    fclose(file);
    return (struct slice){bytes, length};
}

struct held {
    struct arena *arena;
    struct tables *tables;
};

/* every key that a post's outcome noted, asked again of the same tables, has the digest it had; and
 * of tables in which a figure of the post differs, one key at least has another */
static void
keys_of_real_posts_are_asked_again(void **state)
{
    const struct tables *t = ((struct held *)*state)->tables;
    struct arena *changed_arena = arena_open(1 << 20);
    struct tables *changed = repository_tables(changed_arena);
    for (size_t i = 0; i < larder_count(changed->larder); i++) {
        struct food *f = (struct food *)(uintptr_t)larder_food(changed->larder, i);
        for (size_t k = 0; k < f->form_count; k++)
            f->forms[k].entry.digest ^= 1;
    }
    size_t posts = 0, keys = 0;
    DIR *dir = opendir("content/posts");
    assert_non_null(dir);
    for (const struct dirent *d; (d = readdir(dir)) != NULL;) {
        if (!slice_ends(slice_of(d->d_name), ".md"))
            continue;
        struct arena *a = arena_open(1 << 18);
        const char *path = text_format(a, "content/posts/%s", d->d_name);
        struct reads reads = reads_new(a);
        struct outcome *o = arena_take(a, sizeof *o);
        compile_post(a, &(struct compile_sources){t, NULL, NULL},
                     &(struct post_bytes){path, read_whole(a, path)}, &reads, o);
        size_t differ = 0;
        for (size_t i = 0; i < reads.count; i++) {
            const struct entry *e = reads.items[i];
            if (tables_ask(t, a, slice_of(e->key)) != e->digest)
                fail_msg("%s: %s", path, e->key);
            differ += tables_ask(changed, a, slice_of(e->key)) != e->digest;
        }
        assert_true(differ > 0 || o->post.front.gathers.count > 0); /* its posts are not given */
        keys += reads.count;
        posts++;
        arena_close(a);
    }
    closedir(dir);
    assert_true(posts >= 12);
    assert_true(keys > posts * 30);
    arena_close(changed_arena);
}

static void
what_is_no_key_has_no_digest(void **state)
{
    const struct tables *t = ((struct held *)*state)->tables;
    struct arena *a = arena_open(1 << 12);
    static const char *const keys[] = {
        "",           "food:",          "food:no-such-food",  "food:banana/no-such-form",
        "unit:",      "unit:au/",       "unit:mars/cup",      "limit:strict/",
        "phase:none", "kin:fruit/none", "caution:none/words", "fill:none",
        "region:",    "word:mars/x",    "something else",
    };
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (tables_ask(t, a, slice_of(keys[i])) != 0)
            fail_msg("%s", keys[i]);
    assert_true(tables_ask(t, a, SLICE("find:")) != 0); /* not found is an answer */
    arena_close(a);
}

static int
open_tables(void **state)
{
    static struct held held;
    held.arena = arena_open(1 << 20);
    held.tables = repository_tables(held.arena);
    *state = &held;
    return 0;
}

static int
close_tables(void **state)
{
    arena_close(((struct held *)*state)->arena);
    return 0;
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keys_of_real_posts_are_asked_again),
        cmocka_unit_test(what_is_no_key_has_no_digest),
    };
    return cmocka_run_group_tests(tests, open_tables, close_tables);
}
