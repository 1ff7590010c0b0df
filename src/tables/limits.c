#include "tables/limits.h"
#include "read/yaml_value.h"
#include "tables/row.h"

#include <string.h>

/* g of one group in a portion; and how often another phase's limit */
enum { LIMIT_MOST = 1000, MULTIPLE_MOST = 1000 };

static const double multiple_least = 0.001;

static const struct figure *
known(const struct figure *f)
{
    return figure_known(f) ? f : NULL;
}

const struct figure *
limits_fresh(const struct phase *p, enum group g, struct reads *reads)
{
    reads_note(reads, &p->groups[g].entry);
    return p->groups[g].lifted ? NULL : known(&p->groups[g].fresh_produce);
}

const struct figure *
limits_sitting(const struct phase *p, struct reads *reads)
{
    reads_note(reads, &p->sitting_entry);
    return known(&p->sitting);
}

bool
limits_hold(const struct phase *p, enum group g, struct reads *reads)
{
    reads_note(reads, &p->groups[g].entry);
    return !p->groups[g].lifted && figure_known(&p->groups[g].grams);
}

double
limits_weight(const struct phase *p, enum group g)
{
    const struct limit *l = &p->groups[g];
    return l->lifted ? 0 : l->multiple > 0 ? 1 / l->multiple : 1;
}

int
limits_phase(const struct limits *l, struct slice id)
{
    for (size_t i = 0; i < l->phase_count; i++)
        if (slice_is(id, l->phases[i].id))
            return (int)i;
    return -1;
}

/* what the mapping of one group's limit says */
struct front_limit {
    const struct yaml_node *map, *grams, *by_class, *fresh, *source, *basis, *multiple, *lifted,
        *changed, *scope;
};

static const char *const limit_keys[] = {"grams",    "by-class", "fresh-produce", "source", "basis",
                                         "multiple", "lifted",   "changed",       "scope",  NULL};

static bool
take_keys(const struct yaml_node *map, struct row *row, struct front_limit *given)
{
    const struct yaml_node **const values[] = {&given->grams,  &given->by_class, &given->fresh,
                                               &given->source, &given->basis,    &given->multiple,
                                               &given->lifted, &given->changed,  &given->scope};
    if (map->kind != YAML_MAP_NODE)
        return row_wants(row, map, "the limit", "a mapping",
                         "it as {grams: (g), source: \"...\", basis: published}");
    given->map = map;
    for (size_t i = 0; i < map->count; i++) {
        int k = row_word(yaml_key(map, i)->text, limit_keys);
        if (k < 0)
            return row_key_unknown(row, yaml_key(map, i), "a limit", limit_keys);
        *values[k] = yaml_value(map, i);
    }
    return true;
}

/* a plain number of the row, with the row's source and basis, as a figure: a limit has no width, so
 * the mapping that other figures are is none */
static bool
take_number(const struct front_limit *given, const struct yaml_node *number, struct row *row,
            const char *part, struct figure *out)
{
    double value;
    struct figure f = {.basis = BASIS_NONE};
    const struct figure_asked asked = {.what = part};
    const struct yaml_node *mid = yaml_get(number, "mid");
    if (number->kind == YAML_MAP_NODE)
        return row_wrong(
            row, number,
            text_format(row->arena, "Write %s: %s, and source: and basis: beside it.", part,
                        mid != NULL && mid->text.length > 0 && mid->text.length < 20
                            ? slice_string(row->arena, mid->text)
                            : "the number alone"),
            "%s is a mapping; a number of grams is wanted, as a limit has no width", part);
    if (!row_number(row, number, part, 0, LIMIT_MOST, &value))
        return false;
    if (value <= 0)
        return row_wrong(row, number, "Write a number of grams over zero, or lifted: yes for none.",
                         "%s is zero, which nothing keeps", part);
    if (!figure_read_origin(row, given->map, &asked, &f))
        return false;
    f.span = span_exact(value);
    *out = f;
    return true;
}

static const char *
class_at(int i)
{
    return groups_class_word((enum food_class)i);
}

static bool
take_classes(const struct front_limit *given, struct row *row, struct figure *by_class)
{
    const struct yaml_node *map = given->by_class;
    if (map->kind != YAML_MAP_NODE)
        return row_wants(row, map, "by-class", "a mapping of classes to grams",
                         "by-class: {grain: 0.3}");
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i);
        int c = 0;
        while (c < CLASSES && !slice_is(k->text, class_at(c)))
            c++;
        if (c == CLASSES)
            return row_word_unknown(row, k, "by-class", "class of foods",
                                    row_words(row->arena, class_at, CLASSES));
        if (!take_number(given, yaml_value(map, i), row, class_at(c), &by_class[c]))
            return false;
    }
    return true;
}

static bool
take_changed(const struct front_limit *given, struct row *row, const char **out)
{
    if (given->changed == NULL)
        return true;
    *out = slice_string(row->texts, given->changed->text);
    return row_date(row, given->changed);
}

static bool
take_scope(const struct front_limit *given, struct row *row, struct limit *l)
{
    static const char *const scopes[] = {"food", "portion", NULL};
    if (given->scope == NULL)
        return true;
    int word = row_word(given->scope->text, scopes);
    if (word < 0)
        return row_word_unknown(row, given->scope, "scope", "scope of a limit", scopes);
    l->scope = (enum scope)word;
    if (l->scope == SCOPE_PORTION && (given->by_class != NULL || given->fresh != NULL))
        return row_wrong(row, given->map,
                         "Take by-class: and fresh-produce: out, or write scope: food.",
                         "a limit of the whole portion has a by-class or fresh-produce");
    return true;
}

/* what the mapping says of a limit, into `l`; its multiple is 0 where it says none */
static bool
read_limit(const struct front_limit *given, struct row *row, struct limit *l)
{
    if (given->lifted != NULL && !row_truth(row, given->lifted, "lifted", &l->lifted))
        return false;
    if (given->multiple != NULL &&
        !row_number(row, given->multiple, "multiple", multiple_least, MULTIPLE_MOST, &l->multiple))
        return false;
    if (given->grams == NULL && given->multiple == NULL && !l->lifted)
        return row_wrong(row, given->map,
                         "Add grams: in g, multiple: of another phase's limit, or lifted: "
                         "yes.",
                         "the limit has no grams, multiple or lifted");
    if (given->grams != NULL)
        l->multiple = 0;
    return take_scope(given, row, l) &&
           (given->grams == NULL || take_number(given, given->grams, row, "grams", &l->grams)) &&
           (given->fresh == NULL ||
            take_number(given, given->fresh, row, "fresh-produce", &l->fresh_produce)) &&
           (given->by_class == NULL || take_classes(given, row, l->by_class)) &&
           take_changed(given, row, &l->entry.changed);
}

static const char *
group_at(int i)
{
    return groups_word((enum group)i);
}

static void
take_group(const struct yaml_node *key, const struct yaml_node *map, struct row *row,
           struct phase *p)
{
    enum group g;
    struct front_limit given = {0};
    struct limit l = {0};
    row->entry = text_formatted(row->arena, "%s/%.*s", p->id, SLICE_ARGS(key->text));
    row->until = "Until then this limit is left out.";
    if (!groups_read(key->text, &g)) {
        row_word_unknown(row, key, "groups", "group of carbohydrates",
                         row_words(row->arena, group_at, GROUPS));
        return;
    }
    row->until = figure_known(&p->groups[g].grams)
                     ? "Until then the limit of the tables before this one holds."
                     : "Until then this group has no limit here.";
    if (!take_keys(map, row, &given) || !read_limit(&given, row, &l))
        return;
    p->groups[g] = l;
}

static void
take_sitting(const struct yaml_node *map, struct row *row, struct phase *p)
{
    struct front_limit given = {0};
    struct limit l = {0};
    row->entry = text_formatted(row->arena, "%s/sitting", p->id);
    row->until = figure_known(&p->sitting)
                     ? "Until then the total of the tables before this one holds."
                     : "Until then a sitting has no total here.";
    if (!take_keys(map, row, &given))
        return;
    if (given.by_class != NULL || given.fresh != NULL || given.lifted != NULL ||
        given.scope != NULL) {
        row_wrong(row, map, "Keep grams: or multiple:, source: and basis:.",
                  "a sitting has no by-class, fresh-produce, lifted or scope");
        return;
    }
    if (!read_limit(&given, row, &l))
        return;
    p->sitting_multiple = l.multiple;
    if (given.grams != NULL) {
        p->sitting = l.grams;
        p->sitting_entry.changed = l.entry.changed;
    }
}

/* the phase of that id, new where there is none; NULL after it was said that there are too many */
static struct phase *
phase_of(const struct yaml_node *key, struct row *row, struct limits *l)
{
    int at = limits_phase(l, key->text);
    if (at >= 0)
        return &l->phases[at];
    if (l->phase_count == PHASES_MOST) {
        row_wrong(row, key, "Take one out.", "there are more than %d phases", PHASES_MOST);
        return NULL;
    }
    const char *id = slice_string(row->texts, key->text);
    l->phases[l->phase_count] = (struct phase){.id = id, .name = id};
    return &l->phases[l->phase_count++];
}

static void
take_phase(const struct yaml_node *key, const struct yaml_node *map, struct row *row,
           struct limits *l)
{
    static const char *const keys[] = {"name", "base", "groups", "sitting", NULL};
    const char *id = slice_string(row->arena, key->text);
    row->entry = key->text;
    row->until = NULL;
    if (!row_map(row, map, "the phase", text_format(row->arena, "%s: {groups: {...}}", id)))
        return;
    struct phase *p = phase_of(key, row, l);
    for (size_t i = 0; p != NULL && i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i), *v = yaml_value(map, i);
        row->entry = key->text;
        row->until = NULL;
        if (slice_is(k->text, "name") && row_text(row, v, "name"))
            p->name = slice_string(row->texts, v->text);
        else if (slice_is(k->text, "base") && row_text(row, v, "base"))
            p->base = slice_string(row->texts, v->text);
        else if (slice_is(k->text, "sitting"))
            take_sitting(v, row, p);
        else if (slice_is(k->text, "groups") && row_map(row, v, "groups", "groups: {fructan: ...}"))
            for (size_t j = 0; j < v->count; j++)
                take_group(yaml_key(v, j), yaml_value(v, j), row, p);
        else if (row_word(k->text, keys) < 0)
            row_key_unknown(row, k, "a phase", keys);
    }
}

/* a phase that another is built on is there, perhaps in a table before */
static void
check_base(const struct yaml_node *phases, struct row *row, const struct limits *l)
{
    for (size_t i = 0; i < phases->count; i++) {
        const struct yaml_node *base = yaml_get(yaml_value(phases, i), "base");
        const char **known = arena_take_array(row->arena, PHASES_MOST + 1, sizeof *known);
        row->entry = yaml_key(phases, i)->text;
        row->until = "Until then it has its own limits alone.";
        for (size_t k = 0, count = 0; k < l->phase_count; k++)
            if (!slice_is(row->entry, l->phases[k].id))
                known[count++] = l->phases[k].id;
        if (base != NULL && base->text.length > 0 && row_word(base->text, known) < 0)
            row_word_unknown(row, base, "base", "other phase", known);
    }
}

static void
take_threshold(const struct yaml_node *root, const char *key, struct row *row, struct figure *out)
{
    const struct figure_asked asked = {key, "parts of 1: 0.5", 1, true, {NULL, 0}, false};
    const struct yaml_node *node = yaml_get(root, key);
    struct figure f;
    row->entry = slice_of(key);
    if (node != NULL && figure_read(row, node, &asked, &f))
        *out = f;
}

void
limits_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
            struct limits *out)
{
    struct row row = {.arena = a, .texts = a, .notices = notices};
    const struct yaml_node *phases = yaml_get(root, "phases");
    take_threshold(root, "over-at", &row, &out->over_at);
    take_threshold(root, "close-at", &row, &out->close_at);
    if (phases == NULL || phases->kind != YAML_MAP_NODE)
        return;
    for (size_t i = 0; i < phases->count; i++)
        take_phase(yaml_key(phases, i), yaml_value(phases, i), &row, out);
    check_base(phases, &row, out);
}

static struct figure
multiplied(struct arena *a, const struct figure *f, double by)
{
    struct figure out = *f;
    if (!figure_known(f))
        return out;
    out.span = span_scale(f->span, by);
    out.source = text_format(a, "a reader's own: %g times %s", by, f->source);
    out.basis = BASIS_CALCULATED;
    return out;
}

/* a limit that a derived phase gives as a multiple, or says nothing of */
static void
derive(struct arena *a, const struct phase *base, struct phase *p)
{
    for (int g = 0; g < GROUPS; g++) {
        struct limit *l = &p->groups[g];
        const struct limit *from = &base->groups[g];
        const double by = l->multiple;
        if (l->lifted || figure_known(&l->grams))
            continue;
        l->scope = from->scope;
        if (by <= 0) {
            struct entry entry = l->entry;
            *l = *from;
            l->entry = entry;
            continue;
        }
        l->grams = multiplied(a, &from->grams, by);
        l->fresh_produce = multiplied(a, &from->fresh_produce, by);
        for (int c = 0; c < CLASSES; c++)
            l->by_class[c] = multiplied(a, &from->by_class[c], by);
    }
    if (p->sitting_multiple > 0)
        p->sitting = multiplied(a, &base->sitting, p->sitting_multiple);
    else if (!figure_known(&p->sitting))
        p->sitting = base->sitting;
}

static uint64_t
limit_digest(const struct limit *l)
{
    if (!l->lifted && !figure_known(&l->grams))
        return 0;
    uint64_t d = figure_digest(&l->grams, (uint64_t)l->scope << 2 | (l->lifted ? 2 : 1));
    d = slice_digest((struct slice){(const char *)&l->multiple, sizeof l->multiple}, d);
    for (int c = 0; c < CLASSES; c++)
        d = figure_digest(&l->by_class[c], d);
    return figure_digest(&l->fresh_produce, d);
}

void
limits_close(struct arena *a, struct limits *l)
{
    static const struct figure over = {.span = {0.5, 0.5, 0.5}}, close = {.span = {0.2, 0.2, 0.2}};
    if (!figure_known(&l->over_at))
        l->over_at = over;
    if (!figure_known(&l->close_at))
        l->close_at = close;
    for (size_t i = 0; i < l->phase_count; i++) {
        struct phase *p = &l->phases[i];
        int base = p->base != NULL ? limits_phase(l, slice_of(p->base)) : -1;
        if (base >= 0 && (size_t)base != i)
            derive(a, &l->phases[base], p);
        /* the chances from which a portion is over or close belong to every phase's standing */
        uint64_t chances = figure_digest(&l->over_at, figure_digest(&l->close_at, 0));
        reads_entry_name(&p->entry, text_format(a, "phase:%s", p->id));
        p->entry.digest = slice_digest(slice_of(p->name), chances);
        reads_entry_name(&p->sitting_entry, text_format(a, "limit:%s/sitting", p->id));
        p->sitting_entry.digest = figure_known(&p->sitting) ? figure_digest(&p->sitting, 0) : 0;
        for (int g = 0; g < GROUPS; g++) {
            struct limit *m = &p->groups[g];
            reads_entry_name(&m->entry,
                             text_format(a, "limit:%s/%s", p->id, groups_word((enum group)g)));
            m->entry.digest = limit_digest(m);
        }
    }
}

uint64_t
limits_ask(const struct limits *l, struct slice key)
{
    for (size_t i = 0; i < l->phase_count; i++) {
        const struct phase *p = &l->phases[i];
        if (slice_is(key, p->entry.key))
            return p->entry.digest;
        if (slice_is(key, p->sitting_entry.key))
            return p->sitting_entry.digest;
        for (int g = 0; g < GROUPS; g++)
            if (slice_is(key, p->groups[g].entry.key))
                return p->groups[g].entry.digest;
    }
    return 0;
}
