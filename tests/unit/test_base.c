#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>
#include <xxhash.h>

#include "base/list.h"
#include "base/map.h"
#include "base/reads.h"
#include "base/span.h"

static void
arena_gives_zeroed_aligned_memory(void **state)
{
    (void)state;
    struct arena *a = arena_open(64);
    assert_int_equal(setjmp(*arena_guard(a)), 0);
    for (size_t n = 1; n < 5000; n = n * 3 + 1) {
        unsigned char *p = arena_take(a, n);
        assert_int_equal((uintptr_t)p % _Alignof(max_align_t), 0);
        for (size_t i = 0; i < n; i++)
            assert_int_equal(p[i], 0);
        memset(p, 0xa5, n);
    }
    arena_reset(a);
    assert_true(arena_size(a) <= 64);
    unsigned char *again = arena_take(a, 64);
    for (size_t i = 0; i < 64; i++)
        assert_int_equal(again[i], 0);
    arena_close(a);
}

static void
arena_jumps_when_exhausted(void **state)
{
    (void)state;
    struct arena *a = arena_open(64);
    volatile int jumped = 0;
    if (setjmp(*arena_guard(a)) == 0)
        arena_take_array(a, SIZE_MAX / 4, 16);
    else
        jumped = 1;
    assert_int_equal(jumped, 1);
    arena_close(a);
}

static void
lent_memory_is_kept_by_realloc(void **state)
{
    (void)state;
    struct arena *a = arena_open(64);
    for (int lend = 0; lend < 2; lend++) {
        struct arena *before = arena_lend(lend ? a : NULL);
        char *p = arena_lent_malloc(4);
        memcpy(p, "abc", 4);
        p = arena_lent_realloc(p, 4000);
        assert_string_equal(p, "abc");
        arena_lent_free(p);
        arena_lend(before);
    }
    arena_close(a);
}

static void
map_finds_what_was_put_in_order(void **state)
{
    (void)state;
    struct arena *a = arena_open(1024);
    struct map m = map_for(a, 20); /* outgrown below */
    assert_null(map_get(&m, SLICE("key 0")));
    for (int i = 0; i < 1000; i++) {
        char *key = text_format(a, "key %d", i);
        assert_true(map_put(&m, slice_of(key), key));
    }
    assert_false(map_put(&m, SLICE("key 7"), "seven"));
    assert_string_equal(map_get(&m, SLICE("key 7")), "seven");
    assert_string_equal(map_get(&m, SLICE("key 999")), "key 999");
    assert_null(map_get(&m, SLICE("key 1000")));
    for (size_t i = 0; i < m.count; i++)
        assert_string_equal(m.rows[i].key.at, text_format(a, "key %zu", i));
    arena_close(a);
}

static void
numbers_have_no_trailing_zeros(void **state)
{
    (void)state;
    static const struct {
        double value;
        int decimals;
        const char *text;
    } cases[] = {{0.5, 2, "0.5"},     {12, 2, "12"},   {0.066, 2, "0.07"}, {-0.001, 2, "0"},
                 {1234.5, 0, "1234"}, {100, 0, "100"}, {0.30, 3, "0.3"}};
    struct arena *a = arena_open(1024);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct text t = text_new(a);
        text_add_number(&t, cases[i].value, cases[i].decimals);
        assert_string_equal(t.bytes, cases[i].text);
    }
    struct text t = text_new(a);
    text_add_html(&t, SLICE("<a href='x'>&\"</a>"));
    assert_string_equal(t.bytes, "&lt;a href=&#39;x&#39;&gt;&amp;&quot;&lt;/a&gt;");
    arena_close(a);
}

static void
slices_are_trimmed_and_found(void **state)
{
    (void)state;
    struct slice s = slice_trim(SLICE(" \t\xc2\xa0word and word\xe2\x80\xaf \n"));
    assert_true(slice_is(s, "word and word"));
    assert_int_equal(slice_trim(SLICE("\xe2\x80\x89\xc2\xa0\xe2\x80\xaf")).length, 0);
    assert_true(slice_is(slice_trim(SLICE("é\xc2\xa0")), "é"));
    assert_true(slice_is(slice_trim(SLICE("\xa0 \x89")), "\xa0 \x89"));
    assert_int_equal(slice_find(s, "word", 1), 9);
    assert_int_equal(slice_find(s, "words", 0), SIZE_MAX);
    assert_int_equal(slice_find(s, "word", 99), SIZE_MAX);
    assert_int_equal(slice_characters(SLICE("½ cup")), 5);
    assert_true(slice_is_anycase(SLICE("TBSP"), "tbsp"));
    assert_int_equal(slice_order(SLICE("ab"), SLICE("abc")), -1);
}

static void
plain_bytes_are_passed_over(void **state)
{
    (void)state;
    char bytes[50];
    for (int c = 0; c < 256; c++)
        for (size_t at = 0; at < sizeof bytes; at += 7) {
            memset(bytes, 'a', sizeof bytes);
            bytes[at] = (char)c;
            bool odd = c < 0x20 || c > 0x7e || (c != 0 && strchr("\"&'<>\\", c) != NULL);
            struct slice s = {bytes, sizeof bytes};
            assert_int_equal(slice_plain(s, 0), odd ? at : sizeof bytes);
            assert_int_equal(slice_plain(s, at + 1), sizeof bytes);
            assert_int_equal(slice_plain(slice_part(s, 0, at), 0), at);
        }
    /* every length, from every place, with one odd byte anywhere */
    memset(bytes, 'a', sizeof bytes);
    for (size_t odd = 0; odd < sizeof bytes; odd++) {
        bytes[odd] = '<';
        for (size_t length = 0; length <= sizeof bytes; length++)
            for (size_t from = 0; from <= length; from++)
                assert_int_equal(slice_plain((struct slice){bytes, length}, from),
                                 odd >= from && odd < length ? odd : length);
        bytes[odd] = 'a';
    }
}

static void
whole_numbers_and_html_are_written(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    assert_int_equal(setjmp(*arena_guard(a)), 0);
    struct text t = text_new(a);
    static const uint64_t wholes[] = {0, 9, 10, 1234567890, UINT64_MAX};
    for (size_t i = 0; i < sizeof wholes / sizeof *wholes; i++) {
        text_add_whole(&t, wholes[i]);
        text_add_byte(&t, ' ');
    }
    assert_string_equal(t.bytes, "0 9 10 1234567890 18446744073709551615 ");
    t.length = 0;
    text_add_html(&t, SLICE("plain & <b>\"it's\"</b>\x07, and plain to the end of it"));
    assert_string_equal(t.bytes, "plain &amp; &lt;b&gt;&quot;it&#39;s&quot;&lt;/b&gt;, and plain "
                                 "to the end of it");
    t.length = 0;
    text_add_html(&t, SLICE("caf\xc3\xa9\xc2\x85 &"));
    assert_string_equal(t.bytes, "caf\xc3\xa9 &amp;");
    arena_close(a);
}

static void
formats_widen_what_they_write_to(void **state)
{
    struct arena *a = arena_open(4096);
    (void)state;
    assert_int_equal(setjmp(*arena_guard(a)), 0);
    char long_one[600];
    memset(long_one, 'x', sizeof long_one - 1);
    long_one[sizeof long_one - 1] = '\0';
    struct text t = text_new(a);
    text_addf(&t, "%s|%.*s|%.*s|%u|%zu", "", 2, "abc", 9, "de", UINT32_MAX, (size_t)0);
    assert_string_equal(t.bytes, "|ab|de|4294967295|0");
    text_addf(&t, " %-3s| %5.2f%%", "x", 1.5);
    assert_string_equal(t.bytes, "|ab|de|4294967295|0 x  |  1.50%");
    struct text l = text_new(a);
    text_addf(&l, "%s%s", long_one, long_one);
    assert_int_equal(l.length, 2 * (sizeof long_one - 1));
    assert_int_equal(text_formatted(a, "%s/%s", long_one, "y").length, sizeof long_one + 1);
    assert_string_equal(text_format(a, "%.*s.%s", 0, "no", "yes"), ".yes");
    arena_close(a);
}

static void
spans_keep_their_order(void **state)
{
    (void)state;
    struct span s = span_over(span_make(1, 2, 3), span_make(2, 4, 5));
    assert_true(span_valid(s));
    assert_float_equal(s.low, 0.2, 1e-9);
    assert_float_equal(s.mid, 0.5, 1e-9);
    assert_float_equal(s.high, 1.5, 1e-9);
    assert_true(span_overlap(span_between(1, 2), span_between(2, 3)));
    assert_false(span_overlap(span_between(1, 2), span_between(2.1, 3)));
    struct span c = span_cover(span_exact(2), span_make(3, 4, 6));
    assert_float_equal(c.low, 2, 0);
    assert_float_equal(c.mid, 3, 0);
    assert_float_equal(c.high, 6, 0);
}

static void
reads_keep_each_entry_once(void **state)
{
    (void)state;
    struct arena *a = arena_open(1024);
    struct reads r = reads_new(a);
    struct entry banana = {.digest = 7, .changed = "2026-02-01"};
    struct entry limit = {.digest = 9, .changed = "2026-03-01"};
    reads_entry_name(&banana, "food:banana");
    reads_entry_name(&limit, "limit:strict/fructan");
    reads_note(&r, &banana);
    reads_note(&r, &limit);
    reads_note(&r, &banana);
    reads_note(NULL, &banana);
    reads_note(&r, NULL);
    reads_note_question(&r, SLICE("find:us/cup/quince"), 0);
    reads_note_question(&r, SLICE("find:us/cup/quince"), 0);
    assert_int_equal(r.count, 3);
    assert_ptr_equal(r.items[0], &banana);
    assert_ptr_equal(r.items[1], &limit);
    assert_string_equal(r.items[2]->key, "find:us/cup/quince");
    assert_true(reads_hold(&r, SLICE("food:banana")));
    assert_false(reads_hold(&r, SLICE("food:quince")));
    reads_note(&r, &banana);
    assert_string_equal(reads_changed(&r), "2026-03-01");
    arena_close(a);
}

/* hashes of others may be the same, wholly or in the half that is held beside the place */
static void
maps_tell_keys_of_one_hash_apart(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct map m = map_new(a);
    int values[30];
    char keys[30][2];
    for (size_t i = 0; i < 30; i++) {
        memcpy(keys[i], (char[]){(char)('a' + i), 'x'}, 2);
        const uint64_t hash = UINT64_C(5) << 32 | (uint64_t)(i % 2) << 40 | (i % 3);
        assert_null(map_get_hashed(&m, (struct slice){keys[i], 2}, hash));
        assert_true(map_put_hashed(&m, (struct slice){keys[i], 2}, hash, &values[i]));
        assert_false(map_put_hashed(&m, (struct slice){keys[i], 2}, hash, &values[i]));
    }
    for (size_t i = 0; i < 30; i++) {
        const uint64_t hash = UINT64_C(5) << 32 | (uint64_t)(i % 2) << 40 | (i % 3);
        assert_ptr_equal(map_get_hashed(&m, (struct slice){keys[i], 2}, hash), &values[i]);
        assert_null(map_get_hashed(&m, (struct slice){keys[i], 1}, hash));
    }
    assert_int_equal(m.count, 30);
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(arena_gives_zeroed_aligned_memory),
        cmocka_unit_test(arena_jumps_when_exhausted),
        cmocka_unit_test(lent_memory_is_kept_by_realloc),
        cmocka_unit_test(map_finds_what_was_put_in_order),
        cmocka_unit_test(numbers_have_no_trailing_zeros),
        cmocka_unit_test(slices_are_trimmed_and_found),
        cmocka_unit_test(plain_bytes_are_passed_over),
        cmocka_unit_test(whole_numbers_and_html_are_written),
        cmocka_unit_test(formats_widen_what_they_write_to),
        cmocka_unit_test(spans_keep_their_order),
        cmocka_unit_test(reads_keep_each_entry_once),
        cmocka_unit_test(maps_tell_keys_of_one_hash_apart),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
