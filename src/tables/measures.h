/* Measures: each region's units in mL or g, vague words, spoon fills, gas marks. */
#ifndef TABLES_MEASURES_H
#define TABLES_MEASURES_H

#include "read/amount.h"
#include "tables/figure.h"

enum { REGIONS_MOST = 16 };

struct region {
    struct entry entry;
    const char *id;     /* us, us-label, au, nz, uk, ca, metric, jp */
    const char *name;   /* "Australia" */
    const char *speech; /* whose food names it uses: a region id */
    bool fahrenheit;    /* how its ovens are set */
    bool gas_marks;
    bool month_first;      /* order of dates */
    const char *allergens; /* "eu" or "us" */
    const char *nutrition; /* "eu" or "us": rounding and label form */
    struct map units;      /* spelling -> const struct unit_row * */
};

struct unit_row {
    struct unit unit;
    struct entry entry; /* "unit:au/tbsp" */
    struct figure size;
};

struct fill_row {
    struct entry entry;
    struct figure factor; /* of a level spoon or plain cup */
};

struct measures {
    struct region regions[REGIONS_MOST];
    size_t region_count;
    struct fill_row fills[FILL_SIFTED + 1];
    struct entry all; /* digest of the whole table */
};

/* the number of a region, or -1 */
int measures_region(const struct measures *m, struct slice id);
/* the unit of one to three words in a region, or NULL (noted too). T and t differ. */
const struct unit_row *measures_unit(const struct measures *m, int region, struct slice words,
                                     struct reads *reads);
/* the same by the unit's id */
const struct unit_row *measures_unit_by_id(const struct measures *m, int region, const char *id,
                                           struct reads *reads);
const struct figure *measures_fill(const struct measures *m, enum fill fill, struct reads *reads);
/* the nearest unit spellings to a wrong word, up to 3; NULL-filled */
void measures_nearest(const struct measures *m, int region, struct slice word,
                      const char *nearest[3]);

bool measures_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
                   struct measures *out);

#endif
