#include "press/foreign.h"

#include <dirent.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/list.h"
#include "base/shown.h"
#include "press/manifest_file.h"
#include "press/post_file.h"
#include "press/recognise.h"
#include "read/post.h"

enum { TOLD_MOST = 40 };

struct foreign {
    struct press_state *press;
    struct arena *scratch; /* of the post at hand */
    LIST_OF(const char *);
};

/* a file, or a link or pipe of its name; a folder is told when it turns out to be in the way */
static bool
stands(int folder, const char *name)
{
    struct stat s;
    return fstatat(folder, name, &s, AT_SYMLINK_NOFOLLOW) == 0 && !S_ISDIR(s.st_mode);
}

static void
note(struct foreign *g, enum output_folder folder, const char *name)
{
    struct arena *a = g->press->session->arena;
    *LIST_GROW(a, g) = folder == FOLDER_OUT ? text_format(a, "%s", name)
                                            : text_format(a, "%s/%s", output_folders[folder], name);
}

static void
find_gathered(struct foreign *g)
{
    const struct session *s = g->press->session;
    if (recognise_earlier(s))
        return;
    for (size_t i = 0; i < gathered_output_count; i++)
        if (stands(s->folders[gathered_outputs[i].folder], gathered_outputs[i].name))
            note(g, gathered_outputs[i].folder, gathered_outputs[i].name);
}

static void
find_of_post(struct foreign *g, const struct post *post)
{
    const struct session *s = g->press->session;
    const char *patterns[OUTPUT_PATTERNS_MOST];
    const size_t count =
        outputs_patterns(g->scratch, s->tables, post->front.image_file.text, patterns);
    for (size_t i = 0; i < count; i++) {
        char name[OUTPUT_NAME_MOST];
        enum output_folder folder;
        const struct slice pattern = slice_of(patterns[i]);
        if (outputs_name(pattern, post->slug, name, &folder) && stands(s->folders[folder], name) &&
            !recognise_output(s, post->slug, pattern))
            note(g, folder, name);
    }
}

/* whether anything stands where posts' outputs go */
static bool
holds_any(const struct session *s)
{
    bool any = false;
    for (int i = 0; i < FOLDER_OUT && !any; i++) {
        DIR *d = atomic_file_reading(s->folders[i]);
        for (struct dirent *e; d != NULL && !any && (e = readdir(d)) != NULL;)
            any = strcmp(e->d_name, ".") != 0 && strcmp(e->d_name, "..") != 0;
        if (d != NULL)
            closedir(d);
    }
    return any;
}

/* a post that the machine cannot read is told when it is to be made */
static void
find_of_posts(struct foreign *g)
{
    struct press_state *p = g->press;
    const struct session *s = p->session;
    struct failure ignored;
    for (size_t i = 0; i < p->plan.count; i++) {
        const char *path = p->plan.items[i].path;
        struct post_file file;
        struct notices notices = {.arena = g->scratch};
        struct post post;
        if (post_file_read(g->scratch, s->content, s->shown, path, &file, &ignored) && !file.gone) {
            post_read(g->scratch, s->tables->words, &(struct post_bytes){path, file.bytes},
                      &notices, &post);
            if (post.readable && !post.front.draft)
                find_of_post(g, &post);
        }
        arena_reset(g->scratch);
    }
}

static int
by_name(const void *left, const void *right)
{
    return strcmp(*(const char *const *)left, *(const char *const *)right);
}

static void
tell(struct foreign *g)
{
    const char *out = g->press->session->options->out;
    qsort(g->items, g->count, sizeof *g->items, by_name);
    fprintf(stderr,
            "dariole: %s holds files that no press made, and this one would write over: ", out);
    for (size_t i = 0; i < g->count && i < TOLD_MOST; i++)
        shown_printf(stderr, "%s%s", i > 0 ? ", " : "", g->items[i]);
    if (g->count > TOLD_MOST)
        fprintf(stderr, " and %zu more", g->count - TOLD_MOST);
    fputs(". Name another folder with -o, or say --take-over\n", stderr);
}

/* neither ledger nor manifest of an earlier press is there */
static bool
is_first(const struct press_state *p, bool *first, struct failure *f)
{
    struct manifest_file_file manifest;
    const struct session *s = p->session;
    if (!manifest_file_read(s->arena, s->hidden, &manifest, f))
        return false;
    *first = !p->manifest.ledger_found && !manifest.there;
    return true;
}

static bool
find_all(struct foreign *g, struct failure *f)
{
    struct session *s = g->press->session;
    find_gathered(g);
    if (!holds_any(s))
        return true;
    g->scratch = arena_open((size_t)256 << 10);
    bool good = g->scratch != NULL && setjmp(*arena_guard(g->scratch)) == 0;
    if (!good)
        failure_say(f, "out of memory");
    else if ((good = session_load_tables(s, f)))
        find_of_posts(g);
    arena_close(g->scratch);
    return good;
}

bool
foreign_refuse(struct press_state *p, bool *refused, struct failure *f)
{
    struct foreign g = {.press = p};
    bool first;
    *refused = false;
    if (p->session->options->take_over)
        return true;
    if (!is_first(p, &first, f) || (first && !find_all(&g, f)))
        return false;
    *refused = g.count > 0;
    if (*refused)
        tell(&g);
    return true;
}
