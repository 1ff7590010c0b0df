#include "press/manifest.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/map.h"
#include "press/atomic_file.h"
#include "press/beneath.h"
#include "press/manifest_file.h"
#include "press/recognise.h"

/* what the ledger keeps of the file's stamp; never 0 */
static bool
stamp_of(const struct session *s, uint32_t *stamp)
{
    struct stat st;
    if (fstatat(s->hidden, "manifest", &st, AT_SYMLINK_NOFOLLOW) != 0 || !S_ISREG(st.st_mode) ||
        st.st_nlink != 1)
        return false;
    *stamp = (uint32_t)atomic_file_stamp(&st) | 1;
    return true;
}

void
manifest_check(struct manifest *m, const struct session *s, const struct ledger *l,
               bool ledger_found)
{
    uint32_t stamp;
    m->ledger_found = ledger_found;
    m->in_step = !s->cut_off && stamp_of(s, &stamp) && l->head.manifest == stamp;
}

/* a manifest on its way; where it is joined from two, a line that is there already is not put again
 */
struct lines {
    const struct session *session;
    struct manifest_file *to;
    struct map *seen; /* or NULL */
};

static void
put_line(struct lines *l, struct slice slug, const struct slice *patterns, size_t count)
{
    char line[MANIFEST_LINE_MOST];
    size_t length = count > 0 ? manifest_file_line(line, slug, patterns, count) : 0;
    struct slice whole = {line, length};
    if (length == 0 || (l->seen != NULL && map_get(l->seen, whole) != NULL))
        return;
    if (l->seen != NULL)
        map_put(l->seen, slice_copy(l->session->arena, whole), l);
    manifest_file_put(l->to, whole);
}

/* the outputs that the ledger's posts have in place */
static void
put_posts(struct lines *to, const struct ledger *l)
{
    struct slice patterns[PATTERNS_MOST];
    for (size_t i = 0; i < ledger_post_count(l); i++) {
        const struct ledger_post *post = ledger_post(l, i);
        uint32_t count = post->output_count < PATTERNS_MOST ? post->output_count : PATTERNS_MOST;
        for (uint32_t o = 0; o < count; o++)
            patterns[o] =
                ledger_string(l, l->head.patterns[ledger_output(l, post->output + o)->pattern]);
        put_line(to, ledger_string(l, post->slug), patterns, count);
    }
}

static bool
stands(const struct session *s, struct slice slug, struct slice pattern)
{
    char name[OUTPUT_NAME_MOST];
    struct stat st;
    enum output_folder folder;
    return outputs_name(pattern, slug, name, &folder) &&
           fstatat(s->folders[folder], name, &st, AT_SYMLINK_NOFOLLOW) == 0;
}

/* what a manifest of before names and is there */
static void
put_before(const struct manifest_file_file *before, struct lines *to)
{
    struct slice slug, rest, patterns[PATTERNS_MOST];
    for (size_t at = 0; manifest_file_next(before, &at, &slug, &rest);) {
        size_t count = 0;
        while (count < PATTERNS_MOST && manifest_file_next_pattern(&rest, &patterns[count]))
            count += stands(to->session, slug, patterns[count]);
        put_line(to, slug, patterns, count);
    }
}

/* a press that was cut off leaves a manifest without an end; else the end is lost, and names with
 * it
 */
static bool
knows_all(const struct manifest *m, const struct session *s,
          const struct manifest_file_file *before)
{
    if (m->ledger_found && !s->cut_off)
        return true;
    return before->there && !before->damaged && (before->ended || s->cut_off);
}

/* all names of before, from wherever they are known */
static bool
write_known(struct manifest *m, const struct session *s, struct ledger *l, struct failure *f)
{
    struct manifest_file_file before;
    struct manifest_file to;
    struct map seen = map_new(s->arena);
    struct lines lines = {s, &to, &seen};
    if (!manifest_file_read(s->arena, s->hidden, &before, f))
        return false;
    bool sure = m->ledger_found && !s->cut_off;
    m->partial = before.partial || (!knows_all(m, s, &before) && recognise_earlier(s));
    manifest_file_begin(&to, s->hidden, m->partial, f);
    const size_t empty = to.at;
    put_posts(&lines, l);
    if (!sure) /* else the file may be an old one, and its names no longer ours */
        put_before(&before, &lines);
    if (m->partial)
        recognise_outputs(s, &to);
    const bool nothing = to.at == empty && !m->partial;
    if (!manifest_file_finish(&to, f))
        return false;
    /* the ledger knows as much: nothing is there to be removed */
    m->in_step = nothing && stamp_of(s, &l->head.manifest);
    return true;
}

bool
manifest_begin(struct manifest *m, const struct session *s, struct ledger *l, struct failure *f)
{
    struct stat st;
    if (!m->in_step && !write_known(m, s, l, f))
        return false;
    m->fd = beneath_open_plain(s->hidden, "manifest", O_WRONLY | O_APPEND, &st);
    return m->fd >= 0 || failure_say_errno(f, "%s/.dariole/manifest", s->options->out);
}

bool
manifest_note(struct manifest *m, struct slice slug, const struct slice *patterns, size_t count,
              struct failure *f)
{
    char line[MANIFEST_LINE_MOST];
    size_t length = manifest_file_line(line, slug, patterns, count);
    atomic_store(&m->added, true);
    if (length == 0)
        return failure_say(f, "%.*s: the names of its outputs are too long", SLICE_ARGS(slug));
    return atomic_file_put(m->fd, line, length) || failure_say_errno(f, ".dariole/manifest");
}

bool
manifest_each(const struct session *s,
              void (*each)(void *ctx, struct slice slug, struct slice pattern), void *ctx,
              struct failure *f)
{
    struct manifest_file_file manifest;
    struct slice slug, rest, pattern;
    if (!manifest_file_read(s->arena, s->hidden, &manifest, f))
        return false;
    for (size_t at = 0; manifest_file_next(&manifest, &at, &slug, &rest);)
        while (manifest_file_next_pattern(&rest, &pattern))
            each(ctx, slug, pattern);
    return true;
}

/* written anew, or only ended where nothing but additions were made */
static bool
bring_up(struct manifest *m, const struct session *s, const struct ledger *l, bool whole,
         struct failure *f)
{
    struct manifest_file_file noted = {.bytes = SLICE("")};
    struct manifest_file to;
    struct map seen = map_new(s->arena);
    struct lines lines = {s, &to, whole ? NULL : &seen};
    if (whole && m->in_step && !m->removed)
        return manifest_file_end(m->fd, f);
    if (!whole && !manifest_file_read(s->arena, s->hidden, &noted, f))
        return false;
    manifest_file_begin(&to, s->hidden, m->partial && !whole, f);
    put_posts(&lines, l);
    put_before(&noted, &lines);
    return manifest_file_finish(&to, f);
}

bool
manifest_keep(struct manifest *m, const struct session *s, struct ledger *l, bool whole,
              struct failure *f)
{
    if (m->in_step && !m->removed && !atomic_load(&m->added))
        return true;
    if (!bring_up(m, s, l, whole, f))
        return false;
    return stamp_of(s, &l->head.manifest) || failure_say_errno(f, ".dariole/manifest");
}

void
manifest_close(struct manifest *m)
{
    if (m->fd >= 0)
        close(m->fd);
    m->fd = -1;
}
