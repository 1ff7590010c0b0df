#include "press/slugs.h"

#include <stdlib.h>

static struct slug_place *
place_of(const struct slugs *s, struct slice slug)
{
    uint64_t digest = slice_digest(slug, 0);
    if (digest == 0)
        digest = 1;
    size_t mask = s->place_count - 1, at = (size_t)digest & mask;
    while (s->places[at].digest != 0 && s->places[at].digest != digest)
        at = (at + 1) & mask;
    if (s->places[at].digest == 0)
        s->places[at].holder = SLUG_FREE;
    return &s->places[at];
}

bool
slugs_begin(struct slugs *s, size_t posts)
{
    *s = (struct slugs){.place_count = 64};
    /* a post may ask twice, under two slugs, when it changes while a press goes on */
    while (s->place_count < posts * 4 + 16)
        s->place_count *= 2;
    s->places = calloc(s->place_count, sizeof *s->places);
    if (s->places == NULL)
        return false;
    int64_t displaced;
    slugs_claim(s, SLICE("index"), SLUG_OF_PROGRAM, &displaced);
    return true;
}

void
slugs_close(struct slugs *s)
{
    free(s->places);
    *s = (struct slugs){0};
}

int64_t
slugs_holder(const struct slugs *s, struct slice slug)
{
    return place_of(s, slug)->holder;
}

bool
slugs_claim(struct slugs *s, struct slice slug, int64_t post, int64_t *displaced)
{
    struct slug_place *p = place_of(s, slug);
    *displaced = SLUG_FREE;
    if (p->holder == SLUG_OF_PROGRAM || (p->holder != SLUG_FREE && p->holder < post))
        return false;
    if (p->holder != post)
        *displaced = p->holder;
    uint64_t digest = slice_digest(slug, 0);
    p->digest = digest != 0 ? digest : 1;
    p->holder = post;
    return true;
}
