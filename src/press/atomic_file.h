/* Files put in place whole: a temporary file in the same folder, flushed, renamed. A file whose
 * bytes would not change is not touched.
 *
 * A flush per file would make a large press wait for the disk thousands of times. So files are
 * written under temporary names in a batch, the file system is flushed once, and only then is each
 * given its name: no name ever stands for bytes that are not on the disk yet. A name that is new
 * has no older bytes to lose, so a batch of new names alone is not flushed before the renames;
 * atomic_file_flush does it before the ledger is written. What a power cut undoes after that shows
 * in the stamps that the ledger keeps, and is made again. */
#ifndef PRESS_ATOMIC_FILE_H
#define PRESS_ATOMIC_FILE_H

#include <dirent.h>
#include <sys/stat.h>
#include <sys/types.h>

#include "base/failure.h"
#include "base/text.h"

/* Times of files move in ticks: two changes within one look like one. The kernel's is 10 ms at
 * most; some file systems keep whole seconds or two, which atomic_file_fresh allows for. */
enum { ATOMIC_FILE_TICK_NS = 12000000 };

/* all bytes of a file, in the arena; at most `most` bytes */
bool atomic_file_read(struct arena *a, const char *path, size_t most, struct slice *out,
                      struct failure *f);
/* the same of a file of any size, cut off at `most` bytes */
bool atomic_file_read_start(struct arena *a, const char *path, size_t most, struct slice *out,
                            struct failure *f);
/* makes the folders on the way to path */
bool atomic_file_folders(int folder, const char *path, struct failure *f);

/* one number for size, times and inode: another stamp means the file was touched. Never 0. */
uint64_t atomic_file_stamp(const struct stat *s);
/* when the file was last touched, ns since the epoch */
uint64_t atomic_file_when(const struct stat *s);
/* whether the file changed so shortly before now that another change might not show in its stamp */
bool atomic_file_fresh(const struct stat *s);
/* whether the file holds these bytes; false too when it cannot be read */
bool atomic_file_holds(int folder, const char *name, struct slice bytes);
/* digest of the first `most` bytes of a plain file, read piece by piece; false when it cannot be
 * read. The path may lead through links, but not out of the folder. */
bool atomic_file_digest(int folder, const char *path, uint64_t most, uint64_t *digest);
/* all bytes of the plain file of this name in a folder, in the arena; false, without a word, where
 * there is none, it holds more than `most`, or it cannot be read (errno tells) */
bool atomic_file_read_plain(struct arena *a, int folder, const char *name, size_t most,
                            struct slice *out);
/* the bytes of an open file up to its end, or `most` of them */
bool atomic_file_get(int fd, char *bytes, size_t most, size_t *length);
/* all bytes to an open file, however often the system breaks the write off */
bool atomic_file_put(int fd, const void *bytes, size_t length);

/* files written under temporary names, not yet in place; one batch per thread */
struct atomic_file_batch {
    unsigned number, step; /* temporary names are numbered number, number + step ... */
    struct atomic_file_waiting *waiting;
    size_t count, room;
    char *names; /* the waiting files' names, each with a NUL behind */
    size_t names_used, names_room;
    bool replaces;  /* a waiting file replaces another */
    bool unflushed; /* files were put in place that the disk may not hold yet */
};

struct atomic_file_waiting {
    int folder;
    unsigned temporary;
    size_t name; /* in `names` */
    uint64_t tag;
};

/* told of each file that was put in place (stat given) or could not be (NULL) */
struct atomic_file_teller {
    void (*tell)(void *ctx, uint64_t tag, const struct stat *s, const struct failure *f);
    void *ctx;
};
/* for who asks file by file */
extern const struct atomic_file_teller atomic_file_no_teller;

/* the name of temporary file `n` of this process */
void atomic_file_temporary(char name[64], unsigned n);
/* a new temporary file, open for writing; -1 when it fails. It waits for atomic_file_wait or is
 * given up with atomic_file_drop */
int atomic_file_begin(struct atomic_file_batch *b, int folder, unsigned *temporary,
                      struct failure *f);
void atomic_file_drop(int folder, unsigned temporary);
/* a written temporary file waits to become `name`; tag is handed to the teller */
bool atomic_file_wait(struct atomic_file_batch *b, int folder, unsigned temporary, const char *name,
                      bool replaces, uint64_t tag, struct failure *f);
/* atomic_file_begin, the bytes, atomic_file_wait */
bool atomic_file_add(struct atomic_file_batch *b, int folder, const char *name, bool replaces,
                     struct slice bytes, uint64_t tag, struct failure *f);
/* gives every waiting file its name; flushes first where one replaces another, unless the caller
 * has flushed since the last file was added */
bool atomic_file_commit(struct atomic_file_batch *b, bool flushed,
                        const struct atomic_file_teller *teller, struct failure *f);
/* one file, put in place at once; its folder must be there */
bool atomic_file_write(struct arena *a, const char *path, struct slice bytes, struct failure *f);
/* removes the temporary files that wait, frees the batch's memory */
void atomic_file_batch_close(struct atomic_file_batch *b);

/* puts all that was written to the file system of this folder on the disk */
bool atomic_file_flush(int folder, struct failure *f);
/* waits until no change of a file touched at `when` can hide in the tick of that touch */
void atomic_file_outwait(uint64_t when);
/* a reading of an open folder, to be closed with closedir; NULL when it cannot be read */
DIR *atomic_file_reading(int folder);
/* removes temporary files that a killed press left in a folder */
void atomic_file_sweep(int folder);

#endif
