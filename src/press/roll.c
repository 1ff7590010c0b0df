#include "press/roll.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/map.h"
#include "press/output_name.h"
#include "press/roll_file.h"
#include "press/strays.h"

/* what the ledger keeps of the file's stamp; never 0 */
static bool
stamp_of(const struct pressing *p, uint32_t *stamp)
{
    struct stat s;
    if (fstatat(p->hidden, "roll", &s, AT_SYMLINK_NOFOLLOW) != 0 || !S_ISREG(s.st_mode))
        return false;
    *stamp = (uint32_t)place_stamp(&s) | 1;
    return true;
}

void
pressing_check_roll(struct pressing *p)
{
    uint32_t stamp;
    p->roll.in_step = !p->journal_left && stamp_of(p, &stamp) && p->ledger.head.roll == stamp;
    if (!p->roll.in_step)
        p->touched = true;
}

static char *
path_of(const struct pressing *p)
{
    return text_format(p->arena, "%s/.dariole/roll", p->options.out);
}

/* a roll on its way; where it is joined from two, a line that is there already is not put again */
struct lines {
    struct pressing *press;
    struct roll_sheet *to;
    struct map *seen; /* or NULL */
};

static void
put_line(struct lines *l, struct slice slug, const struct slice *patterns, size_t count)
{
    char line[ROLL_LINE_MOST];
    size_t length = count > 0 ? roll_line(line, slug, patterns, count) : 0;
    struct slice whole = {line, length};
    if (length == 0 || (l->seen != NULL && map_get(l->seen, whole) != NULL))
        return;
    if (l->seen != NULL)
        map_put(l->seen, slice_copy(l->press->arena, whole), l);
    roll_put(l->to, whole);
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
    int folder = output_file(pattern, slug, name);
    return fstatat(p->folders[folder], name, &s, AT_SYMLINK_NOFOLLOW) == 0;
}

/* what a roll of before names and is there */
static void
put_before(const struct roll_file *before, struct lines *to)
{
    struct slice slug, rest, patterns[PATTERNS_MOST];
    for (size_t at = 0; roll_next(before, &at, &slug, &rest);) {
        size_t count = 0;
        while (count < PATTERNS_MOST && roll_next_pattern(&rest, &patterns[count]))
            count += stands(to->press, slug, patterns[count]);
        put_line(to, slug, patterns, count);
    }
}

/* a press that was cut off leaves a roll without an end; else the end is lost, and names with it */
static bool
knows_all(const struct pressing *p, const struct roll_file *before)
{
    if (p->ledger_found && !p->journal_left)
        return true;
    return before->there && !before->damaged && (before->ended || p->journal_left);
}

/* all names of before, from wherever they are known */
static bool
write_known(struct pressing *p, struct failure *f)
{
    struct roll_file before;
    struct roll_sheet to;
    struct map seen = map_new(p->arena);
    struct lines lines = {p, &to, &seen};
    if (!roll_read(p->arena, path_of(p), &before, f))
        return false;
    bool sure = p->ledger_found && !p->journal_left;
    p->roll.partial = before.partial || (!knows_all(p, &before) && strays_may_be(p));
    roll_begin(&to, p->hidden, p->roll.partial, f);
    const size_t empty = to.at;
    put_posts(&lines);
    if (!sure) /* else the file may be an old one, and its names no longer ours */
        put_before(&before, &lines);
    if (p->roll.partial)
        strays_recognise(p, &to);
    const bool nothing = to.at == empty && !p->roll.partial;
    if (!roll_finish(&to, f))
        return false;
    /* the ledger knows as much: nothing is there to be removed */
    p->roll.in_step = nothing && stamp_of(p, &p->ledger.head.roll);
    return true;
}

bool
pressing_begin_roll(struct pressing *p, struct failure *f)
{
    if (!p->roll.in_step && !write_known(p, f))
        return false;
    p->roll.fd = openat(p->hidden, "roll", O_WRONLY | O_APPEND | O_CLOEXEC);
    return p->roll.fd >= 0 || failure_say_errno(f, "%s", path_of(p));
}

bool
pressing_note_outputs(struct pressing *p, struct slice slug, const struct slice *patterns,
                      size_t count, struct failure *f)
{
    char line[ROLL_LINE_MOST];
    size_t length = roll_line(line, slug, patterns, count);
    pthread_mutex_lock(&p->lock);
    p->roll.added = true;
    pthread_mutex_unlock(&p->lock);
    if (length == 0)
        return failure_say(f, "%.*s: the names of its outputs are too long", SLICE_ARGS(slug));
    return place_put(p->roll.fd, line, length) || failure_say_errno(f, ".dariole/roll");
}

bool
pressing_each_named(struct pressing *p,
                    void (*each)(struct pressing *p, struct slice slug, struct slice pattern),
                    struct failure *f)
{
    struct roll_file roll;
    struct slice slug, rest, pattern;
    if (!roll_read(p->arena, path_of(p), &roll, f))
        return false;
    for (size_t at = 0; roll_next(&roll, &at, &slug, &rest);)
        while (roll_next_pattern(&rest, &pattern))
            each(p, slug, pattern);
    return true;
}

/* written anew, or only ended where nothing but additions were made. A press that is not whole
 * leaves in it what was noted and is there. */
static bool
bring_up(struct pressing *p, struct failure *f)
{
    struct roll_file noted = {.bytes = SLICE("")};
    struct roll_sheet to;
    struct map seen = map_new(p->arena);
    struct lines lines = {p, &to, p->whole ? NULL : &seen};
    bool added_only = p->roll.in_step && !p->roll.removed && !p->contended && !p->fresh;
    if (p->whole && added_only)
        return roll_end(p->roll.fd, f);
    if (!p->whole && !roll_read(p->arena, path_of(p), &noted, f))
        return false;
    roll_begin(&to, p->hidden, p->roll.partial && !p->whole, f);
    put_posts(&lines);
    put_before(&noted, &lines);
    return roll_finish(&to, f);
}

bool
pressing_keep_roll(struct pressing *p, struct failure *f)
{
    if (p->roll.in_step && !p->roll.removed && !p->contended && !p->roll.added)
        return true;
    if (!bring_up(p, f))
        return false;
    return stamp_of(p, &p->ledger.head.roll) || failure_say_errno(f, ".dariole/roll");
}
