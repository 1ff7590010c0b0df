#include "write/feed.h"

#include <stdlib.h>
#include <time.h>

#include "write/json_writer.h"
#include "write/recipe_name.h"

static void
add_address(struct json_writer *n, const struct site *site, const char *key, const char *file)
{
    struct text t = text_new(n->text->arena);
    if (site->address[0] == '\0')
        return;
    text_add_string(&t, site->address);
    text_add_string(&t, file);
    json_member(n, key, text_slice(&t));
}

static void
head_json(struct text *t, const struct site *site)
{
    struct json_writer n = json_new(t);
    json_open(&n, '{');
    json_member_word(&n, "version", "https://jsonfeed.org/version/1.1");
    json_member_string(&n, "title", site->title);
    add_address(&n, site, "home_page_url", "");
    add_address(&n, site, "feed_url", "feed.json");
    json_member_string(&n, "description", site->description);
    json_member_string(&n, "language", site->language);
    if (site->author[0] != '\0') {
        json_member_open(&n, "authors", '[');
        json_open(&n, '{');
        json_member_string(&n, "name", site->author);
        json_member_string(&n, "url", site->author_url);
        json_close(&n, '}');
        json_close(&n, ']');
    }
    json_member_open(&n, "items", '[');
    text_add_byte(t, '\n');
}

static void
add_element(struct text *t, const char *name, const char *words)
{
    if (words[0] == '\0')
        return;
    text_addf(t, "<%s>", name);
    text_add_html(t, slice_of(words));
    text_addf(t, "</%s>\n", name);
}

/* the date of a feed whose posts have none: what the build says, else the beginning of time; never
 * the clock, so that the same input gives the same bytes */
static void
add_epoch(struct text *t)
{
    const char *stated = getenv("SOURCE_DATE_EPOCH");
    char stamp[sizeof "1970-01-01T00:00:00Z"];
    long long seconds = stated != NULL ? strtoll(stated, NULL, 10) : 0;
    time_t time = (time_t)(seconds < 0 || seconds > 253402300799 ? 0 : seconds);
    struct tm tm;
    if (gmtime_r(&time, &tm) != NULL &&
        strftime(stamp, sizeof stamp, "%Y-%m-%dT%H:%M:%SZ", &tm) == sizeof stamp - 1)
        text_add_string(t, stamp);
    else
        text_add_string(t, "1970-01-01T00:00:00Z");
}

static void
head_atom(struct text *t, const struct site *site, struct slice changed)
{
    text_add_string(t, "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n"
                       "<feed xmlns=\"http://www.w3.org/2005/Atom\" xml:lang=\"");
    text_add_html(t, slice_of(site->language));
    text_add_string(t, "\">\n<id>tag:");
    text_add_html(t, slice_of(site->tag_authority));
    text_add_byte(t, ',');
    text_add_html(t, slice_of(site->tag_date));
    text_add_string(t, ":recipes</id>\n");
    add_element(t, "title", site->title);
    add_element(t, "subtitle", site->description);
    text_add_string(t, "<link rel=\"self\" type=\"application/atom+xml\" href=\"");
    text_add_html(t, slice_of(site->address));
    text_add_string(t, "feed.xml\"/>\n");
    if (site->address[0] != '\0') {
        text_add_string(t, "<link rel=\"alternate\" type=\"text/html\" href=\"");
        text_add_html(t, slice_of(site->address));
        text_add_string(t, "\"/>\n");
    }
    text_add_string(t, "<updated>");
    if (changed.length > 0)
        text_add_html(t, recipe_stamp(t->arena, changed));
    else
        add_epoch(t);
    text_add_string(t, "</updated>\n<author>");
    add_element(t, "name", site->author[0] != '\0' ? site->author : site->title);
    add_element(t, "uri", site->author_url);
    text_add_string(t, "</author>\n");
}

static void
head_datafeed(struct text *t, const struct site *site, struct slice changed)
{
    struct json_writer n = json_new(t);
    json_open(&n, '{');
    json_member_word(&n, "@context", "https://schema.org");
    json_member_word(&n, "@type", "DataFeed");
    json_member_string(&n, "name", site->title);
    json_member_string(&n, "description", site->description);
    add_address(&n, site, "url", "recipes.json");
    json_member_string(&n, "inLanguage", site->language);
    json_member_string(&n, "license", site->licence);
    json_member(&n, "dateModified", changed);
    json_member_open(&n, "dataFeedElement", '[');
    text_add_byte(t, '\n');
}

bool
feed_write_json(struct arena *a, const struct site *site, const struct gathering *g,
                struct outlet out)
{
    struct text head = text_new(a);
    head_json(&head, site);
    return gathering_write(g, out,
                           &(struct gathered_file){text_slice(&head), RECORD_JSON_FEED,
                                                   site->feed_entries, ",\n", "\n]}\n"});
}

bool
feed_write_atom(struct arena *a, const struct site *site, const struct gathering *g,
                struct outlet out)
{
    struct text head = text_new(a);
    head_atom(&head, site, g->changed);
    return gathering_write(g, out,
                           &(struct gathered_file){text_slice(&head), RECORD_ATOM,
                                                   site->feed_entries, "", "</feed>\n"});
}

bool
feed_write_sitemap(const struct gathering *g, struct outlet out)
{
    return gathering_write(
        g, out,
        &(struct gathered_file){
            SLICE("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n"
                  "<urlset xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">\n"),
            RECORD_SITEMAP, g->count, "", "</urlset>\n"});
}

bool
feed_write_datafeed(struct arena *a, const struct site *site, const struct gathering *g,
                    struct outlet out)
{
    struct text head = text_new(a);
    head_datafeed(&head, site, g->changed);
    return gathering_write(
        g, out,
        &(struct gathered_file){text_slice(&head), RECORD_DATAFEED, g->count, ",\n", "\n]}\n"});
}
