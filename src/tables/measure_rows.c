#include "tables/measure_rows.h"

#include <string.h>

#include "base/list.h"
#include "read/yaml_value.h"
#include "tables/measure_words.h"
#include "tables/row.h"

static const char *const kind_words[] = {
    [UNIT_VOLUME] = "volume", [UNIT_WEIGHT] = "weight", [UNIT_PIECE] = "piece",
    [UNIT_VAGUE] = "vague",   [UNIT_VAGUE + 1] = NULL,
};

/* mL or g of one of anything that a cook measures by */
static const struct figure_asked size_asked = {"size", "mL or g", 1000000, false, {NULL, 0}, false};

static struct unit_words *
unit_known(struct measures *m, struct slice id)
{
    for (size_t i = 0; i < m->unit_count; i++)
        if (slice_is(id, m->units[i].id))
            return &m->units[i];
    return NULL;
}

static void
take_words(struct row *row, const struct yaml_node *list, bool exact, struct unit_words *u)
{
    const char *part = exact ? "exact" : "words";
    if (list->kind != YAML_LIST_NODE)
        row_wants(row, list, part, "a list of spellings", "a list, as [tsp, teaspoon]");
    for (size_t i = 0; list->kind == YAML_LIST_NODE && i < list->count; i++) {
        char plain[UNIT_BYTES_MOST];
        size_t n = measure_words(list->items[i]->text, !exact, plain);
        if (n > 0)
            *LIST_GROW(row->texts, u) = text_formatted(row->texts, "%s%.*s", exact ? "=" : "",
                                                       SLICE_ARGS(((struct slice){plain, n})));
        else
            row_wrong(row, list->items[i], "Write a word of letters, at most 48 bytes long.",
                      "%s has %s, which cannot be a unit's spelling", part,
                      row_said(row->arena, list->items[i]));
    }
}

static void
take_shown(struct row *row, const struct yaml_node *node, struct unit_words *u)
{
    static const char *const keys[] = {"one", "many", NULL};
    const struct yaml_node *one = node, *many = node;
    if (node->kind == YAML_MAP_NODE) {
        one = yaml_get(node, "one");
        many = yaml_get(node, "many");
        for (size_t i = 0; i < node->count; i++)
            if (row_word(yaml_key(node, i)->text, keys) < 0)
                row_key_unknown(row, yaml_key(node, i), "shown", keys);
    }
    if (one != NULL && row_text(row, one, "shown"))
        u->shown_one = slice_copy(row->texts, one->text);
    if (many != NULL && (many == one || row_text(row, many, "shown")))
        u->shown_many = slice_copy(row->texts, many->text);
}

static void
take_unit_key(struct row *row, const struct yaml_node *k, const struct yaml_node *v,
              struct unit_words *u)
{
    static const char *const keys[] = {"kind",  "spoon", "grams",   "size", "shown",
                                       "words", "exact", "changed", NULL};
    int kind;
    switch (row_word(k->text, keys)) {
    case 0:
        kind = row_word(v->text, kind_words);
        if (kind < 0)
            row_word_unknown(row, v, "kind", "kind of unit", kind_words);
        else
            u->kind = (enum unit_kind)kind;
        break;
    case 1:
        row_truth(row, v, "spoon", &u->spoon);
        break;
    case 2:
        row_truth(row, v, "grams", &u->vague_grams);
        break;
    case 3:
        figure_read(row, v, &size_asked, &u->size);
        break;
    case 4:
        take_shown(row, v, u);
        break;
    case 5:
    case 6:
        take_words(row, v, slice_is(k->text, "exact"), u);
        break;
    case 7:
        row_date(row, v);
        break;
    default:
        row_key_unknown(row, k, "a unit", keys);
    }
}

static void
take_unit(struct row *row, const struct yaml_node *key, const struct yaml_node *map,
          struct measures *m)
{
    struct unit_words *known = unit_known(m, key->text);
    row->until = known != NULL ? "Until then the unit of the tables before this one holds."
                               : "Until then the unit is left out.";
    if (map->kind != YAML_MAP_NODE) {
        row_wants(row, map, "the unit", "a mapping", "it as {kind: volume, words: [...]}");
        return;
    }
    if (known == NULL && m->unit_count == UNITS_MOST) {
        row_wrong(row, key, "Take some out.", "there are more than %d units", UNITS_MOST);
        return;
    }
    struct unit_words u = {.id = slice_string(row->texts, key->text)};
    u.shown_one = u.shown_many = slice_of(u.id);
    for (size_t i = 0; i < map->count; i++)
        take_unit_key(row, yaml_key(map, i), yaml_value(map, i), &u);
    if (!row->wrong && yaml_get(map, "kind") == NULL)
        row_wrong(row, key, "Add kind: volume, weight, piece or vague.", "the unit has no kind");
    if (!row->wrong && u.kind == UNIT_VAGUE && !figure_known(&u.size))
        row_wrong(row, key, "Add size: its span in mL, or in g with grams: yes.",
                  "the unit is vague and has no size");
    /* a vague word may be of next to nothing at its least; what divides must be over zero */
    double least = u.kind == UNIT_VAGUE ? u.size.span.mid : u.size.span.low;
    if (!row->wrong && figure_known(&u.size) && least <= 0)
        row_wrong(row, yaml_get(map, "size"), "Write what it is.", "size is zero");
    if (!row->wrong)
        *(known != NULL ? known : &m->units[m->unit_count++]) = u;
}

static void
take_region_sizes(struct row *row, const struct yaml_node *units, struct measures *m,
                  struct region *r)
{
    if (!row_map(row, units, "units", "units: {cup: {mid: 250, source: ...}}"))
        return;
    for (size_t i = 0; i < units->count; i++) {
        const struct yaml_node *k = yaml_key(units, i);
        struct figure_asked asked = size_asked;
        asked.over_zero = true;
        struct figure *f = arena_take(row->texts, sizeof *f);
        asked.of = k->text;
        if (unit_known(m, k->text) == NULL) {
            const char **known = arena_take_array(row->arena, UNITS_MOST + 1, sizeof *known);
            for (size_t u = 0; u < m->unit_count; u++)
                known[u] = m->units[u].id;
            row_word_unknown(row, k, "units", "unit of this table", known);
        } else if (figure_read(row, yaml_value(units, i), &asked, f)) {
            map_put(&r->sizes, slice_copy(row->texts, k->text), f);
        }
    }
}

static void
take_region_key(struct row *row, const struct yaml_node *k, const struct yaml_node *v,
                struct measures *m, struct region *r)
{
    static const char *const laws[] = {"eu", "us", NULL};
    static const char *const keys[] = {"name",        "speech",     "allergens",
                                       "nutrition",   "fahrenheit", "gas-marks",
                                       "month-first", "units",      NULL};
    const char **const texts[] = {&r->name, &r->speech, &r->allergens, &r->nutrition};
    bool *const truths[] = {&r->fahrenheit, &r->gas_marks, &r->month_first};
    int key = row_word(k->text, keys);
    if (key < 0) {
        row_key_unknown(row, k, "a region", keys);
    } else if (key < 4) {
        if ((key == 2 || key == 3) && row_word(v->text, laws) < 0)
            row_word_unknown(row, v, keys[key], "law that is known", laws);
        else if (row_text(row, v, keys[key]))
            *texts[key] = slice_string(row->texts, v->text);
    } else if (key < 7) {
        row_truth(row, v, keys[key], truths[key - 4]);
    } else {
        take_region_sizes(row, v, m, r);
    }
}

static void
take_region(struct row *row, const struct yaml_node *key, const struct yaml_node *map,
            struct measures *m)
{
    int at = measures_region(m, key->text);
    row->until = "Until then what held before holds.";
    if (!row_map(row, map, "the region", "it as {name: ..., units: {...}}"))
        return;
    if (at < 0 && m->region_count == REGIONS_MOST) {
        row_wrong(row, key, "Take some out.", "there are more than %d regions", REGIONS_MOST);
        return;
    }
    if (at < 0) {
        at = (int)m->region_count++;
        const char *id = slice_string(row->texts, key->text);
        m->regions[at] = (struct region){.id = id,
                                         .name = id,
                                         .speech = id,
                                         .allergens = "eu",
                                         .nutrition = "eu",
                                         .sizes = map_new(row->texts)};
    }
    for (size_t i = 0; i < map->count; i++)
        take_region_key(row, yaml_key(map, i), yaml_value(map, i), m, &m->regions[at]);
}

static void
take_fill(struct row *row, const struct yaml_node *key, const struct yaml_node *map,
          struct measures *m)
{
    static const struct figure_asked asked = {
        "the fill", "parts of a level one: 1.25", 10, true, {NULL, 0}, false};
    row->until = "Until then what held before holds.";
    for (int f = FILL_LEVEL; f <= FILL_SIFTED; f++)
        if (slice_is(key->text, measure_fill_word((enum fill)f))) {
            struct figure factor;
            if (figure_read(row, map, &asked, &factor))
                m->fills[f].factor = factor;
            return;
        }
    const char *known[FILL_SIFTED + 1] = {NULL};
    for (int f = FILL_LEVEL; f <= FILL_SIFTED; f++)
        known[f - FILL_LEVEL] = measure_fill_word((enum fill)f);
    row_word_unknown(row, key, "fills", "fill of a spoon or cup", known);
}

void
measure_rows_take(struct arena *a, const struct yaml_node *root, struct notices *notices,
                  struct measures *out)
{
    static const struct {
        const char *key;
        void (*take)(struct row *, const struct yaml_node *, const struct yaml_node *,
                     struct measures *);
    } sections[] = {{"units", take_unit}, {"regions", take_region}, {"fills", take_fill}};
    for (size_t s = 0; s < sizeof sections / sizeof *sections; s++) {
        const struct yaml_node *rows = yaml_get(root, sections[s].key);
        for (size_t i = 0; rows != NULL && rows->kind == YAML_MAP_NODE && i < rows->count; i++) {
            struct row row = {.arena = a, .texts = a, .notices = notices};
            row.entry = yaml_key(rows, i)->text;
            sections[s].take(&row, yaml_key(rows, i), yaml_value(rows, i), out);
        }
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
build_region(struct arena *a, struct measures *m, struct region *r)
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
        reads_entry_name(&row->entry, text_format(a, "unit:%s/%s", r->id, u->id));
        row->entry.digest = unit_digest(row);
        r->rows[i] = row;
    }
    uint64_t flags =
        (uint64_t)r->fahrenheit | (uint64_t)r->gas_marks << 1 | (uint64_t)r->month_first << 2;
    uint64_t d = slice_digest(slice_of(r->name), flags);
    d = slice_digest(slice_of(r->speech), d);
    d = slice_digest(slice_of(r->allergens), d);
    d = slice_digest(slice_of(r->nutrition), d);
    reads_entry_name(&r->entry, text_format(a, "region:%s", r->id));
    r->entry.digest = d;
}

static void
build_spellings(struct arena *a, struct measures *m)
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
measure_rows_build(struct arena *a, struct measures *m)
{
    uint64_t all = 0;
    for (size_t r = 0; r < m->region_count; r++)
        build_region(a, m, &m->regions[r]);
    build_spellings(a, m);
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
        reads_entry_name(&m->fills[f].entry,
                         text_format(a, "fill:%s", measure_fill_word((enum fill)f)));
        m->fills[f].entry.digest =
            figure_known(&m->fills[f].factor) ? figure_digest(&m->fills[f].factor, 0) : 0;
        all ^= slice_digest(slice_of(measure_fill_word((enum fill)f)), m->fills[f].entry.digest);
    }
    reads_entry_name(&m->all, "measures");
    m->all.digest = all;
}
