#include "press/state.h"

#include <stdlib.h>
#include <string.h>

void
state_begin(struct press_state *p, struct session *s)
{
    memset(p, 0, sizeof *p);
    p->session = s;
    p->manifest.fd = p->pieces.fd = -1;
    pthread_mutex_init(&p->lock, NULL);
}

void
state_close(struct press_state *p)
{
    for (unsigned i = 0; p->workers != NULL && i < p->session->options->threads; i++) {
        atomic_file_batch_close(&p->workers[i].batch);
        pieces_tray_close(&p->workers[i].tray);
    }
    free(p->workers);
    atomic_file_batch_close(&p->gathered);
    slugs_close(&p->slugs);
    pieces_close(&p->pieces);
    manifest_close(&p->manifest);
    free(p->posts);
    ledger_close(&p->ledger);
    post_index_close(&p->index);
    pthread_mutex_destroy(&p->lock);
}

void
state_fail(struct press_state *p, const struct failure *f, bool halt)
{
    pthread_mutex_lock(&p->lock);
    if (p->failures++ == 0)
        p->first_failure = *f;
    p->halted = p->halted || halt;
    p->dirty = true;
    pthread_mutex_unlock(&p->lock);
}

void
state_exhausted(struct press_state *p, const char *what)
{
    struct failure f;
    failure_say(&f, "%s: out of memory", what);
    state_fail(p, &f, false);
}

void
state_touch(struct press_state *p)
{
    pthread_mutex_lock(&p->lock);
    p->touched = true;
    pthread_mutex_unlock(&p->lock);
}

void
state_keep_failed(struct press_state *p, size_t i)
{
    const struct planned *planned = &p->plan.items[i];
    struct ledger_post *post = &p->posts[i];
    struct ledger_text path = post->path;
    pthread_mutex_lock(&p->lock);
    *post = (struct ledger_post){0};
    if (planned->before != PLAN_NONE)
        *post = *ledger_post(&p->ledger, planned->before);
    post->path = path;
    post->state = POST_FAILED;
    post->stamp = 0;
    for (uint32_t o = 0; o < post->output_count; o++) /* some may be replaced already */
        ledger_output(&p->ledger, post->output + o)->stamp = 0;
    pthread_mutex_unlock(&p->lock);
}

bool
state_output_name(const struct press_state *p, struct slice slug, uint32_t pattern,
                  char name[OUTPUT_NAME_MOST], enum output_folder *folder)
{
    const struct ledger *l = &p->ledger;
    return pattern < l->head.pattern_count &&
           outputs_name(ledger_string(l, l->head.patterns[pattern]), slug, name, folder);
}

bool
state_published(const struct ledger_post *post)
{
    return post->output_count > 0;
}
