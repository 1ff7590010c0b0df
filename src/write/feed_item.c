#include "write/feed_item.h"

#include "write/feed_content.h"
#include "write/json_writer.h"
#include "write/recipe_name.h"

static struct slice
stamp_of(struct arena *a, const struct outcome *o)
{
    return recipe_stamp(a, recipe_changed(a, o));
}

static void
add_authors(struct json_writer *n, struct slice name, const char *url)
{
    if (name.length == 0)
        return;
    json_member_open(n, "authors", '[');
    json_open(n, '{');
    json_member(n, "name", name);
    json_member_string(n, "url", url);
    json_close(n, '}');
    json_close(n, ']');
}

struct slice
feed_item_json(struct arena *a, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    struct text t = text_new(a);
    struct json_writer n = json_new(&t);
    struct slice stamp = stamp_of(a, o);
    if (stamp.length == 0)
        return SLICE("");
    json_open(&n, '{');
    json_member(&n, "id", recipe_tag(a, o));
    json_member(&n, "url", recipe_url(a, o));
    json_member(&n, "title", f->title.text);
    json_member(&n, "content_html", feed_content(a, o));
    json_member(&n, "summary", f->summary.text);
    if (o->tables->site.address[0] != '\0')
        json_member(&n, "image", recipe_image(a, o));
    json_member(&n, "date_published", recipe_stamp(a, f->published.text));
    json_member(&n, "date_modified", stamp);
    add_authors(&n, f->author.text, "");
    if (f->keywords.count > 0) {
        json_member_open(&n, "tags", '[');
        for (size_t i = 0; i < f->keywords.count; i++)
            json_text(&n, f->keywords.items[i].text);
        json_close(&n, ']');
    }
    json_member(&n, "language", f->language.text);
    json_close(&n, '}');
    return text_slice(&t);
}

static void
add_element(struct text *t, const char *name, struct slice words)
{
    if (words.length == 0)
        return;
    text_add_byte(t, '<');
    text_add_string(t, name);
    text_add_byte(t, '>');
    text_add_html(t, words);
    text_add_string(t, "</");
    text_add_string(t, name);
    text_add_string(t, ">\n");
}

/* the picture; its length is not told, which RFC 4287, 4.2.7.6 leaves open */
static void
add_enclosure(struct text *t, const struct outcome *o)
{
    static const struct {
        const char *ending, *type;
    } types[] = {{"jpg", "image/jpeg"},    {"jpeg", "image/jpeg"}, {"png", "image/png"},
                 {"svg", "image/svg+xml"}, {"webp", "image/webp"}, {"avif", "image/avif"},
                 {"gif", "image/gif"}};
    struct slice url = recipe_image(t->arena, o);
    if (url.length == 0 || o->tables->site.address[0] == '\0')
        return;
    text_add_string(t, "<link rel=\"enclosure\"");
    for (size_t i = 0; o->picture.ending != NULL && i < sizeof types / sizeof *types; i++)
        if (strcmp(types[i].ending, o->picture.ending) == 0)
            text_addf(t, " type=\"%s\"", types[i].type);
    text_add_string(t, " href=\"");
    text_add_html(t, url);
    text_add_string(t, "\"/>\n");
}

struct slice
feed_item_atom(struct arena *a, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    struct text t = text_new(a);
    struct slice url = recipe_url(a, o), stamp = stamp_of(a, o);
    if (stamp.length == 0)
        return SLICE("");
    text_add_string(&t, "<entry>\n");
    add_element(&t, "id", recipe_tag(a, o));
    add_element(&t, "title", f->title.text);
    text_add_string(&t, "<link rel=\"alternate\" type=\"text/html\" href=\"");
    text_add_html(&t, url.length > 0 ? url : recipe_path(a, o));
    text_add_string(&t, "\"/>\n");
    add_enclosure(&t, o);
    add_element(&t, "published", recipe_stamp(a, f->published.text));
    add_element(&t, "updated", stamp);
    if (f->author.text.length > 0) {
        text_add_string(&t, "<author>");
        add_element(&t, "name", f->author.text);
        t.length--;
        text_add_string(&t, "</author>\n");
    }
    for (size_t i = 0; i < f->keywords.count; i++) {
        text_add_string(&t, "<category term=\"");
        text_add_html(&t, f->keywords.items[i].text);
        text_add_string(&t, "\"/>\n");
    }
    add_element(&t, "summary", f->summary.text);
    text_add_string(&t, "<content type=\"html\">");
    text_add_html(&t, feed_content(a, o));
    text_add_string(&t, "</content>\n</entry>\n");
    return text_slice(&t);
}

struct slice
feed_item_sitemap(struct arena *a, const struct outcome *o)
{
    struct text t = text_new(a);
    struct slice url = recipe_url(a, o);
    if (url.length == 0)
        return SLICE("");
    text_add_string(&t, "<url><loc>");
    text_add_html(&t, url);
    text_add_string(&t, "</loc>");
    add_element(&t, "lastmod", recipe_changed(a, o));
    if (t.bytes[t.length - 1] == '\n')
        t.length--;
    text_add_string(&t, "</url>\n");
    return text_slice(&t);
}

struct slice
feed_item_datafeed(struct arena *a, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    struct text t = text_new(a);
    struct json_writer n = json_new(&t);
    json_open(&n, '{');
    json_member_word(&n, "@type", "DataFeedItem");
    json_member(&n, "dateCreated", f->published.text);
    json_member(&n, "dateModified", recipe_changed(a, o));
    json_member_open(&n, "item", '{');
    json_member_word(&n, "@type", "Recipe");
    json_member(&n, "@id", recipe_tag(a, o));
    json_member(&n, "url", recipe_url(a, o));
    json_member(&n, "name", f->title.text);
    json_member(&n, "description", f->summary.text);
    json_member(&n, "image", recipe_image(a, o));
    json_member(&n, "recipeCategory", f->category.text);
    json_close(&n, '}');
    json_close(&n, '}');
    return text_slice(&t);
}
