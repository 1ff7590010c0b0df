/* Runs a command and writes what it cost: user + system time and wall time in ms, peak memory in
 * KiB. `cost FILE COMMAND...` */
#define _GNU_SOURCE
#include <spawn.h>
#include <stdio.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

extern char **environ;

int
main(int argc, char **argv)
{
    struct timespec from, to;
    struct rusage used;
    pid_t pid;
    int status;
    if (argc < 3)
        return 2;
    clock_gettime(CLOCK_MONOTONIC, &from);
    if (posix_spawnp(&pid, argv[2], NULL, NULL, argv + 2, environ) != 0 ||
        wait4(pid, &status, 0, &used) < 0)
        return 3;
    clock_gettime(CLOCK_MONOTONIC, &to);
    FILE *out = fopen(argv[1], "w");
    if (out == NULL)
        return 3;
    double cpu = (double)(used.ru_utime.tv_sec + used.ru_stime.tv_sec) * 1e3 +
                 (double)(used.ru_utime.tv_usec + used.ru_stime.tv_usec) / 1e3;
    double wall =
        (double)(to.tv_sec - from.tv_sec) * 1e3 + (double)(to.tv_nsec - from.tv_nsec) / 1e6;
    fprintf(out, "%.1f %.1f %ld\n", cpu, wall, used.ru_maxrss);
    return fclose(out) == 0 ? 0 : 3;
}
