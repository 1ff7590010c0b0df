/* Findings as text for people and as JSON for programs. */
#ifndef WRITE_REPORT_H
#define WRITE_REPORT_H

#include "judge/finding.h"
#include "judge/rules.h"
#include "tables/table_cache.h"

struct report_manner {
    bool colour;
    bool source_lines; /* the source line with a caret under the words */
};

/* `file:line:column: level: message [rule]`, then the line, the caret and the mend as asked */
void report_text(struct text *t, const struct findings *f, struct slice source,
                 const struct report_manner *manner);
/* an array of objects: file, line, column, length, level, rule, message, mend, answered, reason */
void report_json(struct text *t, const struct findings *f);

/* what is wrong in the files of the tables, as text without source lines */
void report_tables(struct text *t, const struct tables *tables);

#endif
