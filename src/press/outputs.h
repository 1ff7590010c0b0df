/* What a press writes into OUT: the one list of a post's own outputs and of the files that gather
 * all posts. An output more is a row in outputs.c, and the function of `write` that it names.
 *
 * A post's output is known by its pattern, such as "data/ * .json" without its spaces, where the
 * star stands for the slug. Patterns and slugs are read back from OUT/.dariole, where others may
 * have written: only what a press could have made has a name, and it lies in the folder that is
 * told. */
#ifndef PRESS_OUTPUTS_H
#define PRESS_OUTPUTS_H

#include "write/fragment.h"
#include "write/gathering.h"

enum output_folder {
    FOLDER_FRAGMENTS,
    FOLDER_DATA,
    FOLDER_PREVIEW,
    FOLDER_IMAGES,
    FOLDER_CLIPS,
    FOLDER_OUT, /* OUT itself */
    FOLDERS
};

/* a file of more bytes is none of a post's outputs */
enum { OUTPUT_NAME_MOST = 512, OUTPUT_BYTES_MOST = 256 << 20, OUTPUTS_MOST = 8 + REGIONS_MOST };

/* "data", of all but FOLDER_OUT */
extern const char *const output_folders[FOLDER_OUT];

/* whether it is a slug as posts have them */
bool outputs_slug(struct slice slug);
/* whether a press makes files of this pattern */
bool outputs_pattern(struct slice pattern);
/* the file's name, NUL-terminated, without any folder, and its folder; false where no press makes
 * such a file */
bool outputs_name(struct slice pattern, struct slice slug, char name[OUTPUT_NAME_MOST],
                  enum output_folder *folder);

struct output_text {
    const char *pattern;
    struct slice bytes;
};

/* all that a post is written into, with its picture's bytes, in the arena; how many */
size_t outputs_of_post(struct arena *a, const struct outcome *o, int heading_level,
                       struct slice picture, struct output_text out[OUTPUTS_MOST]);

/* every pattern that a post may have in these settings; pictures with this file's ending, or with
 * any where it is empty */
enum { OUTPUT_PATTERNS_MOST = 32 + REGIONS_MOST };
size_t outputs_patterns(struct arena *a, const struct tables *t, struct slice picture,
                        const char *out[OUTPUT_PATTERNS_MOST]);

enum output_order { ORDER_NONE, ORDER_ALL, ORDER_PUBLISHED, ORDER_NEWEST };

struct gathered_output {
    const char *name;
    enum output_folder folder;
    enum piece_of_record kind;
    enum output_order order;                            /* which posts, in which order */
    enum { WITH_NOTHING, WITH_SITE, WITH_TABLES } with; /* what else its bytes depend on */
    bool (*write)(struct arena *a, const struct tables *t, const struct gathering *g,
                  struct outlet out);
    const char *bytes; /* or all of it, NUL-terminated, where no post has a part in it */
};

extern const struct gathered_output gathered_outputs[];
extern const size_t gathered_output_count;

/* whether a file of a folder is one of them */
bool outputs_gathered(enum output_folder folder, struct slice name);

#endif
