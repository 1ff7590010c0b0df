#include "tables/figure.h"

#include <math.h>
#include <string.h>

#include "read/yaml_value.h"
#include "tables/row.h"

static const char *const basis_words[] = {
    [BASIS_NONE] = "none",           [BASIS_MEASURED] = "measured",
    [BASIS_PUBLISHED] = "published", [BASIS_CALCULATED] = "calculated",
    [BASIS_PRACTICE] = "practice",   [BASIS_MEMORY] = "memory",
    [BASIS_MEMORY + 1] = NULL,
};

static const char *const kind_words[] = {
    [FIGURE_RANGE] = "range", [FIGURE_SAMPLES] = "samples", [FIGURE_BELOW] = "below",
    [FIGURE_NONE] = "none",   [FIGURE_NONE + 1] = NULL,
};

/* g per 100 g: what a search that finds none above it may leave open; a higher limit of detection
 * is a bound alone (after EFSA Journal 2010; 8(3): 1557 on left-censored data) */
static const double BELOW_MOST = 0.1;

const char *
figure_basis_word(enum basis b)
{
    return basis_words[b];
}

const char *
figure_kind_word(enum figure_kind kind)
{
    return kind_words[kind];
}

/* its name in a message; made only where something is wrong, as tables hold thousands of figures */
static const char *
part_of(const struct row *row, const struct figure_asked *asked)
{
    return asked->of.length == 0
               ? asked->what
               : text_format(row->arena, "%s of “%.*s”", asked->what, SLICE_ARGS(asked->of));
}

bool
figure_read_origin(struct row *row, const struct yaml_node *map, const struct figure_asked *asked,
                   struct figure *out)
{
    const char *const *known = basis_words + BASIS_MEASURED;
    const struct yaml_node *source = yaml_get(map, "source"), *basis = yaml_get(map, "basis");
    if (source == NULL || (source->kind == YAML_SCALAR_NODE && source->text.length == 0))
        return row_wrong(row, source != NULL ? source : map,
                         "Add where it stands, as source: \"sr28 09040 refuse 36 %\"; where it "
                         "stands nowhere, source: \"common practice, no source\" with basis: "
                         "practice.",
                         "%s has no source", part_of(row, asked));
    if (source->kind != YAML_SCALAR_NODE)
        return row_text(row, source, text_format(row->arena, "source of %s", part_of(row, asked)));
    if (basis == NULL)
        return row_wrong(row, map,
                         "Add basis: measured, published, calculated, practice or memory.",
                         "%s has no basis", part_of(row, asked));
    int word = row_word(basis->text, known);
    if (word < 0)
        return row_word_unknown(row, basis,
                                text_format(row->arena, "basis of %s", part_of(row, asked)),
                                "basis", known);
    out->basis = (enum basis)(word + BASIS_MEASURED);
    out->source = slice_string(row->texts, source->text);
    return true;
}

static bool
out_of_order(struct row *row, const struct yaml_node *node, const char *part, struct span s)
{
    struct text t = text_new(row->arena);
    text_add_string(&t, "low ");
    text_add_number(&t, s.low, 9);
    text_add_string(&t, ", mid ");
    text_add_number(&t, s.mid, 9);
    text_add_string(&t, ", high ");
    text_add_number(&t, s.high, 9);
    return row_wrong(row, node,
                     "Put them in order: low is at most mid, and mid at most high; both are mid "
                     "where they are left out.",
                     "%s is not in order: %s", part, t.bytes);
}

static bool
read_number(struct row *row, const struct yaml_node *node, const struct figure_asked *asked,
            const char *name, double *out)
{
    double number;
    bool read = yaml_number(node, &number);
    if (read && number >= 0 && number <= asked->most && (number > 0 || !asked->over_zero)) {
        *out = number;
        return true;
    }
    const char *part = text_format(row->arena, "%s of %s", name, part_of(row, asked));
    if (read && asked->over_zero && !(number > 0) && !(number < 0))
        return row_wrong(row, node, "Write what it is, or leave the figure out.", "%s is zero",
                         part);
    return row_number(row, node, part, 0, asked->most, out);
}

/* the three numbers, each with its own place; a number that is not there is as `mid` */
static bool
read_span(struct row *row, const struct yaml_node *map, const struct figure_asked *asked,
          struct span *out)
{
    static const char *const names[] = {"low", "mid", "high"};
    double numbers[3];
    const struct yaml_node *nodes[3];
    for (int i = 0; i < 3; i++) {
        nodes[i] = yaml_get(map, names[i]);
        if (nodes[i] != NULL && !read_number(row, nodes[i], asked, names[i], &numbers[i]))
            return false;
    }
    if (nodes[1] == NULL)
        return row_wrong(row, map,
                         text_format(row->arena, "Add mid:, in %s; low: and high: where it varies.",
                                     asked->unit),
                         "%s has no mid", part_of(row, asked));
    *out = span_exact(numbers[1]);
    if (nodes[0] != NULL)
        out->low = numbers[0];
    if (nodes[2] != NULL)
        out->high = numbers[2];
    return span_valid(*out) ||
           out_of_order(row, nodes[0] != NULL && out->low > out->mid ? nodes[0] : nodes[2],
                        part_of(row, asked), *out);
}

/* a number that the kind cannot do without */
static bool
read_needed(struct row *row, const struct yaml_node *map, const struct figure_asked *asked,
            const char *name, double *out)
{
    const struct yaml_node *node = yaml_get(map, name);
    if (node == NULL)
        return row_wrong(row, map, text_format(row->arena, "Add %s:, in %s.", name, asked->unit),
                         "%s has no %s", part_of(row, asked), name);
    return read_number(row, node, asked, name, out);
}

/* The reader's portion is one sample, not the mean of all: a log-normal of the samples' mean and
 * standard deviation, whose 5th, 50th and 95th percentile make the span. */
static bool
read_samples(struct row *row, const struct yaml_node *map, const struct figure_asked *asked,
             struct figure *out)
{
    static const double Z95 = 1.6448536269514722;
    const struct figure_asked count = {asked->what, "samples", 1e6, true, asked->of, false};
    const struct figure_asked mean = {asked->what, asked->unit, asked->most,
                                      true,        asked->of,   false};
    if (!read_needed(row, map, &count, "n", &out->samples) ||
        !read_needed(row, map, &mean, "mean", &out->mean) ||
        !read_needed(row, map, asked, "sd", &out->sd))
        return false;
    const double relative = out->sd / out->mean;
    const double sigma = sqrt(log1p(relative * relative));
    const double median = out->mean / sqrt(1 + relative * relative);
    out->span = (struct span){median * exp(-Z95 * sigma), median, median * exp(Z95 * sigma)};
    return true;
}

static bool
read_below(struct row *row, const struct yaml_node *map, const struct figure_asked *asked,
           struct figure *out)
{
    double high;
    if (!read_needed(row, map, asked, "high", &high))
        return false;
    if (high > BELOW_MOST)
        return row_wrong(row, yaml_get(map, "high"),
                         "Write it under bounds:, which holds what it can be at most; what lies "
                         "under it needs another ground.",
                         "%s is “below” a figure over 0.1", part_of(row, asked));
    out->span = (struct span){0, high / 2, high};
    return true;
}

static bool
read_kind(struct row *row, const struct yaml_node *map, const struct figure_asked *asked,
          struct figure *out)
{
    const struct yaml_node *kind = yaml_get(map, "kind");
    int word = kind == NULL ? (int)FIGURE_RANGE : row_word(kind->text, kind_words);
    if (word < 0)
        return row_word_unknown(row, kind,
                                text_format(row->arena, "kind of %s", part_of(row, asked)), "kind",
                                kind_words);
    out->kind = (enum figure_kind)word;
    switch (out->kind) {
    case FIGURE_SAMPLES:
        return read_samples(row, map, asked, out);
    case FIGURE_BELOW:
        return read_below(row, map, asked, out);
    case FIGURE_NONE:
        return true;
    default:
        return read_span(row, map, asked, &out->span);
    }
}

/* the keys of a figure: of one without kinds, the first; the last two of those are read by whoever
 * holds it */
static const char *const kind_keys[] = {"low",     "mid",  "high", "source", "basis", "group",
                                        "changed", "kind", "n",    "mean",   "sd",    NULL};
static const char *const plain_keys[] = {"low",   "mid",   "high",    "source",
                                         "basis", "group", "changed", NULL};

bool
figure_read(struct row *row, const struct yaml_node *node, const struct figure_asked *asked,
            struct figure *out)
{
    const char *const *keys = asked->kinds ? kind_keys : plain_keys;
    struct figure read = {.basis = BASIS_NONE};
    *out = read;
    if (node->kind != YAML_MAP_NODE)
        return row_wants(row, node, part_of(row, asked), "a mapping of mid, source and basis",
                         text_format(row->arena,
                                     "it as {mid: (%s), source: \"...\", basis: published}",
                                     asked->unit));
    for (size_t i = 0; i < node->count; i++)
        if (row_word(yaml_key(node, i)->text, keys) < 0)
            return row_key_unknown(row, yaml_key(node, i), part_of(row, asked), keys);
    if (!(asked->kinds ? read_kind(row, node, asked, &read)
                       : read_span(row, node, asked, &read.span)) ||
        !figure_read_origin(row, node, asked, &read))
        return false;
    *out = read;
    return true;
}

uint64_t
figure_digest(const struct figure *f, uint64_t start)
{
    if (f->basis == BASIS_NONE)
        return slice_digest(SLICE("none"), start);
    /* + 0.0 makes one zero of both, so that equal numbers have equal bytes */
    double numbers[] = {f->span.low + 0.0, f->span.mid + 0.0, f->span.high + 0.0, (double)f->basis,
                        (double)f->kind,   f->samples + 0.0,  f->mean + 0.0,      f->sd + 0.0};
    struct slice bytes = {(const char *)numbers, sizeof numbers};
    return slice_digest(slice_of(f->source), slice_digest(bytes, start));
}

double
figure_rounded(double x)
{
    if (!(x > 0))
        return 0;
    const double unit = pow(10, floor(log10(x)) - 2);
    return round(x / unit) * unit;
}
