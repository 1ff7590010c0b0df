/* Folders for harnesses that need some: in memory where the machine has /dev/shm. */
#ifndef FUZZ_ROOMS_H
#define FUZZ_ROOMS_H

#include <stdbool.h>
#include <stddef.h>

/* a fresh folder, removed at the end of the process; NUL-terminated, never freed */
const char *rooms_open(void);
/* writes a file, with the folders on its way */
void rooms_put(const char *folder, const char *name, const void *bytes, size_t length);
/* the words, measures, limits and settings of the repository and one page of foods, in FOLDER */
void rooms_put_tables(const char *folder);
/* removes a folder with all that is in it */
void rooms_remove(const char *path);
/* copies a folder */
void rooms_copy(const char *from, const char *to);
/* whether two folders hold the same files; hidden ones are passed over */
bool rooms_same(const char *one, const char *other);

#endif
