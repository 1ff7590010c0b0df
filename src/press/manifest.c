#include "press/manifest.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/map.h"
#include "press/beneath.h"
#include "press/output_name.h"
#include "press/manifest_file.h"
#include "press/orphans.h"

/* what the ledger keeps of the file's stamp; never 0 */
static bool
stamp_of(const struct pressing *p, uint32_t *stamp)
{
    struct stat s;
    if (fstatat(p->hidden, "manifest", &s, AT_SYMLINK_NOFOLLOW) != 0 || !S_ISREG(s.st_mode) ||
        s.st_nlink != 1)
        return false;
    *stamp = (uint32_t)atomic_file_stamp(&s) | 1;
    return true;
}

void
manifest_check(struct pressing *p)
{
    uint32_t stamp;
    p->manifest.in_step =
        !p->journal_left && stamp_of(p, &stamp) && p->ledger.head.manifest == stamp;
    if (!p->manifest.in_step)
        p->touched = true;
}

/* a manifest on its way; where it is joined from two, a line that is there already is not put again
 */
struct lines {
    struct pressing *press;
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
        map_put(l->seen, slice_copy(l->press->arena, whole), l);
    manifest_file_put(l->to, whole);
}

/* the outputs that the ledger's posts have in place */
static void
put_posts(struct lines *to)
{
    const struct ledger *l = &to->press->ledger;
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
stands(const struct pressing *p, struct slice slug, struct slice pattern)
{
    char name[OUTPUT_NAME_MOST];
    struct stat s;
    int folder;
    return output_file(pattern, slug, name, &folder) &&
           fstatat(p->folders[folder], name, &s, AT_SYMLINK_NOFOLLOW) == 0;
}

/* what a manifest of before names and is there */
static void
put_before(const struct manifest_file_file *before, struct lines *to)
{
    struct slice slug, rest, patterns[PATTERNS_MOST];
    for (size_t at = 0; manifest_file_next(before, &at, &slug, &rest);) {
        size_t count = 0;
        while (count < PATTERNS_MOST && manifest_file_next_pattern(&rest, &patterns[count]))
            count += stands(to->press, slug, patterns[count]);
        put_line(to, slug, patterns, count);
    }
}

/* a press that was cut off leaves a manifest without an end; else the end is lost, and names with
 * it */
static bool
knows_all(const struct pressing *p, const struct manifest_file_file *before)
{
    if (p->ledger_found && !p->journal_left)
        return true;
    return before->there && !before->damaged && (before->ended || p->journal_left);
}

/* all names of before, from wherever they are known */
static bool
write_known(struct pressing *p, struct failure *f)
{
    struct manifest_file_file before;
    struct manifest_file to;
    struct map seen = map_new(p->arena);
    struct lines lines = {p, &to, &seen};
    if (!manifest_file_read(p->arena, p->hidden, &before, f))
        return false;
    bool sure = p->ledger_found && !p->journal_left;
    p->manifest.partial = before.partial || (!knows_all(p, &before) && orphans_may_be(p));
    manifest_file_begin(&to, p->hidden, p->manifest.partial, f);
    const size_t empty = to.at;
    put_posts(&lines);
    if (!sure) /* else the file may be an old one, and its names no longer ours */
        put_before(&before, &lines);
    if (p->manifest.partial)
        orphans_recognise(p, &to);
    const bool nothing = to.at == empty && !p->manifest.partial;
    if (!manifest_file_finish(&to, f))
        return false;
    /* the ledger knows as much: nothing is there to be removed */
    p->manifest.in_step = nothing && stamp_of(p, &p->ledger.head.manifest);
    return true;
}

bool
manifest_begin(struct pressing *p, struct failure *f)
{
    if (!p->manifest.in_step && !write_known(p, f))
        return false;
    struct stat s;
    p->manifest.fd = beneath_open_plain(p->hidden, "manifest", O_WRONLY | O_APPEND, &s);
    return p->manifest.fd >= 0 || failure_say_errno(f, "%s/.dariole/manifest", p->options.out);
}

bool
manifest_note(struct pressing *p, struct slice slug, const struct slice *patterns, size_t count,
              struct failure *f)
{
    char line[MANIFEST_LINE_MOST];
    size_t length = manifest_file_line(line, slug, patterns, count);
    pthread_mutex_lock(&p->lock);
    p->manifest.added = true;
    pthread_mutex_unlock(&p->lock);
    if (length == 0)
        return failure_say(f, "%.*s: the names of its outputs are too long", SLICE_ARGS(slug));
    return atomic_file_put(p->manifest.fd, line, length) ||
           failure_say_errno(f, ".dariole/manifest");
}

bool
manifest_each(struct pressing *p,
              void (*each)(struct pressing *p, struct slice slug, struct slice pattern),
              struct failure *f)
{
    struct manifest_file_file manifest;
    struct slice slug, rest, pattern;
    if (!manifest_file_read(p->arena, p->hidden, &manifest, f))
        return false;
    for (size_t at = 0; manifest_file_next(&manifest, &at, &slug, &rest);)
        while (manifest_file_next_pattern(&rest, &pattern))
            each(p, slug, pattern);
    return true;
}

/* written anew, or only ended where nothing but additions were made. A press that is not whole
 * leaves in it what was noted and is there. */
static bool
bring_up(struct pressing *p, struct failure *f)
{
    struct manifest_file_file noted = {.bytes = SLICE("")};
    struct manifest_file to;
    struct map seen = map_new(p->arena);
    struct lines lines = {p, &to, p->whole ? NULL : &seen};
    bool added_only = p->manifest.in_step && !p->manifest.removed && !p->contended && !p->fresh;
    if (p->whole && added_only)
        return manifest_file_end(p->manifest.fd, f);
    if (!p->whole && !manifest_file_read(p->arena, p->hidden, &noted, f))
        return false;
    manifest_file_begin(&to, p->hidden, p->manifest.partial && !p->whole, f);
    put_posts(&lines);
    put_before(&noted, &lines);
    return manifest_file_finish(&to, f);
}

bool
manifest_keep(struct pressing *p, struct failure *f)
{
    if (p->manifest.in_step && !p->manifest.removed && !p->contended && !p->manifest.added)
        return true;
    if (!bring_up(p, f))
        return false;
    return stamp_of(p, &p->ledger.head.manifest) || failure_say_errno(f, ".dariole/manifest");
}
