#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "shown_line.h"
#include "small_lexicon.h"

static void
reads_numbers(void **state)
{
    static const struct {
        const char *text;
        size_t bytes; /* read, counted in bytes */
        double low, high;
        bool about;
    } rows[] = {
        {"2", 1, 2, 2, false},
        {"2.5 cups", 3, 2.5, 2.5, false},
        {"2,5 dl", 3, 2.5, 2.5, false},
        {"1,000 g", 5, 1000, 1000, false},
        {"0,125 l", 5, 0.125, 0.125, false},
        {".5", 2, 0.5, 0.5, false},
        {"½", 2, 0.5, 0.5, false},
        {"1½", 3, 1.5, 1.5, false},
        {"1 ½", 4, 1.5, 1.5, false},
        {"1/2", 3, 0.5, 0.5, false},
        {"1 1/2", 5, 1.5, 1.5, false},
        {"1-1/2", 5, 1.5, 1.5, false},
        {"1\xe2\x81\x84"
         "2",
         5, 0.5, 0.5, false},
        {"2 and 1/2", 9, 2.5, 2.5, false},
        {"⅐", 3, 1.0 / 7, 1.0 / 7, false},
        {"⅞", 3, 0.875, 0.875, false},
        {"2-3", 3, 2, 3, false},
        {"2–3", 5, 2, 3, false},
        {"2 to 4", 6, 2, 4, false},
        {"2 or 3", 6, 2, 3, false},
        {"½ to ¾", 8, 0.5, 0.75, false},
        {"1½-2", 5, 1.5, 2, false},
        {"between 2 and 3", 15, 2, 3, false},
        {"3-2", 1, 3, 3, false},
        {"about 2", 7, 2, 2, true},
        {"~2", 2, 2, 2, true},
        {"approx. 2", 9, 2, 2, true},
        {"a", 1, 1, 1, false},
        {"an egg", 2, 1, 1, false},
        {"half a lemon", 6, 0.5, 0.5, false},
        {"a couple of", 11, 2, 2, false},
        {"a dozen", 7, 12, 12, false},
        {"half a dozen", 12, 6, 6, false},
        {"2 dozen", 7, 24, 24, false},
        {"a few", 5, 2, 4, true},
        {"Three", 5, 3, 3, false},
        {"one and a half", 14, 1.5, 1.5, false},
        {"three quarters of a cup", 19, 0.75, 0.75, false},
        {"70%", 0, 0, 0, false},
        {"70 % chocolate", 0, 0, 0, false},
        {"1/0", 0, 0, 0, false},
        {"1/2/3", 0, 0, 0, false},
        {"apple", 0, 0, 0, false},
        {"onesie", 0, 0, 0, false},
        {"9999999999", 0, 0, 0, false},
        {"", 0, 0, 0, false},
        {"half-and-half", 0, 0, 0, false},
        {"1e5", 1, 1, 1, false},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct span value;
        bool about;
        size_t n = amount_number(english(), slice_of(rows[i].text), 0, &value, &about);
        if (n != rows[i].bytes ||
            (n > 0 && (fabs(value.low - rows[i].low) > 1e-12 ||
                       fabs(value.high - rows[i].high) > 1e-12 || about != rows[i].about)))
            fail_msg("%s: %zu bytes, %g to %g%s", rows[i].text, n, value.low, value.high,
                     about ? ", about" : "");
    }
}

/* every unit word of the lexicon is taken with a dot, a capital, stuck to its number, hyphened */
static void
reads_unit_words(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof small_units / sizeof *small_units; i++) {
        const char *words = small_units[i].words + 1;
        for (const char *end; (end = strchr(words, '|')) != NULL; words = end + 1) {
            static const char *const around[][2] = {{"2 ", ""}, {"2", ""}, {"2 ", "."}, {"2-", ""}};
            for (size_t f = 0; f < sizeof around / sizeof *around; f++) {
                char text[80];
                int n = snprintf(text, sizeof text, "%s%.*s%s", around[f][0], (int)(end - words),
                                 words, around[f][1]);
                struct amount amount;
                size_t read =
                    amount_read((struct slice){text, (size_t)n}, 0, small_lexicon(), &amount);
                if (read != (size_t)n || amount.unit != &small_units[i].unit)
                    fail_msg("%s: %zu bytes, %s", text, read,
                             amount.unit ? amount.unit->id : "no unit");
            }
        }
    }
}

static void
reads_amounts(void **state)
{
    static const struct {
        const char *text;
        size_t bytes;
        const char *shown;
    } rows[] = {
        {"2 tbsp sugar", 6, "2 tbsp"},
        {"2 heaped tbsp", 13, "heaped 2 tbsp"},
        {"heaped tbsp of", 11, "heaped 1 tbsp"},
        {"scant 1 cup", 11, "scant 1 cup"},
        {"24 fingers", 2, "24"},
        {"24 small fingers", 8, "small 24"},
        {"900 g", 5, "900 g"},
        {"1.2 L", 5, "1.2 l"},
        {"2 x 400 g tins", 9, "2x400 g"},
        {"1 14-oz can", 7, "1x14 oz"},
        {"1 (14-oz) can", 9, "1x14 oz"},
        {"200 g-250 g", 11, "200-250 g"},
        {"1 tsp to 2 tsp", 14, "1-2 tsp"},
        {"pinch of salt", 5, "1 pinch"},
        {"pinch salt", 5, "1 pinch"},
        {"clove garlic", 0, ""},
        {"clove of garlic", 5, "1 clove"},
        {"cup", 0, ""},
        {"two 2 cm pieces", 8, "2x2 cm"},
        {"3 thick slices bread", 14, "3 slice"},
        {"2 thick noodles", 1, "2"},
        {"4 fl oz", 7, "4 fl-oz"},
        {"5-spice powder", 0, ""},
        {"2 T", 3, "2 tbsp"},
        {"2 t", 3, "2 tsp"},
        {"2\" piece", 2, "2 inch"},
    };
    (void)state;
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct amount amount;
        struct text t = text_new(a);
        text_add_string(&t, "");
        size_t n = amount_read(slice_of(rows[i].text), 0, small_lexicon(), &amount);
        if (n > 0)
            show_amount(&t, &amount);
        if (n != rows[i].bytes || !slice_is(text_slice(&t), rows[i].shown))
            fail_msg("%s: %zu bytes, %s", rows[i].text, n, t.bytes);
    }
    arena_close(a);
}

static void
knows_bytes(void **state)
{
    (void)state;
    struct amount amount;
    size_t n = amount_read(SLICE("salt,  about 2 tsp more"), 5, small_lexicon(), &amount);
    assert_int_equal(n, 13);
    assert_int_equal(amount.from, 7);
    assert_int_equal(amount.to, 18);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_numbers),
        cmocka_unit_test(reads_unit_words),
        cmocka_unit_test(reads_amounts),
        cmocka_unit_test(knows_bytes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
