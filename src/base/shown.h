/* Words on their way to a terminal: the one place that keeps an author's bytes from moving the
 * cursor, ringing a bell, turning the line's direction around, or being no text at all. */
#ifndef BASE_SHOWN_H
#define BASE_SHOWN_H

#include <stdio.h>

#include "base/text.h"

enum { SHOWN_BROKEN = 0xfffd }; /* stands for what cannot be shown */

/* the character at `at` and its bytes; SHOWN_BROKEN, one byte, where it is no UTF-8 */
uint32_t shown_character(struct slice s, size_t at, size_t *length);
/* whether a character is not to reach a terminal */
bool shown_hidden(uint32_t character);
/* words on one line: nothing hidden, line ends and tabs as spaces */
void shown_add(struct text *t, struct slice s);
/* prints text of many lines, nothing hidden but its line ends and tabs; false when it cannot */
bool shown_put(FILE *to, struct slice s);
/* the same, or as it is where it is data for programs, which escape in their own way */
bool shown_print(FILE *to, struct slice s, bool data);
/* shown_put of a format, on one line or many */
bool shown_printf(FILE *to, const char *format, ...) __attribute__((format(printf, 2, 3)));

#endif
