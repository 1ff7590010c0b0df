#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "english.h"
#include "judge/clips.h"
#include "read/clips.h"
#include "write/chapters.h"

static int
open_arena(void **state)
{
    *state = arena_open(0);
    return *state == NULL;
}

static int
close_arena(void **state)
{
    arena_close(*state);
    return 0;
}

static void
times_of_a_video_are_read(void **state)
{
    static const struct {
        const char *text;
        double seconds; /* below 0: it is none */
    } rows[] = {{"0:42", 42}, {"8:12", 492},   {"1:02:03", 3723}, {"0", 0},
                {"42 s", 42}, {"75:00", 4500}, {"0:7", -1},       {"1:60", -1},
                {"soon", -1}, {"1:2:03", -1},  {":30", -1},       {"0:42 x", -1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double seconds = -1;
        const bool good = clips_time(*state, english(), slice_of(rows[i].text), &seconds);
        assert_int_equal(good, rows[i].seconds >= 0);
        if (good)
            assert_float_equal(seconds, rows[i].seconds, 1e-9);
    }
}

static struct clip
clip_at(const char *name, double seconds, size_t step)
{
    return (struct clip){.at = {slice_of("x"), {1, 1, 1}},
                         .seconds = seconds,
                         .name = {slice_of(name), {1, 1, 1}},
                         .step_number = step};
}

static void
only_clips_that_can_be_so_are_kept(void **state)
{
    struct clip items[] = {clip_at("a", 0, 0), clip_at("b", 60, 3), clip_at("c", 60, 0),
                           clip_at("d", 99.5, 0), clip_at("e", 100, 0)};
    struct post post = {.front = {.video_url = {SLICE("https://v.example/1"), {0, 0, 0}},
                                  .video_seconds = 100,
                                  .clips = {items, 5, 5}}};
    struct notices notices = {.arena = *state};
    struct clips out;
    clips_judge(&post, &(struct clip_dishes){NULL, 0}, &notices, &out);
    assert_int_equal(out.count, 3);
    assert_int_equal(notices.count, 3); /* the step, the time that stands still, the end */
    assert_int_equal(out.items[1].step_number, 0);
    assert_true(slice_is(out.items[2].name.text, "d"));
}

static void
chapters_are_web_vtt(void **state)
{
    struct clip items[] = {clip_at("Start & <go>", 0, 0), clip_at("The end\nof it", 3661.5, 0)};
    struct outcome o = {.clips = {items, 2, 3700}};
    struct text vtt = text_new(*state), lines = text_new(*state);
    assert_true(chapters_known(&o));
    chapters_write_vtt(&vtt, &o);
    assert_true(slice_is(text_slice(&vtt), "WEBVTT\n\n1\n00:00:00.000 --> 01:01:01.500\n"
                                           "Start &amp; &lt;go&gt;\n\n2\n"
                                           "01:01:01.500 --> 01:01:40.000\nThe end of it\n"));
    chapters_write_lines(&lines, &o);
    assert_true(slice_is(text_slice(&lines), "0:00:00 Start & <go>\n1:01:01 The end of it\n"));
    o.clips.seconds = 0;
    assert_false(chapters_known(&o));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(times_of_a_video_are_read, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(only_clips_that_can_be_so_are_kept, open_arena,
                                        close_arena),
        cmocka_unit_test_setup_teardown(chapters_are_web_vtt, open_arena, close_arena),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
