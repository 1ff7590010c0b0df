/* Data, feeds and catalogue of a post made by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>
#include <jansson.h>

#include "by_hand.h"
#include "write/catalogue.h"
#include "write/feed.h"
#include "write/preview.h"
#include "write/recipe_data.h"
#include "write/recipe_name.h"
#include "write/record_make.h"

static bool
collect(void *ctx, struct slice bytes)
{
    text_add(ctx, bytes);
    return true;
}

static bool
refuse(void *ctx, struct slice bytes)
{
    (void)bytes;
    return --*(int *)ctx > 0;
}

static struct slice
give(void *ctx, size_t i, enum piece_of_record piece)
{
    (void)i;
    return ((struct record *)ctx)->pieces[piece];
}

/* three posts that are the same one */
static struct gathering
three(struct arena *a, const struct outcome *o)
{
    struct record *r = arena_take(a, sizeof *r);
    record_make(a, o, r);
    return (struct gathering){.count = 3, .piece = give, .ctx = r, .changed = r->changed};
}

static json_t *
read_json(const struct text *t)
{
    json_error_t error;
    json_t *read = json_loadb(t->bytes, t->length, JSON_REJECT_DUPLICATES, &error);
    if (read == NULL)
        fail_msg("%s\nin: %s", error.text, t->bytes);
    return read;
}

static const char *
string_at(const json_t *object, const char *key)
{
    return json_string_value(json_object_get(object, key));
}

static void
the_recipe_holds_what_the_post_knows(void **state)
{
    struct arena *a = *state;
    struct text t = text_new(a);
    recipe_data_write(&t, hand_outcome(a));
    assert_null(strchr(t.bytes, '<'));
    json_t *r = read_json(&t), *steps, *section, *nutrition;
    assert_string_equal(string_at(r, "@type"), "Recipe");
    assert_string_equal(string_at(r, "name"), "Oat & rice \"slice\"");
    assert_string_equal(string_at(r, "description"), "Plain and <quick>.");
    assert_string_equal(string_at(r, "url"), "https://kitchen.example/recipes/slice.html");
    assert_string_equal(string_at(r, "datePublished"), "2026-03-14");
    json_t *yield = json_object_get(r, "recipeYield");
    assert_string_equal(json_string_value(json_array_get(yield, 0)), "4");
    assert_string_equal(json_string_value(json_array_get(yield, 1)), "8 slices");
    assert_string_equal(string_at(r, "prepTime"), "PT10M");
    assert_string_equal(string_at(r, "totalTime"), "PT40M");
    assert_string_equal(string_at(r, "keywords"), "oats, tin");
    json_t *lines = json_object_get(r, "recipeIngredient");
    assert_int_equal(json_array_size(lines), 5);
    assert_string_equal(json_string_value(json_array_get(lines, 0)), "2 tbsp (30 g) butter");
    assert_string_equal(json_string_value(json_array_get(lines, 4)), "50 g sugar");
    section = json_array_get(json_object_get(r, "recipeInstructions"), 1);
    assert_string_equal(string_at(section, "name"), "The top");
    steps = json_object_get(section, "itemListElement");
    assert_string_equal(string_at(json_array_get(steps, 0), "url"),
                        "https://kitchen.example/recipes/slice.html#slice-step-3");
    assert_string_equal(string_at(json_object_get(r, "image"), "caption"), "A slice");
    assert_string_equal(string_at(json_object_get(r, "image"), "url"),
                        "https://kitchen.example/images/slice.jpg");
    nutrition = json_object_get(r, "nutrition");
    assert_string_equal(string_at(nutrition, "sodiumContent"), "200 mg");
    assert_string_equal(string_at(nutrition, "saturatedFatContent"), "0.1 g");
    /* a claim that does not hold is not passed on */
    json_t *diets = json_object_get(r, "suitableForDiet");
    assert_int_equal(json_array_size(diets), 1);
    assert_string_equal(json_string_value(json_array_get(diets, 0)),
                        "https://schema.org/VegetarianDiet");
    json_decref(r);
}

static void
a_changed_limit_moves_the_date(void **state)
{
    struct arena *a = *state;
    const struct outcome *o = hand_outcome(a);
    struct entry newer = {.digest = 7, .changed = "2027-01-31"};
    reads_entry_name(&newer, "limit:strict/fructan");
    assert_true(slice_is(recipe_changed(a, o), "2026-03-14"));
    reads_note(o->reads, &newer);
    assert_true(slice_is(recipe_changed(a, o), "2027-01-31"));
    assert_true(slice_is(recipe_stamp(a, recipe_changed(a, o)), "2027-01-31T00:00:00Z"));
    assert_true(
        slice_is(recipe_stamp(a, SLICE("2027-01-31T10:00:00+02:00")), "2027-01-31T10:00:00+02:00"));
}

static void
feeds_hold_the_newest_posts(void **state)
{
    struct arena *a = *state;
    struct outcome *o = hand_outcome(a);
    struct gathering g = three(a, o);
    struct site site = o->tables->site;
    struct text json = text_new(a), atom = text_new(a);
    site.feed_entries = 2;
    assert_true(feed_write_json(a, &site, &g, (struct outlet){collect, &json}));
    json_t *feed = read_json(&json), *item;
    assert_string_equal(string_at(feed, "version"), "https://jsonfeed.org/version/1.1");
    assert_int_equal(json_array_size(json_object_get(feed, "items")), 2);
    item = json_array_get(json_object_get(feed, "items"), 0);
    assert_string_equal(string_at(item, "id"), "tag:kitchen.example,2026:slice");
    assert_string_equal(string_at(item, "date_published"), "2026-03-14T00:00:00Z");
    assert_non_null(strstr(string_at(item, "content_html"), "One portion is over a limit."));
    json_decref(feed);
    assert_true(feed_write_atom(a, &site, &g, (struct outlet){collect, &atom}));
    assert_non_null(strstr(atom.bytes, "<title>Kitchen &amp; &quot;table&quot;</title>"));
    assert_non_null(strstr(atom.bytes, "<updated>2026-03-14T00:00:00Z</updated>\n<author>"));
    assert_non_null(strstr(atom.bytes, "<id>tag:kitchen.example,2026:slice</id>"));
}

static void
without_a_date_only_the_build_may_say_one(void **state)
{
    struct arena *a = *state;
    struct outcome *o = hand_outcome(a);
    o->post.front.published.text.length = 0;
    struct gathering g = three(a, o);
    struct text atom = text_new(a), front_value = text_new(a);
    assert_int_equal(g.changed.length, 0);
    unsetenv("SOURCE_DATE_EPOCH");
    assert_true(feed_write_atom(a, &o->tables->site, &g, (struct outlet){collect, &atom}));
    assert_non_null(strstr(atom.bytes, "<updated>1970-01-01T00:00:00Z</updated>"));
    assert_null(strstr(atom.bytes, "<entry>"));
    setenv("SOURCE_DATE_EPOCH", "86400", 1);
    assert_true(feed_write_atom(a, &o->tables->site, &g, (struct outlet){collect, &front_value}));
    assert_non_null(strstr(front_value.bytes, "<updated>1970-01-02T00:00:00Z</updated>"));
    unsetenv("SOURCE_DATE_EPOCH");
}

static void
a_site_without_an_address_has_none_made_up(void **state)
{
    struct arena *a = *state;
    struct outcome *o = hand_outcome(a);
    struct tables *t = arena_take(a, sizeof *t);
    *t = *o->tables;
    t->site.address = "";
    o->tables = t;
    struct gathering g = three(a, o);
    struct text recipe = text_new(a), sitemap = text_new(a);
    recipe_data_write(&recipe, o);
    json_t *r = read_json(&recipe);
    assert_null(json_object_get(r, "url"));
    assert_string_equal(string_at(r, "@id"), "tag:kitchen.example,2026:slice");
    json_decref(r);
    assert_true(feed_write_sitemap(&g, (struct outlet){collect, &sitemap}));
    assert_null(strstr(sitemap.bytes, "<url>"));
    assert_non_null(strstr(give(g.ctx, 0, RECORD_ATOM).at, "href=\"recipes/slice.html\""));
}

static void
the_gathered_files_are_whole(void **state)
{
    struct arena *a = *state;
    struct outcome *o = hand_outcome(a);
    struct gathering g = three(a, o), none = {.piece = give};
    struct text t = text_new(a), feed = text_new(a), index = text_new(a), empty = text_new(a);
    assert_true(catalogue_write(&g, (struct outlet){collect, &t}));
    json_t *catalogue = read_json(&t), *one = json_array_get(catalogue, 2);
    assert_int_equal(json_array_size(catalogue), 3);
    json_t *phase = json_object_get(json_object_get(one, "phases"), "strict");
    assert_string_equal(string_at(phase, "standing"), "over");
    assert_true(json_is_null(json_object_get(json_object_get(phase, "shares"), "sorbitol")));
    assert_int_equal(json_integer_value(json_object_get(json_object_get(one, "seconds"), "total")),
                     2400);
    json_decref(catalogue);
    assert_true(catalogue_write(&none, (struct outlet){collect, &empty}));
    json_decref(read_json(&empty));
    assert_true(feed_write_datafeed(a, &o->tables->site, &g, (struct outlet){collect, &feed}));
    json_t *data = read_json(&feed);
    assert_int_equal(json_array_size(json_object_get(data, "dataFeedElement")), 3);
    json_decref(data);
    assert_true(preview_index(a, o->tables, &g, (struct outlet){collect, &index}));
    assert_non_null(strstr(index.bytes, "200 %, fructose in excess of glucose"));
    /* a file that cannot be written is told at once, wherever it stops */
    for (int left = 1; left < 7; left++) {
        int puts = left;
        assert_false(catalogue_write(&g, (struct outlet){refuse, &puts}));
    }
}

static int
open_arena(void **state)
{
    *state = arena_open(1 << 16);
    arena_lend(*state);
    return 0;
}

static int
close_arena(void **state)
{
    arena_lend(NULL);
    arena_close(*state);
    return 0;
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(the_recipe_holds_what_the_post_knows, open_arena,
                                        close_arena),
        cmocka_unit_test_setup_teardown(a_changed_limit_moves_the_date, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(feeds_hold_the_newest_posts, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(without_a_date_only_the_build_may_say_one, open_arena,
                                        close_arena),
        cmocka_unit_test_setup_teardown(a_site_without_an_address_has_none_made_up, open_arena,
                                        close_arena),
        cmocka_unit_test_setup_teardown(the_gathered_files_are_whole, open_arena, close_arena),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
