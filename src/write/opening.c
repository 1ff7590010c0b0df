#include "write/opening.h"

#include "write/markup.h"
#include "write/recipe_name.h"

/* a date in the order of each region */
static void
add_date(struct text *t, const struct fragment_context *s, struct slice iso)
{
    struct slice pieces[REGIONS_MOST];
    for (size_t i = 0; i < s->region_count; i++) {
        struct text piece = text_new(s->arena);
        fragment_date(&piece, iso, fragment_region(s, i)->month_first);
        pieces[i] = text_slice(&piece);
    }
    text_add_string(t, "<time datetime=\"");
    text_add_html(t, iso);
    text_add_string(t, "\">");
    fragment_vary(t, s, "span", pieces);
    text_add_string(t, "</time>");
}

static void
add_byline(struct text *t, const struct fragment_context *s)
{
    const struct front_matter *f = &s->o->post.front;
    struct slice author = recipe_author(s->o);
    const size_t before = t->length;
    if (s->o->part_of != NULL) /* told once, by the round-up */
        return;
    text_add_string(t, "<p class=\"dl-byline\">");
    const size_t begun = t->length;
    if (author.length > 0) {
        text_add_string(t, "By ");
        markup_words(t, author);
    }
    if (f->published.text.length > 0) {
        text_add_string(t, t->length > begun ? ", " : "");
        add_date(t, s, f->published.text);
    }
    if (f->updated.text.length > 0 && !slice_equal(f->updated.text, f->published.text)) {
        text_add_string(t, t->length > begun ? "; revised " : "Revised ");
        add_date(t, s, f->updated.text);
    }
    if (s->o->reviewed) {
        text_add_string(t, t->length > begun ? ". Reviewed by " : "Reviewed by ");
        markup_words(t, f->reviewed.by.text);
        if (f->reviewed.on.text.length > 0) {
            text_add_string(t, ", ");
            add_date(t, s, f->reviewed.on.text);
        }
    }
    if (t->length == begun)
        t->length = before;
    else
        text_add_string(t, "</p>\n");
}

void
opening_head(struct text *t, const struct fragment_context *s)
{
    const struct front_matter *f = &s->o->post.front;
    struct text title = text_new(s->arena);
    text_add_html(&title, f->title.text);
    text_add_string(t, "<header class=\"dl-head\">\n<div");
    text_add(t, s->authors_language);
    text_add_string(t, " dir=\"auto\">\n");
    fragment_heading(t, s, 0, text_slice(&title));
    if (f->summary.text.length > 0) {
        text_add_string(t, "<p class=\"dl-summary\">");
        text_add_html(t, f->summary.text);
        text_add_string(t, "</p>\n");
    }
    text_add_string(t, "</div>\n");
    add_byline(t, s);
    text_add_string(t, "</header>\n");
}

static void
add_pixels(struct text *t, const char *attribute, double pixels)
{
    if (!(pixels > 0))
        return;
    text_add_string(t, attribute);
    text_add_whole(t, (size_t)pixels);
    text_add_byte(t, '"');
}

void
opening_picture(struct text *t, const struct fragment_context *s)
{
    const struct front_matter *f = &s->o->post.front;
    struct slice url = recipe_image(s->arena, s->o);
    if (url.length == 0)
        return;
    text_add_string(t, "<figure class=\"dl-picture\"");
    text_add(t, s->authors_language);
    text_add_string(t, "><img src=\"");
    text_add_html(t, url);
    text_add_string(t, "\" alt=\"");
    text_add_html(t, f->image_alt.text);
    text_add_byte(t, '"');
    add_pixels(t, " width=\"", s->o->picture.size.width);
    add_pixels(t, " height=\"", s->o->picture.size.height);
    text_add_byte(t, '>');
    if (f->image_credit.text.length > 0) {
        text_add_string(t, "<figcaption>");
        markup_words(t, f->image_credit.text);
        text_add_string(t, "</figcaption>");
    }
    text_add_string(t, "</figure>\n");
}

static void
add_author_words(struct text *t, const char *before, struct slice words)
{
    if (words.length == 0)
        return;
    text_add_string(t, before);
    markup_words(t, words);
}

/* "Serves 4." or "Makes 24 fingers; one portion is 4 fingers." */
static void
add_portions(struct text *t, const struct front_matter *f)
{
    const size_t before = t->length;
    add_author_words(t, "Makes ", f->yield.text);
    add_author_words(t, t->length > before ? "; serves " : "Serves ", f->portions.text);
    add_author_words(t, t->length > before ? "; one portion is " : "One portion is ",
                     f->portion.text);
    text_add_string(t, t->length > before ? ". " : "");
}

static void
add_time(struct text *t, struct span seconds)
{
    text_add_string(t, "<time datetime=\"");
    duration_write_iso(t, seconds.high);
    text_add_string(t, "\">");
    struct text words = text_new(t->arena);
    fragment_range(&words, seconds.low > 0 ? seconds.low : seconds.high, seconds.high);
    markup_measure(t, text_slice(&words));
    text_add_string(t, "</time>");
}

struct named_time {
    const struct front_time *time;
    const char *name;
};

static void
add_times(struct text *t, const struct front_matter *f, const struct schedule *stated)
{
    const struct named_time times[] = {
        {&f->prep, " preparation"}, {&f->cook, " cooking"}, {&f->rest, " resting"}};
    struct span sum = {0};
    size_t count = 0;
    for (size_t i = 0; i < sizeof times / sizeof *times; i++) {
        if (!times[i].time->given || !(times[i].time->seconds.high > 0))
            continue;
        sum = span_add(sum, times[i].time->seconds);
        count++;
    }
    if (!f->total.given && count == 0) {
        if (!stated->stated)
            return;
        text_add_string(t, "The steps state ");
        add_time(t, stated->total);
        text_add_byte(t, '.');
        return;
    }
    text_add_string(t, "Takes ");
    add_time(t, f->total.given ? f->total.seconds : sum);
    for (size_t i = 0, n = 0; count > 1 && i < sizeof times / sizeof *times; i++) {
        if (!times[i].time->given || !(times[i].time->seconds.high > 0))
            continue;
        text_add_string(t, n++ == 0 ? ": " : ", ");
        add_time(t, times[i].time->seconds);
        text_add_string(t, times[i].name);
    }
    text_add_byte(t, '.');
}

void
opening_facts(struct text *t, const struct fragment_context *s)
{
    const struct front_matter *f = &s->o->post.front;
    const size_t before = t->length;
    text_add_string(t, "<p class=\"dl-facts\">");
    const size_t begun = t->length;
    add_portions(t, f);
    add_times(t, f, &s->o->schedule);
    if (t->length == begun)
        t->length = before;
    else
        text_add_string(t, "</p>\n");
}

void
opening_video(struct text *t, const struct fragment_context *s)
{
    const struct front_matter *f = &s->o->post.front;
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
