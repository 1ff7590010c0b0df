#include "press/outputs.h"

#include "write/catalogue.h"
#include "write/chapters.h"
#include "write/feed.h"
#include "write/preview.h"
#include "write/article.h"
#include "write/sarif.h"

const char *const output_folders[FOLDER_OUT] = {"fragments", "data", "preview", "images", "clips"};

static void
write_data(struct text *t, const struct outcome *o, const struct fragment_manner *manner)
{
    (void)manner;
    article_data_write(t, o);
}

static void
write_chapters(struct text *t, const struct outcome *o, const struct fragment_manner *manner)
{
    (void)manner;
    chapters_write_vtt(t, o);
}

static void
write_clip_lines(struct text *t, const struct outcome *o, const struct fragment_manner *manner)
{
    (void)manner;
    chapters_write_lines(t, o);
}

/* a post's outputs. A star behind the slug stands for a word: a region's id, a picture's ending. */
static const struct post_output {
    enum output_folder folder;
    const char *tail;
    enum { ONCE, REGIONS_TOGETHER, REGIONS_APART, PICTURE, CHAPTERS, CLIPS } when;
    void (*write)(struct text *t, const struct outcome *o, const struct fragment_manner *manner);
} post_outputs[] = {
    {FOLDER_FRAGMENTS, ".html", REGIONS_TOGETHER, article_write},
    {FOLDER_FRAGMENTS, ".*.html", REGIONS_APART, article_write},
    {FOLDER_DATA, ".json", ONCE, write_data},
    {FOLDER_PREVIEW, ".html", ONCE, NULL},
    {FOLDER_IMAGES, ".*", PICTURE, NULL},
    {FOLDER_CLIPS, ".vtt", CHAPTERS, write_chapters},
    {FOLDER_CLIPS, ".txt", CLIPS, write_clip_lines},
};
enum { POST_OUTPUTS = sizeof post_outputs / sizeof *post_outputs };

static bool
write_datafeed(struct arena *a, const struct tables *t, const struct gathering *g,
               struct outlet out)
{
    return feed_write_datafeed(a, &t->site, g, out);
}

static bool
write_json_feed(struct arena *a, const struct tables *t, const struct gathering *g,
                struct outlet out)
{
    return feed_write_json(a, &t->site, g, out);
}

static bool
write_atom(struct arena *a, const struct tables *t, const struct gathering *g, struct outlet out)
{
    return feed_write_atom(a, &t->site, g, out);
}

static bool
write_sitemap(struct arena *a, const struct tables *t, const struct gathering *g, struct outlet out)
{
    (void)a, (void)t;
    return feed_write_sitemap(g, out);
}

static bool
write_catalogue(struct arena *a, const struct tables *t, const struct gathering *g,
                struct outlet out)
{
    (void)a, (void)t;
    return catalogue_write(g, out);
}

static bool
write_findings(struct arena *a, const struct tables *t, const struct gathering *g,
               struct outlet out)
{
    (void)t;
    return sarif_write(a, g, out);
}

/* findings.sarif comes first: by it a later press knows that an earlier one was at work */
const struct gathered_output gathered_outputs[] = {
    {"findings.sarif", FOLDER_OUT, RECORD_SARIF, ORDER_ALL, WITH_NOTHING, write_findings, NULL},
    {"recipes.json", FOLDER_OUT, RECORD_DATAFEED, ORDER_PUBLISHED, WITH_SITE, write_datafeed, NULL},
    {"catalogue.json", FOLDER_OUT, RECORD_CATALOGUE, ORDER_PUBLISHED, WITH_NOTHING, write_catalogue,
     NULL},
    {"index.html", FOLDER_PREVIEW, RECORD_INDEX, ORDER_PUBLISHED, WITH_TABLES, preview_index, NULL},
    {"sitemap.xml", FOLDER_OUT, RECORD_SITEMAP, ORDER_PUBLISHED, WITH_NOTHING, write_sitemap, NULL},
    {"feed.json", FOLDER_OUT, RECORD_JSON_FEED, ORDER_NEWEST, WITH_SITE, write_json_feed, NULL},
    {"feed.xml", FOLDER_OUT, RECORD_ATOM, ORDER_NEWEST, WITH_SITE, write_atom, NULL},
    {"dariole.css", FOLDER_OUT, RECORD_PIECES, ORDER_NONE, WITH_NOTHING, NULL, fragment_stylesheet},
    {"preview.css", FOLDER_PREVIEW, RECORD_PIECES, ORDER_NONE, WITH_NOTHING, NULL,
     preview_stylesheet},
};
const size_t gathered_output_count = sizeof gathered_outputs / sizeof *gathered_outputs;

bool
outputs_gathered(enum output_folder folder, struct slice name)
{
    for (size_t i = 0; i < gathered_output_count; i++)
        if (gathered_outputs[i].folder == folder && slice_is(name, gathered_outputs[i].name))
            return true;
    return false;
}

/* the pattern of a row, its word filled in */
static const char *
pattern_of(struct arena *a, const struct post_output *row, const char *word)
{
    const char *star = strchr(row->tail, '*'), *folder = output_folders[row->folder];
    if (star == NULL)
        return text_format(a, "%s/*%s", folder, row->tail);
    return text_format(a, "%s/*%.*s%s%s", folder, (int)(star - row->tail), row->tail, word,
                       star + 1);
}

/* whether a post has the output of a row at all; pictures apart */
static bool
is_due(const struct post_output *row, const struct outcome *o)
{
    switch (row->when) {
    case REGIONS_TOGETHER:
        return !o->tables->site.regions_apart;
    case REGIONS_APART:
        return o->tables->site.regions_apart;
    case CHAPTERS:
        return chapters_known(o);
    case CLIPS:
        return o->clips.count > 0;
    default:
        return row->when == ONCE;
    }
}

/* the page of a post, and what was written with it: the fragment and the data lie in it */
struct page {
    struct slice whole, fragment, data;
};

static struct page
write_page(struct arena *a, const struct outcome *o, int heading_level)
{
    const struct fragment_manner manner = {heading_level, -1};
    struct page page;
    struct text t = text_new(a);
    preview_page(&t, o, &manner, &page.fragment, &page.data);
    page.whole = text_slice(&t);
    return page;
}

/* what a row needs no writing for; else empty */
static struct slice
written_with(const struct post_output *row, const struct page *page)
{
    return row->folder == FOLDER_PREVIEW                                      ? page->whole
           : row->folder == FOLDER_FRAGMENTS && row->when == REGIONS_TOGETHER ? page->fragment
           : row->folder == FOLDER_DATA                                       ? page->data
                                                                              : SLICE("");
}

size_t
outputs_of_post(struct arena *a, const struct outcome *o, int heading_level, struct slice picture,
                struct output_text out[OUTPUTS_MOST])
{
    const struct site *site = &o->tables->site;
    const struct page page = write_page(a, o, heading_level);
    size_t count = 0;
    for (size_t i = 0; i < POST_OUTPUTS; i++) {
        const struct post_output *row = &post_outputs[i];
        struct fragment_manner manner = {heading_level, -1};
        if (row->when == PICTURE && o->picture.state == PICTURE_HERE)
            out[count++] = (struct output_text){pattern_of(a, row, o->picture.ending), picture};
        if (!is_due(row, o))
            continue;
        if (written_with(row, &page).length > 0) {
            out[count++] = (struct output_text){pattern_of(a, row, ""), written_with(row, &page)};
            continue;
        }
        const size_t regions = row->when == REGIONS_APART ? site->region_count : 1;
        for (size_t r = 0; r < regions; r++) {
            struct text t = text_new(a);
            const char *word = "";
            if (row->when == REGIONS_APART) {
                manner.region = site->regions[r];
                word = o->tables->measures.regions[manner.region].id;
            }
            row->write(&t, o, &manner);
            out[count++] = (struct output_text){pattern_of(a, row, word), text_slice(&t)};
        }
    }
    return count;
}

static bool
is_picture(struct slice file, const char *ending)
{
    const size_t length = strlen(ending);
    return file.length == 0 ||
           (file.length > length &&
            slice_is_anycase(slice_part(file, file.length - length, file.length), ending));
}

size_t
outputs_patterns(struct arena *a, const struct tables *t, struct slice picture,
                 const char *out[OUTPUT_PATTERNS_MOST])
{
    size_t count = 0;
    for (size_t i = 0; i < POST_OUTPUTS; i++) {
        const struct post_output *row = &post_outputs[i];
        if (row->when != REGIONS_APART && row->when != PICTURE)
            out[count++] = pattern_of(a, row, "");
        for (size_t r = 0; row->when == REGIONS_APART && r < t->measures.region_count; r++)
            out[count++] = pattern_of(a, row, t->measures.regions[r].id);
        for (size_t e = 0; row->when == PICTURE && picture_endings[e] != NULL; e++)
            if (is_picture(picture, picture_endings[e]))
                out[count++] = pattern_of(a, row, picture_endings[e]);
    }
    return count;
}

bool
outputs_slug(struct slice slug)
{
    for (size_t i = 0; i < slug.length; i++) {
        const char c = slug.at[i];
        if (!(c >= 'a' && c <= 'z') && !(c >= '0' && c <= '9') && c != '-')
            return false;
    }
    return slug.length > 0 && slug.length < OUTPUT_NAME_MOST / 2;
}

static bool
tail_fits(struct slice tail, const char *row)
{
    const struct slice whole = slice_of(row);
    const size_t star = slice_find_byte(whole, '*', 0);
    if (star == SIZE_MAX)
        return slice_is(tail, row);
    const struct slice behind = slice_part(whole, star + 1, whole.length);
    if (tail.length < star + behind.length)
        return false;
    const size_t end = tail.length - behind.length;
    return slice_equal(slice_part(tail, 0, star), slice_part(whole, 0, star)) &&
           slice_equal(slice_part(tail, end, tail.length), behind) &&
           outputs_slug(slice_part(tail, star, end));
}

/* the folder of a pattern and what stands behind its slug; false where no press makes such */
static bool
read_pattern(struct slice pattern, enum output_folder *folder, struct slice *tail)
{
    const size_t slash = slice_find_byte(pattern, '/', 0);
    if (slash == SIZE_MAX || !slice_begins(slice_part(pattern, slash, pattern.length), "/*"))
        return false;
    *tail = slice_part(pattern, slash + 2, pattern.length);
    for (size_t i = 0; i < POST_OUTPUTS; i++) {
        *folder = post_outputs[i].folder;
        if (slice_is(slice_part(pattern, 0, slash), output_folders[*folder]) &&
            tail_fits(*tail, post_outputs[i].tail))
            return true;
    }
    return false;
}

bool
outputs_pattern(struct slice pattern)
{
    enum output_folder folder;
    struct slice tail;
    return read_pattern(pattern, &folder, &tail);
}

bool
outputs_name(struct slice pattern, struct slice slug, char name[OUTPUT_NAME_MOST],
             enum output_folder *folder)
{
    struct slice tail;
    if (!outputs_slug(slug) || !read_pattern(pattern, folder, &tail) ||
        slug.length + tail.length >= OUTPUT_NAME_MOST)
        return false;
    memcpy(name, slug.at, slug.length);
    memcpy(name + slug.length, tail.at, tail.length);
    name[slug.length + tail.length] = '\0';
    return true;
}
