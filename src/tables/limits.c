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
limit_fresh(const struct phase *p, enum group g, struct reads *reads)
{
    reads_note(reads, &p->groups[g].entry);
    return p->groups[g].lifted ? NULL : known(&p->groups[g].fresh_produce);
}

const struct figure *
limit_sitting(const struct phase *p, struct reads *reads)
{
    reads_note(reads, &p->sitting_entry);
    return known(&p->sitting);
}

bool
limit_holds(const struct phase *p, enum group g, struct reads *reads)
{
    reads_note(reads, &p->groups[g].entry);
    return !p->groups[g].lifted && figure_known(&p->groups[g].per_portion);
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
    const struct yaml_node *map, *per_portion, *by_class, *fresh, *source, *basis, *multiple,
        *lifted, *changed;
};

static const char *const limit_keys[] = {"per-portion", "by-class", "fresh-produce",
                                         "source",      "basis",    "multiple",
                                         "lifted",      "changed",  NULL};

static bool
take_keys(const struct yaml_node *map, struct row *row, struct front_limit *front_value)
{
    const struct yaml_node **const values[] = {&front_value->per_portion, &front_value->by_class,
                                               &front_value->fresh,       &front_value->source,
                                               &front_value->basis,       &front_value->multiple,
                                               &front_value->lifted,      &front_value->changed};
    if (map->kind != YAML_MAP_NODE)
        return row_wants(row, map, "the limit", "a mapping",
                         "it as {per-portion: (g), source: \"...\", basis: published}");
    front_value->map = map;
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
take_number(const struct front_limit *front_value, const struct yaml_node *number, struct row *row,
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
    if (!figure_read_origin(row, front_value->map, &asked, &f))
        return false;
    *out = (struct figure){span_exact(value), f.source, f.basis};
    return true;
}

static const char *
class_at(int i)
{
    return class_word((enum food_class)i);
}

static bool
take_classes(const struct front_limit *front_value, struct row *row, struct figure *by_class)
{
    const struct yaml_node *map = front_value->by_class;
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
        if (!take_number(front_value, yaml_value(map, i), row, class_at(c), &by_class[c]))
            return false;
    }
    return true;
}

static bool
take_changed(const struct front_limit *front_value, struct row *row, const char **out)
{
    if (front_value->changed == NULL)
        return true;
    *out = slice_string(row->texts, front_value->changed->text);
    return row_date(row, front_value->changed);
}

/* what the mapping says of a limit, into `l`; `multiple` is 0 where it says none */
static bool
read_limit(const struct front_limit *front_value, struct row *row, struct limit *l,
           double *multiple)
{
    *multiple = 0;
    if (front_value->lifted != NULL && !row_truth(row, front_value->lifted, "lifted", &l->lifted))
        return false;
    if (front_value->multiple != NULL && !row_number(row, front_value->multiple, "multiple",
                                                     multiple_least, MULTIPLE_MOST, multiple))
        return false;
    if (front_value->per_portion == NULL && front_value->multiple == NULL && !l->lifted)
        return row_wrong(row, front_value->map,
                         "Add per-portion: in g, multiple: of another phase's limit, or lifted: "
                         "yes.",
                         "the limit has no per-portion, multiple or lifted");
    if (front_value->per_portion != NULL)
        *multiple = 0;
    return (front_value->per_portion == NULL || take_number(front_value, front_value->per_portion,
                                                            row, "per-portion", &l->per_portion)) &&
           (front_value->fresh == NULL || take_number(front_value, front_value->fresh, row,
                                                      "fresh-produce", &l->fresh_produce)) &&
           (front_value->by_class == NULL || take_classes(front_value, row, l->by_class)) &&
           take_changed(front_value, row, &l->entry.changed);
}

static const char *
group_at(int i)
{
    return group_word((enum group)i);
}

static void
take_group(const struct yaml_node *key, const struct yaml_node *map, struct row *row,
           struct phase *p)
{
    enum group g;
    struct front_limit front_value = {0};
    struct limit l = {0};
    double multiple;
    row->entry = text_formatted(row->arena, "%s/%.*s", p->id, SLICE_ARGS(key->text));
    row->until = "Until then this limit is left out.";
    if (!group_read(key->text, &g)) {
        row_word_unknown(row, key, "groups", "group of carbohydrates",
                         row_words(row->arena, group_at, GROUPS));
        return;
    }
    row->until = figure_known(&p->groups[g].per_portion)
                     ? "Until then the limit of the tables before this one holds."
                     : "Until then this group has no limit here.";
    if (!take_keys(map, row, &front_value) || !read_limit(&front_value, row, &l, &multiple))
        return;
    p->groups[g] = l;
    p->multiple[g] = multiple;
}

static void
take_sitting(const struct yaml_node *map, struct row *row, struct phase *p)
{
    struct front_limit front_value = {0};
    struct limit l = {0};
    double multiple;
    row->entry = text_formatted(row->arena, "%s/sitting", p->id);
    row->until = figure_known(&p->sitting)
                     ? "Until then the total of the tables before this one holds."
                     : "Until then a sitting has no total here.";
    if (!take_keys(map, row, &front_value))
        return;
    if (front_value.by_class != NULL || front_value.fresh != NULL || front_value.lifted != NULL) {
        row_wrong(row, map, "Keep per-portion: or multiple:, source: and basis:.",
                  "a sitting has no by-class, fresh-produce or lifted");
        return;
    }
    if (!read_limit(&front_value, row, &l, &multiple))
        return;
    p->sitting_multiple = multiple;
    if (front_value.per_portion != NULL) {
        p->sitting = l.per_portion;
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
    static const char *const keys[] = {"name", "of", "groups", "sitting", NULL};
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
        else if (slice_is(k->text, "of") && row_text(row, v, "of"))
            p->of = slice_string(row->texts, v->text);
        else if (slice_is(k->text, "sitting"))
            take_sitting(v, row, p);
        else if (slice_is(k->text, "groups") && row_map(row, v, "groups", "groups: {fructan: ...}"))
            for (size_t j = 0; j < v->count; j++)
                take_group(yaml_key(v, j), yaml_value(v, j), row, p);
        else if (row_word(k->text, keys) < 0)
            row_key_unknown(row, k, "a phase", keys);
    }
}

/* a phase that is to be multiplied is there, perhaps in a table before */
static void
check_of(const struct yaml_node *phases, struct row *row, const struct limits *l)
{
    for (size_t i = 0; i < phases->count; i++) {
        const struct yaml_node *of = yaml_get(yaml_value(phases, i), "of");
        const char **known = arena_take_array(row->arena, PHASES_MOST + 1, sizeof *known);
        row->entry = yaml_key(phases, i)->text;
        row->until = "Until then its multiples are of nothing.";
        for (size_t k = 0, count = 0; k < l->phase_count; k++)
            if (!slice_is(row->entry, l->phases[k].id))
                known[count++] = l->phases[k].id;
        if (of != NULL && of->text.length > 0 && row_word(of->text, known) < 0)
            row_word_unknown(row, of, "of", "other phase", known);
    }
}

void
limits_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
            struct limits *out)
{
    static const struct figure_asked asked = {"close-at", "parts of 1: 0.80", 1, true, {NULL, 0}};
    struct row row = {.arena = a, .texts = a, .notices = notices, .entry = SLICE("close-at")};
    const struct yaml_node *phases = yaml_get(root, "phases"), *close = yaml_get(root, "close-at");
    struct figure f;
    if (close != NULL && figure_read(&row, close, &asked, &f))
        out->close_figure = f;
    if (phases == NULL || phases->kind != YAML_MAP_NODE)
        return;
    for (size_t i = 0; i < phases->count; i++)
        take_phase(yaml_key(phases, i), yaml_value(phases, i), &row, out);
    check_of(phases, &row, out);
}

static struct figure
multiplied(struct arena *a, const struct figure *f, double by)
{
    if (!figure_known(f))
        return *f;
    return (struct figure){span_scale(f->span, by),
                           text_format(a, "a reader's own: %g times %s", by, f->source),
                           BASIS_CALCULATED};
}

static void
multiply(struct arena *a, const struct phase *of, struct phase *p)
{
    for (int g = 0; g < GROUPS; g++) {
        double by = p->multiple[g];
        struct limit *l = &p->groups[g];
        if (by <= 0 || l->lifted)
            continue;
        l->per_portion = multiplied(a, &of->groups[g].per_portion, by);
        l->fresh_produce = multiplied(a, &of->groups[g].fresh_produce, by);
        for (int c = 0; c < CLASSES; c++)
            l->by_class[c] = multiplied(a, &of->groups[g].by_class[c], by);
    }
    if (p->sitting_multiple > 0)
        p->sitting = multiplied(a, &of->sitting, p->sitting_multiple);
}

static uint64_t
limit_digest(const struct limit *l)
{
    if (!l->lifted && !figure_known(&l->per_portion))
        return 0;
    uint64_t d = figure_digest(&l->per_portion, l->lifted ? 2 : 1);
    for (int c = 0; c < CLASSES; c++)
        d = figure_digest(&l->by_class[c], d);
    return figure_digest(&l->fresh_produce, d);
}

void
limits_close(struct arena *a, struct limits *l)
{
    l->close_at = figure_known(&l->close_figure) ? l->close_figure.span.mid : 0.80;
    for (size_t i = 0; i < l->phase_count; i++) {
        struct phase *p = &l->phases[i];
        int of = p->of != NULL ? limits_phase(l, slice_of(p->of)) : 0;
        if (of >= 0 && (size_t)of != i)
            multiply(a, &l->phases[of], p);
        /* the share from which a portion is close belongs to every phase's standing */
        struct slice close = {(const char *)&l->close_at, sizeof l->close_at};
        entry_name(&p->entry, text_format(a, "phase:%s", p->id));
        p->entry.digest = slice_digest(slice_of(p->name), slice_digest(close, 0));
        entry_name(&p->sitting_entry, text_format(a, "limit:%s/sitting", p->id));
        p->sitting_entry.digest = figure_known(&p->sitting) ? figure_digest(&p->sitting, 0) : 0;
        for (int g = 0; g < GROUPS; g++) {
            struct limit *m = &p->groups[g];
            entry_name(&m->entry, text_format(a, "limit:%s/%s", p->id, group_word((enum group)g)));
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
