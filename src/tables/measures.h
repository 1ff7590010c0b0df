/* Measures: each region's units in mL or g, vague words, spoon fills, gas marks. */
#ifndef TABLES_MEASURES_H
#define TABLES_MEASURES_H

#include "read/amount.h"
#include "tables/figure.h"

enum { REGIONS_MOST = 16, UNITS_MOST = 160 };

struct region {
    struct entry entry;
    const char *id;     /* us, us-label, au, nz, uk, ca, metric, jp */
    const char *name;   /* "Australia" */
    const char *speech; /* whose food names it uses: a region id */
    bool fahrenheit;    /* how its ovens are set */
    bool gas_marks;
    bool month_first;                  /* order of dates */
    const char *allergens;             /* "eu" or "us" */
    const char *nutrition;             /* "eu" or "us": rounding and label form */
    struct map sizes;                  /* unit id -> struct figure *, of the region itself */
    struct unit_row *rows[UNITS_MOST]; /* in the order of unit_words, NULL: no unit here */
};

/* a unit as it is written, in whatever region */
struct unit_words {
    const char *id;
    enum unit_kind kind;
    bool spoon, vague_grams;
    struct slice shown_one, shown_many;
    struct figure size;  /* in regions that do not give their own */
    struct slice *items; /* its spellings */
    size_t count, room;
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

/* what the spellings that begin with one word mean, region by region */
struct first_word {
    uint64_t digests[REGIONS_MOST];
};

struct measures {
    struct region regions[REGIONS_MOST];
    size_t region_count;
    struct unit_words units[UNITS_MOST];
    size_t unit_count;
    struct map spellings;   /* "tbsp", and "=T" where case matters -> struct unit_words * */
    struct map first_words; /* "fl" -> digests by region of what the units beginning so are */
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

/* the digest of a key of these tables ("unit:au/tbsp", "word:au/fl", "region:au", "fill:packed");
 * 0: there is none */
uint64_t measures_ask(const struct measures *m, struct slice key);

#endif
