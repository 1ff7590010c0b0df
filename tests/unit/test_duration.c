/* Durations as cooks write them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <string.h>

#include "english.h"
#include "read/duration.h"
#include "read/time_span.h"

enum { S = 1, M = 60, H = 3600, D = 86400 };

static const struct expected {
    const char *text, *core; /* of the first duration */
    double low, high, times;
    enum duration_part part;
    size_t count; /* in the whole text */
} expected[] = {
    {"Stir for 2 minutes.", "2 minutes", 2 * M, 2 * M, 1, DURATION_SPENT, 1},
    {"Fry 2 min per side", "2 min", 2 * M, 2 * M, 2, DURATION_SPENT, 1},
    {"Fry for 2 min each side.", "2 min", 2 * M, 2 * M, 2, DURATION_SPENT, 1},
    {"Fry for 3 minutes on each side", "3 minutes", 3 * M, 3 * M, 2, DURATION_SPENT, 1},
    {"Sear on each side for 3 minutes", "3 minutes", 3 * M, 3 * M, 2, DURATION_SPENT, 1},
    {"Cook 2 minutes, turn and cook 2 more.", "2 minutes", 2 * M, 2 * M, 1, DURATION_SPENT, 2},
    {"Simmer for 5 to 10 minutes", "5 to 10 minutes", 5 * M, 10 * M, 1, DURATION_SPENT, 1},
    {"Simmer 5–10 min.", "5–10 min", 5 * M, 10 * M, 1, DURATION_SPENT, 1},
    {"Bake for 1½ hours", "1½ hours", 1.5 * H, 1.5 * H, 1, DURATION_SPENT, 1},
    {"Bake for 1 1/2 hours", "1 1/2 hours", 1.5 * H, 1.5 * H, 1, DURATION_SPENT, 1},
    {"Bake for 1,5 hours", "1,5 hours", 1.5 * H, 1.5 * H, 1, DURATION_SPENT, 1},
    {"Braise for an hour and a half", "an hour and a half", 1.5 * H, 1.5 * H, 1, DURATION_SPENT, 1},
    {"Braise two and a half hours", "two and a half hours", 2.5 * H, 2.5 * H, 1, DURATION_SPENT, 1},
    {"Leave for half an hour.", "half an hour", 30 * M, 30 * M, 1, DURATION_SPENT, 1},
    {"Rest for three quarters of an hour", "three quarters of an hour", 45 * M, 45 * M, 1,
     DURATION_SPENT, 1},
    {"Blend for 90 seconds", "90 seconds", 90, 90, 1, DURATION_SPENT, 1},
    {"Blend for 45 secs", "45 secs", 45, 45, 1, DURATION_SPENT, 1},
    {"Soak overnight.", "overnight", 8 * H, 12 * H, 1, DURATION_SPENT, 1},
    {"Chill overnight, 10 to 12 hours.", "overnight, 10 to 12 hours", 10 * H, 12 * H, 1,
     DURATION_SPENT, 1},
    {"Leave overnight (about 9 hours)", "overnight (about 9 hours", 9 * H, 9 * H, 1, DURATION_SPENT,
     1},
    {"Soak overnight, then cook for 2 hours", "overnight", 8 * H, 12 * H, 1, DURATION_SPENT, 2},
    {"Soak for 20 minutes, then cook, about 40 minutes in all", "20 minutes", 20 * M, 20 * M, 1,
     DURATION_INSIDE, 2},
    {"Fry for 10 minutes, then simmer for 30, 40 minutes in all", "10 minutes", 10 * M, 10 * M, 1,
     DURATION_SPENT, 3},
    {"Chill for at least 1 hour", "1 hour", H, H, 1, DURATION_SPENT, 1},
    {"Chill for at least 4 hours, preferably overnight", "4 hours, preferably overnight", 4 * H,
     12 * H, 1, DURATION_SPENT, 1},
    {"Rest for up to 10 minutes", "10 minutes", 0, 10 * M, 1, DURATION_SPENT, 1},
    {"Cook a further 5 minutes", "5 minutes", 5 * M, 5 * M, 1, DURATION_SPENT, 1},
    {"Cook for another 5 minutes", "5 minutes", 5 * M, 5 * M, 1, DURATION_SPENT, 1},
    {"Cook for 5 more minutes", "5 more minutes", 5 * M, 5 * M, 1, DURATION_SPENT, 1},
    {"Fry in two batches for 4 minutes", "4 minutes", 4 * M, 4 * M, 2, DURATION_SPENT, 1},
    {"In 3 batches, fry 2 min per side", "2 min", 2 * M, 2 * M, 6, DURATION_SPENT, 1},
    {"Fry a third at a time, 4 minutes each", "4 minutes", 4 * M, 4 * M, 3, DURATION_SPENT, 1},
    {"Uncover for the last 10 minutes", "10 minutes", 10 * M, 10 * M, 1, DURATION_INSIDE, 1},
    {"Grill for the final 10 minutes", "10 minutes", 10 * M, 10 * M, 1, DURATION_INSIDE, 1},
    {"Stir every 20 seconds", "20 seconds", 20, 20, 1, DURATION_INTERVAL, 1},
    {"Melt at 20-second intervals", "20-second", 20, 20, 1, DURATION_INTERVAL, 1},
    {"Melt in 30 second bursts", "30 second", 30, 30, 1, DURATION_INTERVAL, 1},
    {"Take the butter out 30 min before serving", "30 min", 30 * M, 30 * M, 1, DURATION_BEFORE, 1},
    {"Leave to rest for 10 minutes before slicing", "10 minutes", 10 * M, 10 * M, 1, DURATION_SPENT,
     1},
    {"Bake until golden, about 12 minutes", "12 minutes", 12 * M, 12 * M, 1, DURATION_SPENT, 1},
    {"After a 20-minute rest, shape it", "20-minute", 20 * M, 20 * M, 1, DURATION_SPENT, 1},
    {"Give it a 20-minute rest", "20-minute", 20 * M, 20 * M, 1, DURATION_SPENT, 1},
    {"Bake for 1 hr 15.", "1 hr 15", 75 * M, 75 * M, 1, DURATION_SPENT, 1},
    {"Bake 1h30 at 160", "1h30", 90 * M, 90 * M, 1, DURATION_SPENT, 1},
    {"Bake 1 hour and 20 minutes", "1 hour and 20 minutes", 80 * M, 80 * M, 1, DURATION_SPENT, 1},
    {"Bake 1h 5m", "1h 5m", 65 * M, 65 * M, 1, DURATION_SPENT, 1},
    {"Wait a minute or two", "a minute or two", M, 2 * M, 1, DURATION_SPENT, 1},
    {"Fry 30 seconds to 1 minute", "30 seconds to 1 minute", 30, M, 1, DURATION_SPENT, 1},
    {"Rest between 20 and 30 minutes", "between 20 and 30 minutes", 20 * M, 30 * M, 1,
     DURATION_SPENT, 1},
    {"Cook for twenty-five minutes", "twenty-five minutes", 25 * M, 25 * M, 1, DURATION_SPENT, 1},
    {"Keeps for up to 3 days in the fridge", "3 days", 0, 3 * D, 1, DURATION_STORAGE, 1},
    {"Store in an airtight tin for 5 days", "5 days", 5 * D, 5 * D, 1, DURATION_STORAGE, 1},
    {"Freeze for up to 3 months", "3 months", 0, 90 * D, 1, DURATION_STORAGE, 1},
    {"Leave to ferment for 3 days", "3 days", 3 * D, 3 * D, 1, DURATION_SPENT, 1},
    {"Soak the beans the day before", "the day before", 8 * H, 24 * H, 1, DURATION_SPENT, 1},
    {"Make the dough the night before", "the night before", 8 * H, 12 * H, 1, DURATION_SPENT, 1},
    {"It can be made the day before", "the day before", 8 * H, 24 * H, 1, DURATION_BEFORE, 1},
    {"Leave it until the next day", "until the next day", 8 * H, 24 * H, 1, DURATION_SPENT, 1},
    {"Cook all day in a slow cooker", "all day", 8 * H, 10 * H, 1, DURATION_SPENT, 1},
    {"Chill for at least one night", "one night", 8 * H, 12 * H, 1, DURATION_SPENT, 1},
    {"Roast for 20 minutes per 500 g", "20 minutes", 20 * M, 20 * M, 1, DURATION_INTERVAL, 1},
    {"Simmer for 3 x 10 minutes", "10 minutes", 10 * M, 10 * M, 3, DURATION_SPENT, 1},
    {"Knead for 10 minutes by hand, or 5 minutes in a mixer", "10 minutes", 10 * M, 10 * M, 1,
     DURATION_SPENT, 2},
    {"Bake for 1:30 hours", "1:30 hours", 90 * M, 90 * M, 1, DURATION_SPENT, 1},
    {"Marinate for 4 hours and up to 24.", "4 hours and up to 24", 4 * H, 24 * H, 1, DURATION_SPENT,
     1},
    {"Soak for 30 minutes (or 10 minutes in hot water)", "30 minutes (or 10 minutes", 10 * M,
     30 * M, 1, DURATION_SPENT, 1},
    {"Brown for 8 minutes in total, in two batches", "8 minutes", 8 * M, 8 * M, 1, DURATION_SPENT,
     1},
    {"Can be made up to 2 days ahead", "2 days", 0, 2 * D, 1, DURATION_BEFORE, 1},
    {"The 20 minutes are up", "20 minutes", 20 * M, 20 * M, 1, DURATION_INSIDE, 1},
    {"Simmer 10 min. per side", "10 min", 10 * M, 10 * M, 2, DURATION_SPENT, 1},
    {"Cook for 3 minutes, then the same on the other side", "3 minutes", 3 * M, 3 * M, 2,
     DURATION_SPENT, 1},
};

/* nothing here is a duration of any kind */
static const char *const harmless[] = {
    "Cut into 24 fingers.",
    "Stir in the two-minute noodles.",
    "Add the one-minute oats.",
    "Add a second egg and the second half of the flour.",
    "Use 2-day-old bread.",
    "Not for children under 12 months.",
    "Add 200 g and 2 m of string, 5 lemons.",
    "Add 2 more eggs, then 3 more.",
    "Serve twice a day.",
    "A handful of mint, 1 minus 2.",
    "Set the oven to 180.",
};

static struct durations
find(struct arena *a, const char *text)
{
    struct durations found;
    durations_find(a, words_in(a, slice_of(text)), &found);
    return found;
}

static void
finds_each_phrase(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof expected / sizeof *expected; i++) {
        const struct expected *e = &expected[i];
        struct durations found = find(a, e->text);
        if (found.count != e->count)
            fail_msg("%s: %zu durations, not %zu", e->text, found.count, e->count);
        const struct duration *d = &found.items[0];
        struct slice core = slice_part(slice_of(e->text), d->core_from, d->core_to);
        if (!slice_is(core, e->core))
            fail_msg("%s: read '%.*s'", e->text, SLICE_ARGS(core));
        if (d->seconds.low != e->low || d->seconds.high != e->high || d->times != e->times)
            fail_msg("%s: %g to %g s, %g times", e->text, d->seconds.low, d->seconds.high,
                     d->times);
        if (d->part != e->part)
            fail_msg("%s: part %d, not %d", e->text, (int)d->part, (int)e->part);
    }
    arena_close(a);
}

static void
finds_none_in_harmless_words(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof harmless / sizeof *harmless; i++)
        if (find(a, harmless[i]).count != 0)
            fail_msg("a duration in: %s", harmless[i]);
    arena_close(a);
}

static void
reads_one_alone(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double low, high;
    } whole[] = {
        {"1½ hours", 1.5 * H, 1.5 * H},   {"PT20M", 20 * M, 20 * M},
        {"P1DT2H", 26 * H, 26 * H},       {"90 min", 90 * M, 90 * M},
        {"1 h 30 min", 1.5 * H, 1.5 * H}, {" 15-20 mins ", 15 * M, 20 * M},
        {"about 2 h", 2 * H, 2 * H},      {"overnight", 8 * H, 12 * H},
        {"up to 2 hours", 0, 2 * H},      {"PT1.5H", 1.5 * H, 1.5 * H},
    };
    static const char *const wrong[] = {"",
                                        "15",
                                        "soon",
                                        "20 min and a bit of luck",
                                        "P",
                                        "PT",
                                        "PTM",
                                        "PT5",
                                        "P5X",
                                        "2 hours 3 hours",
                                        "1 h, 5 apples"};
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof whole / sizeof *whole; i++) {
        struct span s;
        if (!duration_read(a, english(), slice_of(whole[i].text), &s))
            fail_msg("not read: %s", whole[i].text);
        assert_float_equal(s.low, whole[i].low, 1e-9);
        assert_float_equal(s.high, whole[i].high, 1e-9);
    }
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        struct span s;
        if (duration_read(a, english(), slice_of(wrong[i]), &s))
            fail_msg("read: %s", wrong[i]);
    }
    arena_close(a);
}

static void
writes_iso_and_words(void **state)
{
    (void)state;
    static const struct {
        double seconds;
        const char *iso, *words;
    } written[] = {
        {0, "PT0S", "0 min"},           {45, "PT45S", "45 s"},           {90, "PT1M30S", "90 s"},
        {60, "PT1M", "1 min"},          {5400, "PT1H30M", "1 h 30 min"}, {7200, "PT2H", "2 h"},
        {86400, "P1D", "24 h"},         {129600, "PT36H", "36 h"},       {172800, "P2D", "2 days"},
        {150, "PT2M30S", "2 min 30 s"}, {3600.4, "PT1H", "1 h"},
    };
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof written / sizeof *written; i++) {
        struct text iso = text_new(a), words = text_new(a);
        duration_write_iso(&iso, written[i].seconds);
        duration_write_words(&words, written[i].seconds);
        assert_string_equal(iso.bytes, written[i].iso);
        assert_string_equal(words.bytes, written[i].words);
        struct span back;
        assert_true(duration_read(a, english(), text_slice(&iso), &back));
        assert_float_equal(back.mid, written[i].seconds, 0.5);
    }
    arena_close(a);
}

/* all that a span begins with, and nothing else */
int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(finds_each_phrase),
        cmocka_unit_test(finds_none_in_harmless_words),
        cmocka_unit_test(reads_one_alone),
        cmocka_unit_test(writes_iso_and_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
