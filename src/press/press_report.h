/* What a press tells: findings, reasons, the last line. */
#ifndef PRESS_PRESS_REPORT_H
#define PRESS_PRESS_REPORT_H

#include "press/state.h"

/* findings in the tables' files, as a record of their own */
bool press_report_tables(struct press_state *p, struct failure *f);
/* for each post made again what made it so; while the ledger's posts are those of before */
void press_report_why(struct press_state *p);
/* findings and the last line, as the options ask */
bool press_report(struct press_state *p, struct press_result *r, struct failure *f);

#endif
