#include "write/fragment.h"

#include "write/drawing.h"
#include "write/ingredients.h"
#include "write/label.h"
#include "write/markup.h"
#include "write/panel.h"
#include "write/recipe_name.h"
#include "write/sources.h"
#include "write/steps.h"

static void
write_head(struct text *t, const struct fragment_context *s)
{
    const struct front_matter *f = &s->o->post.front;
    struct text title = text_new(s->arena);
    text_add_html(&title, f->title.text);
    text_add_string(t, "<header class=\"dl-head\" dir=\"auto\">\n");
    fragment_heading(t, s, 0, text_slice(&title));
    if (f->summary.text.length > 0) {
        text_add_string(t, "<p class=\"dl-summary\">");
        text_add_html(t, f->summary.text);
        text_add_string(t, "</p>\n");
    }
    text_add_string(t, "</header>\n");
}

static void
write_pixels(struct text *t, const char *attribute, double pixels)
{
    if (!(pixels > 0))
        return;
    text_add_string(t, attribute);
    text_add_whole(t, (size_t)pixels);
    text_add_byte(t, '"');
}

static void
write_picture(struct text *t, const struct fragment_context *s)
{
    const struct front_matter *f = &s->o->post.front;
    struct slice url = recipe_image(s->arena, s->o);
    if (url.length == 0)
        return;
    text_add_string(t, "<figure class=\"dl-picture\"><img src=\"");
    text_add_html(t, url);
    text_add_string(t, "\" alt=\"");
    text_add_html(t, f->image_alt.text);
    text_add_byte(t, '"');
    write_pixels(t, " width=\"", f->image_width);
    write_pixels(t, " height=\"", f->image_height);
    text_add_string(t, " loading=\"lazy\">");
    if (f->image_credit.text.length > 0) {
        text_add_string(t, "<figcaption>");
        markup_words(t, f->image_credit.text);
        text_add_string(t, "</figcaption>");
    }
    text_add_string(t, "</figure>\n");
}

static void
write_video(struct text *t, const struct front_matter *f)
{
    if (f->video_url.text.length == 0)
        return;
    text_add_string(t, "<p class=\"dl-video\"><a href=\"");
    struct text address = text_new(t->arena);
    markup_address(&address, f->video_url.text);
    text_add_html(t, text_slice(&address));
    text_add_string(t, "\">Video");
    if (f->video_name.text.length > 0) {
        text_add_string(t, ": ");
        markup_words(t, f->video_name.text);
    }
    text_add_string(t, "</a></p>\n");
}

/* radio buttons in front of all that varies, so that `:checked ~` reaches it without script */
static void
write_regions(struct text *t, const struct fragment_context *s)
{
    struct slice slug = s->o->post.slug;
    if (s->region_count < 2)
        return;
    text_add_string(t, "<p class=\"dl-for\" id=\"");
    text_add(t, slug);
    text_add_string(t, "-for\">Measures and words:</p>\n");
    for (size_t i = 0; i < s->region_count; i++) {
        const struct region *r = fragment_region(s, i);
        text_add_string(t, "<input class=\"dl-pick dl-pick-");
        text_add_whole(t, i + 1);
        text_add_string(t, "\" type=\"radio\" name=\"");
        text_add(t, slug);
        text_add_string(t, "-region\" id=\"");
        text_add(t, slug);
        text_add_string(t, "-in-");
        text_add_html(t, slice_of(r->id));
        text_add_string(t, "\" aria-describedby=\"");
        text_add(t, slug);
        text_add_string(t, i == 0 ? "-for\" checked><label for=\"" : "-for\"><label for=\"");
        text_add(t, slug);
        text_add_string(t, "-in-");
        text_add_html(t, slice_of(r->id));
        text_add_string(t, "\">");
        text_add_html(t, slice_of(r->name));
        text_add_string(t, "</label>\n");
    }
}

static void
add_fact(struct text *t, const char *name, struct slice html)
{
    text_add_string(t, "<div><dt>");
    text_add_string(t, name);
    text_add_string(t, "</dt><dd>");
    text_add(t, html);
    text_add_string(t, "</dd></div>\n");
}

static void
add_time(struct text *t, const struct fragment_context *s, const char *name, bool given,
         struct span seconds)
{
    if (!given || !(seconds.high > 0))
        return;
    struct text html = text_new(s->arena);
    text_add_string(&html, "<time datetime=\"");
    duration_write_iso(&html, seconds.high);
    text_add_string(&html, "\">");
    fragment_range(&html, seconds.low > 0 ? seconds.low : seconds.high, seconds.high);
    text_add_string(&html, "</time>");
    add_fact(t, name, text_slice(&html));
}

static void
add_date(struct text *t, const struct fragment_context *s, const char *name, struct slice iso)
{
    struct slice pieces[REGIONS_MOST];
    struct text html = text_new(s->arena);
    if (iso.length == 0)
        return;
    for (size_t i = 0; i < s->region_count; i++) {
        struct text piece = text_new(s->arena);
        fragment_date(&piece, iso, fragment_region(s, i)->month_first);
        pieces[i] = text_slice(&piece);
    }
    text_add_string(&html, "<time datetime=\"");
    text_add_html(&html, iso);
    text_add_string(&html, "\">");
    fragment_vary(&html, s, "span", pieces);
    text_add_string(&html, "</time>");
    add_fact(t, name, text_slice(&html));
}

static void
add_words(struct text *t, const struct fragment_context *s, const char *name, struct slice words)
{
    struct text html = text_new(s->arena);
    if (words.length == 0)
        return;
    markup_words(&html, words);
    add_fact(t, name, text_slice(&html));
}

static void
write_facts(struct text *t, const struct fragment_context *s)
{
    const struct front_matter *f = &s->o->post.front;
    const struct schedule *sch = &s->o->schedule;
    text_add_string(t, "<dl class=\"dl-facts\">\n");
    add_words(t, s, "Makes", f->yield.text);
    add_words(t, s, "Portion", f->portion.text);
    add_words(t, s, "Serves", f->portions.text);
    add_time(t, s, "Preparation", f->prep.given, f->prep.seconds);
    add_time(t, s, "Cooking", f->cook.given, f->cook.seconds);
    add_time(t, s, "Resting", f->rest.given, f->rest.seconds);
    if (f->total.given)
        add_time(t, s, "In all", true, f->total.seconds);
    else if (f->prep.given || f->cook.given)
        add_time(t, s, "In all", true,
                 span_add(span_add(f->prep.seconds, f->cook.seconds), f->rest.seconds));
    else
        add_time(t, s, "Stated in the steps", sch->stated, sch->total);
    add_date(t, s, "Published", f->published.text);
    add_date(t, s, "Revised", f->updated.text);
    add_words(t, s, "By", f->author.text);
    text_add_string(t, "</dl>\n");
}

static void
write_prose(struct text *t, const struct body_section *section, int heading_level)
{
    if (section->first == NULL)
        return;
    text_add_string(t, "<div class=\"dl-prose\" dir=\"auto\">\n");
    markup_blocks(t, section->first, section->last, heading_level);
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
    write_prose(t, &post->body.notes, s->heading_level + 2);
    if (storage) {
        text_add_string(t, "<p class=\"dl-keeping\"><b>Keeping:</b> ");
        markup_words(t, post->front.storage.text);
        text_add_string(t, "</p>\n");
    }
    text_add_string(t, "</section>\n");
}

/* picture beside facts and prose where there is room */
static void
write_opening(struct text *t, const struct fragment_context *s)
{
    text_add_string(t, "<div class=\"dl-opening\">\n");
    write_picture(t, s);
    text_add_string(t, "<div class=\"dl-lead\">\n");
    write_facts(t, s);
    write_prose(t, &s->o->post.body.prose, s->heading_level + 1);
    write_video(t, &s->o->post.front);
    text_add_string(t, "</div>\n</div>\n");
}

/* list and method side by side where there is room; what helps while cooking under the method */
static void
write_cooking(struct text *t, const struct fragment_context *s)
{
    text_add_string(t, "<div class=\"dl-cook\">\n<section class=\"dl-ingredients\">\n");
    fragment_heading(t, s, 1, SLICE("Ingredients"));
    ingredients_write(t, s);
    ingredients_allergens(t, s);
    write_equipment(t, s);
    text_add_string(t, "</section>\n<div class=\"dl-course\">\n"
                       "<section class=\"dl-method\">\n");
    fragment_heading(t, s, 1, SLICE("Method"));
    steps_write(t, s);
    text_add_string(t, "</section>\n");
    write_notes(t, s);
    drawing_schedule(t, s);
    label_microwave(t, s);
    text_add_string(t, "</div>\n</div>\n");
}

void
fragment_write(struct text *t, const struct outcome *o, const struct fragment_manner *manner)
{
    enum { USUAL = 24 << 10 };
    text_widen(t, USUAL); /* once, not by doubling */
    struct fragment_context s = fragment_make(t->arena, o, manner->heading_level, manner->region);
    struct slice language = o->post.front.language.text;
    text_add_string(t, "<article class=\"dl-recipe\" id=\"");
    text_add(t, o->post.slug);
    text_add_string(t, "\" lang=\"");
    text_add_html(t, language.length > 0 ? language : slice_of(o->tables->site.language));
    text_add_string(t, "\">\n");
    write_head(t, &s);
    write_regions(t, &s);
    text_add_string(t, "<div class=\"dl-body\">\n");
    write_opening(t, &s);
    panel_portion(t, &s);
    write_cooking(t, &s);
    text_add_string(t, "<div class=\"dl-more\">\n");
    panel_cautions(t, &s);
    panel_claims(t, &s);
    label_nutrition(t, &s);
    text_add_string(t, "</div>\n");
    sources_write(t, &s);
    text_add_string(t,
                    "<p class=\"dl-advice\">This is general information. The limits are meant for "
                    "use with a dietitian or doctor, who may set others for you. Local "
                    "food-safety rules and licensed practice come first.</p>\n"
                    "</div>\n</article>\n");
}
