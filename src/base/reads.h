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
    uint64_t key_digest; /* of the key, by entry_name: the ledger's */
    uint32_t key_length;
};

/* gives an entry its key, NUL-terminated, which lives as long */
void reads_entry_name(struct entry *e, const char *key);

struct reads {
    struct arena *arena;
    const struct entry **items; /* each once, in the order of first reading */
    size_t count, room;
    struct map noted;   /* by key */
    const char *latest; /* `changed` of all that was noted */
};

struct reads reads_new(struct arena *a);
/* NULL reads or entry is allowed and notes nothing */
void reads_note(struct reads *r, const struct entry *e);
/* a question asked of a table, such as "find:us/cup/plain flour", and the digest of its answer */
void reads_note_question(struct reads *r, struct slice key, uint64_t answer);
/* whether an entry of the key was noted */
bool reads_hold(const struct reads *r, struct slice key);

/* the latest `changed` of all entries noted, or NULL */
const char *reads_changed(const struct reads *r);

#endif
