#include "write/recipe_name.h"

#include "write/markup.h"

static struct slice
path_of(struct arena *a, const struct site *site, struct slice slug)
{
    struct text t = text_new(a);
    struct slice path = slice_of(site->fragment_path);
    while (slice_begins(path, "/"))
        path = slice_part(path, 1, path.length);
    size_t at = slice_find(path, "{slug}", 0);
    if (at == SIZE_MAX)
        return path;
    text_add(&t, slice_part(path, 0, at));
    text_add(&t, slug);
    text_add(&t, slice_part(path, at + sizeof "{slug}" - 1, path.length));
    return text_slice(&t);
}

struct slice
recipe_path(struct arena *a, const struct outcome *o)
{
    return path_of(a, &o->tables->site, o->post.slug);
}

/* an address of the site's, or as it is where it is whole already */
static struct slice
on_site(struct arena *a, const struct site *site, struct slice path)
{
    struct text t = text_new(a);
    if (slice_find(path, "://", 0) == SIZE_MAX)
        text_add_string(&t, site->address);
    while (t.length > 0 && slice_begins(path, "/"))
        path = slice_part(path, 1, path.length);
    markup_address(&t, path);
    return text_slice(&t);
}

struct slice
recipe_url(struct arena *a, const struct outcome *o)
{
    const struct site *site = &o->tables->site;
    if (site->address[0] == '\0')
        return SLICE("");
    if (o->part_of != NULL) /* its part of the round-up's page */
        return text_formatted(a, "%.*s#%.*s", SLICE_ARGS(recipe_url(a, o->part_of)),
                              SLICE_ARGS(o->post.slug));
    return on_site(a, site, recipe_path(a, o));
}

struct slice
recipe_url_of(struct arena *a, const struct outcome *o, struct slice slug)
{
    const struct site *site = &o->tables->site;
    return on_site(a, site, path_of(a, site, slug));
}

struct slice
recipe_address(struct arena *a, const struct outcome *o, struct slice address)
{
    return on_site(a, &o->tables->site, address);
}

struct slice
recipe_image(struct arena *a, const struct outcome *o)
{
    const struct site *site = &o->tables->site;
    if (o->picture.state == PICTURE_AWAY)
        return on_site(a, site, o->post.front.image_file.text);
    if (o->picture.state == PICTURE_NONE)
        return SLICE("");
    return on_site(a, site,
                   text_formatted(a, "%s%.*s.%s", site->images_path, SLICE_ARGS(o->post.slug),
                                  o->picture.ending));
}

struct slice
recipe_tag(struct arena *a, const struct outcome *o)
{
    struct text t = text_new(a);
    text_add_string(&t, "tag:");
    text_add_string(&t, o->tables->site.tag_authority);
    text_add_byte(&t, ',');
    text_add_string(&t, o->tables->site.tag_date);
    text_add_byte(&t, ':');
    text_add(&t, o->post.slug);
    return text_slice(&t);
}

/* the later of two dates or times; a time is later than its day alone */
static struct slice
later(struct slice a, struct slice b)
{
    return slice_order(a, b) >= 0 ? a : b;
}

struct slice
recipe_changed(struct arena *a, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    (void)a;
    return later(later(f->published.text, f->updated.text), slice_of(reads_changed(o->reads)));
}

struct slice
recipe_stamp(struct arena *a, struct slice date)
{
    struct text t = text_new(a);
    if (date.length != sizeof "2026-03-14" - 1)
        return date;
    text_add(&t, date);
    text_add_string(&t, "T00:00:00Z");
    return text_slice(&t);
}

struct slice
recipe_author(const struct outcome *o)
{
    struct slice author = o->post.front.author.text;
    return author.length > 0 ? author : slice_of(o->tables->site.author);
}

struct slice
recipe_portion(struct arena *a, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    struct text t = text_new(a);
    if (f->portion.text.length > 0)
        return f->portion.text;
    if (f->portions.text.length == 0)
        return SLICE("");
    text_add_string(&t, "1 of ");
    if (o->dish.portions_known) /* of the fewest, as it is reckoned */
        text_add_number(&t, o->dish.portions.low, 0);
    else
        text_add(&t, f->portions.text);
    return text_slice(&t);
}

double
recipe_total_seconds(const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    if (f->total.given)
        return f->total.seconds.high;
    if (f->prep.given || f->cook.given)
        return f->prep.seconds.high + f->cook.seconds.high + f->rest.seconds.high;
    return o->schedule.stated ? o->schedule.total.high : 0;
}
