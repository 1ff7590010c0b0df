/* Files opened beneath a folder and nowhere else: no link and no ".." on the way leads out of it.
 * What a post names, and what OUT holds, may be laid by others. */
#ifndef PRESS_BENEATH_H
#define PRESS_BENEATH_H

#include <stdbool.h>
#include <sys/stat.h>

/* Opens a path relative to the folder; -1: errno tells, EXDEV where the path leads out. Links that
 * stay beneath the folder are followed where the kernel can tell (openat2, Linux 5.6); elsewhere a
 * link counts as leading out. */
int beneath_open(int folder, const char *path, int flags);
/* the stat of what beneath_open would open, without opening it for reading */
bool beneath_stat(int folder, const char *path, struct stat *s);
/* Opens a plain file by its name alone, not through a link and never waiting (a pipe waits); -1:
 * errno tells, ENOENT where there is none, EINVAL where it is no plain file. A file that is written
 * to must have this one name. */
int beneath_open_plain(int folder, const char *name, int flags, struct stat *s);

#endif
