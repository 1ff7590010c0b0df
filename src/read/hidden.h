/* Characters that change how text reads without showing: bidi controls, zero-width characters,
 * tags, control codes (Unicode Technical Report 36), and noncharacters, which XML and HTML forbid.
 * They are told of, and kept from all output. */
#ifndef READ_HIDDEN_H
#define READ_HIDDEN_H

#include "base/text.h"

/* whether the character is one of them, joiners included */
bool hidden_is(uint32_t code_point);

/* byte offset of the first hidden character at or after from, or SIZE_MAX; joiners between
 * characters beyond ASCII have honest work and are not hidden. Valid UTF-8 only, but for
 * the single bytes that cmark makes of &#xFFFE; and &#xFFFF;. */
size_t hidden_find(struct slice s, size_t from, uint32_t *code_point);

/* the text without hidden characters; the same slice when there are none */
struct slice hidden_strip(struct arena *a, struct slice s);

#endif
