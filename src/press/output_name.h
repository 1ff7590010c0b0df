/* The names of outputs: a pattern, such as "data/ * .json" without its spaces, with the slug in it.
 * Patterns and slugs are read back from OUT/.dariole, where others may have written: only what a
 * press could have made has a name, and it lies in the folder that is told, never in another. */
#ifndef PRESS_OUTPUT_NAME_H
#define PRESS_OUTPUT_NAME_H

#include "press/pressing.h"

/* a file that holds more than so many bytes is none of a post's outputs */
enum { OUTPUT_NAME_MOST = 512, OUTPUT_BYTES_MOST = 256 << 20 };

/* whether it is a slug as posts have them */
bool output_is_slug(struct slice slug);
/* whether a press makes files of this pattern */
bool output_is_pattern(struct slice pattern);
/* the file's name, NUL-terminated, without any folder, and the number of its folder; false where no
 * press makes such a file */
bool output_file(struct slice pattern, struct slice slug, char name[OUTPUT_NAME_MOST], int *folder);
/* the same of a pattern of the ledger */
bool pressing_output_name(const struct ledger *l, struct slice slug, uint32_t pattern,
                          char name[OUTPUT_NAME_MOST], int *folder);
/* "data/", of all but FOLDER_OUT */
const char *output_folder(int folder);

#endif
