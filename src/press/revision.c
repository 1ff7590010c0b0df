#include "press/revision.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

extern char **environ;

/* runs a program to its end, without what it writes to standard output; its own words on standard
 * error are the explanation */
static bool
run(struct revision *r, char *const argv[])
{
    pid_t pid;
    int status = 0;
    posix_spawnattr_t attributes;
    posix_spawn_file_actions_t files;
    sigset_t none;
    sigemptyset(&none);
    if (posix_spawnattr_init(&attributes) != 0)
        return failure_say(r->failure, "out of memory");
    if (posix_spawn_file_actions_init(&files) != 0) {
        posix_spawnattr_destroy(&attributes);
        return failure_say(r->failure, "out of memory");
    }
    posix_spawnattr_setsigmask(&attributes, &none);
    posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK);
    int error = posix_spawn_file_actions_addopen(&files, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    if (error == 0)
        error = posix_spawnp(&pid, argv[0], &files, &attributes, argv, environ);
    posix_spawn_file_actions_destroy(&files);
    posix_spawnattr_destroy(&attributes);
    if (error != 0) {
        errno = error;
        return failure_say_errno(r->failure, "%s cannot be run", argv[0]);
    }
    while (waitpid(pid, &status, 0) < 0 && errno == EINTR)
        ;
    return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

/* a copy, since arguments of a program are not constant */
static char *
copy(const struct revision *r, const char *s)
{
    return slice_string(r->arena, slice_of(s));
}

/* whether git has the revision with `what` behind it */
static bool
git_has(struct revision *r, const char *what)
{
    char *content = copy(r, r->content), *object = text_format(r->arena, "%s%s", r->name, what);
    char *git[] = {"git", "-C", content, "rev-parse", "--quiet", "--verify", object, NULL};
    r->failure->text[0] = '\0';
    return run(r, git);
}

/* the content's tables of a revision, taken out into a folder */
static bool
take_out(struct revision *r, const char *to)
{
    struct arena *a = r->arena;
    char *archive = text_format(a, "%s/tables.tar", r->temporary), *content = copy(r, r->content),
         *name = copy(r, r->name), *folder = copy(r, to);
    char *git[] = {"git", "-C",    content, "archive", "--format=tar",
                   "-o",  archive, name,    "tables",  NULL};
    char *tar[] = {"tar", "-x", "-f", archive, "-C", folder, NULL};
    r->failure->text[0] = '\0';
    if (run(r, git) && run(r, tar))
        return true;
    if (r->failure->text[0] == '\0')
        failure_say(r->failure, "git and tar cannot take the tables of '%s' out", r->name);
    return false;
}

enum answer_of_tables
revision_tables(struct revision *r, const char **folder)
{
    char *to = text_format(r->arena, "%s/git", r->temporary);
    *folder = NULL;
    if (mkdir(to, 0700) != 0) {
        failure_say_errno(r->failure, "%s", to);
        return TABLES_FAILED;
    }
    r->failure->text[0] = '\0';
    if (r->name[0] == '-' || r->name[0] == '\0' || !git_has(r, "^{tree}")) {
        if (r->failure->text[0] != '\0')
            return TABLES_FAILED;
        failure_say(r->failure, "git has no revision '%s' in %s", r->name, r->content);
        return TABLES_MISASKED;
    }
    if (!git_has(r, ":./tables"))
        return r->failure->text[0] != '\0' ? TABLES_FAILED : TABLES_ANSWERED;
    *folder = text_format(r->arena, "%s/tables", to);
    return take_out(r, to) ? TABLES_ANSWERED : TABLES_FAILED;
}
