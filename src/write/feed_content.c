#include "write/feed_content.h"

#include "write/allergen_list.h"
#include "write/ingredients.h"
#include "write/links.h"
#include "write/markup.h"
#include "write/opening.h"
#include "write/recipe_name.h"

static void
add_paragraph(struct text *t, struct slice words)
{
    if (words.length == 0)
        return;
    text_add_string(t, "<p>");
    text_add_html(t, words);
    text_add_string(t, "</p>\n");
}

static void
add_picture(struct text *t, const struct outcome *o)
{
    const struct slice url = recipe_image(t->arena, o);
    if (url.length == 0)
        return;
    text_add_string(t, "<p><img src=\"");
    text_add_html(t, url);
    text_add_string(t, "\" alt=\"");
    text_add_html(t, o->post.front.image_alt.text);
    text_add_string(t, "\"></p>\n");
}

static void
add_part_name(struct text *t, struct slice name)
{
    if (name.length == 0)
        return;
    text_add_string(t, "<h4>");
    text_add_html(t, name);
    text_add_string(t, "</h4>\n");
}

static void
add_list(struct text *t, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    text_add_string(t, "<h3>Ingredients</h3>\n");
    for (size_t p = 0; p < f->part_count; p++) {
        add_part_name(t, f->parts[p].name.text);
        text_add_string(t, "<ul>\n");
        for (size_t i = 0; i < o->dish.count; i++) {
            if (o->dish.ingredients[i].part != p)
                continue;
            text_add_string(t, "<li>");
            text_add_html(t, ingredients_words(t->arena, o, &o->dish.ingredients[i]));
            text_add_string(t, "</li>\n");
        }
        text_add_string(t, "</ul>\n");
    }
}

static void
add_method(struct text *t, const struct body *body)
{
    if (body->part_count == 0)
        return;
    text_add_string(t, "<h3>Method</h3>\n");
    for (size_t p = 0; p < body->part_count; p++) {
        add_part_name(t, body->parts[p].name);
        text_add_string(t, "<ol>\n");
        for (size_t i = 0; i < body->parts[p].count; i++) {
            text_add_string(t, "<li>");
            markup_step(t, &body->parts[p].steps[i], NULL, 0);
            text_add_string(t, "</li>\n");
        }
        text_add_string(t, "</ol>\n");
    }
}

static void
add_cautions(struct text *t, const struct hazards *h)
{
    for (size_t i = 0; i < h->count; i++)
        add_paragraph(t, text_formatted(t->arena, "Take care. %s", h->items[i].caution->words));
}

static void
add_recipe(struct text *t, const struct outcome *o)
{
    const struct body *body = &o->post.body;
    struct fragment_context s = fragment_make(t->arena, o, 2, o->dish.region);
    opening_facts(t, &s);
    add_paragraph(t, slice_of(standing_sentence(s.stand->standing)));
    allergen_list_write(t, &s);
    add_list(t, o);
    add_method(t, body);
    add_cautions(t, &o->hazards);
    if (body->notes.first != NULL) {
        text_add_string(t, "<h3>Notes</h3>\n");
        markup_blocks(t, body->notes.first, body->notes.last, 4);
    }
}

struct slice
feed_content(struct arena *a, const struct outcome *o)
{
    struct text t = text_new(a);
    add_paragraph(&t, o->post.front.summary.text);
    add_picture(&t, o);
    if (!outcome_round_up(o))
        add_recipe(&t, o);
    if (o->post.body.prose.first != NULL)
        markup_blocks(&t, o->post.body.prose.first, o->post.body.prose.last, 3);
    for (size_t i = 0; i < o->member_count; i++) {
        const struct outcome *dish = o->members[i].outcome;
        if (dish == NULL)
            continue;
        text_add_string(&t, "<h3><a href=\"");
        text_add_html(&t, recipe_url(a, dish));
        text_add_string(&t, "\">");
        text_add_html(&t, dish->post.front.title.text);
        text_add_string(&t, "</a></h3>\n");
        add_paragraph(&t,
                      slice_of(standing_sentence(dish->phases[o->tables->site.phase].standing)));
    }
    links_resolve(&t, 0, o, true);
    return text_slice(&t);
}
