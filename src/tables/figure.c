#include "tables/figure.h"
#include "read/yaml_value.h"

#include <string.h>

static const char *const basis_words[] = {
    [BASIS_NONE] = "none",           [BASIS_MEASURED] = "measured",
    [BASIS_PUBLISHED] = "published", [BASIS_CALCULATED] = "calculated",
    [BASIS_PRACTICE] = "practice",   [BASIS_MEMORY] = "memory",
};

enum { BASES = sizeof basis_words / sizeof *basis_words };

const char *
basis_word(enum basis b)
{
    return basis_words[b];
}

static bool
basis_read(struct slice word, enum basis *out)
{
    for (int b = BASIS_MEASURED; b < BASES; b++)
        if (slice_is(word, basis_words[b])) {
            *out = (enum basis)b;
            return true;
        }
    return false;
}

static bool
wrong(struct notices *notices, const struct yaml_node *node, const char *what, const char *why)
{
    notice_add(notices, RULE_TABLE_ROW_WRONG, node->place, slice_of(what), slice_of(why));
    return false;
}

/* what a figure's mapping says, before it is held to the rules of a figure */
struct said_figure {
    bool has_low, has_mid, has_high;
    const struct yaml_node *basis;
};

static bool
take_pair(struct arena *a, const struct yaml_node *key, const struct yaml_node *value,
          struct notices *notices, struct said_figure *said, struct figure *out)
{
    if (slice_is(key->text, "source")) {
        if (value->kind == YAML_SCALAR_NODE && value->text.length > 0)
            out->source = slice_string(a, value->text);
        return true;
    }
    if (slice_is(key->text, "basis")) {
        said->basis = value;
        return true;
    }
    bool *has;
    double *number;
    if (slice_is(key->text, "mid")) {
        has = &said->has_mid;
        number = &out->span.mid;
    } else if (slice_is(key->text, "low")) {
        has = &said->has_low;
        number = &out->span.low;
    } else if (slice_is(key->text, "high")) {
        has = &said->has_high;
        number = &out->span.high;
    } else if (slice_is(key->text, "group") || slice_is(key->text, "changed")) {
        return true; /* read by whoever holds the figure */
    } else {
        return wrong(notices, key, "figure", "has a key other than low, mid, high, source, basis");
    }
    if (!yaml_number(value, number))
        return wrong(notices, value, "figure", "a number is expected");
    *has = true;
    return true;
}

bool
figure_read(struct arena *a, const struct yaml_node *node, struct notices *notices,
            struct figure *out)
{
    *out = (struct figure){.basis = BASIS_NONE};
    if (node->kind != YAML_MAP_NODE)
        return wrong(notices, node, "figure", "a mapping of low, mid, high, source and basis");
    struct figure read = {.basis = BASIS_NONE};
    struct said_figure said = {false, false, false, NULL};
    for (size_t i = 0; i < node->count; i++)
        if (!take_pair(a, yaml_key(node, i), yaml_value(node, i), notices, &said, &read))
            return false;
    if (!said.has_mid)
        return wrong(notices, node, "figure", "has no mid");
    if (!said.has_low)
        read.span.low = read.span.mid;
    if (!said.has_high)
        read.span.high = read.span.mid;
    if (!span_valid(read.span) || read.span.low < 0)
        return wrong(notices, node, "figure", "low, mid and high are not in order, or below zero");
    if (read.source == NULL)
        return wrong(notices, node, "figure", "has no source");
    if (said.basis == NULL || !basis_read(said.basis->text, &read.basis))
        return wrong(notices, said.basis != NULL ? said.basis : node, "figure",
                     "has no basis: measured, published, calculated, practice or memory");
    *out = read;
    return true;
}

bool
figure_known(const struct figure *f)
{
    return f != NULL && f->basis != BASIS_NONE;
}

uint64_t
figure_digest(const struct figure *f, uint64_t start)
{
    if (f->basis == BASIS_NONE)
        return slice_digest(SLICE("none"), start);
    /* + 0.0 makes one zero of both, so that equal numbers have equal bytes */
    double numbers[4] = {f->span.low + 0.0, f->span.mid + 0.0, f->span.high + 0.0,
                         (double)f->basis};
    struct slice bytes = {(const char *)numbers, sizeof numbers};
    return slice_digest(slice_of(f->source), slice_digest(bytes, start));
}
