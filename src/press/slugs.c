#include "press/slugs.h"

#include <stdlib.h>

static struct slug_slot *
slot_of(const struct slugs *s, struct slice slug)
{
    uint64_t digest = slice_digest(slug, 0);
    if (digest == 0)
        digest = 1;
    size_t mask = s->slot_count - 1, at = (size_t)digest & mask;
    while (s->slots[at].digest != 0 && s->slots[at].digest != digest)
        at = (at + 1) & mask;
    if (s->slots[at].digest == 0)
        s->slots[at].holder = SLUG_FREE;
    return &s->slots[at];
}

bool
slugs_begin(struct slugs *s, size_t posts)
{
    *s = (struct slugs){.slot_count = 64};
    /* a post may ask twice, under two slugs, when it changes while a press goes on */
    while (s->slot_count < posts * 4 + 16)
        s->slot_count *= 2;
    s->slots = calloc(s->slot_count, sizeof *s->slots);
    if (s->slots == NULL)
        return false;
    int64_t displaced;
    slugs_claim(s, SLICE("index"), SLUG_OF_PROGRAM, &displaced);
    return true;
}

void
slugs_close(struct slugs *s)
{
    free(s->slots);
    *s = (struct slugs){0};
}

int64_t
slugs_holder(const struct slugs *s, struct slice slug)
{
    return slot_of(s, slug)->holder;
}

bool
slugs_claim(struct slugs *s, struct slice slug, int64_t post, int64_t *displaced)
{
    struct slug_slot *p = slot_of(s, slug);
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
