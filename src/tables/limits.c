#include "tables/limits.h"
#include "read/yaml_value.h"

#include <string.h>

static void
row_wrong(struct notices *notices, const struct yaml_node *node, struct slice row, const char *why)
{
    notice_add(notices, RULE_TABLE_ROW_WRONG, node->place, row, slice_of(why));
}

static const struct figure *
known(const struct figure *f)
{
    return figure_known(f) ? f : NULL;
}

const struct figure *
limit_for(const struct phase *p, enum group g, enum food_class c, struct reads *reads)
{
    const struct limit *l = &p->groups[g];
    reads_note(reads, &l->entry);
    if (l->lifted)
        return NULL;
    return figure_known(&l->by_class[c]) ? &l->by_class[c] : known(&l->per_portion);
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
struct said_limit {
    const struct yaml_node *per_portion, *by_class, *fresh, *source, *basis, *multiple, *lifted,
        *changed;
};

static bool
take_keys(const struct yaml_node *row, struct notices *notices, struct slice name,
          struct said_limit *said)
{
    const struct {
        const char *key;
        const struct yaml_node **value;
    } keys[] = {
        {"per-portion", &said->per_portion},
        {"by-class", &said->by_class},
        {"fresh-produce", &said->fresh},
        {"source", &said->source},
        {"basis", &said->basis},
        {"multiple", &said->multiple},
        {"lifted", &said->lifted},
        {"changed", &said->changed},
    };
    if (row->kind != YAML_MAP_NODE) {
        row_wrong(notices, row, name, "a mapping with per-portion, source and basis is expected");
        return false;
    }
    for (size_t i = 0; i < row->count; i++) {
        size_t k = 0;
        while (k < sizeof keys / sizeof *keys && !slice_is(yaml_key(row, i)->text, keys[k].key))
            k++;
        if (k == sizeof keys / sizeof *keys) {
            row_wrong(notices, yaml_key(row, i), name, "has a key that a limit does not have");
            return false;
        }
        *keys[k].value = yaml_value(row, i);
    }
    return true;
}

/* a plain number of the row, with the row's source and basis, as a figure */
static bool
take_number(struct arena *a, const struct said_limit *said, const struct yaml_node *number,
            struct notices *notices, struct slice name, struct figure *out)
{
    static const enum basis bases[] = {BASIS_MEASURED, BASIS_PUBLISHED, BASIS_CALCULATED,
                                       BASIS_PRACTICE, BASIS_MEMORY};
    double value;
    if (!yaml_number(number, &value) || value <= 0) {
        row_wrong(notices, number, name, "a number of grams over zero is expected");
        return false;
    }
    if (said->source == NULL || said->source->text.length == 0 || said->basis == NULL) {
        row_wrong(notices, number, name, "has no source or no basis");
        return false;
    }
    for (size_t b = 0; b < sizeof bases / sizeof *bases; b++)
        if (slice_is(said->basis->text, basis_word(bases[b]))) {
            *out =
                (struct figure){span_exact(value), slice_string(a, said->source->text), bases[b]};
            return true;
        }
    row_wrong(notices, said->basis, name,
              "has no basis: measured, published, calculated, practice or memory");
    return false;
}

static bool
take_classes(struct arena *a, const struct said_limit *said, struct notices *notices,
             struct slice name, struct figure *by_class)
{
    const struct yaml_node *map = said->by_class;
    if (map->kind != YAML_MAP_NODE) {
        row_wrong(notices, map, name, "a mapping of classes to grams is expected");
        return false;
    }
    for (size_t i = 0; i < map->count; i++) {
        int c = 0;
        while (c < CLASSES && !slice_is(yaml_key(map, i)->text, class_word((enum food_class)c)))
            c++;
        if (c == CLASSES) {
            row_wrong(notices, yaml_key(map, i), name, "is no class of foods");
            return false;
        }
        if (!take_number(a, said, yaml_value(map, i), notices, name, &by_class[c]))
            return false;
    }
    return true;
}

static const char *
changed_date(struct arena *a, const struct yaml_node *changed)
{
    return changed != NULL && changed->text.length == 10 ? slice_string(a, changed->text) : NULL;
}

static void
take_group(struct arena *a, const struct yaml_node *key, const struct yaml_node *row,
           struct notices *notices, struct phase *p)
{
    enum group g;
    struct said_limit said = {0};
    struct limit l = {0};
    double multiple = 0;
    if (!group_read(key->text, &g)) {
        row_wrong(notices, key, key->text, "is no group of carbohydrates");
        return;
    }
    if (!take_keys(row, notices, key->text, &said))
        return;
    if (said.lifted != NULL && !yaml_truth(said.lifted, &l.lifted)) {
        row_wrong(notices, said.lifted, key->text, "lifted is yes or no");
        return;
    }
    if (said.multiple != NULL && (!yaml_number(said.multiple, &multiple) || multiple <= 0)) {
        row_wrong(notices, said.multiple, key->text, "a multiple is a number over zero");
        return;
    }
    if (said.per_portion == NULL && multiple <= 0 && !l.lifted) {
        row_wrong(notices, row, key->text, "has no per-portion, multiple or lifted");
        return;
    }
    if ((said.per_portion != NULL &&
         !take_number(a, &said, said.per_portion, notices, key->text, &l.per_portion)) ||
        (said.fresh != NULL &&
         !take_number(a, &said, said.fresh, notices, key->text, &l.fresh_produce)) ||
        (said.by_class != NULL && !take_classes(a, &said, notices, key->text, l.by_class)))
        return;
    l.entry.changed = changed_date(a, said.changed);
    p->groups[g] = l;
    p->multiple[g] = said.per_portion == NULL ? multiple : 0;
}

static void
take_sitting(struct arena *a, const struct yaml_node *row, struct notices *notices, struct phase *p)
{
    struct said_limit said = {0};
    struct figure f;
    double multiple = 0;
    if (!take_keys(row, notices, SLICE("sitting"), &said))
        return;
    if (said.per_portion != NULL) {
        if (take_number(a, &said, said.per_portion, notices, SLICE("sitting"), &f)) {
            p->sitting = f;
            p->sitting_multiple = 0;
            p->sitting_entry.changed = changed_date(a, said.changed);
        }
    } else if (said.multiple != NULL && yaml_number(said.multiple, &multiple) && multiple > 0) {
        p->sitting_multiple = multiple;
    } else {
        row_wrong(notices, row, SLICE("sitting"), "has no per-portion and no multiple");
    }
}

static void
take_phase(struct arena *a, const struct yaml_node *key, const struct yaml_node *row,
           struct notices *notices, struct limits *l)
{
    int at = limits_phase(l, key->text);
    if (row->kind != YAML_MAP_NODE || (at < 0 && l->phase_count == PHASES_MOST)) {
        row_wrong(notices, row, key->text, "a mapping is expected, or there are too many phases");
        return;
    }
    if (at < 0) {
        at = (int)l->phase_count++;
        const char *id = slice_string(a, key->text);
        l->phases[at] = (struct phase){.id = id, .name = id};
    }
    struct phase *p = &l->phases[at];
    for (size_t i = 0; i < row->count; i++) {
        const struct yaml_node *k = yaml_key(row, i), *v = yaml_value(row, i);
        if (slice_is(k->text, "name"))
            p->name = slice_string(a, v->text);
        else if (slice_is(k->text, "of"))
            p->of = slice_string(a, v->text);
        else if (slice_is(k->text, "sitting"))
            take_sitting(a, v, notices, p);
        else if (slice_is(k->text, "groups") && v->kind == YAML_MAP_NODE)
            for (size_t j = 0; j < v->count; j++)
                take_group(a, yaml_key(v, j), yaml_value(v, j), notices, p);
        else
            row_wrong(notices, k, key->text, "this key of a phase is not understood");
    }
}

void
limits_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
            struct limits *out)
{
    const struct yaml_node *phases = yaml_get(root, "phases"), *close = yaml_get(root, "close-at");
    struct figure f;
    if (close != NULL && figure_read(a, close, notices, &f))
        out->close_figure = f;
    for (size_t i = 0; phases != NULL && phases->kind == YAML_MAP_NODE && i < phases->count; i++)
        take_phase(a, yaml_key(phases, i), yaml_value(phases, i), notices, out);
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
        p->entry.key = text_format(a, "phase:%s", p->id);
        p->entry.digest = slice_digest(slice_of(p->name), slice_digest(close, 0));
        p->sitting_entry.key = text_format(a, "limit:%s/sitting", p->id);
        p->sitting_entry.digest = figure_known(&p->sitting) ? figure_digest(&p->sitting, 0) : 0;
        for (int g = 0; g < GROUPS; g++) {
            struct limit *m = &p->groups[g];
            m->entry.key = text_format(a, "limit:%s/%s", p->id, group_word((enum group)g));
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
