#ifdef __linux__
#define _GNU_SOURCE /* O_PATH, syscall */
#endif
#include "base/confinement.h"

#include <fcntl.h>
#include <stdint.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>
#ifdef __linux__
#include <linux/landlock.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#endif

#include "base/call_filter.h"

/* what the sanitizers do at a program's end needs files and calls that the program does not */
#if defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
#define SANITIZED 1
#endif
#elif defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define SANITIZED 1
#endif

static bool
is_wanted(void)
{
#ifdef SANITIZED
    return false;
#else
    const char *off = getenv("DARIOLE_UNCONFINED");
    return off == NULL || off[0] == '\0';
#endif
}

#ifdef SYS_landlock_create_ruleset

/* Rights that came after the headers a system may have; the numbers are the kernel's, from its
 * documentation of Landlock. */
#ifndef LANDLOCK_ACCESS_FS_REFER
#define LANDLOCK_ACCESS_FS_REFER (1ULL << 13)
#endif
#ifndef LANDLOCK_ACCESS_FS_TRUNCATE
#define LANDLOCK_ACCESS_FS_TRUNCATE (1ULL << 14)
#endif
#ifndef LANDLOCK_ACCESS_FS_IOCTL_DEV
#define LANDLOCK_ACCESS_FS_IOCTL_DEV (1ULL << 15)
#endif

/* as far as the kernel has them; it passes over what is zero at the end */
struct rules {
    uint64_t files, network, scoped;
};

enum { FILES_ONE = 13 }; /* rights of the first version, from bit 0 on */

static struct rules
handled(int version)
{
    struct rules r = {.files = (1ULL << FILES_ONE) - 1};
    if (version >= 2) /* without it, no file is moved from folder to folder */
        r.files |= LANDLOCK_ACCESS_FS_REFER;
    if (version >= 3)
        r.files |= LANDLOCK_ACCESS_FS_TRUNCATE;
    if (version >= 4)
        r.network = 3; /* no port is bound or connected to */
    if (version >= 5)
        r.files |= LANDLOCK_ACCESS_FS_IOCTL_DEV;
    if (version >= 6)
        r.scoped = 3; /* neither sockets nor signals reach other processes */
    return r;
}

static const uint64_t of_files = LANDLOCK_ACCESS_FS_READ_FILE | LANDLOCK_ACCESS_FS_WRITE_FILE |
                                 LANDLOCK_ACCESS_FS_TRUNCATE,
                      to_read = LANDLOCK_ACCESS_FS_READ_FILE | LANDLOCK_ACCESS_FS_READ_DIR,
                      to_write = LANDLOCK_ACCESS_FS_WRITE_FILE | LANDLOCK_ACCESS_FS_TRUNCATE |
                                 LANDLOCK_ACCESS_FS_REMOVE_DIR | LANDLOCK_ACCESS_FS_REMOVE_FILE |
                                 LANDLOCK_ACCESS_FS_MAKE_DIR | LANDLOCK_ACCESS_FS_MAKE_REG |
                                 LANDLOCK_ACCESS_FS_REFER;

void
confinement_begin(struct confinement *c)
{
    *c = (struct confinement){.rules = -1};
    if (!is_wanted())
        return;
    const long version =
        syscall(SYS_landlock_create_ruleset, NULL, (size_t)0, LANDLOCK_CREATE_RULESET_VERSION);
    if (version < 1)
        return;
    const struct rules rules = handled((int)version);
    c->version = (int)version;
    c->rules = (int)syscall(SYS_landlock_create_ruleset, &rules, sizeof rules, 0U);
}

void
confinement_allow_open(struct confinement *c, int fd, enum confinement_use use)
{
    struct stat s;
    if (c->rules < 0 || fd < 0 || fstat(fd, &s) != 0)
        return;
    uint64_t rights = use == CONFINEMENT_WRITE ? to_read | to_write : to_read;
    if (!S_ISDIR(s.st_mode))
        rights &= of_files;
    const struct landlock_path_beneath_attr rule = {
        .allowed_access = rights & handled(c->version).files, .parent_fd = fd};
    syscall(SYS_landlock_add_rule, c->rules, LANDLOCK_RULE_PATH_BENEATH, &rule, 0U);
}

void
confinement_allow(struct confinement *c, const char *path, enum confinement_use use)
{
    const int fd = c->rules < 0 ? -1 : open(path, O_PATH | O_CLOEXEC);
    confinement_allow_open(c, fd, use);
    if (fd >= 0)
        close(fd);
}

struct confinement_held
confinement_enter(struct confinement *c)
{
    struct confinement_held held = {0};
    if (!is_wanted())
        return held;
    /* the kernel wants it of those who may not do everything anyway: no program that is started
     * gets more rights than this one */
    const bool alone = prctl(PR_SET_NO_NEW_PRIVS, 1UL, 0UL, 0UL, 0UL) == 0;
    if (alone && c->rules >= 0 && syscall(SYS_landlock_restrict_self, c->rules, 0U) == 0)
        held.files = c->version;
    if (c->rules >= 0)
        close(c->rules);
    c->rules = -1;
    held.calls = alone && call_filter_enter();
    return held;
}

#else

void
confinement_begin(struct confinement *c)
{
    *c = (struct confinement){.rules = -1};
}

void
confinement_allow_open(struct confinement *c, int fd, enum confinement_use use)
{
    (void)c, (void)fd, (void)use;
}

void
confinement_allow(struct confinement *c, const char *path, enum confinement_use use)
{
    (void)c, (void)path, (void)use;
}

struct confinement_held
confinement_enter(struct confinement *c)
{
    (void)c;
    return (struct confinement_held){.calls = is_wanted() && call_filter_enter()};
}

#endif
