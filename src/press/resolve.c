#include "press/resolve.h"

#include <string.h>

#include "press/place.h"
#include "press/press_post.h"

/* whether the slug of a post that lost it before, or keeps old outputs, is as it was; else it is
 * turned out again */
static bool
slug_resolved(struct press_state *p, size_t i)
{
    struct ledger_post *post = &p->posts[i];
    struct slice slug = ledger_string(&p->ledger, post->slug);
    int64_t displaced, holder = slugs_holder(&p->slugs, slug);
    if (post->state == POST_MADE)
        return holder == (int64_t)i;
    if (post->state == POST_BARE) {
        struct slice rival = ledger_string(&p->ledger, post->rival);
        if (rival.length == 0 || holder == SLUG_OF_PROGRAM)
            return true;
        if (holder == SLUG_FREE || holder > (int64_t)i)
            return false;
        size_t shown = strlen(p->session->shown);
        return rival.length > shown &&
               slice_is(slice_part(rival, shown + 1, rival.length), p->plan.items[holder].path);
    }
    if (!state_published(post) || holder == (int64_t)i)
        return true;
    if (holder == SLUG_FREE)
        return slugs_claim(&p->slugs, slug, (int64_t)i, &displaced);
    p->plan.items[i].slug_lost = true;
    if (post->state == POST_STALE)
        return false;
    post->output_count = 0;
    memset(post->pieces, 0, sizeof post->pieces);
    return true;
}

void
resolve_slugs(struct press_state *p, struct worker *w)
{
    bool placed = false;
    for (size_t i = 0; i < p->plan.count; i++) {
        if (p->plan.items[i].gone || slug_resolved(p, i))
            continue;
        p->manifest.in_step = false; /* it may name outputs of both */
        if (!placed)                 /* two outputs of one name must not wait side by side */
            place_waiting(p, false);
        placed = true;
        int64_t winner = slugs_holder(&p->slugs, ledger_string(&p->ledger, p->posts[i].slug));
        bool both = p->plan.items[i].why != WHY_NOT;
        if (!both)
            p->plan.items[i].why = WHY_SLUG;
        p->posts[i].rival = (struct ledger_text){0, 0};
        press_post(p, w, i);
        arena_reset(w->arena);
        /* both may have put their outputs under one name while they were at work */
        if (both && winner >= 0 && winner < (int64_t)i && p->plan.items[winner].why != WHY_NOT) {
            press_post(p, w, (size_t)winner);
            arena_reset(w->arena);
        }
    }
}
