#include "press/place.h"

#include <errno.h>
#include <fcntl.h>

enum { WAITING_MOST = 3000, ORDINAL_BITS = 8 };

bool
place_is_full(int error)
{
    return error == ENOSPC || error == EDQUOT || error == EIO || error == EFBIG || error == EROFS;
}

/* told by a batch which outputs are in place */
static void
note_placed(void *ctx, uint64_t tag, const struct stat *s, const struct failure *f)
{
    struct press_state *p = ctx;
    size_t number = (size_t)(tag >> ORDINAL_BITS);
    uint32_t ordinal = (uint32_t)(tag & ((1u << ORDINAL_BITS) - 1));
    struct ledger_post *post = &p->posts[number];
    if (s == NULL) {
        post->state = POST_FAILED;
        post->stamp = 0;
        state_fail(p, f, place_is_full(errno));
        return;
    }
    uint64_t when = atomic_file_when(s);
    pthread_mutex_lock(&p->lock);
    if (post->state == POST_MADE) {
        ledger_output(&p->ledger, post->output + ordinal)->stamp = atomic_file_stamp(s);
        if (when > p->last_placed)
            p->last_placed = when;
        if (s->st_ctim.tv_nsec == 0)
            post->unsure = 1;
    }
    pthread_mutex_unlock(&p->lock);
}

bool
place_output(struct press_state *p, struct press_worker *w, const struct post_outputs *outputs,
             uint32_t i, struct failure *f)
{
    const struct output_text *output = &outputs->items[i];
    const uint64_t tag = outputs->number << ORDINAL_BITS | i;
    char name[OUTPUT_NAME_MOST];
    enum output_folder folder;
    struct stat s;
    if (!outputs_name(slice_of(output->pattern), outputs->slug, name, &folder)) {
        errno = 0;
        return failure_say(f, "%.*s: '%s' cannot be the name of a file", SLICE_ARGS(outputs->slug),
                           output->pattern);
    }
    pthread_mutex_lock(&p->lock);
    const uint64_t stamp = ledger_output(&p->ledger, p->posts[outputs->number].output + i)->stamp;
    pthread_mutex_unlock(&p->lock);
    const int in = p->session->folders[folder];
    const bool there = fstatat(in, name, &s, AT_SYMLINK_NOFOLLOW) == 0;
    const bool same = there && stamp != 0 && stamp == atomic_file_stamp(&s) &&
                      outputs->before != NULL && outputs->before->unsure == 0;
    if (same || (there && atomic_file_holds(in, name, output->bytes))) {
        note_placed(p, tag, &s, NULL);
        return true;
    }
    return atomic_file_add(&w->batch, in, name, there, output->bytes, tag, f);
}

bool
place_post(struct press_state *p, struct press_worker *w, const struct post_outputs *outputs,
           struct failure *f)
{
    struct slice patterns[OUTPUTS_MOST];
    for (uint32_t i = 0; i < outputs->count; i++)
        patterns[i] = slice_of(outputs->items[i].pattern);
    bool good =
        outputs->named || manifest_note(&p->manifest, outputs->slug, patterns, outputs->count, f);
    for (uint32_t i = 0; good && i < outputs->count; i++)
        good = place_output(p, w, outputs, i, f);
    return good;
}

void
place_waiting(struct press_state *p, bool flushed)
{
    const struct atomic_file_teller teller = {note_placed, p};
    struct failure f; /* each file's own is told to the teller */
    for (unsigned i = 0; i < p->session->options->threads; i++)
        atomic_file_commit(&p->workers[i].batch, flushed, &teller, &f);
}

void
place_much(struct press_state *p, struct press_worker *w)
{
    const struct atomic_file_teller teller = {note_placed, p};
    struct failure f;
    if (w->batch.count > WAITING_MOST)
        atomic_file_commit(&w->batch, false, &teller, &f);
}
