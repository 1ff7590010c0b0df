/* Dates as ISO 8601 writes them in full: 2026-03-14, 2026-03-14T09:30:00+13:00. */
#ifndef READ_ISO_DATE_H
#define READ_ISO_DATE_H

#include "base/text.h"

/* whether the text is a calendar date that exists, alone or with a time and its zone (T between,
 * seconds and their decimals optional) */
bool iso_date_valid(struct slice text);

#endif
