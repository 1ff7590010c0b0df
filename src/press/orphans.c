#include "press/orphans.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "base/list.h"
#include "press/beneath.h"
#include "judge/picture.h"
#include "press/output_name.h"
#include "press/gather.h"

enum { HEAD_BYTES = 128 << 10, TOLD_MOST = 40 };

/* one recipe that the catalogue of before lists */
struct listed {
    struct pressing *press;
    struct manifest_file *to;
    struct slice slug, id; /* the id as JSON, with its quotes */
    char *bytes;           /* HEAD_BYTES */
};

bool
orphans_may_be(const struct pressing *p)
{
    struct stat s;
    return fstatat(p->folders[FOLDER_OUT], "dariole.css", &s, AT_SYMLINK_NOFOLLOW) == 0 ||
           fstatat(p->folders[FOLDER_OUT], "catalogue.json", &s, AT_SYMLINK_NOFOLLOW) == 0;
}

/* the first bytes of an output of this recipe; empty where there is none */
static struct slice
head_of(const struct listed *l, struct slice pattern)
{
    char name[OUTPUT_NAME_MOST];
    struct stat s;
    size_t held = 0;
    int folder;
    int fd = output_file(pattern, l->slug, name, &folder)
                 ? beneath_open_plain(l->press->folders[folder], name, O_RDONLY, &s)
                 : -1;
    bool good = fd >= 0;
    while (good && held < HEAD_BYTES) {
        ssize_t n = read(fd, l->bytes + held, HEAD_BYTES - held);
        good = n > 0;
        held += good ? (size_t)n : 0;
    }
    if (fd >= 0)
        close(fd);
    return (struct slice){l->bytes, held};
}

/* a recipe's own mark: where its article begins */
static size_t
find_article(const struct listed *l, struct slice bytes)
{
    char mark[256];
    int n = snprintf(mark, sizeof mark, "<article class=\"dl-recipe\" id=\"%.*s\" ",
                     SLICE_ARGS(l->slug));
    return n > 0 && (size_t)n < sizeof mark ? slice_find(bytes, mark, 0) : SIZE_MAX;
}

static void
put_one(const struct listed *l, struct slice pattern)
{
    char line[MANIFEST_LINE_MOST];
    manifest_file_put(l->to, (struct slice){line, manifest_file_line(line, l->slug, &pattern, 1)});
}

static void
recognise_fragment(const struct listed *l, struct slice pattern)
{
    if (find_article(l, head_of(l, pattern)) == 0)
        put_one(l, pattern);
}

/* of a copied picture nothing but the page says that it is ours: none is shown from there that was
 * not copied */
static void
recognise_page(const struct listed *l)
{
    struct slice pattern = SLICE("preview/*.html"), bytes = head_of(l, pattern);
    if (!slice_begins(bytes, "<!DOCTYPE html>") || find_article(l, bytes) == SIZE_MAX)
        return;
    put_one(l, pattern);
    for (size_t i = 0; picture_endings[i] != NULL; i++) {
        char shown[256], picture[64];
        snprintf(shown, sizeof shown, "<img src=\"../images/%.*s.%s\"", SLICE_ARGS(l->slug),
                 picture_endings[i]);
        snprintf(picture, sizeof picture, "images/*.%s", picture_endings[i]);
        if (slice_find(bytes, shown, 0) != SIZE_MAX)
            put_one(l, slice_of(picture));
    }
}

static void
recognise_data(const struct listed *l)
{
    static const char begin[] =
        "{\"@context\":\"https://schema.org\",\"@type\":\"Recipe\",\"@id\":";
    struct slice pattern = SLICE("data/*.json"), bytes = head_of(l, pattern);
    size_t from = sizeof begin - 1;
    if (slice_begins(bytes, begin) &&
        slice_equal(slice_part(bytes, from, from + l->id.length), l->id))
        put_one(l, pattern);
}

static void
recognise(const struct listed *l)
{
    const struct measures *m = &l->press->tables.measures;
    recognise_fragment(l, SLICE("fragments/*.html"));
    for (size_t i = 0; i < m->region_count; i++) {
        char pattern[256];
        int n = snprintf(pattern, sizeof pattern, "fragments/*.%s.html", m->regions[i].id);
        if (n > 0 && (size_t)n < sizeof pattern)
            recognise_fragment(l, slice_of(pattern));
    }
    recognise_page(l);
    recognise_data(l);
}

/* the recipe of a line of the catalogue as write/catalogue.c begins it */
static bool
read_line(struct slice line, struct listed *l)
{
    static const char slug[] = "{\"slug\":\"", id[] = "\",\"id\":", title[] = ",\"title\":";
    size_t from = sizeof slug - 1, to = slice_find(line, id, from);
    size_t end = to == SIZE_MAX ? to : slice_find(line, title, to);
    if (!slice_begins(line, slug) || end == SIZE_MAX)
        return false;
    l->slug = slice_part(line, from, to);
    l->id = slice_part(line, to + sizeof id - 1, end);
    return output_is_slug(l->slug);
}

void
orphans_recognise(struct pressing *p, struct manifest_file *to)
{
    char line[4096];
    struct listed l = {.press = p, .to = to, .bytes = arena_take(p->arena, HEAD_BYTES)};
    struct stat s;
    int fd = beneath_open_plain(p->folders[FOLDER_OUT], "catalogue.json", O_RDONLY, &s);
    FILE *from = fd >= 0 ? fdopen(fd, "r") : NULL;
    if (from == NULL) {
        if (fd >= 0)
            close(fd);
        return;
    }
    /* of a long line what comes after is passed over: it does not begin as a line does */
    while (fgets(line, sizeof line, from) != NULL)
        if (read_line(slice_of(line), &l))
            recognise(&l);
    fclose(from);
}

/* whether a post makes the file */
static bool
is_made(const struct pressing *p, int folder, struct slice file)
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
        int in;
        if (holder < 0 || !output_file(pattern, slug, name, &in) || in != folder ||
            !slice_is(file, name))
            continue;
        for (uint32_t o = 0; o < p->posts[holder].output_count; o++)
            if (ledger_output(l, p->posts[holder].output + o)->pattern == i)
                return true;
    }
    return pressing_is_gathered(folder, file);
}

struct orphans {
    LIST_OF(const char *);
};

/* for a terminal */
static const char *
plain_name(struct arena *a, int folder, const char *name)
{
    char *s = text_format(a, "%s%s", output_folder(folder), name);
    for (size_t i = 0; s[i] != '\0'; i++)
        if ((unsigned char)s[i] < ' ' || s[i] == 0x7f)
            s[i] = '?';
    return s;
}

static void
list_strays(struct pressing *p, int folder, struct orphans *out)
{
    struct stat s;
    DIR *d = atomic_file_reading(p->folders[folder]);
    if (d == NULL)
        return;
    for (struct dirent *e; (e = readdir(d)) != NULL;)
        if (!is_made(p, folder, slice_of(e->d_name)) &&
            fstatat(p->folders[folder], e->d_name, &s, AT_SYMLINK_NOFOLLOW) == 0 &&
            !S_ISDIR(s.st_mode))
            *LIST_GROW(p->arena, out) = plain_name(p->arena, folder, e->d_name);
    closedir(d);
}

static int
by_name(const void *left, const void *right)
{
    return strcmp(*(const char *const *)left, *(const char *const *)right);
}

void
orphans_tell(struct pressing *p)
{
    struct orphans found = {0};
    if (!p->manifest.partial)
        return;
    for (int i = 0; i < FOLDER_OUT; i++)
        list_strays(p, i, &found);
    if (found.count == 0)
        return;
    qsort(found.items, found.count, sizeof *found.items, by_name);
    fprintf(stderr,
            "dariole: %s/.dariole was lost or damaged, and no post makes these files there; they "
            "stay, as they may be yours: ",
            p->options.out);
    for (size_t i = 0; i < found.count && i < TOLD_MOST; i++)
        fprintf(stderr, "%s%s", i > 0 ? ", " : "", found.items[i]);
    if (found.count > TOLD_MOST)
        fprintf(stderr, " and %zu more", found.count - TOLD_MOST);
    fputc('\n', stderr);
}
