/* Variants: the ways to settle every choice, and which of them stand differently. */
#ifndef RECKON_CHOICES_H
#define RECKON_CHOICES_H

#include "reckon/portion.h"

enum { VARIANTS_MOST = 64 };

struct variant {
    uint8_t *picks; /* by ingredient: 0 left out, else option number + 1 */
    enum standing standing;
    int tightest; /* group, -1 when none */
    double share; /* its share.mid */
};

struct choices {
    size_t choice_count;      /* ingredients that can be settled in more than one way */
    double variant_count;     /* product of their ways (a double: it can be huge) */
    struct variant *variants; /* when variant_count <= VARIANTS_MOST: all; else none */
    size_t count;
    bool differ;    /* the variants do not all stand alike */
    size_t *settle; /* the fewest choices to settle, so that the worst that is left stands best:
                       settle[2 k] is an ingredient, settle[2 k + 1] its pick. With more than
                       VARIANTS_MOST variants a set from which none can be left out. */
    size_t settle_count;   /* pairs; 0 when settling makes nothing better */
    enum standing settled; /* how it then stands at worst */
};

void choices_lay(struct arena *a, const struct dish *d, const struct tables *t, int phase,
                 struct reads *reads, struct choices *out);

/* the same from a sheet that is laid already */
void sheet_choices(struct arena *a, const struct sheet *s, struct choices *out);

#endif
