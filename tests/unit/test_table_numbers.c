/* Every entry of the tables has a number of its own, so that a set of them is a row of bits. */
#include "own_tables.h"

static void
take(struct map *seen, const struct entry *e)
{
    struct arena *a = seen->arena;
    assert_non_null(e->key);
    if (e->number == 0)
        fail_msg("%s has no number", e->key);
    const struct slice number = text_formatted(a, "%u", e->number);
    const struct entry *other = map_get(seen, number);
    if (other != NULL)
        fail_msg("%s and %s have one number", e->key, other->key);
    map_put(seen, number, (void *)(uintptr_t)e);
}

static void
take_food(struct map *seen, const struct food *f)
{
    take(seen, &f->identity);
    take(seen, &f->nutrients_entry);
    take(seen, &f->serve_entry);
    for (enum group g = 0; g < GROUPS; g++)
        take(seen, &f->contents_entry[g]);
    for (size_t i = 0; i < f->form_count; i++)
        take(seen, &f->forms[i].entry);
}

static void
entries_have_numbers_of_their_own(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 20);
    struct map seen = map_new(a);
    take(&seen, &t->site.entry);
    for (size_t i = 0; i < t->limits.phase_count; i++) {
        take(&seen, &t->limits.phases[i].entry);
        take(&seen, &t->limits.phases[i].sitting_entry);
        for (enum group g = 0; g < GROUPS; g++)
            take(&seen, &t->limits.phases[i].groups[g].entry);
    }
    for (size_t i = 0; i < t->cautions.count; i++) {
        take(&seen, &t->cautions.items[i].trigger_entry);
        take(&seen, &t->cautions.items[i].words_entry);
    }
    for (size_t r = 0; r < t->measures.region_count; r++)
        for (size_t i = 0; i < t->measures.unit_count; i++)
            if (t->measures.regions[r].rows[i] != NULL)
                take(&seen, &t->measures.regions[r].rows[i]->entry);
    for (int f = FILL_LEVEL; f <= FILL_SIFTED; f++)
        take(&seen, &t->measures.fills[f].entry);
    for (enum food_class c = 0; c < CLASSES; c++)
        for (enum group g = 0; g < GROUPS; g++)
            take(&seen, &t->larder->most[c][g].entry);
    for (size_t i = 0; i < larder_count(t->larder); i++)
        take_food(&seen, larder_food(t->larder, i));
    assert_true(seen.count > 1000);
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(entries_have_numbers_of_their_own)};
    return cmocka_run_group_tests(tests, take_repository_tables, drop_repository_tables);
}
