#include "press/orphans.h"

#include <dirent.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/list.h"
#include "base/shown.h"

enum { TOLD_MOST = 40 };

/* whether a post makes the file */
static bool
is_made(const struct press_state *p, enum output_folder folder, struct slice file)
{
    const struct ledger *l = &p->ledger;
    char name[OUTPUT_NAME_MOST];
    for (uint32_t i = 0; i < l->head.pattern_count; i++) {
        struct slice pattern = ledger_string(l, l->head.patterns[i]);
        size_t tail = pattern.length - slice_find_byte(pattern, '*', 0) - 1;
        if (tail >= file.length)
            continue;
        struct slice slug = slice_part(file, 0, file.length - tail);
        int64_t holder = slugs_holder(&p->slugs, slug);
        enum output_folder in;
        if (holder < 0 || !outputs_name(pattern, slug, name, &in) || in != folder ||
            !slice_is(file, name))
            continue;
        for (uint32_t o = 0; o < p->posts[holder].output_count; o++)
            if (ledger_output(l, p->posts[holder].output + o)->pattern == i)
                return true;
    }
    return outputs_gathered(folder, file);
}

struct orphans {
    LIST_OF(const char *);
};

static void
list_orphans(const struct press_state *p, enum output_folder folder, struct orphans *out)
{
    struct stat s;
    struct arena *a = p->session->arena;
    DIR *d = atomic_file_reading(p->session->folders[folder]);
    if (d == NULL)
        return;
    for (struct dirent *e; (e = readdir(d)) != NULL;)
        if (!is_made(p, folder, slice_of(e->d_name)) &&
            fstatat(p->session->folders[folder], e->d_name, &s, AT_SYMLINK_NOFOLLOW) == 0 &&
            !S_ISDIR(s.st_mode))
            *LIST_GROW(a, out) = text_format(a, "%s/%s", output_folders[folder], e->d_name);
    closedir(d);
}

static int
by_name(const void *left, const void *right)
{
    return strcmp(*(const char *const *)left, *(const char *const *)right);
}

void
orphans_tell(const struct press_state *p)
{
    struct orphans found = {0};
    if (!p->manifest.partial)
        return;
    for (int i = 0; i < FOLDER_OUT; i++)
        list_orphans(p, (enum output_folder)i, &found);
    if (found.count == 0)
        return;
    qsort(found.items, found.count, sizeof *found.items, by_name);
    fprintf(stderr,
            "dariole: %s/.dariole was lost or damaged, and no post makes these files there; they "
            "stay, as they may be yours: ",
            p->session->options->out);
    for (size_t i = 0; i < found.count && i < TOLD_MOST; i++)
        shown_printf(stderr, "%s%s", i > 0 ? ", " : "", found.items[i]);
    if (found.count > TOLD_MOST)
        fprintf(stderr, " and %zu more", found.count - TOLD_MOST);
    fputc('\n', stderr);
}
