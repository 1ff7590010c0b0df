#include "write/recipe_data.h"

#include "read/link.h"
#include "write/chapters.h"
#include "write/ingredients.h"
#include "write/json_writer.h"
#include "write/recipe_name.h"
#include "write/steps.h"

static void
add_duration(struct json_writer *n, struct arena *a, const char *key, double seconds)
{
    struct text iso = text_new(a);
    if (!(seconds >= 1))
        return;
    duration_write_iso(&iso, seconds);
    json_member(n, key, text_slice(&iso));
}

/* declared times; where one is not declared, what the steps state */
static void
add_times(struct json_writer *n, struct arena *a, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    const struct schedule *s = &o->schedule;
    bool declared = f->prep.given || f->cook.given || f->total.given;
    double prep = f->prep.given ? f->prep.seconds.high : declared ? 0 : s->attended.high;
    double cook = f->cook.given ? f->cook.seconds.high : declared ? 0 : s->cooking.high;
    add_duration(n, a, "prepTime", prep);
    add_duration(n, a, "cookTime", cook);
    add_duration(n, a, "totalTime", recipe_total_seconds(o));
}

static void
add_pixels(struct json_writer *n, const char *key, double pixels)
{
    if (!(pixels > 0))
        return;
    json_member_open(n, key, '{');
    json_member_word(n, "@type", "QuantitativeValue");
    json_key(n, "value");
    json_number(n, pixels, 0);
    json_member_word(n, "unitCode", "E37"); /* pixel, UN/ECE Recommendation 20 */
    json_close(n, '}');
}

static void
add_image(struct json_writer *n, struct arena *a, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    struct slice url = recipe_image(a, o);
    if (url.length == 0)
        return;
    json_member_open(n, "image", '{');
    json_member_word(n, "@type", "ImageObject");
    json_member(n, "url", url);
    json_member(n, "caption", f->image_alt.text);
    json_member(n, "creditText", f->image_credit.text);
    add_pixels(n, "width", o->picture.size.width);
    add_pixels(n, "height", o->picture.size.height);
    json_close(n, '}');
}

static void
add_author(struct json_writer *n, const struct outcome *o)
{
    const struct site *site = &o->tables->site;
    struct slice author = recipe_author(o);
    if (author.length == 0)
        return;
    json_member_open(n, "author", '{');
    json_member_word(n, "@type", "Person");
    json_member(n, "name", author);
    if (slice_is(author, site->author) && link_is_safe(slice_of(site->author_url)))
        json_member_string(n, "url", site->author_url);
    json_close(n, '}');
}

static void
add_site(struct json_writer *n, const struct site *site)
{
    if (site->address[0] == '\0')
        return;
    json_member_open(n, "isPartOf", '{');
    json_member_word(n, "@type", "WebSite");
    json_member_string(n, "name", site->title);
    json_member_string(n, "url", site->address);
    json_close(n, '}');
}

/* a plain number of portions first, as search engines ask for; then what the writer says */
static void
add_yield(struct json_writer *n, struct arena *a, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    const bool words = f->yield.text.length > 0;
    struct text t = text_new(a);
    if (o->dish.portions_known) {
        text_add_number(&t, o->dish.portions.low, 2);
        text_add_string(&t, words ? "" : o->dish.portions.low > 1 ? " portions" : " portion");
    }
    if (t.length == 0 || !words) {
        json_member(n, "recipeYield", t.length > 0 ? text_slice(&t) : f->yield.text);
        return;
    }
    json_member_open(n, "recipeYield", '[');
    json_text(n, text_slice(&t));
    json_text(n, f->yield.text);
    json_close(n, ']');
}

static void
add_keywords(struct json_writer *n, struct arena *a, const struct front_list *keywords)
{
    struct text t = text_new(a);
    for (size_t i = 0; i < keywords->count; i++) {
        text_add_string(&t, i > 0 ? ", " : "");
        text_add(&t, keywords->items[i].text);
    }
    json_member(n, "keywords", text_slice(&t));
}

static void
add_ingredients(struct json_writer *n, struct arena *a, const struct outcome *o)
{
    const struct dish *d = &o->dish;
    if (d->count == 0)
        return;
    json_member_open(n, "recipeIngredient", '[');
    for (size_t i = 0; i < d->count; i++)
        json_text(n, ingredients_words(a, o, &d->ingredients[i]));
    json_close(n, ']');
}

/* what the first way of each ingredient weighs, so that a program need not read the lines */
static void
add_supplies(struct json_writer *n, const struct outcome *o)
{
    const struct dish *d = &o->dish;
    if (d->count == 0)
        return;
    json_member_open(n, "supply", '[');
    for (size_t i = 0; i < d->count; i++)
        for (size_t j = 0;
             d->ingredients[i].option_count > 0 && j < d->ingredients[i].options[0].count; j++) {
            const struct helping *h = &d->ingredients[i].options[0].helpings[j];
            if (h->food == NULL || !h->weighing.known)
                continue;
            json_open(n, '{');
            json_member_word(n, "@type", "HowToSupply");
            json_member_string(n, "name", foods_shown(h->food, d->region, o->reads));
            json_member_open(n, "requiredQuantity", '{');
            json_member_word(n, "@type", "QuantitativeValue");
            json_key(n, "value");
            json_number(n, h->weighing.grams.mid, h->weighing.grams.mid < 10 ? 1 : 0);
            json_member_word(n, "unitCode", "GRM");
            json_close(n, '}');
            json_close(n, '}');
        }
    json_close(n, ']');
}

/* a few words for a step: up to its first pause, or as many words as a line of a screen holds */
static struct slice
step_name(struct slice text)
{
    enum { LEAST = 12, MOST = 60 };
    size_t end = 0, word = 0;
    for (; end < text.length && end < MOST; end++) {
        const char c = text.at[end];
        const bool ends = end + 1 == text.length || text.at[end + 1] == ' ';
        if ((c == '.' || c == ',' || c == ';' || c == ':') && ends && end >= LEAST)
            return slice_part(text, 0, end);
        if (c == ' ')
            word = end;
    }
    if (end == text.length)
        return slice_ends(text, ".") ? slice_part(text, 0, end - 1) : text;
    return slice_part(text, 0, word > 0 ? word : end);
}

/* the first picture in a step */
static void
add_step_image(struct json_writer *n, struct arena *a, const struct outcome *o,
               const struct step *step)
{
    cmark_iter *iter = cmark_iter_new(step->node);
    struct slice url = SLICE("");
    while (url.length == 0 && cmark_iter_next(iter) != CMARK_EVENT_DONE) {
        cmark_node *node = cmark_iter_get_node(iter);
        if (cmark_node_get_type(node) == CMARK_NODE_IMAGE)
            url = slice_of(cmark_node_get_url(node));
    }
    cmark_iter_free(iter);
    if (url.length > 0 && link_is_safe(url))
        json_member(n, "image", recipe_address(a, o, url));
}

static void
add_step(struct json_writer *n, struct arena *a, const struct outcome *o, struct slice url,
         const struct step *step, size_t number)
{
    struct text anchor = text_new(a);
    text_add(&anchor, url);
    text_add_byte(&anchor, '#');
    steps_anchor(&anchor, o->post.slug, number);
    json_open(n, '{');
    json_member_word(n, "@type", "HowToStep");
    json_key(n, "position");
    json_number(n, (double)number, 0);
    json_member(n, "name", step_name(step->text));
    json_member(n, "text", step->text);
    add_step_image(n, a, o, step);
    json_member(n, "url", text_slice(&anchor));
    chapters_add_of_step(n, o, number);
    json_close(n, '}');
}

static void
add_instructions(struct json_writer *n, struct arena *a, const struct outcome *o, struct slice url)
{
    const struct body *body = &o->post.body;
    size_t number = 0;
    if (body->part_count == 0)
        return;
    json_member_open(n, "recipeInstructions", '[');
    for (size_t p = 0; p < body->part_count; p++) {
        const struct method_part *part = &body->parts[p];
        bool section = part->name.length > 0;
        if (section) {
            json_open(n, '{');
            json_member_word(n, "@type", "HowToSection");
            json_member(n, "name", part->name);
            json_member_open(n, "itemListElement", '[');
        }
        for (size_t i = 0; i < part->count; i++)
            add_step(n, a, o, url, &part->steps[i], ++number);
        if (section) {
            json_close(n, ']');
            json_close(n, '}');
        }
    }
    json_close(n, ']');
}

static void
add_tools(struct json_writer *n, const struct front_list *equipment)
{
    if (equipment->count == 0)
        return;
    json_member_open(n, "tool", '[');
    for (size_t i = 0; i < equipment->count; i++) {
        json_open(n, '{');
        json_member_word(n, "@type", "HowToTool");
        json_member(n, "name", equipment->items[i].text);
        json_close(n, '}');
    }
    json_close(n, ']');
}

static void
add_nutrition(struct json_writer *n, struct arena *a, const struct outcome *o)
{
    static const struct {
        const char *key, *unit;
        enum nutrient nutrient;
    } rows[] = {
        {"calories", " kcal", ENERGY_KCAL},
        {"proteinContent", " g", PROTEIN},
        {"fatContent", " g", FAT},
        {"saturatedFatContent", " g", SATURATED_FAT},
        {"carbohydrateContent", " g", CARBOHYDRATE},
        {"sugarContent", " g", SUGARS},
        {"fiberContent", " g", FIBRE},
        {"sodiumContent", " mg", SODIUM_MG},
    };
    const struct nutrition *v = &o->nutrition;
    if (!v->given)
        return;
    json_member_open(n, "nutrition", '{');
    json_member_word(n, "@type", "NutritionInformation");
    json_member(n, "servingSize", recipe_portion(a, o));
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct text t = text_new(a);
        if (!v->known[rows[i].nutrient])
            continue;
        /* the US form gives sodium in mg, as this property is meant; the EU form gives salt */
        nutrition_write(&t, rows[i].nutrient == SODIUM_MG ? "us" : "eu", rows[i].nutrient,
                        rows[i].nutrient == ENERGY_KCAL ? v->energy_kcal
                                                        : v->amount[rows[i].nutrient]);
        text_add_string(&t, rows[i].unit);
        struct slice words = text_slice(&t);
        /* a label may say "<0.5"; a quantity is a plain number */
        json_member(n, rows[i].key, slice_part(words, words.at[0] == '<', words.length));
    }
    json_close(n, '}');
}

static void
add_diets(struct json_writer *n, const struct claims *c)
{
    bool open = false;
    for (size_t i = 0; i < c->count; i++) {
        if (c->items[i].grounds != GROUNDS_HOLDS || c->items[i].diet_url == NULL)
            continue;
        if (!open)
            json_member_open(n, "suitableForDiet", '[');
        open = true;
        json_text(n, slice_of(c->items[i].diet_url));
    }
    if (open)
        json_close(n, ']');
}

void
recipe_data_video(struct json_writer *n, const struct outcome *o, const char *key)
{
    const struct front_matter *f = &o->post.front;
    struct slice url = f->video_url.text;
    bool file = slice_ends(url, ".mp4") || slice_ends(url, ".webm") || slice_ends(url, ".mov");
    if (url.length == 0 || !link_is_safe(url))
        return;
    json_member_open(n, key, '{');
    json_member_word(n, "@type", "VideoObject");
    json_member(n, "name", f->video_name.text.length > 0 ? f->video_name.text : f->title.text);
    json_member(n, "description",
                f->video_description.text.length > 0 ? f->video_description.text : f->summary.text);
    json_member(n, file ? "contentUrl" : "embedUrl", url);
    if (link_is_safe(f->video_thumbnail.text))
        json_member(n, "thumbnailUrl", f->video_thumbnail.text);
    json_member(n, "uploadDate", f->video_uploaded.text);
    if (f->video_seconds > 0) {
        struct text length = text_new(n->text->arena);
        duration_write_iso(&length, f->video_seconds);
        json_member(n, "duration", text_slice(&length));
    }
    chapters_add_parts(n, o);
    json_close(n, '}');
}

static void
add_head(struct json_writer *n, struct arena *a, const struct outcome *o, struct slice url)
{
    const struct front_matter *f = &o->post.front;
    const struct site *site = &o->tables->site;
    struct slice language = f->language.text;
    if (o->part_of == NULL) /* a dish lies within its round-up, which has it */
        json_member_word(n, "@context", "https://schema.org");
    json_member_word(n, "@type", "Recipe");
    json_member(n, "@id", recipe_tag(a, o));
    json_member(n, "url", url);
    json_member(n, "name", f->title.text);
    json_member(n, "description", f->summary.text);
    json_member(n, "inLanguage", language.length > 0 ? language : slice_of(site->language));
    add_image(n, a, o);
    add_author(n, o);
    json_member(n, "datePublished", f->published.text);
    json_member(n, "dateModified", recipe_changed(a, o));
    json_member_string(n, "license", site->licence);
    add_site(n, site);
}

void
recipe_data_write(struct text *t, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    struct arena *a = t->arena;
    struct json_writer n = json_new(t);
    struct slice url = recipe_url(a, o);
    json_open(&n, '{');
    add_head(&n, a, o, url);
    json_member(&n, "recipeCategory", f->category.text);
    json_member(&n, "recipeCuisine", f->cuisine.text);
    add_keywords(&n, a, &f->keywords);
    add_yield(&n, a, o);
    add_times(&n, a, o);
    add_ingredients(&n, a, o);
    add_supplies(&n, o);
    add_tools(&n, &f->equipment);
    add_instructions(&n, a, o, o->part_of != NULL ? recipe_url(a, o->part_of) : url);
    add_nutrition(&n, a, o);
    add_diets(&n, &o->claims);
    if (o->part_of != NULL)
        chapters_add_of_dish(&n, o);
    else
        recipe_data_video(&n, o, "video");
    json_close(&n, '}');
    text_add_byte(t, '\n');
}
