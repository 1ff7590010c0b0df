/* A figure: a span with its source and basis, the smallest thing a table holds. */
#ifndef TABLES_FIGURE_H
#define TABLES_FIGURE_H

#include "base/reads.h"
#include "base/span.h"
#include "read/yaml_tree.h"

struct row; /* tables/row.h */

enum basis {
    BASIS_NONE, /* there is no figure */
    BASIS_MEASURED,
    BASIS_PUBLISHED,
    BASIS_CALCULATED,
    BASIS_PRACTICE,
    BASIS_MEMORY
};

/* what the numbers of a content are; see design of the spread in DEVELOPERS.md */
enum figure_kind {
    FIGURE_RANGE,   /* 5th, 50th and 95th percentile over sources or varieties */
    FIGURE_SAMPLES, /* mean and standard deviation between samples */
    FIGURE_BELOW,   /* looked for, none above span.high */
    FIGURE_NONE     /* zero, with its ground */
};

struct figure {
    struct span span;   /* of samples: the percentiles of the log-normal that they make */
    const char *source; /* as in the table: "sr28 09040 1 cup, mashed = 225 g" */
    enum basis basis;   /* BASIS_NONE: not known */
    enum figure_kind kind;
    double samples, mean, sd; /* of FIGURE_SAMPLES: how many, and g per 100 g */
};

/* what is asked of a figure: its name in messages, and what it can be */
struct figure_asked {
    const char *what; /* "density" */
    const char *unit; /* "g per mL" */
    double most;      /* what nothing passes */
    bool over_zero;   /* zero is none either */
    struct slice of;  /* "whole", where it is the density of that; or empty */
    bool kinds;       /* it may say its kind; else it is a range */
};

/* reads {low, mid, high, source, basis}, or what its kind asks for; a source and a basis are
 * required: says so else */
bool figure_read(struct row *row, const struct yaml_node *node, const struct figure_asked *asked,
                 struct figure *out);
/* the source and basis that a mapping gives, for its plain numbers; says what is missing */
bool figure_read_origin(struct row *row, const struct yaml_node *map,
                        const struct figure_asked *asked, struct figure *out);
static inline bool
figure_known(const struct figure *f)
{
    return f != NULL && f->basis != BASIS_NONE;
}
/* what was reckoned, to three digits, since the last bits of a sum or a logarithm differ from
 * machine to machine; 0 for what is not above 0 */
double figure_rounded(double x);
const char *figure_basis_word(enum basis b);
const char *figure_kind_word(enum figure_kind kind); /* "samples" */
uint64_t figure_digest(const struct figure *f, uint64_t start);

#endif
