#include "press/workers.h"

#include <pthread.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

struct crew {
    const struct work *work;
    atomic_size_t next, done;
    atomic_bool stop;
    struct timespec begun, shown;
};

struct thread_worker {
    struct crew *crew;
    struct worker worker;
    pthread_t thread;
    bool runs;
};

unsigned
workers_all(void)
{
    long n = sysconf(_SC_NPROCESSORS_ONLN);
    return n > 0 ? (unsigned)n : 1;
}

static void
held_signals(sigset_t *set)
{
    sigemptyset(set);
    sigaddset(set, SIGINT);
    sigaddset(set, SIGTERM);
    sigaddset(set, SIGHUP);
}

void
workers_hold(void)
{
    sigset_t set;
    held_signals(&set);
    pthread_sigmask(SIG_BLOCK, &set, NULL);
    struct sigaction ignore = {.sa_handler = SIG_IGN};
    sigaction(SIGXFSZ, &ignore, NULL);
}

bool
workers_interrupted(void)
{
    sigset_t set;
    return sigpending(&set) == 0 &&
           (sigismember(&set, SIGINT) == 1 || sigismember(&set, SIGTERM) == 1 ||
            sigismember(&set, SIGHUP) == 1);
}

void
workers_release(void)
{
    sigset_t set;
    held_signals(&set);
    pthread_sigmask(SIG_UNBLOCK, &set, NULL);
}

static double
seconds_between(const struct timespec *from, const struct timespec *to)
{
    return (double)(to->tv_sec - from->tv_sec) + (double)(to->tv_nsec - from->tv_nsec) / 1e9;
}

/* shown by the calling thread alone, five times a second */
static void
show_progress(struct crew *c, bool last)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    double since = seconds_between(&c->begun, &now);
    if (last ? c->shown.tv_sec == 0 : seconds_between(&c->shown, &now) < 0.2 || since < 0.4)
        return;
    c->shown = now;
    size_t done = atomic_load(&c->done);
    if (last)
        fputs("\r\033[K", stderr);
    else
        fprintf(stderr, "\r%s %zu of %zu, %.0f a second\033[K", c->work->progress, done,
                c->work->count, (double)done / since);
    fflush(stderr);
}

static void
do_piece(struct thread_worker *h, size_t i)
{
    const struct work *work = h->crew->work;
    if (setjmp(*arena_guard(h->worker.arena)) == 0)
        work->each(work->ctx, &h->worker, i);
    else
        work->exhausted(work->ctx, i);
    arena_reset(h->worker.arena);
}

static void *
labour(void *arg)
{
    struct thread_worker *h = arg;
    struct crew *c = h->crew;
    struct arena *before = arena_lend(h->worker.arena);
    while (!atomic_load(&c->stop)) {
        size_t from = atomic_fetch_add(&c->next, c->work->at_once);
        if (from >= c->work->count)
            break;
        size_t to = from + c->work->at_once;
        if (to > c->work->count)
            to = c->work->count;
        for (size_t i = from; i < to; i++)
            do_piece(h, i);
        atomic_fetch_add(&c->done, to - from);
        if (workers_interrupted())
            atomic_store(&c->stop, true);
        if (h->worker.number == 0 && c->work->progress != NULL)
            show_progress(c, false);
    }
    arena_lend(before);
    return NULL;
}

/* fewer hands than asked for are no failure, none are */
static size_t
hire(struct crew *c, struct thread_worker *workers, unsigned threads)
{
    size_t n = 0;
    for (unsigned i = 0; i < threads; i++) {
        workers[n] = (struct thread_worker){.crew = c, .worker = {.number = (unsigned)n}};
        workers[n].worker.arena = arena_open((size_t)256 << 10);
        if (workers[n].worker.arena == NULL)
            break;
        n++;
    }
    for (size_t i = 1; i < n; i++)
        workers[i].runs = pthread_create(&workers[i].thread, NULL, labour, &workers[i]) == 0;
    return n;
}

bool
workers_run(const struct work *work, unsigned threads, bool *stopped, struct failure *f)
{
    struct crew crew = {.work = work};
    clock_gettime(CLOCK_MONOTONIC, &crew.begun);
    *stopped = false;
    size_t pieces = (work->count + work->at_once - 1) / work->at_once;
    if (threads > pieces)
        threads = (unsigned)pieces;
    if (threads == 0)
        return true;
    struct thread_worker *workers = calloc(threads, sizeof *workers);
    size_t n = workers != NULL ? hire(&crew, workers, threads) : 0;
    if (n == 0) {
        free(workers);
        return failure_say(f, "out of memory");
    }
    labour(&workers[0]);
    for (size_t i = 1; i < n; i++)
        if (workers[i].runs)
            pthread_join(workers[i].thread, NULL);
    for (size_t i = 0; i < n; i++)
        arena_close(workers[i].worker.arena);
    free(workers);
    if (work->progress != NULL)
        show_progress(&crew, true);
    *stopped = atomic_load(&crew.stop);
    return !*stopped;
}
