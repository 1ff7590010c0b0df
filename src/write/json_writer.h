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

/* '{' or '[' and their ends */
void json_open(struct json_writer *n, char bracket);
void json_close(struct json_writer *n, char bracket);
/* the key of the next value; a plain ASCII word */
void json_key(struct json_writer *n, const char *key);

/* a value; bytes that are no UTF-8 become replacement characters */
void json_text(struct json_writer *n, struct slice s);
/* a plain ASCII word of the program's own */
void json_word(struct json_writer *n, const char *word);
void json_number(struct json_writer *n, double value, int decimals);
void json_truth(struct json_writer *n, bool truth);
/* a value that is JSON already */
void json_raw(struct json_writer *n, struct slice json);

/* key and value; nothing when a text is empty */
void json_member(struct json_writer *n, const char *key, struct slice s);
void json_member_string(struct json_writer *n, const char *key, const char *s);
void json_member_whole(struct json_writer *n, const char *key, uint64_t value);
void json_member_word(struct json_writer *n, const char *key, const char *word);
/* key and an opened object or array */
void json_member_open(struct json_writer *n, const char *key, char bracket);

#endif
