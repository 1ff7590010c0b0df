/* Files without a name until they are whole: what is named holds all bytes, nothing is left over.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
/* cmocka wants those first */
#include <cmocka.h>

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "press/nameless.h"
#include "press/place.h"

static char folder_path[] = "/tmp/dariole-nameless-XXXXXX";

static int
set_up(void **state)
{
    static int folder;
    if (mkdtemp(folder_path) == NULL)
        return -1;
    folder = open(folder_path, O_RDONLY | O_DIRECTORY);
    *state = &folder;
    return folder >= 0 ? 0 : -1;
}

static int
tear_down(void **state)
{
    int folder = *(int *)*state;
    static const char *const names[] = {"link", "proc", "held", "by-rename", "placed"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        unlinkat(folder, names[i], 0);
    close(folder);
    return rmdir(folder_path); /* fails where a temporary file was left */
}

static void
assert_holds(int folder, const char *name, const char *bytes)
{
    if (!place_holds(folder, name, slice_of(bytes)))
        fail_msg("%s does not hold \"%s\"", name, bytes);
}

/* both ways to name a file, where the file system has such files at all */
static void
whole_when_named(void **state)
{
    static const char *const names[] = {"link", "proc"};
    static const enum nameless ways[] = {NAMELESS_BY_LINK, NAMELESS_BY_PROC};
    int folder = *(int *)*state;
    for (size_t i = 0; i < 2; i++) {
        enum nameless how = ways[i];
        int fd = nameless_open(folder, &how);
        if (fd < 0) {
            assert_int_equal(how, NAMELESS_NOT_KNOWN);
            skip();
        }
        assert_true(place_put(fd, "bread", 5));
        assert_int_equal(faccessat(folder, names[i], F_OK, 0), -1);
        assert_true(nameless_link(fd, folder, names[i], &how));
        assert_holds(folder, names[i], "bread");
        assert_false(nameless_link(fd, folder, names[i], &how));
        assert_int_equal(errno, EEXIST);
        assert_int_not_equal(how, NAMELESS_NOT_KNOWN);
        close(fd);
    }
}

/* a new output replaces what came to stand there, and is placed where no file can be nameless */
static void
placed_either_way(void **state)
{
    int folder = *(int *)*state;
    struct place_batch b = {.step = 1};
    struct failure f;
    struct stat s, named;
    assert_true(place_new(&b, folder, "held", SLICE("old"), &s, &f));
    assert_true(place_new(&b, folder, "held", SLICE("newer"), &s, &f));
    assert_holds(folder, "held", "newer");
    assert_int_equal(fstatat(folder, "held", &named, 0), 0);
    assert_true(place_stamp(&s) == place_stamp(&named));
    b.nameless = NAMELESS_NOT_KNOWN;
    assert_true(place_new(&b, folder, "by-rename", SLICE("soup"), &s, &f));
    assert_holds(folder, "by-rename", "soup");
    assert_false(place_new(&b, folder, "no/such", SLICE("soup"), &s, &f));
    b.nameless = NAMELESS_BY_LINK;
    assert_false(place_new(&b, folder, "no/such", SLICE("soup"), &s, &f));
    place_batch_close(&b);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whole_when_named),
        cmocka_unit_test(placed_either_way),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
