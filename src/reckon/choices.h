/* Variants: the ways to settle every choice, and which of them stand differently. */
#ifndef RECKON_CHOICES_H
#define RECKON_CHOICES_H

#include "reckon/portion.h"

enum { VARIANTS_MOST = 64 };

struct variant {
    uint8_t *picks; /* by ingredient: 0 left out, else option number + 1 */
    enum standing standing;
};

struct choices {
    size_t choice_count;      /* ingredients that can be settled in more than one way */
    double variant_count;     /* product of their ways (a double: it can be huge) */
    struct variant *variants; /* when variant_count <= VARIANTS_MOST: all; else none */
    size_t count;
    bool differ;          /* the variants do not all stand alike */
    size_t *resolve;      /* few choices to settle, so that the worst that is left stands best: the
                            fewest      where one or two do it. settle[2 k] is an ingredient, settle[2 k
                            + 1]      its      pick. */
    size_t resolve_count; /* pairs; 0 when settling makes nothing better */
    enum standing resolved; /* how it then stands at worst */
};

/* stand: of the sheet, in the phase that is asked for */
void choices_find(struct arena *a, const struct sheet *s, const struct phase_stand *stand,
                  struct choices *out);

#endif
