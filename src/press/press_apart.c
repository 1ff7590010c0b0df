#include "press/press_apart.h"

#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "press/press.h"
#include "press/workers.h"

static void
block_ends(sigset_t *ends)
{
    struct sigaction usual = {.sa_handler = SIG_DFL}; /* ignored, it would not be told */
    sigaction(SIGCHLD, &usual, NULL);
    sigemptyset(ends);
    sigaddset(ends, SIGCHLD);
    pthread_sigmask(SIG_BLOCK, ends, NULL);
}

/* waits for the press to end; interrupts are handed on, and wait here, too */
static int
wait_for(pid_t press, const sigset_t *ends)
{
    static const int handed_on[] = {SIGINT, SIGTERM, SIGHUP};
    sigset_t all = *ends;
    int status = 0, signal = 0, last = 0;
    for (size_t i = 0; i < sizeof handed_on / sizeof *handed_on; i++)
        sigaddset(&all, handed_on[i]);
    while (waitpid(press, &status, WNOHANG) == 0)
        if (sigwait(&all, &signal) == 0 && signal != SIGCHLD) {
            last = signal;
            kill(press, signal);
        }
    if (last != 0)
        raise(last);
    if (WIFEXITED(status))
        return WEXITSTATUS(status);
    fprintf(stderr, "dariole: the press ended with %s\n", strsignal(WTERMSIG(status)));
    return EXIT_MACHINE;
}

int
press_apart(const struct press_options *o)
{
    sigset_t ends;
    workers_hold();
    block_ends(&ends);
    fflush(NULL); /* or both would write it */
    const pid_t press = fork();
    if (press == 0) {
        struct press_result r;
        const int status = press_run(o, &r);
        _exit(fflush(stdout) == 0 ? status : EXIT_MACHINE);
    }
    const int error = errno, status = press > 0 ? wait_for(press, &ends) : EXIT_MACHINE;
    pthread_sigmask(SIG_UNBLOCK, &ends, NULL);
    if (press < 0)
        fprintf(stderr, "dariole: a press cannot be started: %s\n", strerror(error));
    return status;
}
