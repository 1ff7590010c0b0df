#include "write/round_up.h"

#include "write/json_writer.h"
#include "write/markup.h"
#include "write/opening.h"
#include "write/recipe_data.h"
#include "write/recipe_name.h"
#include "write/verdict.h"

/* the dishes stand in the round-up's own file */
static bool
holds_dishes(const struct outcome *o)
{
    return o->post.front.dish_count > 0;
}

/* where a member is read: its part of this page, or its own page */
static struct slice
member_address(struct arena *a, const struct outcome *o, const struct member *m)
{
    if (holds_dishes(o))
        return text_formatted(a, "#%.*s", SLICE_ARGS(m->outcome->post.slug));
    struct slice url = recipe_url(a, m->outcome);
    return url.length > 0 ? url : recipe_path(a, m->outcome);
}

static void
write_sentence(struct text *t, const struct fragment_context *s)
{
    struct slice pieces[REGIONS_MOST];
    for (size_t i = 0; i < s->region_count; i++)
        pieces[i] = verdict_sentence(s, i);
    text_add_string(t, "<p class=\"dl-standing\">");
    fragment_vary(t, s, "span", pieces);
    text_add_string(t, "</p>\n");
}

/* one line of the list: name, picture of a post of its own, time, verdict */
static void
write_member(struct text *t, const struct fragment_context *s, const struct member *m)
{
    struct fragment_context own = *s;
    own.o = m->outcome;
    own.stand = &m->outcome->phases[s->tables->site.phase];
    own.heading_level = s->heading_level + 1;
    text_add_string(t, "<li class=\"dl-dish\">\n<p class=\"dl-dish-name\"><a href=\"");
    text_add_html(t, member_address(s->arena, s->o, m));
    text_add_string(t, "\">");
    markup_words(t, m->outcome->post.front.title.text);
    text_add_string(t, "</a></p>\n");
    if (!holds_dishes(s->o))
        opening_picture(t, &own);
    opening_facts(t, &own);
    if (holds_dishes(s->o)) /* its own verdict stands with it, further down */
        write_sentence(t, &own);
    else
        verdict_write(t, &own);
    text_add_string(t, "</li>\n");
}

static void
write_list(struct text *t, const struct fragment_context *s)
{
    text_add_string(t, "<ol class=\"dl-dishes\">\n");
    for (size_t i = 0; i < s->o->member_count; i++)
        if (s->o->members[i].outcome != NULL)
            write_member(t, s, &s->o->members[i]);
    text_add_string(t, "</ol>\n");
}

static void
write_prose(struct text *t, const struct fragment_context *s)
{
    const struct body_section *prose = &s->o->post.body.prose;
    if (prose->first == NULL)
        return;
    text_add_string(t, "<div class=\"dl-prose\"");
    text_add(t, s->authors_language);
    text_add_string(t, " dir=\"auto\">\n");
    markup_blocks(t, prose->first, prose->last, s->heading_level + 2);
    text_add_string(t, "</div>\n");
}

static void
write_dishes(struct text *t, const struct outcome *o, const struct fragment_manner *manner)
{
    struct fragment_manner below = *manner;
    below.heading_level = manner->heading_level < 4 ? manner->heading_level + 1 : 4;
    for (size_t i = 0; i < o->member_count; i++)
        if (o->members[i].outcome != NULL)
            fragment_write(t, o->members[i].outcome, &below);
}

void
round_up_write(struct text *t, const struct outcome *o, const struct fragment_manner *manner)
{
    struct fragment_context s = fragment_make(t->arena, o, manner->heading_level, manner->region);
    fragment_begin(t, &s, " dl-round-up");
    opening_picture(t, &s);
    opening_video(t, &s);
    write_prose(t, &s);
    write_list(t, &s);
    if (holds_dishes(o))
        write_dishes(t, o, manner);
    fragment_end(t, true);
}

static void
add_member_data(struct json_writer *n, struct arena *a, const struct outcome *o, size_t i,
                size_t position)
{
    const struct member *m = &o->members[i];
    json_open(n, '{');
    json_member_word(n, "@type", "ListItem");
    json_key(n, "position");
    json_number(n, (double)position, 0);
    if (holds_dishes(o)) {
        struct text recipe = text_new(a);
        recipe_data_write(&recipe, m->outcome);
        json_key(n, "item");
        json_raw(n, slice_trim(text_slice(&recipe)));
    } else {
        json_member(n, "url", member_address(a, o, m));
        json_member(n, "name", m->outcome->post.front.title.text);
    }
    json_close(n, '}');
}

void
round_up_data_write(struct text *t, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    struct json_writer n = json_new(t);
    size_t position = 0;
    json_open(&n, '{');
    json_member_word(&n, "@context", "https://schema.org");
    json_member_word(&n, "@type", "ItemList");
    json_member(&n, "@id", recipe_tag(t->arena, o));
    json_member(&n, "url", recipe_url(t->arena, o));
    json_member(&n, "name", f->title.text);
    json_member(&n, "description", f->summary.text);
    json_member(&n, "image", recipe_image(t->arena, o));
    recipe_data_video(&n, o, "subjectOf");
    json_member_open(&n, "itemListElement", '[');
    for (size_t i = 0; i < o->member_count; i++)
        if (o->members[i].outcome != NULL)
            add_member_data(&n, t->arena, o, i, ++position);
    json_close(&n, ']');
    json_key(&n, "numberOfItems");
    json_number(&n, (double)position, 0);
    json_close(&n, '}');
    text_add_byte(t, '\n');
}
