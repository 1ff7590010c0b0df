/* Promises of a time for all of it, in the title, the summary or the prose: "30-minute dal", "on
 * the table in half an hour". */
#ifndef JUDGE_PROMISE_H
#define JUDGE_PROMISE_H

#include "judge/clauses.h"

/* how sure a promise must be said to be one: a title says it in any way, prose may speak of a part
 */
enum promise_in { PROMISE_TITLE, PROMISE_SUMMARY, PROMISE_PROSE };

/* notices TIME_TITLE for the first promise of the title, of the summary and of the prose that the
 * steps do not keep. Without clauses the prose is left out. */
void promise_judge(const struct judging *j);

/* seconds at most that the words promise for all of it, and which bytes say so; 0: they do not */
double promise_read(const struct cooking *c, const struct words *w, enum promise_in in,
                    size_t *from, size_t *to);

/* the place of bytes from..to of a value, exact where it stands unbroken */
struct place promise_place(const struct front_value *front_value, size_t from, size_t to);
/* where words of the prose stand in the file, behind the front matter: their first place */
struct place promise_place_in_body(const struct body *body, struct slice what);

#endif
