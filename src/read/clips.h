/* The clips of a post's video as its front matter lists them: when each begins, its name, and what
 * it shows. Times are from the video's start. */
#ifndef READ_CLIPS_H
#define READ_CLIPS_H

#include "read/front_value.h"

struct clip {
    struct front_value at; /* as written: "0:42", "1:02:03" or "42 s" */
    double seconds;        /* from the start of the video */
    struct front_value name;
    struct front_value dish; /* of a round-up: whose clip it is; or empty */
    struct front_value step; /* as written; empty: it shows no step */
    size_t step_number;      /* from 1 */
    size_t dish_number;      /* from 1, once it is found among the dishes; 0: of none */
};

struct clip_list {
    struct clip *items;
    size_t count, room;
};

enum { CLIPS_MOST = 500 }; /* no video has more chapters, and more are told and left out */

/* keys of a clip, NULL-terminated */
extern const char *const clip_keys[];

/* s from the start of "8:12", "1:02:03" or "42 s"; false when it is no time of a video */
bool clips_time(struct arena *a, const struct word_lists *lists, struct slice text,
                double *seconds);
/* takes in the list; a clip without time or name is left out with a notice */
void clips_read(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
                struct clip_list *out);

#endif
