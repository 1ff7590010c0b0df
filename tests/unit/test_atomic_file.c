/* Files put in place: what is named holds all bytes, nothing is left over; and files opened beneath
 * a folder alone. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
/* cmocka wants those first */
#include <cmocka.h>

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "press/atomic_file.h"
#include "press/beneath.h"

struct room {
    char path[32];
    int fd;
};

static int
set_up(void **state)
{
    static struct room r;
    strcpy(r.path, "/tmp/dariole-place-XXXXXX");
    if (mkdtemp(r.path) == NULL)
        return -1;
    r.fd = open(r.path, O_RDONLY | O_DIRECTORY);
    *state = &r;
    return r.fd >= 0 ? 0 : -1;
}

/* all that the tests put there; fails where something else was left */
static int
tear_down(void **state)
{
    static const char *const names[] = {"in/file", "in/link", "in/up", "file", "whole",
                                        "link",    "pipe",    "twin",  "old",  "new"};
    struct room *r = *state;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        unlinkat(r->fd, names[i], 0);
    unlinkat(r->fd, "in", AT_REMOVEDIR);
    close(r->fd);
    return rmdir(r->path);
}

static void
put(int folder, const char *name, const char *bytes)
{
    int fd = openat(folder, name, O_WRONLY | O_CREAT | O_TRUNC, 0666);
    assert_true(fd >= 0 && atomic_file_put(fd, bytes, strlen(bytes)));
    close(fd);
}

struct told {
    size_t placed, failed;
    uint64_t tags;
};

static void
note(void *ctx, uint64_t tag, const struct stat *s, const struct failure *f)
{
    struct told *told = ctx;
    (void)f;
    told->tags += tag;
    if (s != NULL)
        told->placed++;
    else
        told->failed++;
}

static void
a_file_gets_its_name_once_it_is_whole(void **state)
{
    const struct room *r = *state;
    struct atomic_file_batch b = {.step = 1};
    struct told told = {0};
    const struct atomic_file_teller teller = {note, &told};
    struct failure f;
    put(r->fd, "old", "before");
    assert_true(atomic_file_add(&b, r->fd, "old", true, SLICE("after"), 1, &f));
    assert_true(atomic_file_add(&b, r->fd, "new", false, SLICE("soup"), 2, &f));
    assert_true(atomic_file_holds(r->fd, "old", SLICE("before")));
    assert_int_equal(faccessat(r->fd, "new", F_OK, 0), -1);
    assert_true(atomic_file_commit(&b, false, &teller, &f));
    assert_true(atomic_file_holds(r->fd, "old", SLICE("after")));
    assert_true(atomic_file_holds(r->fd, "new", SLICE("soup")));
    assert_true(told.placed == 2 && told.failed == 0 && told.tags == 3);
    atomic_file_batch_close(&b);
}

static void
what_is_given_up_leaves_nothing(void **state)
{
    const struct room *r = *state;
    struct atomic_file_batch b = {.step = 1};
    struct told told = {0};
    const struct atomic_file_teller teller = {note, &told};
    struct failure f;
    assert_true(atomic_file_add(&b, r->fd, "new", false, SLICE("soup"), 0, &f));
    atomic_file_batch_close(&b);
    assert_int_equal(faccessat(r->fd, "new", F_OK, 0), -1);
    assert_true(atomic_file_add(&b, r->fd, "no/such", false, SLICE("soup"), 7, &f));
    assert_false(atomic_file_commit(&b, false, &teller, &f));
    assert_true(told.failed == 1 && told.tags == 7);
    atomic_file_batch_close(&b);
}

static void
a_path_stays_beneath_its_folder(void **state)
{
    const struct room *r = *state;
    struct stat s;
    uint64_t digest;
    mkdirat(r->fd, "in", 0777);
    put(r->fd, "file", "outside");
    put(r->fd, "in/file", "inside");
    symlinkat("file", r->fd, "in/link");
    symlinkat("../file", r->fd, "in/up");
    int in = openat(r->fd, "in", O_RDONLY | O_DIRECTORY);
    static const char *const out[] = {"../file", "up", "/etc/passwd", "/", "../in/file"};
    for (size_t i = 0; i < sizeof out / sizeof *out; i++) {
        errno = 0;
        assert_int_equal(beneath_open(in, out[i], O_RDONLY), -1);
        assert_int_equal(errno, EXDEV);
        assert_false(beneath_stat(in, out[i], &s));
        assert_false(atomic_file_digest(in, out[i], 100, &digest));
    }
    assert_true(beneath_stat(in, "file", &s) && s.st_size == 6);
    assert_true(beneath_stat(r->fd, "in/file", &s) && s.st_size == 6);
    assert_true(atomic_file_digest(in, "file", 2, &digest) &&
                digest == slice_digest(SLICE("in"), 0));
    assert_int_equal(beneath_open(in, "none", O_RDONLY), -1);
    assert_int_equal(errno, ENOENT);
    close(in);
}

static void
a_plain_file_is_neither_link_nor_pipe(void **state)
{
    const struct room *r = *state;
    struct stat s;
    struct slice bytes;
    struct arena *a = arena_open(4096);
    put(r->fd, "whole", "soup");
    symlinkat("whole", r->fd, "link");
    mkfifoat(r->fd, "pipe", 0666);
    static const char *const others[] = {"link", "pipe", "."};
    for (size_t i = 0; i < 3; i++) {
        assert_int_equal(beneath_open_plain(r->fd, others[i], O_RDONLY, &s), -1);
        assert_false(atomic_file_read_plain(a, r->fd, others[i], 100, &bytes));
    }
    assert_int_equal(beneath_open_plain(r->fd, "pipe", O_WRONLY | O_CREAT, &s), -1);
    assert_true(atomic_file_read_plain(a, r->fd, "whole", 4, &bytes) && slice_is(bytes, "soup"));
    assert_false(atomic_file_read_plain(a, r->fd, "whole", 3, &bytes));
    assert_int_equal(errno, EFBIG);
    int fd = beneath_open_plain(r->fd, "whole", O_WRONLY, &s);
    assert_true(fd >= 0);
    close(fd);
    linkat(r->fd, "whole", r->fd, "twin", 0);
    assert_int_equal(beneath_open_plain(r->fd, "whole", O_WRONLY, &s), -1);
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_file_gets_its_name_once_it_is_whole, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_is_given_up_leaves_nothing, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_path_stays_beneath_its_folder, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_plain_file_is_neither_link_nor_pipe, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
