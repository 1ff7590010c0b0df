/* How one portion stands against the limits of a phase, over every way to make the dish: each
 * food's serve, what is limited over the portion, and the sitting. */
#ifndef RECKON_PORTION_H
#define RECKON_PORTION_H

#include "reckon/group_stand.h"

struct phase_stand {
    struct shares *shares;      /* of the sheet that it is of */
    struct limit_stand *limits; /* nearest first: by standing, then by share */
    size_t limit_count;
    const struct limit_stand *nearest; /* of those but the sitting; NULL: nothing is carried */
    const struct limit_stand *whole;   /* the sitting; NULL: nothing counts, or there is no limit */
    struct group_stand groups[GROUPS];
    bool sitting_limited;
    struct span sitting, sitting_share; /* g, and parts of the limit; worst variant */
    enum standing sitting_standing;
    enum standing standing, best_standing; /* of the whole portion: worst and best variant */
    double room;  /* how many times as large the portion may be and stand as it does; of one that is
                     over, or unknown, 0 */
    int tightest; /* group of the nearest limit but the sitting, -1 when none is carried */
};

/* Over all variants; the best is that of the most portions that the dish says it makes. With very
 * many variants the best is one that exists, though perhaps not the very best. Where the dish does
 * not say how many portions it makes, the whole of it is reckoned as one and stands within, or
 * unknown. */
void portion_stand(struct arena *a, const struct dish *d, const struct tables *t, int phase,
                   struct reads *reads, struct phase_stand *out);

/* Whether a dish stands no worse than `most`, within or unknown: for trials, which stop at the
 * first limit that it does not keep. changed: by serve, whether its own limits are asked; NULL:
 * all. Those of the whole portion are. */
bool portion_keeps(struct arena *a, struct shares *s, const bool *changed, enum standing most);

/* the same from a sheet that is laid already */
void sheet_stand(struct arena *a, const struct sheet *s, int phase, struct reads *reads,
                 struct phase_stand *out);

/* the standing of one variant; ways: by ingredient, a number into its row's ways. `largest` gets
 * the limit that it stands worst by, or NULL */
enum standing portion_variant(const struct sheet *s, const struct phase_stand *stand,
                              const uint8_t *ways, const struct limit_stand **largest);

#endif
