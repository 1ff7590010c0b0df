/* What must hold of every output, whatever went in: told on standard error, then abort. */
#ifndef FUZZ_ORACLES_H
#define FUZZ_ORACLES_H

#include "compile/outcome.h"

/* the repository's own tables, loaded once; tests run from its top */
const struct tables *oracles_tables(void);
/* compiles the bytes as posts/NAME.md and holds all that is written of them against the oracles */
void oracles_post(const struct tables *t, const char *name, struct slice bytes);
/* UTF-8, JSON of one value */
void oracles_json(struct slice bytes);
/* UTF-8, tags that fit, quoted attributes, no script, no event attribute, no link that runs. `xml`:
 * every element is closed */
void oracles_markup(struct slice bytes, bool xml);

#endif
