/* Which table entries an outcome depended on. The look-ups of tables/ note each read here, a
 * look-up that found nothing too, so no caller can forget one. One record per post. */
#ifndef BASE_READS_H
#define BASE_READS_H

#include "base/map.h"

/* a row (or part of a row) of a table, known by its key: "food:banana/whole",
 * "limit:strict/lactose" */
struct entry {
    const char *key;
    uint64_t digest;     /* of its value, not of its spelling; 0: there is no such entry */
    const char *changed; /* ISO date the table says the value last changed (`changed:`), or NULL */
    uint64_t key_digest; /* of the key, by entry_name; a table's entries are noted by every post */
    uint32_t key_length;
};

/* gives an entry its key, NUL-terminated, which lives as long */
void entry_name(struct entry *e, const char *key);

struct reads {
    struct arena *arena;
    struct map seen; /* key -> the entry noted, each once, in the order of first reading */
    const struct entry **noted; /* by address: a quick yes for what was noted before */
    const char *latest;         /* `changed` of all that was noted */
};

struct reads reads_new(struct arena *a);
/* the record itself in another arena than the questions noted in it */
struct reads reads_apart(struct arena *questions, struct arena *record);
/* how many entries are known by address; a power of two */
enum { READS_NOTED = 512 };
/* an entry, named, that was not the last noted of its place */
void reads_add(struct reads *r, const struct entry *e);
/* NULL reads or entry is allowed and notes nothing; inline, since most were noted before */
static inline void
reads_note(struct reads *r, const struct entry *e)
{
    if (r != NULL && e != NULL &&
        r->noted[(uint64_t)(uintptr_t)e * UINT64_C(0x9e3779b97f4a7c15) >> 32 & (READS_NOTED - 1)] !=
            e)
        reads_add(r, e);
}
/* a question asked of a table, such as "find:us/cup/plain flour", and the digest of its answer */
void reads_note_question(struct reads *r, struct slice key, uint64_t answer);

/* the latest `changed` of all entries noted, or NULL */
const char *reads_changed(const struct reads *r);

#endif
