#include "write/preview.h"

#include <math.h>

#include "write/article.h"
#include "write/drawing.h"
#include "write/markup.h"
#include "write/recipe_name.h"
#include "write/understood.h"

static void
add_head(struct text *t, struct slice language, struct slice title)
{
    text_add_string(t, "<!DOCTYPE html>\n<html lang=\"");
    text_add_html(t, language);
    text_add_string(t, "\">\n<head>\n<meta charset=\"utf-8\">\n"
                       "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                       "<title>");
    text_add_html(t, title);
    text_add_string(t, "</title>\n<link rel=\"stylesheet\" href=\"../dariole.css\">\n"
                       "<link rel=\"stylesheet\" href=\"preview.css\">\n");
}

/* the fragment, its pictures taken from beside the preview: the site it links to may not be up yet
 */
static void
add_with_pictures(struct text *t, const struct outcome *o, struct slice fragment)
{
    struct text link = text_new(t->arena);
    text_add_string(&link, "<img src=\"");
    text_add_html(&link, recipe_address(t->arena, o, slice_of(o->tables->site.images_path)));
    size_t done = 0;
    for (size_t at; (at = slice_find(fragment, link.bytes, done)) != SIZE_MAX;) {
        text_add(t, slice_part(fragment, done, at));
        text_add_string(t, "<img src=\"../images/");
        done = at + link.length;
    }
    text_add(t, slice_part(fragment, done, fragment.length));
}

/* up to the data */
static void
begin_page(struct text *t, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    struct slice language = f->language.text;
    add_head(t, language.length > 0 ? language : slice_of(o->tables->site.language), f->title.text);
    if (f->summary.text.length > 0) {
        text_add_string(t, "<meta name=\"description\" content=\"");
        text_add_html(t, f->summary.text);
        text_add_string(t, "\">\n");
    }
    text_add_string(t, "<script type=\"application/ld+json\">\n");
}

/* from the data to the fragment */
static void
begin_body(struct text *t, const struct outcome *o, const struct fragment_manner *manner)
{
    text_add_string(t, "</script>\n</head>\n<body>\n<header class=\"preview\">\n");
    /* the page has one heading of level 1: the fragment's, or the site's above it */
    if (manner->heading_level > 1) {
        text_add_string(t, "<h1>");
        text_add_html(t, slice_of(o->tables->site.title));
        text_add_string(t, "</h1>\n");
    }
    text_add_string(t, "<nav><a href=\"index.html\">All recipes</a></nav>\n</header>\n<main>\n");
}

void
preview_page(struct text *t, const struct outcome *o, const struct fragment_manner *manner,
             struct slice *fragment, struct slice *data)
{
    enum { USUAL = 48 << 10 };
    size_t marks[4];
    text_widen(t, USUAL); /* once, not by doubling */
    begin_page(t, o);
    marks[0] = t->length;
    article_data_write(t, o);
    marks[1] = t->length;
    begin_body(t, o, manner);
    marks[2] = t->length;
    const bool pictures = o->picture.state == PICTURE_HERE || outcome_round_up(o);
    if (pictures) {
        struct text apart = text_new(t->arena);
        article_write(&apart, o, manner);
        *fragment = text_slice(&apart);
        add_with_pictures(t, o, *fragment);
    } else {
        article_write(t, o, manner);
    }
    marks[3] = t->length;
    understood_html(t, o); /* for the writer alone: it is not of the fragment */
    text_add_string(t, "</main>\n</body>\n</html>\n");
    *data = slice_part(text_slice(t), marks[0], marks[1]);
    if (!pictures)
        *fragment = slice_part(text_slice(t), marks[2], marks[3]);
}

static void
begin_cell(struct text *t, const char *name)
{
    text_add_string(t, "<td data-name=\"");
    text_add_string(t, name);
    text_add_string(t, "\">");
}

static void
add_largest(struct text *t, const struct phase_stand *stand)
{
    const int most = stand->tightest;
    begin_cell(t, "Largest share");
    if (most >= 0 &&
        (stand->standing != STANDING_UNKNOWN || stand->groups[most].share.mid >= 0.005)) {
        const double share = stand->groups[most].share.mid;
        text_add_whole(t, (size_t)round(fmin(fmax(share, 0), 1000) * 100));
        text_add_string(t, " %, ");
        text_add_string(t, groups_name((enum group)most));
    } else {
        text_add_string(t, stand->standing == STANDING_UNKNOWN ? "not known" : "none");
    }
    text_add_string(t, "</td>");
}

static void
add_standing(struct text *t, const struct phase_stand *stand)
{
    static const char *const names[] = {"within", "close", "not known", "over"};
    begin_cell(t, "Standing");
    if (stand->best_standing != stand->standing) {
        text_add_string(t, names[stand->best_standing]);
        text_add_string(t, " or ");
    }
    text_add_string(t, names[stand->standing]);
    text_add_string(t, stand->best_standing != stand->standing ? ", as it is made</td>" : "</td>");
}

static void
add_allergens(struct text *t, const struct claims *c)
{
    size_t shown = 0;
    begin_cell(t, "Allergens");
    for (size_t i = 0; i < c->allergen_count; i++) {
        if (c->allergens[i].may_carry)
            continue;
        text_add_string(t, shown++ > 0 ? ", " : "");
        text_add_string(t, groups_allergen_word(c->allergens[i].allergen));
    }
    text_add_string(t, shown > 0 ? "</td>" : "none</td>");
}

static void
add_findings(struct text *t, const struct findings *f)
{
    static const char *const names[] = {"", "note", "warning", "error"};
    bool any = false;
    begin_cell(t, "Findings");
    for (int level = LEVEL_ERROR; level >= LEVEL_NOTE; level--) {
        size_t n = f->count_by_level[level];
        if (n == 0)
            continue;
        text_add_string(t, any ? ", " : "");
        text_add_whole(t, n);
        text_add_byte(t, ' ');
        text_add_string(t, names[level]);
        text_add_string(t, n > 1 ? "s" : "");
        any = true;
    }
    if (f->answered > 0) {
        text_add_string(t, any ? ", " : "");
        text_add_whole(t, f->answered);
        text_add_string(t, " answered");
        any = true;
    }
    text_add_string(t, any ? "</td>" : "none</td>");
}

/* what the filter asks for: may carry counts as carrying, for who must do without */
static void
add_row_head(struct text *t, const struct outcome *o, double total)
{
    const struct claims *c = &o->claims;
    const struct phase_stand *stand = &o->phases[o->tables->site.phase];
    text_add_string(t, "<tr data-standing=\"");
    text_add_string(t, standing_word(stand->standing));
    if (stand->best_standing != stand->standing) {
        text_add_byte(t, ' ');
        text_add_string(t, standing_word(stand->best_standing));
    }
    text_add_string(t, "\" data-seconds=\"");
    text_add_whole(t, (size_t)fmax(total, 0));
    text_add_string(t, "\" data-diets=\"");
    for (int d = 0, n = 0; d < DIETS; d++) {
        if (!c->diets[d])
            continue;
        text_add_string(t, n++ > 0 ? " " : "");
        text_add_string(t, groups_diet_word((enum diet)d));
    }
    text_add_string(t, "\" data-allergens=\"");
    for (size_t i = 0; i < c->allergen_count; i++) {
        text_add_string(t, i > 0 ? " " : "");
        text_add_string(t, groups_allergen_word(c->allergens[i].allergen));
    }
    text_add_string(t, "\" data-words=\"");
    for (size_t i = 0; i < o->post.front.keywords.count; i++) {
        text_add_string(t, i > 0 ? " " : "");
        text_add_html(t, o->post.front.keywords.items[i].text);
    }
    text_add_string(t, "\">");
}

struct slice
preview_row(struct arena *a, const struct outcome *o)
{
    const struct phase_stand *stand = &o->phases[o->tables->site.phase];
    struct text t = text_new(a);
    double total = recipe_total_seconds(o);
    add_row_head(&t, o, total);
    text_add_string(&t, "<th scope=\"row\"><a href=\"");
    text_add(&t, o->post.slug);
    text_add_string(&t, ".html\">");
    markup_words(&t, o->post.front.title.text);
    text_add_string(&t, "</a></th>");
    add_standing(&t, stand);
    add_largest(&t, stand);
    begin_cell(&t, "Time");
    if (total > 0)
        duration_write_words(&t, total);
    else
        text_add_string(&t, "not stated");
    text_add_string(&t, "</td>");
    add_allergens(&t, &o->claims);
    add_findings(&t, &o->findings);
    text_add_string(&t, "</tr>\n");
    return text_slice(&t);
}

/* hidden until the script that works it is there */
static void
add_filter(struct text *t)
{
    text_add_string(
        t, "<form class=\"filter\" hidden>\n"
           "<label>Search <input type=\"search\" name=\"sought\"></label>\n"
           "<label>Standing <select name=\"standing\"><option value=\"\">any</option>"
           "<option>within</option><option>close</option><option>over</option>"
           "<option value=\"unknown\">not known</option></select></label>\n"
           "<label>Time <select name=\"most\"><option value=\"\">any</option>"
           "<option value=\"900\">up to 15 min</option><option value=\"1800\">up to 30 min</option>"
           "<option value=\"2700\">up to 45 min</option><option value=\"3600\">up to 1 h</option>"
           "<option value=\"7200\">up to 2 h</option></select></label>\n"
           "<fieldset><legend>Only</legend>");
    for (int d = 0; d < DIETS; d++) {
        text_add_string(t, "<label><input type=\"checkbox\" name=\"diet\" value=\"");
        text_add_string(t, groups_diet_word((enum diet)d));
        text_add_string(t, "\"> ");
        text_add_string(t, groups_diet_word((enum diet)d));
        text_add_string(t, "</label> ");
    }
    text_add_string(t,
                    "</fieldset>\n<fieldset class=\"without\"><legend>Without</legend></fieldset>\n"
                    "<output></output>\n</form>\n");
}

bool
preview_index(struct arena *a, const struct tables *tables, const struct gathering *g,
              struct outlet out)
{
    const struct site *site = &tables->site;
    struct text t = text_new(a), tail = text_new(a);
    text_add_string(&tail, "</tbody>\n</table>\n</main>\n<script>\n");
    text_add_string(&tail, preview_script);
    text_add_string(&tail, "</script>\n</body>\n</html>\n");
    add_head(&t, slice_of(site->language), slice_of(site->title));
    text_add_string(&t,
                    "</head>\n<body>\n<main class=\"dl-recipe\">\n<header class=\"dl-head\"><h1>");
    text_add_html(&t, slice_of(site->title));
    text_add_string(&t, "</h1>\n");
    if (site->description[0] != '\0') {
        text_add_string(&t, "<p class=\"dl-summary\">");
        text_add_html(&t, slice_of(site->description));
        text_add_string(&t, "</p>\n");
    }
    text_add_string(&t, "</header>\n");
    add_filter(&t);
    text_add_string(&t, "<table class=\"posts\">\n<thead><tr><th scope=\"col\">Recipe</th>"
                        "<th scope=\"col\">Standing</th><th scope=\"col\">Largest share</th>"
                        "<th scope=\"col\">Time</th><th scope=\"col\">Allergens</th>"
                        "<th scope=\"col\">Findings</th></tr></thead>\n<tbody>\n");
    return gathering_write(
        g, out, &(struct gathered_file){text_slice(&t), RECORD_INDEX, g->count, "", tail.bytes});
}
