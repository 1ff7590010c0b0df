/* A process that confined itself reaches what it named, and nothing else. Each attempt is made by a
 * child of its own. What the kernel lacks is told, and passed over. */
#define _GNU_SOURCE
#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/ptrace.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/confinement.h"

static char folder[] = "/tmp/test-confinement-XXXXXX";
static char reads[80], writes[80], other[80], reads_file[96], writes_file[96], other_file[96];

static void
put(const char *path)
{
    FILE *to = fopen(path, "w");
    assert_non_null(to);
    fputs("as it was", to);
    fclose(to);
}

static bool
as_it_was(const char *path)
{
    char bytes[16] = "";
    FILE *from = fopen(path, "r");
    const size_t n = from != NULL ? fread(bytes, 1, sizeof bytes - 1, from) : 0;
    if (from != NULL)
        fclose(from);
    return n == 9 && strcmp(bytes, "as it was") == 0;
}

static int
begin(void **state)
{
    (void)state;
    assert_non_null(mkdtemp(folder));
    snprintf(reads, sizeof reads, "%s/reads", folder);
    snprintf(writes, sizeof writes, "%s/writes", folder);
    snprintf(other, sizeof other, "%s/other", folder);
    snprintf(reads_file, sizeof reads_file, "%s/file", reads);
    snprintf(writes_file, sizeof writes_file, "%s/file", writes);
    snprintf(other_file, sizeof other_file, "%s/file", other);
    mkdir(reads, 0777), mkdir(writes, 0777), mkdir(other, 0777);
    put(reads_file), put(writes_file), put(other_file);
    return 0;
}

static int
end(void **state)
{
    (void)state;
    const char *const files[] = {reads_file, writes_file, other_file}, *const folders[] = {
                                                                           reads, writes, other,
                                                                           folder};
    for (size_t i = 0; i < 3; i++)
        unlink(files[i]);
    for (size_t i = 0; i < 4; i++)
        rmdir(folders[i]);
    return 0;
}

enum { DONE, FAILED, NOTHING_HOLDS };

/* what became of an attempt in a confined child; 128 and more: a signal */
static int
confined(bool files, int (*attempt)(void))
{
    const pid_t child = fork();
    if (child == 0) {
        struct confinement c;
        confinement_begin(&c);
        confinement_allow(&c, reads, CONFINEMENT_READ);
        confinement_allow(&c, writes, CONFINEMENT_WRITE);
        confinement_allow(&c, "/nowhere/at/all", CONFINEMENT_WRITE);
        const struct confinement_held held = confinement_enter(&c);
        if (!(files ? held.files > 0 : held.calls))
            _exit(NOTHING_HOLDS);
        _exit(attempt() == 0 ? DONE : FAILED);
    }
    int status = 0;
    assert_true(child > 0 && waitpid(child, &status, 0) == child);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

static void
expect(bool files, int (*attempt)(void), int outcome)
{
    const int found = confined(files, attempt);
    if (found == NOTHING_HOLDS)
        print_message("# this kernel or build confines no %s\n", files ? "files" : "calls");
    else
        assert_int_equal(found, outcome);
}

static int
opens(const char *path, int flags)
{
    const int fd = open(path, flags, 0666);
    return fd < 0 ? -1 : close(fd);
}

static int
read_named(void)
{
    return opens(reads_file, O_RDONLY);
}

static int
write_named(void)
{
    return opens(writes_file, O_WRONLY | O_TRUNC) + opens(writes_file, O_RDONLY);
}

static int
replace_named(void)
{
    char new[96];
    snprintf(new, sizeof new, "%s/new", writes);
    return opens(new, O_WRONLY | O_CREAT | O_EXCL) + rename(new, writes_file);
}

static int
list_named(void)
{
    return opens(reads, O_RDONLY | O_DIRECTORY);
}

static int
read_other(void)
{
    return opens(other_file, O_RDONLY);
}

static int
read_system(void)
{
    return opens("/etc/passwd", O_RDONLY);
}

static int
list_other(void)
{
    return opens(other, O_RDONLY | O_DIRECTORY);
}

static int
read_by_way_of_named(void)
{
    char path[120];
    snprintf(path, sizeof path, "%s/../other/file", writes);
    return opens(path, O_RDONLY);
}

static int
write_where_read(void)
{
    return opens(reads_file, O_WRONLY);
}

static int
write_other(void)
{
    return opens(other_file, O_WRONLY | O_TRUNC);
}

static int
remove_other(void)
{
    return unlink(other_file);
}

static int
move_other_here(void)
{
    return rename(other_file, writes_file);
}

static int
move_out(void)
{
    return rename(writes_file, other_file);
}

static int
make_other_folder(void)
{
    char path[96];
    snprintf(path, sizeof path, "%s/folder", other);
    return mkdir(path, 0777);
}

static void *
write_other_in_thread(void *done)
{
    *(int *)done = write_other();
    return NULL;
}

static int
write_other_by_thread(void)
{
    pthread_t thread;
    int done = 0;
    if (pthread_create(&thread, NULL, write_other_in_thread, &done) != 0)
        return 0; /* which the test takes for a failure */
    pthread_join(thread, NULL);
    return done;
}

static void
test_what_is_named_is_reached(void **state)
{
    (void)state;
    expect(true, read_named, DONE);
    expect(true, list_named, DONE);
    expect(true, write_named, DONE);
    expect(true, replace_named, DONE);
    put(writes_file);
}

static void
test_nothing_else_is(void **state)
{
    (void)state;
    int (*const attempts[])(void) = {
        read_other,           read_system, list_other,   read_by_way_of_named, write_where_read,
        write_other,          move_out,    remove_other, move_other_here,      make_other_folder,
        write_other_by_thread};
    for (size_t i = 0; i < sizeof attempts / sizeof *attempts; i++)
        expect(true, attempts[i], FAILED);
    if (confined(true, read_named) != NOTHING_HOLDS)
        assert_true(as_it_was(other_file) && as_it_was(reads_file) && as_it_was(writes_file));
}

static int
start_program(void)
{
    char *const arguments[] = {"true", NULL};
    return execv("/bin/true", arguments);
}

static int
start_process(void)
{
    const pid_t child = fork();
    if (child == 0)
        _exit(0);
    return child > 0 ? 0 : -1;
}

static int
open_socket(void)
{
    return socket(AF_INET, SOCK_STREAM, 0);
}

static int
open_pair(void)
{
    int pair[2];
    return socketpair(AF_UNIX, SOCK_STREAM, 0, pair);
}

static int
make_runnable(void)
{
    void *page = mmap(NULL, 4096, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    return page == MAP_FAILED ? 0 : mprotect(page, 4096, PROT_READ | PROT_EXEC);
}

static int
map_runnable(void)
{
    return mmap(NULL, 4096, PROT_READ | PROT_EXEC, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0) == MAP_FAILED
               ? -1
               : 0;
}

static int
signal_parent(void)
{
    return kill(getppid(), 0);
}

static int
trace(void)
{
    return (int)ptrace(PTRACE_TRACEME, 0, NULL, NULL);
}

static int
undo(void)
{
    return (int)syscall(SYS_chroot, "/") + (int)syscall(SYS_unshare, 0);
}

static void
test_no_other_call_is_made(void **state)
{
    (void)state;
    int (*const attempts[])(void) = {start_program, start_process, open_socket,
                                     open_pair,     make_runnable, map_runnable,
                                     signal_parent, trace,         undo};
    for (size_t i = 0; i < sizeof attempts / sizeof *attempts; i++)
        expect(false, attempts[i], FAILED);
}

static void *
nothing(void *arg)
{
    return arg;
}

static int
ordinary_work(void)
{
    pthread_t threads[8];
    for (size_t i = 0; i < 8; i++)
        if (pthread_create(&threads[i], NULL, nothing, NULL) != 0)
            return -1;
    for (size_t i = 0; i < 8; i++)
        pthread_join(threads[i], NULL);
    void *much = malloc(64 << 20);
    free(much);
    return much != NULL && printf("# threads and memory\n") > 0 && fflush(stdout) == 0 ? 0 : -1;
}

static int
end_itself(void)
{
    abort();
}

static void
test_ordinary_work_goes_on(void **state)
{
    (void)state;
    expect(false, ordinary_work, DONE);
    expect(false, end_itself, 128 + SIGABRT);
}

static int
write_and_start(void)
{
    return write_other() == 0 && start_process() == 0 ? 0 : -1;
}

static int
unconfined_holds(void)
{
    struct confinement c;
    setenv("DARIOLE_UNCONFINED", "1", 1);
    confinement_begin(&c);
    const struct confinement_held held = confinement_enter(&c);
    return held.files == 0 && !held.calls ? write_and_start() : -1;
}

static void
test_the_environment_may_say_no(void **state)
{
    (void)state;
    const pid_t child = fork();
    int status = 0;
    if (child == 0)
        _exit(unconfined_holds() == 0 ? 0 : 1);
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    put(other_file);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_what_is_named_is_reached),
        cmocka_unit_test(test_nothing_else_is),
        cmocka_unit_test(test_no_other_call_is_made),
        cmocka_unit_test(test_ordinary_work_goes_on),
        cmocka_unit_test(test_the_environment_may_say_no),
    };
    unsetenv("DARIOLE_UNCONFINED");
    return cmocka_run_group_tests(tests, begin, end);
}
