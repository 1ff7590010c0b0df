#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/program.h"

/* what the linker's own tools say of this very test */
static void
the_id_is_that_of_the_file(void **state)
{
    (void)state;
    char command[80], line[200] = "", mine[100] = "", theirs[100] = "";
    struct slice id = program_id();
    assert_true(id.length > 0 && id.length < 40);
    for (size_t i = 0; i < id.length; i++)
        snprintf(mine + 2 * i, 3, "%02x", (unsigned char)id.at[i]);
    snprintf(command, sizeof command, "readelf -n /proc/%ld/exe", (long)getpid());
    FILE *notes = popen(command, "r");
    assert_non_null(notes);
    while (fgets(line, sizeof line, notes) != NULL)
        (void)sscanf(line, " Build ID: %99[0-9a-f]", theirs);
    pclose(notes);
    assert_string_equal(mine, theirs);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_id_is_that_of_the_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
