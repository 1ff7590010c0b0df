/* The ledger: each post's reads are packed into runs of bits; what comes back is what went in. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "press/ledger.h"

enum { ENTRIES = 700, POSTS = 300 };

struct expected {
    const struct ledger *ledger;
    const struct entry *entries;
    bool left[ENTRIES]; /* to be told of yet */
    size_t count;
};

static bool
tick(void *ctx, uint32_t key)
{
    struct expected *e = ctx;
    assert_true(key < ledger_key_count(e->ledger));
    const struct ledger_key *k = ledger_key(e->ledger, key);
    const struct slice name = ledger_string(e->ledger, k->key);
    size_t i = 0;
    while (i < ENTRIES && !slice_is(name, e->entries[i].key))
        i++;
    assert_true(i < ENTRIES && e->left[i]);
    assert_true(k->digest == e->entries[i].digest);
    e->left[i] = false;
    e->count--;
    return true;
}

static void
name_entries(struct arena *a, struct entry *entries)
{
    for (size_t i = 0; i < ENTRIES; i++) {
        entries[i] = (struct entry){.digest = i + 1};
        reads_entry_name(&entries[i], text_format(a, "food:%zu", i));
    }
}

/* runs of entries, short and long, from anywhere: what each post read is told of it, and no more */
static void
tells_what_each_post_read(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 20), *own = arena_open(1 << 16);
    struct entry entries[ENTRIES];
    struct ledger l;
    struct ledger_post posts[POSTS] = {0};
    static struct expected expected[POSTS];
    uint32_t seed = 11;
    name_entries(a, entries);
    ledger_begin(&l);
    for (size_t p = 0; p < POSTS; p++) {
        struct reads r = reads_new(own);
        expected[p] = (struct expected){.ledger = &l, .entries = entries};
        for (int run = 0; run < (int)(p % 7); run++) {
            seed = seed * 1664525u + 1013904223u;
            const size_t from = (seed >> 8) % ENTRIES, length = (seed >> 20) % (p % 2 ? 5 : 200);
            for (size_t i = from; i < from + length && i < ENTRIES; i++) {
                reads_note(&r, &entries[i]);
                expected[p].count += !expected[p].left[i];
                expected[p].left[i] = true;
            }
        }
        assert_int_equal(r.count, expected[p].count);
        assert_true(ledger_add_reads(&l, &r, &posts[p]));
        arena_reset(own);
    }
    for (size_t p = 0; p < POSTS; p++) {
        ledger_each_read(&l, &posts[p], tick, &expected[p]);
        assert_int_equal(expected[p].count, 0);
    }
    ledger_close(&l);
    arena_close(own);
    arena_close(a);
}

/* a key that is read with another value than before has the value of today */
static void
brings_values_up_to_date(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct ledger l;
    struct ledger_post post = {0};
    struct entry before = {.digest = 3}, now = {.digest = 4};
    reads_entry_name(&before, "food:oats");
    reads_entry_name(&now, "food:oats");
    ledger_begin(&l);
    struct reads first = reads_new(a), then = reads_new(a);
    reads_note(&first, &before);
    reads_note(&then, &now);
    assert_true(ledger_add_reads(&l, &first, &post));
    assert_true(ledger_add_reads(&l, &then, &post));
    assert_int_equal(ledger_key_count(&l), 1);
    assert_int_equal(ledger_key(&l, 0)->digest, 4);
    ledger_close(&l);
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tells_what_each_post_read),
        cmocka_unit_test(brings_values_up_to_date),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
