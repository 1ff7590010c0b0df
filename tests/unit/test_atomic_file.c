/* Files put in place: what is named holds all bytes, nothing is left over. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
/* cmocka wants those first */
#include <cmocka.h>

#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "press/staging.h"

static char out_path[] = "/tmp/dariole-place-XXXXXX";
static const char *const names[] = {"fragments", "data", "preview"};

static int
set_up(void **state)
{
    static int out;
    if (mkdtemp(out_path) == NULL)
        return -1;
    out = open(out_path, O_RDONLY | O_DIRECTORY);
    *state = &out;
    return out >= 0 ? 0 : -1;
}

/* all that the tests put there; fails where something else was left */
static int
tear_down(void **state)
{
    static const char *const files[] = {"held", "new", "fragments/soup.html", "fragments/own.txt",
                                        "data/soup.json"};
    int out = *(int *)*state;
    for (size_t i = 0; i < sizeof files / sizeof *files; i++)
        unlinkat(out, files[i], 0);
    for (size_t i = 0; i < 3; i++)
        unlinkat(out, names[i], AT_REMOVEDIR);
    unlinkat(out, ".dariole", AT_REMOVEDIR);
    close(out);
    return rmdir(out_path);
}

static void
assert_holds(int folder, const char *name, const char *bytes)
{
    if (!atomic_file_holds(folder, name, slice_of(bytes)))
        fail_msg("%s does not hold \"%s\"", name, bytes);
}

static bool
is_there(int folder, const char *name)
{
    return faccessat(folder, name, F_OK, AT_SYMLINK_NOFOLLOW) == 0;
}

/* with and without a temporary name, over what came to stand there too */
static void
a_new_file_is_whole(void **state)
{
    int out = *(int *)*state;
    struct atomic_file_batch b = {.step = 1};
    struct failure f;
    struct stat s, named;
    assert_true(atomic_file_new(&b, out, true, "held", SLICE("old"), &s, &f));
    assert_holds(out, "held", "old");
    assert_true(atomic_file_new(&b, out, true, "held", SLICE("newer"), &s, &f));
    assert_holds(out, "held", "newer");
    assert_int_equal(fstatat(out, "held", &named, 0), 0);
    assert_true(atomic_file_stamp(&s) == atomic_file_stamp(&named));
    assert_true(atomic_file_new(&b, out, false, "new", SLICE("soup"), &s, &f));
    assert_holds(out, "new", "soup");
    assert_false(atomic_file_new(&b, out, false, "no/such", SLICE("soup"), &s, &f));
    assert_false(atomic_file_new(&b, out, true, "no/such", SLICE("soup"), &s, &f));
    assert_false(b.torn);
    atomic_file_batch_close(&b);
}

static struct pressing
open_out(int out)
{
    struct pressing p = {.folders = {[FOLDER_OUT] = out}};
    mkdirat(out, ".dariole", 0777);
    p.hidden = openat(out, ".dariole", O_RDONLY | O_DIRECTORY);
    for (int i = 0; i < 3; i++) {
        mkdirat(out, names[i], 0777);
        p.folders[i] = openat(out, names[i], O_RDONLY | O_DIRECTORY);
        p.vacant[i] = atomic_file_vacant(p.folders[i]);
    }
    return p;
}

static void
close_out(struct pressing *p)
{
    for (int i = 0; i < 3; i++)
        close(p->folders[i]);
    close(p->hidden);
}

static void
put(int folder, const char *name, const char *bytes)
{
    int fd = openat(folder, name, O_WRONLY | O_CREAT | O_TRUNC, 0666);
    assert_true(fd >= 0 && atomic_file_put(fd, bytes, strlen(bytes)));
    close(fd);
}

/* folders that hold nothing are away until all is in them; what somebody else made in one's place
 * meanwhile stays beside it */
static void
vacant_folders_are_filled_aside(void **state)
{
    int out = *(int *)*state;
    struct failure f;
    mkdirat(out, "data", 0777);
    put(out, "data/soup.json", "{}");
    struct pressing p = open_out(out);
    staging_begin(&p);
    assert_true(p.staged[FOLDER_FRAGMENTS] && p.staged[FOLDER_PREVIEW]);
    assert_false(p.staged[FOLDER_DATA]);
    assert_false(is_there(out, "fragments"));
    assert_true(is_there(out, "data/soup.json"));
    put(p.folders[FOLDER_FRAGMENTS], "soup.html", "<p>");
    mkdirat(out, "fragments", 0777);
    put(out, "fragments/own.txt", "mine");
    assert_true(staging_put_back(&p, &f));
    assert_holds(out, "fragments/soup.html", "<p>");
    assert_holds(out, "fragments/own.txt", "mine");
    assert_true(is_there(out, "preview"));
    assert_true(atomic_file_vacant(p.hidden));
    assert_true(atomic_file_holds(p.folders[FOLDER_FRAGMENTS], "own.txt", SLICE("mine")));
    close_out(&p);
    unlinkat(out, "fragments/soup.html", 0);
    unlinkat(out, "fragments/own.txt", 0);
}

/* a torn file is in no folder of OUT, and the next press removes what is left aside */
static void
what_is_torn_stays_aside(void **state)
{
    int out = *(int *)*state;
    struct failure f;
    struct pressing p = open_out(out);
    struct press_worker thread_worker = {.batch = {.torn = true}};
    p.workers = &thread_worker;
    p.options.threads = 1;
    staging_begin(&p);
    put(p.folders[FOLDER_FRAGMENTS], "soup.html", "<");
    assert_false(staging_put_back(&p, &f));
    assert_false(is_there(out, "fragments"));
    assert_true(is_there(p.hidden, "fragments/soup.html"));
    staging_clear(&p);
    assert_true(atomic_file_vacant(p.hidden));
    close_out(&p);
}

/* a folder that is elsewhere stays where it is */
static void
a_linked_folder_is_not_moved(void **state)
{
    int out = *(int *)*state;
    struct failure f;
    unlinkat(out, "data/soup.json", 0);
    unlinkat(out, "fragments", AT_REMOVEDIR);
    mkdirat(out, "data", 0777);
    assert_int_equal(symlinkat("data", out, "fragments"), 0);
    struct pressing p = open_out(out);
    p.staged[FOLDER_DATA] = false;
    p.vacant[FOLDER_DATA] = false;
    staging_begin(&p);
    assert_false(p.staged[FOLDER_FRAGMENTS]);
    assert_true(is_there(out, "fragments"));
    assert_true(staging_put_back(&p, &f));
    close_out(&p);
    unlinkat(out, "fragments", 0);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_new_file_is_whole),
        cmocka_unit_test(vacant_folders_are_filled_aside),
        cmocka_unit_test(what_is_torn_stays_aside),
        cmocka_unit_test(a_linked_folder_is_not_moved),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
