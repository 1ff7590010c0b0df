#include "write/links.h"

#include "read/link.h"
#include "write/recipe_name.h"

/* up to the last slash, with it */
static struct slice
folder_of(struct slice url)
{
    while (url.length > 0 && url.at[url.length - 1] != '/')
        url.length--;
    return url;
}

/* "https://host", without the path behind it */
static struct slice
host_of(struct slice url)
{
    const size_t scheme = slice_find(url, "://", 0);
    const size_t path = scheme == SIZE_MAX ? 0 : slice_find_byte(url, '/', scheme + 3);
    return path == SIZE_MAX ? url : slice_part(url, 0, path);
}

/* the slug of the post of this name; the name itself where no such post is known */
static struct slice
slug_of(const struct outcome *o, struct slice name)
{
    for (size_t i = 0; i < o->linked.count; i++)
        if (slice_equal(o->linked.items[i].name, name) && o->linked.items[i].slug.length > 0)
            return o->linked.items[i].slug;
    return name;
}

static void
add_address(struct text *t, struct slice url, const struct outcome *o, bool whole)
{
    struct slice rest;
    const struct slice name = link_post(url, &rest), page = recipe_url(t->arena, o);
    const bool away = slice_find(url, "://", 0) != SIZE_MAX || slice_begins(url, "mailto:");
    if (name.length > 0) {
        text_add(t, recipe_url_of(t->arena, o, slug_of(o, name)));
        text_add(t, rest);
        return;
    }
    if (whole && !away && page.length > 0)
        text_add(t, slice_begins(url, "/")   ? host_of(page)
                    : slice_begins(url, "#") ? page
                                             : folder_of(page));
    text_add(t, url);
}

void
links_resolve(struct text *t, size_t from, const struct outcome *o, bool whole)
{
    const struct slice written = slice_part(text_slice(t), from, t->length);
    if (!whole && slice_find(written, ".md", 0) == SIZE_MAX)
        return;
    const struct slice html = slice_copy(t->arena, written);
    t->length = from;
    for (size_t done = 0; done < html.length;) {
        const size_t href = slice_find(html, " href=\"", done),
                     src = slice_find(html, " src=\"", done);
        const size_t at = href < src ? href : src;
        if (at == SIZE_MAX) {
            text_add(t, slice_part(html, done, html.length));
            return;
        }
        const size_t begin = at + (at == href ? sizeof " href=\"" : sizeof " src=\"") - 1;
        const size_t end = slice_find_byte(html, '"', begin);
        text_add(t, slice_part(html, done, begin));
        add_address(t, slice_part(html, begin, end), o, whole);
        done = end;
    }
}
