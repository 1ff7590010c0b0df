/* JSON as a stream: written straight into a text, member by member, in the order of the calls. No
 * tree stands in between, because most of what is written is written once; and "<" and the line
 * separators are escaped, so that every document is safe inside an HTML script element. */
#ifndef WRITE_JSON_WRITER_H
#define WRITE_JSON_WRITER_H

#include "base/text.h"

struct json_writer {
    struct text *text;
    bool more; /* a value stands before: a comma comes next */
};

struct json_writer json_new(struct text *t);

/* What most values are made of is inline, so that the length of a key is known when it is compiled.
 */

/* a comma where a value stands before */
static inline void
json_comma(struct json_writer *n)
{
    if (n->more)
        text_add_byte(n->text, ',');
    n->more = true;
}

/* '{' or '[' and their ends */
static inline void
json_open(struct json_writer *n, char bracket)
{
    json_comma(n);
    text_add_byte(n->text, bracket);
    n->more = false;
}

static inline void
json_close(struct json_writer *n, char bracket)
{
    text_add_byte(n->text, bracket);
    n->more = true;
}

/* the key of the next value; a plain ASCII word */
static inline void
json_key(struct json_writer *n, const char *key)
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

void json_text(struct json_writer *n, struct slice s);
/* a plain ASCII word of the program's own */
static inline void
json_word(struct json_writer *n, const char *word)
{
    const size_t length = strlen(word);
    struct text *t = n->text;
    json_comma(n);
    if (t->room - t->length < length + 3)
        text_widen(t, length + 3);
    char *at = t->bytes + t->length;
    *at = '"';
    memcpy(at + 1, word, length);
    memcpy(at + 1 + length, "\"", 2);
    t->length += length + 2;
}
void json_number(struct json_writer *n, double value, int decimals);
void json_truth(struct json_writer *n, bool truth);
/* a value that is JSON already */
void json_raw(struct json_writer *n, struct slice json);

/* key and a whole number */
static inline void
json_member_whole(struct json_writer *n, const char *key, uint64_t value)
{
    json_key(n, key);
    text_add_whole(n->text, value);
    n->more = true;
}

/* key and text; nothing when the text is empty */
static inline void
json_member(struct json_writer *n, const char *key, struct slice s)
{
    if (s.length == 0)
        return;
    json_key(n, key);
    json_text(n, s);
}

static inline void
json_member_string(struct json_writer *n, const char *key, const char *s)
{
    json_member(n, key, slice_of(s));
}

/* key and a plain ASCII word of the program's own */
static inline void
json_member_word(struct json_writer *n, const char *key, const char *word)
{
    json_key(n, key);
    json_word(n, word);
}

/* key and an opened object or array */
static inline void
json_member_open(struct json_writer *n, const char *key, char bracket)
{
    json_key(n, key);
    text_add_byte(n->text, bracket);
}

#endif
