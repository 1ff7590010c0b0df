#include "tables/measure_rows.h"

#include <string.h>

#include "base/list.h"
#include "read/yaml_value.h"

static const char *const kind_words[] = {
    [UNIT_VOLUME] = "volume",
    [UNIT_WEIGHT] = "weight",
    [UNIT_PIECE] = "piece",
    [UNIT_VAGUE] = "vague",
};

static void
row_wrong(struct notices *notices, const struct yaml_node *node, struct slice row, const char *why)
{
    notice_add(notices, RULE_TABLE_ROW_WRONG, node->place, row, slice_of(why));
}

static struct unit_words *
unit_known(struct measures *m, struct slice id)
{
    for (size_t i = 0; i < m->unit_count; i++)
        if (slice_is(id, m->units[i].id))
            return &m->units[i];
    return NULL;
}

static void
take_words(struct arena *a, const struct yaml_node *list, bool exact, struct unit_words *u)
{
    for (size_t i = 0; list->kind == YAML_LIST_NODE && i < list->count; i++) {
        char plain[UNIT_BYTES_MOST];
        size_t n = measure_words(list->items[i]->text, !exact, plain);
        if (n > 0)
            *LIST_GROW(a, u) = text_formatted(a, "%s%.*s", exact ? "=" : "",
                                              SLICE_ARGS(((struct slice){plain, n})));
    }
}

static void
take_shown(struct arena *a, const struct yaml_node *node, struct unit_words *u)
{
    const struct yaml_node *one = node, *many = node;
    if (node->kind == YAML_MAP_NODE) {
        one = yaml_get(node, "one");
        many = yaml_get(node, "many");
    }
    if (one != NULL)
        u->shown_one = slice_copy(a, one->text);
    if (many != NULL)
        u->shown_many = slice_copy(a, many->text);
}

static bool
take_unit_key(struct arena *a, struct slice key, const struct yaml_node *value,
              struct notices *notices, struct unit_words *u)
{
    if (slice_is(key, "kind")) {
        for (int k = UNIT_VOLUME; k <= UNIT_VAGUE; k++)
            if (slice_is(value->text, kind_words[k])) {
                u->kind = (enum unit_kind)k;
                return true;
            }
        return false;
    }
    if (slice_is(key, "spoon"))
        return yaml_truth(value, &u->spoon);
    if (slice_is(key, "grams"))
        return yaml_truth(value, &u->vague_grams);
    if (slice_is(key, "size"))
        return figure_read(a, value, notices, &u->size);
    if (slice_is(key, "shown"))
        take_shown(a, value, u);
    else if (slice_is(key, "words") || slice_is(key, "exact"))
        take_words(a, value, slice_is(key, "exact"), u);
    else
        return slice_is(key, "changed");
    return true;
}

static void
take_unit(struct arena *a, const struct yaml_node *key, const struct yaml_node *value,
          struct notices *notices, struct measures *m)
{
    if (value->kind != YAML_MAP_NODE || (m->unit_count == UNITS_MOST)) {
        row_wrong(notices, value, key->text, "a mapping is expected, or there are too many units");
        return;
    }
    struct unit_words u = {.id = slice_string(a, key->text)};
    u.shown_one = u.shown_many = slice_of(u.id);
    bool has_kind = false;
    for (size_t i = 0; i < value->count; i++) {
        const struct yaml_node *k = yaml_key(value, i), *v = yaml_value(value, i);
        if (!take_unit_key(a, k->text, v, notices, &u)) {
            row_wrong(notices, k, key->text, "this key or its value is not understood");
            return;
        }
        has_kind = has_kind || slice_is(k->text, "kind");
    }
    if (!has_kind || (u.kind == UNIT_VAGUE && !figure_known(&u.size))) {
        row_wrong(notices, value, key->text, "has no kind, or is vague without a size");
        return;
    }
    struct unit_words *known = unit_known(m, key->text);
    *(known != NULL ? known : &m->units[m->unit_count++]) = u;
}

static void
take_region_sizes(struct arena *a, const struct yaml_node *units, struct notices *notices,
                  struct region *r)
{
    for (size_t i = 0; units->kind == YAML_MAP_NODE && i < units->count; i++) {
        struct figure *f = arena_take(a, sizeof *f);
        if (figure_read(a, yaml_value(units, i), notices, f))
            map_put(&r->sizes, slice_copy(a, yaml_key(units, i)->text), f);
        else
            row_wrong(notices, yaml_key(units, i), yaml_key(units, i)->text,
                      "has no size that can be read");
    }
}

static bool
take_region_key(struct arena *a, struct slice key, const struct yaml_node *value,
                struct notices *notices, struct region *r)
{
    const char **word = NULL;
    if (slice_is(key, "name"))
        word = &r->name;
    else if (slice_is(key, "speech"))
        word = &r->speech;
    else if (slice_is(key, "allergens"))
        word = &r->allergens;
    else if (slice_is(key, "nutrition"))
        word = &r->nutrition;
    if (word != NULL) {
        *word = slice_string(a, value->text);
        return value->text.length > 0;
    }
    if (slice_is(key, "fahrenheit"))
        return yaml_truth(value, &r->fahrenheit);
    if (slice_is(key, "gas-marks"))
        return yaml_truth(value, &r->gas_marks);
    if (slice_is(key, "month-first"))
        return yaml_truth(value, &r->month_first);
    if (!slice_is(key, "units"))
        return false;
    take_region_sizes(a, value, notices, r);
    return true;
}

static void
take_region(struct arena *a, const struct yaml_node *key, const struct yaml_node *value,
            struct notices *notices, struct measures *m)
{
    int at = measures_region(m, key->text);
    if (value->kind != YAML_MAP_NODE || (at < 0 && m->region_count == REGIONS_MOST)) {
        row_wrong(notices, value, key->text,
                  "a mapping is expected, or there are too many regions");
        return;
    }
    if (at < 0) {
        at = (int)m->region_count++;
        const char *id = slice_string(a, key->text);
        m->regions[at] = (struct region){.id = id,
                                         .name = id,
                                         .speech = id,
                                         .allergens = "eu",
                                         .nutrition = "eu",
                                         .sizes = map_new(a)};
    }
    for (size_t i = 0; i < value->count; i++)
        if (!take_region_key(a, yaml_key(value, i)->text, yaml_value(value, i), notices,
                             &m->regions[at]))
            row_wrong(notices, yaml_key(value, i), key->text,
                      "this key or its value is not understood");
}

static void
take_fill(struct arena *a, const struct yaml_node *key, const struct yaml_node *value,
          struct notices *notices, struct measures *m)
{
    for (int f = FILL_LEVEL; f <= FILL_SIFTED; f++)
        if (slice_is(key->text, measure_fill_word((enum fill)f))) {
            struct figure factor;
            if (figure_read(a, value, notices, &factor))
                m->fills[f].factor = factor;
            return;
        }
    row_wrong(notices, key, key->text, "is no fill of a spoon or cup");
}

void
measure_rows_take(struct arena *a, const struct yaml_node *root, struct notices *notices,
                  struct measures *out)
{
    static const struct {
        const char *key;
        void (*take)(struct arena *, const struct yaml_node *, const struct yaml_node *,
                     struct notices *, struct measures *);
    } sections[] = {{"units", take_unit}, {"regions", take_region}, {"fills", take_fill}};
    for (size_t s = 0; s < sizeof sections / sizeof *sections; s++) {
        const struct yaml_node *rows = yaml_get(root, sections[s].key);
        for (size_t i = 0; rows != NULL && rows->kind == YAML_MAP_NODE && i < rows->count; i++)
            sections[s].take(a, yaml_key(rows, i), yaml_value(rows, i), notices, out);
    }
}

static uint64_t
unit_digest(const struct unit_row *row)
{
    uint64_t flags = (uint64_t)row->unit.kind | (uint64_t)row->unit.spoon << 4 |
                     (uint64_t)row->unit.vague_grams << 5;
    uint64_t d = slice_digest(row->unit.shown_one, flags);
    return figure_digest(&row->size, slice_digest(row->unit.shown_many, d));
}

/* the units of one region: those that have a size there, and those that need none */
static void
lay_region(struct arena *a, struct measures *m, struct region *r)
{
    for (size_t i = 0; i < m->unit_count; i++) {
        const struct unit_words *u = &m->units[i];
        const struct figure *own = map_get(&r->sizes, slice_of(u->id));
        const struct figure *size = own != NULL ? own : &u->size;
        if (!figure_known(size) && u->kind != UNIT_PIECE)
            continue;
        struct unit_row *row = arena_take(a, sizeof *row);
        row->size = *size;
        row->unit = (struct unit){u->id,          u->kind,      u->spoon,     size->span,
                                  u->vague_grams, size->source, u->shown_one, u->shown_many};
        row->entry = (struct entry){text_format(a, "unit:%s/%s", r->id, u->id), 0, NULL};
        row->entry.digest = unit_digest(row);
        r->rows[i] = row;
    }
    uint64_t flags =
        (uint64_t)r->fahrenheit | (uint64_t)r->gas_marks << 1 | (uint64_t)r->month_first << 2;
    uint64_t d = slice_digest(slice_of(r->name), flags);
    d = slice_digest(slice_of(r->speech), d);
    d = slice_digest(slice_of(r->allergens), d);
    d = slice_digest(slice_of(r->nutrition), d);
    r->entry = (struct entry){text_format(a, "region:%s", r->id), d, NULL};
}

static void
lay_spellings(struct arena *a, struct measures *m)
{
    m->spellings = map_new(a);
    m->first_words = map_new(a);
    for (size_t i = 0; i < m->unit_count; i++) {
        struct unit_words *u = &m->units[i];
        for (size_t w = 0; w < u->count; w++) {
            map_put(&m->spellings, u->items[w], u);
            char plain[UNIT_BYTES_MOST];
            bool exact = u->items[w].at[0] == '=';
            struct slice bare = slice_part(u->items[w], exact, u->items[w].length);
            struct slice first =
                measure_first_word((struct slice){plain, measure_words(bare, true, plain)});
            struct first_word *f = map_get(&m->first_words, first);
            if (f == NULL) {
                f = arena_take(a, sizeof *f);
                map_put(&m->first_words, slice_copy(a, first), f);
            }
            uint64_t d = slice_digest(u->items[w], slice_digest(slice_of(u->id), 0));
            for (size_t r = 0; r < m->region_count; r++)
                if (m->regions[r].rows[i] != NULL)
                    f->digests[r] ^= d; /* in whatever order the table lists them */
        }
    }
}

void
measure_rows_lay(struct arena *a, struct measures *m)
{
    uint64_t all = 0;
    for (size_t r = 0; r < m->region_count; r++)
        lay_region(a, m, &m->regions[r]);
    lay_spellings(a, m);
    for (size_t r = 0; r < m->region_count; r++) {
        all ^= m->regions[r].entry.digest;
        for (size_t i = 0; i < m->unit_count; i++)
            if (m->regions[r].rows[i] != NULL)
                all ^= slice_digest(slice_of(m->regions[r].rows[i]->entry.key),
                                    m->regions[r].rows[i]->entry.digest);
    }
    for (size_t i = 0; i < m->first_words.count; i++) {
        const struct first_word *f = m->first_words.rows[i].value;
        struct slice bytes = {(const char *)f->digests, sizeof f->digests};
        all ^= slice_digest(bytes, 0);
    }
    for (int f = FILL_LEVEL; f <= FILL_SIFTED; f++) {
        m->fills[f].entry.key = text_format(a, "fill:%s", measure_fill_word((enum fill)f));
        m->fills[f].entry.digest =
            figure_known(&m->fills[f].factor) ? figure_digest(&m->fills[f].factor, 0) : 0;
        all ^= slice_digest(slice_of(measure_fill_word((enum fill)f)), m->fills[f].entry.digest);
    }
    m->all = (struct entry){"measures", all, NULL};
}
