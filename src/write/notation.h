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

/* What most values are made of is inline, so that the length of a key is known when it is compiled.
 */

/* a comma where a value stands before */
static inline void
notation_comma(struct notation *n)
{
    if (n->more)
        text_add_byte(n->text, ',');
    n->more = true;
}

/* '{' or '[' and their ends */
static inline void
notation_open(struct notation *n, char bracket)
{
    notation_comma(n);
    text_add_byte(n->text, bracket);
    n->more = false;
}

static inline void
notation_close(struct notation *n, char bracket)
{
    text_add_byte(n->text, bracket);
    n->more = true;
}

/* the key of the next value; a plain ASCII word */
static inline void
notation_key(struct notation *n, const char *key)
{
    const size_t length = strlen(key);
    struct text *t = n->text;
    if (t->room - t->length < length + 5)
        text_widen(t, length + 5);
    char *at = t->bytes + t->length;
    *at = ',';
    at += n->more;
    *at++ = '"';
    memcpy(at, key, length);
    memcpy(at + length, "\":", 3);
    t->length = (size_t)(at - t->bytes) + length + 2;
    n->more = false;
}

void notation_text(struct notation *n, struct slice s);
/* a plain ASCII word of the program's own */
static inline void
notation_word(struct notation *n, const char *word)
{
    const size_t length = strlen(word);
    struct text *t = n->text;
    notation_comma(n);
    if (t->room - t->length < length + 3)
        text_widen(t, length + 3);
    char *at = t->bytes + t->length;
    *at = '"';
    memcpy(at + 1, word, length);
    memcpy(at + 1 + length, "\"", 2);
    t->length += length + 2;
}
void notation_number(struct notation *n, double value, int decimals);
void notation_truth(struct notation *n, bool truth);
/* a value that is JSON already */
void notation_raw(struct notation *n, struct slice json);

/* key and a whole number */
static inline void
notation_member_whole(struct notation *n, const char *key, uint64_t value)
{
    notation_key(n, key);
    text_add_whole(n->text, value);
    n->more = true;
}

/* key and text; nothing when the text is empty */
static inline void
notation_member(struct notation *n, const char *key, struct slice s)
{
    if (s.length == 0)
        return;
    notation_key(n, key);
    notation_text(n, s);
}

static inline void
notation_member_string(struct notation *n, const char *key, const char *s)
{
    notation_member(n, key, slice_of(s));
}

/* key and a plain ASCII word of the program's own */
static inline void
notation_member_word(struct notation *n, const char *key, const char *word)
{
    notation_key(n, key);
    notation_word(n, word);
}

/* key and an opened object or array */
static inline void
notation_member_open(struct notation *n, const char *key, char bracket)
{
    notation_key(n, key);
    text_add_byte(n->text, bracket);
}

#endif
