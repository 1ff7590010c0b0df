/* The one list of rules: id, level, what it means, how to mend it, where it comes from. */
#ifndef JUDGE_RULES_H
#define JUDGE_RULES_H

#include "base/notice.h"

enum level { LEVEL_NONE, LEVEL_NOTE, LEVEL_WARNING, LEVEL_ERROR };

struct rule_row {
    const char *id; /* portion-over: what is printed in brackets, and answered in a post */
    enum level level;
    const char *message; /* with {what} and {more} */
    const char *mend;    /* with {what} and {more}; NULL when there is none */
    const char *meaning; /* two or three sentences for `dariole rules RULE` */
    const char *source;  /* standard, law, or "the project's own" */
};

const struct rule_row *rules_row(enum rule r);
bool rules_by_id(struct slice id, enum rule *out);

#endif
