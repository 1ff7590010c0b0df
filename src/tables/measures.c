#include "tables/measures.h"

#include <string.h>

#include "base/edit.h"
#include "tables/measure_words.h"

int
measures_region(const struct measures *m, struct slice id)
{
    for (size_t i = 0; i < m->region_count; i++)
        if (slice_is_anycase(id, m->regions[i].id))
            return (int)i;
    return -1;
}

/* the unit of these words, given as they are and in lower case */
static const struct unit_words *
spelled(const struct measures *m, struct slice words, struct slice lower)
{
    char exact[UNIT_BYTES_MOST + 1] = "=";
    const size_t n = measure_words(words, false, exact + 1);
    const struct unit_words *u = map_get(&m->spellings, (struct slice){exact, n + 1});
    return u != NULL ? u : map_get(&m->spellings, lower);
}

static uint64_t
first_word_digest(const struct measures *m, int region, struct slice first)
{
    const struct first_word *w = map_get(&m->first_words, first);
    return w != NULL ? w->digests[region] : 0;
}

/* One question stands for all spellings with the same first word, so that a post keeps few. */
static void
note_first_word(const struct measures *m, int region, struct slice first, uint64_t digest,
                struct reads *reads)
{
    if (reads == NULL)
        return;
    struct text key = text_new(reads->arena);
    text_add_string(&key, "word:");
    text_add_string(&key, m->regions[region].id);
    text_add_byte(&key, '/');
    text_add(&key, first);
    reads_note_question(reads, text_slice(&key), digest);
}

const struct unit_row *
measures_unit(const struct measures *m, int region, struct slice words, struct reads *reads)
{
    char plain[UNIT_BYTES_MOST];
    if (region < 0 || (size_t)region >= m->region_count)
        return NULL;
    const struct slice lower = {plain, measure_words(words, true, plain)};
    const struct slice first = measure_first_word(lower);
    if (first.length == 0)
        return NULL;
    const struct first_word *begun = map_get(&m->first_words, first);
    note_first_word(m, region, first, begun != NULL ? begun->digests[region] : 0, reads);
    if (begun == NULL) /* as most words: no unit begins so */
        return NULL;
    const struct unit_words *u = spelled(m, words, lower);
    const struct unit_row *row = u != NULL ? m->regions[region].rows[u - m->units] : NULL;
    if (row != NULL)
        reads_note(reads, &row->entry);
    return row;
}

const struct unit_row *
measures_unit_by_id(const struct measures *m, int region, const char *id, struct reads *reads)
{
    if (region < 0 || (size_t)region >= m->region_count)
        return NULL;
    for (size_t i = 0; i < m->unit_count; i++) {
        if (strcmp(m->units[i].id, id) != 0)
            continue;
        const struct unit_row *row = m->regions[region].rows[i];
        if (row != NULL) {
            reads_note(reads, &row->entry);
            return row;
        }
    }
    if (reads != NULL)
        reads_note_question(
            reads, text_formatted(reads->arena, "unit:%s/%s", m->regions[region].id, id), 0);
    return NULL;
}

const struct figure *
measures_fill(const struct measures *m, enum fill fill, struct reads *reads)
{
    if (fill == FILL_NONE)
        return NULL;
    reads_note(reads, &m->fills[fill].entry);
    return figure_known(&m->fills[fill].factor) ? &m->fills[fill].factor : NULL;
}

/* letters changed over from one to the other, whatever their order: 0 when they are the same */
static size_t
letters_apart(struct slice a, struct slice b)
{
    int counts[256] = {0};
    size_t apart = 0;
    for (size_t i = 0; i < a.length; i++)
        counts[(unsigned char)a.at[i]]++;
    for (size_t i = 0; i < b.length; i++)
        counts[(unsigned char)b.at[i]]--;
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++)
        apart += (size_t)(counts[i] < 0 ? -counts[i] : counts[i]);
    return apart;
}

void
measures_nearest(const struct measures *m, int region, struct slice word, const char *nearest[3])
{
    enum { FAR = 99 };
    size_t distances[3] = {FAR, FAR, FAR};
    const struct unit_words *units[3] = {NULL, NULL, NULL};
    char plain[UNIT_BYTES_MOST];
    struct slice sought = {plain, measure_words(word, true, plain)};
    nearest[0] = nearest[1] = nearest[2] = NULL;
    size_t most = sought.length < 3 ? 0 : sought.length < 5 ? 1 : 2;
    for (size_t i = 0; most > 0 && i < m->spellings.count; i++) {
        const struct map_row *row = &m->spellings.rows[i];
        const struct unit_words *u = row->value;
        size_t d = edit_distance(sought, row->key, most);
        if (d > most || row->key.at[0] == '=' || m->regions[region].rows[u - m->units] == NULL)
            continue;
        d = d * 8 + letters_apart(sought, row->key); /* letters in the wrong order come first */
        size_t at = 0;
        while (at < 3 && distances[at] <= d && units[at] != u)
            at++;
        if (at == 3 || (units[at] == u && distances[at] <= d))
            continue;
        size_t last = 2;
        for (size_t k = at; k < 3; k++)
            if (units[k] == u)
                last = k;
        for (size_t k = last; k > at; k--) {
            distances[k] = distances[k - 1];
            units[k] = units[k - 1];
            nearest[k] = nearest[k - 1];
        }
        distances[at] = d;
        units[at] = u;
        nearest[at] = row->key.at;
    }
}

uint64_t
measures_ask(const struct measures *m, struct slice key)
{
    if (slice_is(key, "measures"))
        return m->all.digest;
    size_t colon = slice_find_byte(key, ':', 0);
    if (colon == SIZE_MAX)
        return 0;
    struct slice rest = slice_part(key, colon + 1, key.length);
    if (slice_begins(key, "fill:")) {
        for (int f = FILL_LEVEL; f <= FILL_SIFTED; f++)
            if (slice_is(rest, measure_fill_word((enum fill)f)))
                return m->fills[f].entry.digest;
        return 0;
    }
    size_t slash = slice_find_byte(rest, '/', 0);
    int region = measures_region(m, slice_part(rest, 0, slash == SIZE_MAX ? rest.length : slash));
    if (region < 0)
        return 0;
    if (slice_begins(key, "region:"))
        return m->regions[region].entry.digest;
    struct slice word = slice_part(rest, slash == SIZE_MAX ? rest.length : slash + 1, rest.length);
    if (slice_begins(key, "word:"))
        return first_word_digest(m, region, word);
    for (size_t i = 0; slice_begins(key, "unit:") && i < m->unit_count; i++)
        if (slice_is(word, m->units[i].id) && m->regions[region].rows[i] != NULL)
            return m->regions[region].rows[i]->entry.digest;
    return 0;
}
