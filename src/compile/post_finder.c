#include "compile/post_finder.h"

bool
post_finder_is_key(struct slice key)
{
    return slice_begins(key, "post:") || slice_begins(key, "link:");
}

struct slice
post_finder_link_key(struct arena *a, struct slice name)
{
    return text_formatted(a, "link:%.*s", SLICE_ARGS(name));
}

struct slice
post_finder_key(struct arena *a, struct slice slug)
{
    return text_formatted(a, "post:%.*s", SLICE_ARGS(slug));
}

uint64_t
post_finder_digest(struct slice bytes)
{
    return slice_digest(bytes, 0) | 1;
}

bool
post_finder_read(struct arena *a, const struct post_finder *finder, struct slice slug,
                 struct notices *notices, struct outcome *o)
{
    struct post_bytes found;
    const bool there = finder != NULL && finder->find(finder->ctx, slug, &found);
    reads_note_question(o->reads, post_finder_key(a, slug),
                        there ? post_finder_digest(found.bytes) : 0);
    if (there)
        post_read(a, o->tables->words, &found, notices, &o->post);
    return there;
}
