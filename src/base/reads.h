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
    uint32_t number; /* among all entries of the tables it is in; 0: it has none */
};

/* gives an entry its key, NUL-terminated, which lives as long */
void entry_name(struct entry *e, const char *key);

struct reads {
    struct arena *arena;        /* of questions */
    struct arena *record;       /* of the record itself */
    const struct entry **items; /* each once, in the order of first reading */
    size_t count, room;
    uint64_t *numbers; /* a bit for each entry with a number that was noted */
    size_t number_room;
    struct map asked;   /* key -> entry, of those without a number */
    const char *latest; /* `changed` of all that was noted */
};

/* what was noted once, to be noted again */
struct noted {
    const struct entry **items; /* in the order of first reading */
    uint32_t *numbers;          /* theirs: most need not be looked at */
    size_t count;
    const char *latest; /* `changed` of all */
};

struct reads reads_new(struct arena *a);
/* the record itself in another arena than the questions noted in it */
struct reads reads_apart(struct arena *questions, struct arena *record);
/* what was noted before is forgotten; the room for it stays */
void reads_forget(struct reads *r);
/* notes what was perhaps noted before: of reads_note, where that is not clear at once */
void reads_note_new(struct reads *r, const struct entry *e);
/* whether the entry of a number was noted; false for 0, which is none */
static inline bool
reads_have(const struct reads *r, uint32_t number)
{
    return number < r->number_room && (r->numbers[number / 64] >> number % 64 & 1) != 0;
}
/* NULL reads or entry is allowed and notes nothing */
static inline void
reads_note(struct reads *r, const struct entry *e)
{
    if (r == NULL || e == NULL || reads_have(r, e->number))
        return;
    reads_note_new(r, e);
}
/* all that a record holds, as long as its entries and the arena live */
struct noted reads_keep(const struct reads *r, struct arena *a);
/* notes it; NULL reads are allowed */
void reads_note_kept(struct reads *r, const struct noted *kept);
/* a question asked of a table, such as "find:us/cup/plain flour", and the digest of its answer */
void reads_note_question(struct reads *r, struct slice key, uint64_t answer);
/* whether an entry of the key was noted */
bool reads_hold(const struct reads *r, struct slice key);

/* the latest `changed` of all entries noted, or NULL */
const char *reads_changed(const struct reads *r);

#endif
