/* Other posts of the same blog, named by their slugs. That a post was asked for, and what its bytes
 * were, is noted like what is read of a table: when it changes, so does what was made from it. */
#ifndef COMPILE_POST_FINDER_H
#define COMPILE_POST_FINDER_H

#include "compile/outcome.h"

/* looks for the post of a slug; false where there is none. The bytes live as long as the arena that
 * the asking post is compiled in */
struct post_finder {
    bool (*find)(void *ctx, struct slice slug, struct post_bytes *out);
    /* the slug of the post that is called so, by its slug or by its file's name without ending;
     * false where there is none, or it is a draft */
    bool (*settle)(void *ctx, struct slice name, struct slice *slug);
    void *ctx;
};

/* whether a ledger's key asks for another post, and not for an entry of a table */
bool post_finder_is_key(struct slice key);
/* the key under which a post is noted: "post:SLUG" */
struct slice post_finder_key(struct arena *a, struct slice slug);
/* the key under which it is noted what a link's name leads to: "link:NAME" */
struct slice post_finder_link_key(struct arena *a, struct slice name);
/* the digest of a post's bytes as it is noted; 0 stands for a post that is not there */
uint64_t post_finder_digest(struct slice bytes);

/* finds and reads a post into o->post; o->reads notes it. NULL finder: no other post is known */
bool post_finder_read(struct arena *a, const struct post_finder *finder, struct slice slug,
                      struct notices *notices, struct outcome *o);

#endif
