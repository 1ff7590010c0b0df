#include "press/recognise.h"

#include <fcntl.h>
#include <stdio.h>
#include <unistd.h>

#include "judge/picture.h"
#include "press/atomic_file.h"
#include "press/beneath.h"

enum { HEAD_BYTES = 128 << 10 };

/* the first bytes of a file; empty where there is none, or none that is plain */
static struct slice
head_of(struct arena *a, int folder, const char *name)
{
    struct stat st;
    struct slice out = SLICE("");
    char *bytes = arena_take_raw(a, HEAD_BYTES);
    const int fd = beneath_open_plain(folder, name, O_RDONLY, &st);
    if (fd < 0)
        return out;
    if (atomic_file_get(fd, bytes, HEAD_BYTES, &out.length))
        out.at = bytes;
    else
        out.length = 0;
    close(fd);
    return out;
}

bool
recognise_earlier(const struct session *s)
{
    const struct slice head = head_of(s->arena, s->folders[FOLDER_OUT], "findings.sarif");
    return slice_find(head, "\"driver\":{\"name\":\"dariole\"", 0) != SIZE_MAX;
}

/* a recipe's own mark: where its article begins */
static size_t
find_article(struct slice bytes, struct slice slug)
{
    char mark[256];
    int n =
        snprintf(mark, sizeof mark, "<article class=\"dl-recipe\" id=\"%.*s\"", SLICE_ARGS(slug));
    const size_t recipe = n > 0 && (size_t)n < sizeof mark ? slice_find(bytes, mark, 0) : SIZE_MAX;
    if (recipe != SIZE_MAX)
        return recipe;
    n = snprintf(mark, sizeof mark, "<article class=\"dl-recipe dl-round-up\" id=\"%.*s\"",
                 SLICE_ARGS(slug));
    return n > 0 && (size_t)n < sizeof mark ? slice_find(bytes, mark, 0) : SIZE_MAX;
}

static struct slice
output_head(const struct session *s, struct slice slug, struct slice pattern,
            enum output_folder *folder)
{
    char name[OUTPUT_NAME_MOST];
    return outputs_name(pattern, slug, name, folder) ? head_of(s->arena, s->folders[*folder], name)
                                                     : SLICE("");
}

/* of a copied picture nothing but the page says that it is ours: none is shown from there that was
 * not copied */
static bool
page_shows(const struct session *s, struct slice slug, struct slice pattern)
{
    char shown[512];
    enum output_folder folder;
    const struct slice page = output_head(s, slug, SLICE("preview/*.html"), &folder),
                       ending = slice_part(pattern, slice_find_byte(pattern, '.', 0), SIZE_MAX);
    int n = snprintf(shown, sizeof shown, "<img src=\"../images/%.*s%.*s\"", SLICE_ARGS(slug),
                     SLICE_ARGS(ending));
    return n > 0 && (size_t)n < sizeof shown && find_article(page, slug) != SIZE_MAX &&
           slice_find(page, shown, 0) != SIZE_MAX;
}

/* its identifier ends in the slug */
static bool
data_is_of(struct slice bytes, struct slice slug)
{
    static const char key[] = "\"@id\":\"";
    const size_t from = slice_find(slice_part(bytes, 0, 256), key, 0),
                 end = from == SIZE_MAX ? from : slice_find_byte(bytes, '"', from + sizeof key - 1);
    return slice_begins(bytes, "{\"@context\":\"https://schema.org\",") && end != SIZE_MAX &&
           end - from > slug.length + sizeof key &&
           slice_equal(slice_part(bytes, end - slug.length, end), slug) &&
           bytes.at[end - slug.length - 1] == ':';
}

bool
recognise_output(const struct session *s, struct slice slug, struct slice pattern)
{
    enum output_folder folder = FOLDER_OUT;
    const struct slice bytes = output_head(s, slug, pattern, &folder);
    switch (folder) {
    case FOLDER_FRAGMENTS:
        return find_article(bytes, slug) == 0;
    case FOLDER_DATA:
        return data_is_of(bytes, slug);
    case FOLDER_PREVIEW:
        return slice_begins(bytes, "<!DOCTYPE html>") && find_article(bytes, slug) != SIZE_MAX;
    case FOLDER_IMAGES:
        return page_shows(s, slug, pattern);
    case FOLDER_CLIPS: /* plain files without a mark: ours where the post's data is */
        return bytes.length > 0 && recognise_output(s, slug, SLICE("data/*.json"));
    case FOLDER_OUT:
    case FOLDERS:
        break;
    }
    return false;
}

static void
put_recognised(const struct session *s, struct manifest_file *to, struct slice slug,
               const char *pattern)
{
    char line[MANIFEST_LINE_MOST];
    const struct slice one = slice_of(pattern);
    if (recognise_output(s, slug, one))
        manifest_file_put(to, (struct slice){line, manifest_file_line(line, slug, &one, 1)});
}

/* every output that a post of this slug may have */
static void
put_all(const struct session *s, struct manifest_file *to, struct slice slug)
{
    const char *patterns[OUTPUT_PATTERNS_MOST];
    const size_t count = outputs_patterns(s->arena, s->tables, SLICE(""), patterns);
    for (size_t i = 0; i < count; i++)
        put_recognised(s, to, slug, patterns[i]);
}

void
recognise_outputs(const struct session *s, struct manifest_file *to)
{
    static const char begin[] = "{\"slug\":\"";
    char line[4096];
    struct stat st;
    int fd = beneath_open_plain(s->folders[FOLDER_OUT], "catalogue.json", O_RDONLY, &st);
    FILE *from = fd >= 0 ? fdopen(fd, "r") : NULL;
    if (from == NULL) {
        if (fd >= 0)
            close(fd);
        return;
    }
    /* of a long line what comes after is passed over: it does not begin as a line does */
    while (fgets(line, sizeof line, from) != NULL) {
        const struct slice whole = slice_of(line);
        const size_t at = sizeof begin - 1, end = slice_find_byte(whole, '"', at);
        if (slice_begins(whole, begin) && end != SIZE_MAX &&
            outputs_slug(slice_part(whole, at, end)))
            put_all(s, to, slice_part(whole, at, end));
    }
    fclose(from);
}
