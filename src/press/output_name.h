/* The names of outputs: a pattern, such as "data/ * .json" without its spaces, with the slug in it.
 */
#ifndef PRESS_OUTPUT_NAME_H
#define PRESS_OUTPUT_NAME_H

#include "press/pressing.h"

enum { OUTPUT_NAME_MOST = 512 };

/* the file's name, NUL-terminated; the number of its folder, FOLDER_OUT where the pattern names
 * none of the others */
int output_file(struct slice pattern, struct slice slug, char name[OUTPUT_NAME_MOST]);
/* the same of a pattern of the ledger */
int pressing_output_name(const struct ledger *l, struct slice slug, uint32_t pattern,
                         char name[OUTPUT_NAME_MOST]);
/* "data/", of all but FOLDER_OUT */
const char *output_folder(int folder);

#endif
