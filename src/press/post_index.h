/* The posts of a content folder by their slugs, for round-ups and menus that name others. Posts are
 * only looked for when the first slug is asked for. */
#ifndef PRESS_POST_INDEX_H
#define PRESS_POST_INDEX_H

#include <pthread.h>

#include "base/failure.h"
#include "base/map.h"
#include "compile/round_up.h"

struct post_index {
    int content;         /* the open folder; -1: there is none, and no post is known */
    const char *shown;   /* its name before paths */
    struct arena *arena; /* of the index itself */
    /* struct indexed_post; of two posts with one slug, or one file's name, the first by path */
    struct map by_slug, by_file;
    bool filled;
    pthread_mutex_t lock;
};

/* NULL shown: paths alone. False when memory fails */
bool post_index_open(struct post_index *x, int content, const char *shown);
void post_index_close(struct post_index *x);

/* who asks: its arena gets the bytes */
struct post_asking {
    struct post_index *index;
    struct arena *arena;
};

/* for struct post_finder; ctx is a struct post_asking. May be called by several threads. */
bool post_index_find(void *asking, struct slice slug, struct post_bytes *out);
/* its `settle`, alike */
bool post_index_settle(void *asking, struct slice name, struct slice *slug);

#endif
