#ifdef __linux__
#define _GNU_SOURCE /* CLONE_THREAD */
#endif
#include "base/call_filter.h"

#include <errno.h>
#include <sched.h>
#include <stddef.h>
#include <sys/ioctl.h>
#include <sys/mman.h>
#include <unistd.h>

#include <seccomp.h>

/* One name for each way that a C library may go, on machines of 32 bits and of 64; a name that the
 * machine does not have is passed over. Which files may be opened is Landlock's to say. */
static const char *const calls[] = {
    /* files */
    "open", "openat", "openat2", "close", "read", "readv", "pread64", "write", "writev", "pwrite64",
    "lseek", "_llseek", "fstat", "fstat64", "stat", "stat64", "lstat", "lstat64", "newfstatat",
    "fstatat64", "statx", "access", "faccessat", "faccessat2", "readlink", "readlinkat", "getcwd",
    "getdents", "getdents64", "mkdir", "mkdirat", "unlink", "unlinkat", "rmdir", "rename",
    "renameat", "renameat2", "fsync", "fdatasync", "syncfs", "ftruncate", "ftruncate64", "fcntl",
    "fcntl64", "utimensat", "utimensat_time64",
    /* memory */
    "brk", "munmap", "mremap", "madvise",
    /* threads */
    "futex", "futex_time64", "set_robust_list", "rseq", "sched_yield", "sched_getaffinity", "exit",
    "exit_group", "gettid",
    /* signals, whose own are waited for */
    "rt_sigaction", "rt_sigprocmask", "rt_sigpending", "rt_sigreturn", "sigreturn",
    "restart_syscall",
    /* time */
    "clock_gettime", "clock_gettime64", "clock_nanosleep", "clock_nanosleep_time64", "nanosleep",
    "gettimeofday", "time",
    /* what the process and the machine are */
    "getpid", "getuid", "geteuid", "getgid", "getegid", "getrandom", "prlimit64", "getrlimit",
    "ugetrlimit", "sysinfo", "uname"};

/* calls of which one argument must be so: its bits under `mask` are `bits` */
static const struct held_call {
    const char *name;
    unsigned argument;
    scmp_datum_t mask, bits;
} held_calls[] = {
    {"mmap", 2, PROT_EXEC, 0},
    {"mmap2", 2, PROT_EXEC, 0},
    {"mprotect", 2, PROT_EXEC, 0},
    {"clone", 0, CLONE_THREAD, CLONE_THREAD}, /* no process; the library falls back on it */
    {"ioctl", 1, 0xffffffff, TCGETS},         /* whether a file is a terminal */
};

static bool
allow(scmp_filter_ctx filter)
{
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
        const int call = seccomp_syscall_resolve_name(calls[i]);
        if (call >= 0 && seccomp_rule_add(filter, SCMP_ACT_ALLOW, call, 0) != 0)
            return false;
    }
    for (size_t i = 0; i < sizeof held_calls / sizeof *held_calls; i++) {
        const struct held_call *h = &held_calls[i];
        const int call = seccomp_syscall_resolve_name(h->name);
        const struct scmp_arg_cmp so = {h->argument, SCMP_CMP_MASKED_EQ, h->mask, h->bits};
        if (call >= 0 && seccomp_rule_add_array(filter, SCMP_ACT_ALLOW, call, 1, &so) != 0)
            return false;
    }
    /* abort(), of itself alone */
    const struct scmp_arg_cmp own = {0, SCMP_CMP_EQ, (scmp_datum_t)getpid(), 0};
    return seccomp_rule_add_array(filter, SCMP_ACT_ALLOW, SCMP_SYS(tgkill), 1, &own) == 0;
}

bool
call_filter_enter(void)
{
    const scmp_filter_ctx filter = seccomp_init(SCMP_ACT_ERRNO(ENOSYS));
    if (filter == NULL)
        return false;
    /* as a tree, which the kernel goes down in some steps, not as a list */
    const bool good = seccomp_attr_set(filter, SCMP_FLTATR_CTL_OPTIMIZE, 2) == 0 && allow(filter) &&
                      seccomp_load(filter) == 0;
    seccomp_release(filter);
    return good;
}
