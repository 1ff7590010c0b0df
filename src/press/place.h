/* Files put in place whole: a temporary file in the same folder, flushed, renamed. A file whose
 * bytes would not change is not touched. */
#ifndef PRESS_PLACE_H
#define PRESS_PLACE_H

#include <sys/types.h>

#include "base/failure.h"
#include "base/text.h"

/* all bytes of a file, in the arena; at most `most` bytes */
bool place_read(struct arena *a, const char *path, size_t most, struct slice *out,
                struct failure *f);
/* writes bytes as path (relative to folder); `same` true where the file already held them */
bool place_write(int folder, const char *path, struct slice bytes, bool *same, struct failure *f);
/* makes the folders on the way to path */
bool place_folders(int folder, const char *path, struct failure *f);

#endif
