#include "write/fragment.h"

#include "write/advice.h"
#include "write/allergen_list.h"
#include "write/drawing.h"
#include "write/ingredients.h"
#include "write/label.h"
#include "write/links.h"
#include "write/markup.h"
#include "write/opening.h"
#include "write/panel.h"
#include "write/sources.h"
#include "write/steps.h"
#include "write/verdict.h"

/* for whose kitchen: beside the list, where it is looked for; what varies is shown without script
 */
static void
write_regions(struct text *t, const struct fragment_context *s)
{
    struct slice slug = s->o->post.slug;
    if (s->region_count < 2)
        return;
    text_add_string(t, "<fieldset class=\"dl-for\"><legend>Written for</legend>\n");
    for (size_t i = 0; i < s->region_count; i++) {
        const struct region *r = fragment_region(s, i);
        text_add_string(t, "<label><input class=\"dl-pick dl-pick-");
        text_add_whole(t, i + 1);
        text_add_string(t, "\" type=\"radio\" name=\"");
        text_add(t, slug);
        text_add_string(t, "-region\" value=\"");
        text_add_html(t, slice_of(r->id));
        text_add_string(t, i == 0 ? "\" checked><span>" : "\"><span>");
        text_add_html(t, slice_of(r->name));
        text_add_string(t, "</span></label>\n");
    }
    text_add_string(t, "</fieldset>\n");
}

static void
write_prose(struct text *t, const struct fragment_context *s, const struct body_section *section)
{
    if (section->first == NULL)
        return;
    text_add_string(t, "<div class=\"dl-prose\"");
    text_add(t, s->authors_language);
    text_add_string(t, " dir=\"auto\">\n");
    const size_t before = t->length;
    markup_blocks(t, section->first, section->last, s->heading_level + 2);
    links_resolve(t, before, s->o, false);
    text_add_string(t, "</div>\n");
}

static void
write_equipment(struct text *t, const struct fragment_context *s)
{
    const struct front_list *e = &s->o->post.front.equipment;
    if (e->count == 0)
        return;
    fragment_heading(t, s, 2, SLICE("Equipment"));
    text_add_string(t, "<ul class=\"dl-list\">\n");
    for (size_t i = 0; i < e->count; i++) {
        text_add_string(t, "<li>");
        markup_words(t, e->items[i].text);
        text_add_string(t, "</li>\n");
    }
    text_add_string(t, "</ul>\n");
}

static void
write_notes(struct text *t, const struct fragment_context *s)
{
    const struct post *post = &s->o->post;
    bool storage = post->front.storage.text.length > 0;
    if (post->body.notes.first == NULL && !storage)
        return;
    text_add_string(t, "<section class=\"dl-notes\">\n");
    fragment_heading(t, s, 1, SLICE("Notes"));
    write_prose(t, s, &post->body.notes);
    if (storage) {
        text_add_string(t, "<p class=\"dl-keeping\"><b>Keeping:</b> ");
        markup_words(t, post->front.storage.text);
        text_add_string(t, "</p>\n");
    }
    text_add_string(t, "</section>\n");
}

/* picture beside the verdict where there is room */
static void
write_opening(struct text *t, const struct fragment_context *s)
{
    text_add_string(t, "<div class=\"dl-opening\">\n");
    opening_picture(t, s);
    text_add_string(t, "<div class=\"dl-lead\">\n");
    opening_facts(t, s);
    verdict_write(t, s);
    allergen_list_write(t, s);
    opening_video(t, s);
    text_add_string(t, "</div>\n</div>\n");
}

/* the writer's prose: behind what is cooked from, for it may be long */
static void
write_story(struct text *t, const struct fragment_context *s)
{
    if (s->o->post.body.prose.first == NULL)
        return;
    text_add_string(t, "<section class=\"dl-story\">\n");
    fragment_heading(t, s, 1, SLICE("About this dish"));
    write_prose(t, s, &s->o->post.body.prose);
    text_add_string(t, "</section>\n");
}

/* list and method side by side where there is room */
static void
write_cooking(struct text *t, const struct fragment_context *s)
{
    text_add_string(t, "<div class=\"dl-cook\">\n<section class=\"dl-ingredients\">\n");
    fragment_heading(t, s, 1, SLICE("Ingredients"));
    write_regions(t, s);
    ingredients_write(t, s);
    write_equipment(t, s);
    text_add_string(t, "</section>\n<div class=\"dl-course\">\n"
                       "<section class=\"dl-method\">\n");
    fragment_heading(t, s, 1, SLICE("Method"));
    steps_write(t, s);
    text_add_string(t, "</section>\n");
    panel_cautions(t, s);
    write_notes(t, s);
    write_story(t, s);
    text_add_string(t, "</div>\n</div>\n");
}

/* what few look for, each behind its name */
static void
write_folds(struct text *t, const struct fragment_context *s)
{
    text_add_string(t, "<div class=\"dl-more\">\n");
    panel_figures(t, s);
    advice_ways(t, s);
    drawing_schedule(t, s);
    label_microwave(t, s);
    label_nutrition(t, s);
    panel_claims(t, s);
    panel_caution_sources(t, s);
    sources_write(t, s);
    text_add_string(t, "</div>\n");
}

/* "en" and its kin: our own words are English */
static bool
is_english(struct slice language)
{
    return slice_begins(language, "en") && (language.length == 2 || language.at[2] == '-');
}

void
fragment_begin(struct text *t, struct fragment_context *s, const char *further_class)
{
    struct slice language = s->o->post.front.language.text;
    if (language.length == 0)
        language = slice_of(s->tables->site.language);
    text_add_string(t, "<article class=\"dl-recipe");
    text_add_string(t, further_class);
    text_add_string(t, "\" id=\"");
    text_add(t, s->o->post.slug);
    text_add_string(t, "\" lang=\"");
    text_add_html(t, is_english(language) ? language : SLICE("en"));
    text_add_string(t, "\">\n");
    if (!is_english(language))
        s->authors_language = text_formatted(s->arena, " lang=\"%.*s\"", SLICE_ARGS(language));
    opening_head(t, s);
    text_add_string(t, "<div class=\"dl-body\">\n");
}

void
fragment_end(struct text *t, bool advice)
{
    if (advice)
        text_add_string(
            t, "<p class=\"dl-advice\">This is general information. The limits are meant for "
               "use with a dietitian or doctor, who may set others for you. Local "
               "food-safety rules and licensed practice come first.</p>\n");
    text_add_string(t, "</div>\n</article>\n");
}

void
fragment_write(struct text *t, const struct outcome *o, const struct fragment_manner *manner)
{
    enum { USUAL = 24 << 10 };
    text_widen(t, USUAL); /* once, not by doubling */
    struct fragment_context s = fragment_make(t->arena, o, manner->heading_level, manner->region);
    fragment_begin(t, &s, "");
    write_opening(t, &s);
    write_cooking(t, &s);
    write_folds(t, &s);
    fragment_end(t, o->part_of == NULL); /* a round-up says it once, for all its dishes */
}
