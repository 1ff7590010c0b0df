/* JSON as a stream: written straight into a text, member by member, in the order of the calls. No
 * tree stands in between, because most of what is written is written once; and "<" and the line
 * separators are escaped, so that every document is safe inside an HTML script element. */
#ifndef WRITE_NOTATION_H
#define WRITE_NOTATION_H

#include "base/text.h"

struct notation {
    struct text *text;
    bool more; /* a value stands before: a comma comes next */
};

struct notation notation_new(struct text *t);
/* '{' or '[' and their ends */
void notation_open(struct notation *n, char bracket);
void notation_close(struct notation *n, char bracket);
/* the key of the next value; a plain ASCII word */
void notation_key(struct notation *n, const char *key);
void notation_text(struct notation *n, struct slice s);
void notation_number(struct notation *n, double value, int decimals);
void notation_truth(struct notation *n, bool truth);
/* a value that is JSON already */
void notation_raw(struct notation *n, struct slice json);
/* key and text; nothing when the text is empty */
void notation_member(struct notation *n, const char *key, struct slice s);
void notation_member_string(struct notation *n, const char *key, const char *s);
/* key and an opened object or array */
void notation_member_open(struct notation *n, const char *key, char bracket);

#endif
