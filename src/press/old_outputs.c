#include "press/old_outputs.h"

#include <errno.h>
#include <fcntl.h>
#include <unistd.h>

/* an output whose slug no post has any more, or whose post no longer makes it; `number` is its
 * pattern's in the ledger, or PATTERNS_MOST */
static void
remove_output(struct press_state *p, struct slice slug, struct slice pattern, uint32_t number)
{
    int64_t holder = slugs_holder(&p->slugs, slug);
    if (holder == SLUG_OF_PROGRAM)
        return;
    if (holder >= 0) {
        const struct ledger_post *post = &p->posts[holder];
        if (post->output_count == 0 && post->state == POST_FAILED)
            return; /* it will be made the next time */
        for (uint32_t i = 0; i < post->output_count; i++)
            if (ledger_output(&p->ledger, post->output + i)->pattern == number)
                return;
    }
    char name[OUTPUT_NAME_MOST];
    enum output_folder folder;
    /* one that was taken away by hand is ours no longer either */
    if (outputs_name(pattern, slug, name, &folder) &&
        (unlinkat(p->session->folders[folder], name, 0) == 0 || errno == ENOENT))
        p->manifest.removed = true;
}

static void
remove_named(void *ctx, struct slice slug, struct slice pattern)
{
    struct press_state *p = ctx;
    const struct ledger_head *h = &p->ledger.head;
    uint32_t number = 0;
    while (number < h->pattern_count &&
           !slice_equal(ledger_string(&p->ledger, h->patterns[number]), pattern))
        number++;
    remove_output(p, slug, pattern, number < h->pattern_count ? number : PATTERNS_MOST);
}

bool
old_outputs_remove(struct press_state *p, struct failure *f)
{
    const struct ledger *l = &p->ledger;
    for (size_t i = 0; i < ledger_post_count(l); i++) {
        const struct ledger_post *old = ledger_post(l, i);
        for (uint32_t o = 0; o < old->output_count; o++) {
            uint32_t number = ledger_output(l, old->output + o)->pattern;
            remove_output(p, ledger_string(l, old->slug),
                          ledger_string(l, l->head.patterns[number]), number);
        }
    }
    /* else what the manifest names beside is what this press puts in place and keeps */
    return p->manifest.in_step || manifest_each(p->session, remove_named, p, f);
}
