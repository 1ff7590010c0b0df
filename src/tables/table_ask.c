#include "tables/table_ask.h"

#include "read/language_tag.h"

#include <string.h>

#include "tables/food_names.h"
#include "tables/larder.h"
#include "tables/table_cache.h"

static uint64_t
ask_cautions(const struct cautions *c, struct slice key)
{
    for (size_t i = 0; i < c->count; i++) {
        if (slice_is(key, c->items[i].trigger_entry.key))
            return c->items[i].trigger_entry.digest;
        if (slice_is(key, c->items[i].words_entry.key))
            return c->items[i].words_entry.digest;
    }
    return 0;
}

uint64_t
tables_ask(const struct tables *t, struct arena *scratch, struct slice key)
{
    if (slice_begins(key, "food:") || slice_begins(key, "kin:"))
        return larder_ask(t->larder, key);
    if (slice_begins(key, "find:") || slice_begins(key, "names:") || slice_begins(key, "exactly:"))
        return food_names_ask(t->larder, scratch, key);
    if (slice_begins(key, "limit:") || slice_begins(key, "phase:"))
        return limits_ask(&t->limits, key);
    if (slice_begins(key, "caution:"))
        return ask_cautions(&t->cautions, key);
    if (slice_is(key, "words"))
        return t->words->entry.digest;
    if (slice_is(key, "cooking"))
        return t->cooking.entry.digest;
    if (slice_begins(key, "swap"))
        return swaps_ask(&t->swaps, key);
    if (slice_is(key, "site"))
        return t->site.entry.digest;
    return measures_ask(&t->measures, key);
}

/* one source with its title: "sr28 09040 1 cup"; the title is not said again where the source
 * before was the same */
static struct slice
add_source(const struct tables *t, struct slice one, struct slice before, struct text *out)
{
    size_t end = 0;
    while (end < one.length && one.at[end] != ' ' && one.at[end] != ':')
        end++;
    struct slice id = slice_part(one, 0, end);
    const struct source_row *source = sources_find(&t->sources, id);
    if (source == NULL) {
        sources_add_words(&t->sources, one, out);
        return SLICE("");
    }
    /* what a locator is, only the list of sources tells */
    struct slice title = slice_of(source->title);
    size_t locator = slice_find(title, "; locator", 0);
    bool again = slice_equal(id, before);
    if (!again)
        text_add(out, slice_part(title, 0, locator));
    struct slice rest = slice_part(one, end, one.length);
    if (slice_begins(rest, ":"))
        rest = slice_part(rest, 1, rest.length);
    rest = slice_trim(rest);
    if (rest.length > 0) {
        text_add_string(out, again ? "" : ": ");
        sources_add_words(&t->sources, rest, out);
    }
    return id;
}

const char *
tables_source(const struct tables *t, struct arena *a, const char *source)
{
    struct text out = text_new(a);
    struct slice all = slice_of(source), before = SLICE("");
    for (size_t at = 0; at < all.length;) {
        size_t end = slice_find(all, "; ", at);
        if (end == SIZE_MAX)
            end = all.length;
        if (at > 0)
            text_add_string(&out, "; ");
        before = add_source(t, slice_part(all, at, end), before, &out);
        at = end + 2;
    }
    return out.length > 0 ? out.bytes : "";
}

/* what the functions of a lexicon need */
struct speaker {
    const struct tables *tables;
    struct arena *arena;
    int region;
    struct reads *reads;
};

static const struct unit *
lexicon_unit(void *ctx, struct slice words)
{
    const struct speaker *s = ctx;
    const struct unit_row *row = measures_unit(&s->tables->measures, s->region, words, s->reads);
    return row != NULL ? &row->unit : NULL;
}

static bool
lexicon_food(void *ctx, struct slice words)
{
    const struct speaker *s = ctx;
    return food_names(s->tables->larder, s->arena, words, s->reads);
}

static bool
lexicon_exactly(void *ctx, struct slice words)
{
    const struct speaker *s = ctx;
    return food_names_exactly(s->tables->larder, s->arena, words, s->reads);
}

static void
lexicon_nearest(void *ctx, struct slice word, const char *nearest[3])
{
    const struct speaker *s = ctx;
    measures_nearest(&s->tables->measures, s->region, word, nearest);
}

struct lexicon
tables_lexicon(const struct tables *t, struct arena *a, int region, struct reads *reads)
{
    struct speaker *s = arena_take(a, sizeof *s);
    *s = (struct speaker){t, a, region, reads};
    return (struct lexicon){s,
                            lexicon_unit,
                            lexicon_food,
                            lexicon_exactly,
                            lexicon_nearest,
                            t->words,
                            language_tag_decimal_comma(slice_of(t->site.language))};
}
