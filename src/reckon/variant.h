/* Standing, and how one variant of a dish stands: a way settled for every ingredient of a sheet. */
#ifndef RECKON_VARIANT_H
#define RECKON_VARIANT_H

#include "reckon/sheet.h"

/* in order of weight: the standing of a portion is the greatest of its groups'; a known `over` or
 * `may-exceed` outweighs what is unknown */
enum standing {
    STANDING_WITHIN,
    STANDING_CLOSE,      /* mid at close_at or more */
    STANDING_UNKNOWN,    /* an ingredient has no figure */
    STANDING_MAY_EXCEED, /* high over 1.00 */
    STANDING_OVER        /* mid over 1.00 */
};

/* shares of one column (a group, or the sitting) of a variant; the larger allowance for fresh
 * produce holds where the variant carries nothing but excess fructose */
struct variant_stand {
    struct span share[COLUMNS]; /* 0 where not limited */
    double upper[COLUMNS];      /* share.high and the bounds of what is not known */
    enum standing columns[COLUMNS];
    enum standing standing; /* the greatest of the columns' */
    int tightest;           /* group with the largest share.mid, -1 when none is carried */
};

/* the standing with one way for each row; ways are numbers into the rows */
void variant_reckon(const struct sheet *s, const uint8_t *ways, struct variant_stand *out);

/* the number of variants (a double: it can be huge) */
double variant_count(const struct sheet *s);

/* calls `each` for every variant, the last ingredient's ways changing first. Only for a number of
 * variants that one wants to see all of. */
void variant_each(struct arena *a, const struct sheet *s,
                  void (*each)(void *ctx, const uint8_t *ways, const struct variant_stand *stand),
                  void *ctx);

/* the standing of a column; `upper` over 1.00 while share.high is not: unknown */
enum standing variant_column(const struct sheet *s, struct span share, double upper);

enum standing standing_of(struct span share, double close_at, bool unknown);
const char *standing_word(enum standing s);     /* within, close, may-exceed, over, unknown */
const char *standing_sentence(enum standing s); /* for readers */

#endif
