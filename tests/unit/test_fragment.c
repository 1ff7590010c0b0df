/* The fragment of a post made by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "by_hand.h"
#include "write/fragment.h"

static const char *
fragment_of(struct arena *a, const struct outcome *o, int level, int region)
{
    struct text t = text_new(a);
    fragment_write(&t, o, &(struct fragment_manner){level, region});
    return t.bytes;
}

/* the same with plain spaces for those at which no line ends */
static const char *
spaced(struct arena *a, const char *html)
{
    struct text t = text_new(a);
    for (; *html != '\0'; html++) {
        const bool bound = (unsigned char)html[0] == 0xc2 && (unsigned char)html[1] == 0xa0;
        text_add_byte(&t, bound ? ' ' : *html);
        html += bound;
    }
    return t.bytes;
}

/* fails with the fragment beside it when a piece is missing */
static void
holds(const char *html, const char *piece)
{
    if (strstr(html, piece) == NULL)
        fail_msg("missing: %s\nin: %s", piece, html);
}

static void
lacks(const char *html, const char *piece)
{
    if (strstr(html, piece) != NULL)
        fail_msg("not to be there: %s\nin: %s", piece, html);
}

static void
headings_nest_and_authors_words_are_escaped(void **state)
{
    struct arena *a = *state;
    const struct outcome *o = hand_outcome(a);
    const char *two = fragment_of(a, o, 2, -1), *four = fragment_of(a, o, 4, -1);
    holds(two, "<article class=\"dl-recipe\" id=\"slice\" lang=\"en-GB\">");
    holds(two, "<h2>Oat &amp; rice &quot;slice&quot;</h2>");
    holds(two, "<h3>Ingredients</h3>");
    holds(two, "<h4>The base</h4>");
    holds(two, "Plain and &lt;quick&gt;.");
    holds(two, "Eat 1 slice &lt;not 2&gt;.");
    holds(two, "<bdi>Noa שלום</bdi>");
    lacks(two, "<h1");
    holds(four, "<h4>Oat");
    holds(four, "<h6>The base</h6>");
    lacks(four, "<h7");
    lacks(two, "<script");
    lacks(two, "style=");
}

static void
shares_are_numbers_words_and_bars(void **state)
{
    struct arena *a = *state;
    const char *html = fragment_of(a, hand_outcome(a), 2, 0);
    html = spaced(a, html);
    holds(html, "Makes 8 slices; one portion is 2 slices.");
    holds(html,
          "<p class=\"dl-standing\">Close to a limit with maple syrup; over a limit with honey.");
    holds(html, "Nearest: honey</span> <span class=\"dl-share\"><b>200 %</b></span>");
    holds(html, "All in one sitting</span> <span class=\"dl-share\"><b>96 %</b></span>");
    holds(html, "courgettes: fructan</span> <span class=\"dl-share\"><b>90 %</b>, at most 110 %");
    holds(html, "0.18 g, the limit is 0.2 g; a chance of 22 % to be over.");
    holds(html, "with the best choices close");
    /* the tick at a third, because 200 % is drawn against 300 */
    holds(html, "<path class=\"dl-tick\" stroke-width=\"3\" d=\"M333 0L333 24\"");
    holds(html, "aria-hidden=\"true\"");
}

static void
lines_stay_the_cooks_own(void **state)
{
    struct arena *a = *state;
    const char *uk = spaced(a, fragment_of(a, hand_outcome(a), 2, 0));
    holds(uk, "<li><label><input type=\"checkbox\"><span><span class=\"dl-measure\">2 tbsp (30 "
              "g)</span> <strong");
    holds(uk, "<strong class=\"dl-allergen\">butter (milk)</strong>");
    holds(uk,
          "<span class=\"dl-measure\">1 cup</span> <span class=\"dl-grams\">(about 120 g)</span> "
          "courgettes, grated, plus 1 tsp to finish");
    holds(uk, "honey or maple syrup</span></label></li>");
    holds(uk, "<li class=\"dl-may\"><label><input type=\"checkbox\"><span><span "
              "class=\"dl-measure\">a pinch</span> of dust (optional) "
              "<small class=\"dl-note\">no figures for this food</small>");
    holds(uk, "Contains: <strong class=\"dl-allergen\">milk</strong>.");
    holds(uk, "<li><label><input type=\"checkbox\"><span><span class=\"dl-measure\">50 g</span> "
              "sugar</span></label></li>");
    lacks(uk, "dl-in-");
}

static void
regions_differ_where_they_must(void **state)
{
    struct arena *a = *state;
    const char *both = spaced(a, fragment_of(a, hand_outcome(a), 2, -1));
    holds(both, "<fieldset class=\"dl-for\"><legend>Written for</legend>");
    holds(both, "<label><input class=\"dl-pick dl-pick-2\" type=\"radio\" name=\"slice-region\" "
                "value=\"us\"><span>");
    holds(both, "<span class=\"dl-in dl-in-1\">courgettes</span><span class=\"dl-in dl-in-2\" "
                "hidden>zucchinis</span>");
    holds(both, "<span class=\"dl-in dl-in-1\">14 March 2026</span><span class=\"dl-in dl-in-2\" "
                "hidden>March 14, 2026</span>");
    holds(both, "180 °C (fan 160 °C, gas 4)</span><span class=\"dl-in dl-in-2\" hidden>350 °F (180 "
                "°C)</span>");
    holds(both, "<div class=\"dl-in dl-in-2\" hidden><table");
    const char *us = spaced(a, fragment_of(a, hand_outcome(a), 2, 1));
    holds(us, "zucchinis");
    lacks(us, "courgettes,");
    lacks(us, "type=\"radio\"");
    holds(us, "Saturated fat</th><td>0 g");
}

static void
the_method_has_anchors_times_and_cautions(void **state)
{
    struct arena *a = *state;
    const char *html = spaced(a, fragment_of(a, hand_outcome(a), 2, 0));
    holds(html, "<li id=\"slice-step-1\">");
    holds(html, "<ol class=\"dl-steps\" start=\"3\">\n<li id=\"slice-step-3\">");
    holds(html, "<time class=\"dl-time\" datetime=\"PT2M\">2 minutes</time>");
    holds(html, "</strong> Hot honey clings &amp; burns.</p></li>");
    holds(html, "Hot honey clings &amp; burns. <small");
    holds(html, "Comes first: local rules.");
    /* 60 s at 800 W is 68.6 s at 700 W, up to 70 s, and 48 s at 1000 W, up to 50 s */
    holds(html, "700 W</th><td>70 s</td>");
    holds(html, "1000 W</th><td>50 s</td>");
    holds(html, "<svg role=\"img\" aria-labelledby=\"time-slice times-slice\"");
    holds(html, "Step 2: 25 to 30 min");
}

static void
claims_that_do_not_hold_are_not_printed(void **state)
{
    struct arena *a = *state;
    const char *html = fragment_of(a, hand_outcome(a), 2, 0);
    holds(html, "<b>vegetarian</b>: nothing breaks it.");
    lacks(html, "vegan");
}

static void
tables_and_sources_are_given(void **state)
{
    struct arena *a = *state;
    const char *html = fragment_of(a, hand_outcome(a), 2, 0);
    holds(html, "418 kJ, 100 kcal");
    holds(html, "<th scope=\"row\">Salt</th><td>0.5 g");
    holds(html, "<dt>Works of the laboratory</dt>");
    /* what one place says of several foods stands once */
    holds(html, "<li>butter (weight by volume): 12</li>");
    holds(html, "<li>butter; courgette; honey; maple-syrup; sugar (all groups): 12</li>");
    holds(html, "general information");
    holds(html, "dietitian or doctor");
}

static void
the_picture_stands_with_its_words(void **state)
{
    struct arena *a = *state;
    struct outcome *o = hand_outcome(a);
    const char *html = fragment_of(a, o, 2, 0);
    holds(html,
          "<figure class=\"dl-picture\"><img src=\"https://kitchen.example/images/slice.jpg\" "
          "alt=\"A slice\" width=\"1200\" height=\"800\"></figure>");
    o->post.front.image_credit.text = SLICE("N & M");
    o->post.front.image_alt.text = SLICE("a \"slice\"");
    html = fragment_of(a, o, 2, 0);
    holds(html, "alt=\"a &quot;slice&quot;\"");
    holds(html, "<figcaption>N &amp; M</figcaption>");
    o->picture = (struct picture){.state = PICTURE_NONE, .ending = NULL};
    lacks(fragment_of(a, o, 2, 0), "<figure class=\"dl-picture\">");
    o->picture.state = PICTURE_AWAY;
    o->post.front.image_file.text = SLICE("https://pictures.example/a b.png?x=1&y=2");
    holds(fragment_of(a, o, 2, 0), "<img src=\"https://pictures.example/a%20b.png?x=1&amp;y=2\"");
}

static void
a_video_is_linked_and_keeping_is_told(void **state)
{
    struct arena *a = *state;
    struct outcome *o = hand_outcome(a);
    o->post.front.video_url.text = SLICE("https://films.example/?a=1&b=2");
    o->post.front.video_name.text = SLICE("Folding <it>");
    o->post.front.storage.text = SLICE("3 days in the fridge");
    const char *html = fragment_of(a, o, 2, 0);
    holds(html, "<a href=\"https://films.example/?a=1&amp;b=2\">Video: Folding "
                "&lt;it&gt;</a>");
    holds(html, "<b>Keeping:</b> 3 days in the fridge");
}

static void
microwave_times_without_power_are_told(void **state)
{
    struct arena *a = *state;
    struct outcome *o = hand_outcome(a);
    struct microwave_row bare[] = {{.part = 0, .step = 1, .stated_seconds = 90},
                                   {.part = 1, .step = 0, .stated_seconds = 120}};
    lacks(fragment_of(a, o, 2, 0), "No power is stated");
    o->microwave.bare = bare;
    o->microwave.bare_count = 2;
    holds(fragment_of(a, o, 2, 0), "No power is stated for step 2, 90 s and step 3, 2 min.");
    o->microwave.count = 0;
    holds(fragment_of(a, o, 2, 0), "In the microwave</summary>\n<p>No power");
}

static void
what_is_cooked_from_comes_before_what_is_looked_up(void **state)
{
    static const char *const order[] = {"<h2>",
                                        "class=\"dl-byline\"",
                                        "<figure",
                                        "\"dl-facts\"",
                                        "\"dl-standing\"",
                                        "\"dl-allergens\"",
                                        "Ingredients</h3>",
                                        "Method</h3>",
                                        "<details"};
    struct arena *a = *state;
    const char *at = fragment_of(a, hand_outcome(a), 2, 0);
    for (size_t i = 0; i < sizeof order / sizeof *order; i++) {
        const char *next = strstr(at, order[i]);
        if (next == NULL)
            fail_msg("not behind the one before it: %s\nin: %s", order[i], at);
        at = next;
    }
}

static void
our_words_stay_english_beside_an_authors(void **state)
{
    struct arena *a = *state;
    struct outcome *o = hand_outcome(a);
    o->post.front.language.text = SLICE("ar");
    const char *html = fragment_of(a, o, 2, 0);
    holds(html, "<article class=\"dl-recipe\" id=\"slice\" lang=\"en\">");
    holds(html, "<div lang=\"ar\" dir=\"auto\">\n<h2>");
    holds(html, "<ul class=\"dl-list\" lang=\"ar\">");
    holds(html, "<ol class=\"dl-steps\" lang=\"ar\">");
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
        cmocka_unit_test_setup_teardown(headings_nest_and_authors_words_are_escaped, open_arena,
                                        close_arena),
        cmocka_unit_test_setup_teardown(shares_are_numbers_words_and_bars, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(lines_stay_the_cooks_own, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(regions_differ_where_they_must, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(the_method_has_anchors_times_and_cautions, open_arena,
                                        close_arena),
        cmocka_unit_test_setup_teardown(claims_that_do_not_hold_are_not_printed, open_arena,
                                        close_arena),
        cmocka_unit_test_setup_teardown(tables_and_sources_are_given, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(the_picture_stands_with_its_words, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(a_video_is_linked_and_keeping_is_told, open_arena,
                                        close_arena),
        cmocka_unit_test_setup_teardown(what_is_cooked_from_comes_before_what_is_looked_up,
                                        open_arena, close_arena),
        cmocka_unit_test_setup_teardown(our_words_stay_english_beside_an_authors, open_arena,
                                        close_arena),
        cmocka_unit_test_setup_teardown(microwave_times_without_power_are_told, open_arena,
                                        close_arena),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
