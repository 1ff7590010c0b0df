#include "compile/outcome.h"

struct outcome
outcome_new(struct arena *a, const struct tables *t, struct reads *reads)
{
    const size_t count = t->limits.phase_count;
    struct outcome o = {.tables = t, .reads = reads};
    o.phases = arena_take_array(a, count > 0 ? count : 1, sizeof *o.phases);
    for (size_t i = 0; i < count; i++) {
        o.phases[i].standing = o.phases[i].best_standing = STANDING_UNKNOWN;
        o.phases[i].tightest = -1;
    }
    return o;
}
