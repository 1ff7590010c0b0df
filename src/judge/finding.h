/* Findings: what the program reports to the writer. */
#ifndef JUDGE_FINDING_H
#define JUDGE_FINDING_H

#include "judge/rules.h"
#include "read/front_matter.h"

struct finding {
    enum rule rule;
    enum level level;
    const char *path;
    struct place place;
    struct slice message; /* one sentence, no level, no rule */
    struct slice mend;    /* what to do, or empty */
    bool answered;        /* the post answers it with a reason: shown and counted, never fails */
    struct slice reason;
};

/* of one post; a finding more says how many are left out */
enum { FINDINGS_MOST = 500 };

struct findings {
    struct finding *items; /* what matters most first; what is answered last */
    size_t count;
    enum level worst;                       /* of those not answered */
    size_t count_by_level[LEVEL_ERROR + 1]; /* not answered */
    size_t answered;
};

/* notices into findings, sorted, without repeats */
void findings_make(struct arena *a, const char *path, const struct notices *notices,
                   struct findings *out);

/* counts anew by level */
void findings_count(struct findings *f);
/* marks what the post answers with a reason; an answer that fits nothing is a finding itself. What
 * could not be read is never answered. */
void findings_answer(struct arena *a, const char *path, const struct answer *given, size_t count,
                     struct findings *f);

const char *finding_level_word(enum level l);
bool finding_level_read(struct slice word, enum level *out);

#endif
