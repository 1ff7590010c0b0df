/* OUT/.dariole/manifest: the outputs that were put in place and not removed since, as text, so that
 * they are known for ours where the ledger is lost. A line for each post: a check of the line, the
 * slug, the patterns of its outputs. Names are added behind; a line ".end" closes what is whole. */
#ifndef PRESS_MANIFEST_FILE_H
#define PRESS_MANIFEST_FILE_H

#include "base/failure.h"
#include "base/text.h"
#include "press/atomic_file.h"

enum { MANIFEST_LINE_MOST = 4096 };

/* one line, with its check and the line feed; its length, 0 where it does not fit */
size_t manifest_file_line(char line[MANIFEST_LINE_MOST], struct slice slug,
                          const struct slice *patterns, size_t count);

struct manifest_file_file {
    struct slice bytes; /* none where the file is of another kind */
    bool there;
    bool damaged; /* some line is not what was written */
    bool ended;   /* nothing was added behind the end */
    bool partial; /* there may be outputs of ours that it does not name */
};

/* the file in OUT/.dariole, in the arena; one that is not there, no plain file, or larger than any
 * manifest is no failure: it says nothing */
bool manifest_file_read(struct arena *a, int folder, struct manifest_file_file *out,
                        struct failure *f);
/* the next line that is as a press writes it, from *at; false at the end */
bool manifest_file_next(const struct manifest_file_file *n, size_t *at, struct slice *slug,
                        struct slice *patterns);
/* takes the next of a line's patterns that a press has; false when there is none left */
bool manifest_file_next_pattern(struct slice *patterns, struct slice *pattern);

struct manifest_file { /* the file as it is written anew */
    struct atomic_file_batch batch;
    int folder, fd;
    unsigned temporary;
    size_t at, held;
    bool good;
    char bytes[16384];
};

/* begins it under a temporary name */
bool manifest_file_begin(struct manifest_file *s, int folder, bool partial, struct failure *f);
/* a whole line, as manifest_file_line makes it */
void manifest_file_put(struct manifest_file *s, struct slice line);
/* ends it and gives it its name; to be called though something before it failed */
bool manifest_file_finish(struct manifest_file *s, struct failure *f);
/* a file that was only added to is whole again */
bool manifest_file_end(int fd, struct failure *f);

#endif
