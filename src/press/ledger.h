/* The ledger: what each output was made from, entry by entry, so that only what changed is made
 * again. One file, OUT/.dariole/ledger, whole and checked by its digest, and beside it the pieces
 * that posts give to gathered files (press/pieces.h). It is for this machine: native byte order.
 *
 * In memory it is the same sections as on disk, each one growable block of malloc: what is kept
 * stays where it is, what is new is added behind. Additions are not thread-safe: callers lock. */
#ifndef PRESS_LEDGER_H
#define PRESS_LEDGER_H

#include "base/failure.h"
#include "base/reads.h"
#include "write/record.h"

#ifndef LEDGER_LAYOUT /* a test gives another */
#define LEDGER_LAYOUT 4
#endif

struct ledger_text { /* in the ledger's strings */
    uint32_t at, length;
};

struct ledger_piece {
    uint64_t at;    /* byte in the file of pieces */
    uint64_t check; /* XXH3 of its bytes; 0 and length 0: empty */
    uint32_t length;
};

enum post_state {
    POST_MADE,  /* its outputs are its own */
    POST_BARE,  /* checked, without outputs: a draft, unreadable, or its slug was taken */
    POST_STALE, /* cannot be read now: its last good outputs stay */
    POST_FAILED /* the machine failed it: to be made again */
};

struct ledger_post {
    struct ledger_text path, slug, published, changed;
    struct ledger_text rival;   /* the post that has the slug, where it was taken; else empty */
    struct ledger_text picture; /* the file that was looked for, as the post names it; or empty */
    uint64_t picture_stamp, picture_digest; /* of that file; 0: it was not there */
    uint64_t stamp;                         /* of the file; 0: to be read again */
    uint64_t digest;                        /* of its bytes */
    uint64_t reads;                         /* first byte in the ledger's reads */
    uint32_t reads_length;
    uint32_t output, output_count; /* in the ledger's outputs */
    uint32_t counts[4];
    uint32_t state;
    uint64_t beside; /* digest of what the line in its pages names; 0: there is none */
    uint32_t unsure; /* another change might not show in a stamp: digests decide */
    struct ledger_piece pieces[RECORD_PIECES];
};

struct ledger_output {
    uint64_t stamp, digest;
    uint32_t pattern; /* number of its name's pattern, such as "data/ .json" */
    uint32_t unused;
};

struct ledger_key { /* a table entry or question that some post read */
    struct ledger_text key;
    uint64_t digest;
};

struct ledger_gathered {
    uint64_t stamp, digest;
    uint64_t sources; /* digest of what it was joined from */
};

enum { PATTERNS_MOST = 64, GATHERED_MOST = 16 };

struct ledger_head {
    char magic[8];
    uint32_t layout, format;
    uint64_t settings;     /* digest of options and names that reach every output */
    uint64_t tables_stamp; /* of the tables' files */
    uint64_t tables, site; /* digests of their values */
    uint64_t pieces_file, pieces_end, pieces_live;
    uint64_t strings, reads, posts, outputs, keys; /* sizes: bytes or items */
    uint32_t pattern_count, gathered_count;
    uint64_t beside;          /* digest of all that the lines of all posts were chosen from */
    uint32_t gathered_unsure; /* digests decide: the file system keeps whole seconds */
    uint32_t manifest;        /* of the stamp of the manifest (press/manifest.h); 0: none */
    struct ledger_text patterns[PATTERNS_MOST];
    struct ledger_gathered gathered[GATHERED_MOST];
    struct ledger_post of_tables; /* what is wrong in the tables: counts and pieces alone */
};

struct ledger_block {
    void *bytes;
    size_t used, room; /* bytes */
};

struct ledger {
    struct ledger_head head;
    struct ledger_block strings, reads, posts, outputs, keys;
    uint32_t *slots;  /* of keys, by digest of the key; NULL until asked for */
    uint64_t *marks;  /* a bit for each key, to put numbers in order; all 0 in between */
    size_t mark_room; /* words of them */
    size_t slot_count;
};

/* an empty one */
void ledger_begin(struct ledger *l);
void ledger_close(struct ledger *l);

size_t ledger_post_count(const struct ledger *l);
struct ledger_post *ledger_post(const struct ledger *l, size_t i);
struct ledger_output *ledger_output(const struct ledger *l, size_t i);
struct slice ledger_string(const struct ledger *l, struct ledger_text t);
size_t ledger_key_count(const struct ledger *l);
struct ledger_key *ledger_key(const struct ledger *l, size_t i);

/* additions; false when the machine has no memory */
bool ledger_add_string(struct ledger *l, struct slice s, struct ledger_text *out);
bool ledger_add_outputs(struct ledger *l, size_t count, uint32_t *first);
/* the pattern's number; it is added when new */
bool ledger_pattern(struct ledger *l, const char *pattern, uint32_t *number);
/* the numbers of all that was read, each key with its digest, packed */
bool ledger_add_reads(struct ledger *l, const struct reads *r, struct ledger_post *p);
/* posts are exchanged whole: the block is the ledger's from now on */
void ledger_take_posts(struct ledger *l, struct ledger_post *posts, size_t count);

/* calls `each` for every key the post read, while it returns true */
void ledger_each_read(const struct ledger *l, const struct ledger_post *p,
                      bool (*each)(void *ctx, uint32_t key), void *ctx);

#endif
