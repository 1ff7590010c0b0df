/* The values of front matter as what was said, each with its place: texts, addresses, dates, lists.
 * A value that is none of what its key wants is told and left out. */
#ifndef READ_SAID_H
#define READ_SAID_H

#include "read/front_matter.h"

struct said_reader {
    struct arena *arena;
    struct notices *notices;
};

/* notices that a value is not of the kind that its key wants, or cannot be read as that */
void said_wrong_type(struct said_reader *r, const struct yaml_node *key,
                     const struct yaml_node *value, const char *should);
void said_unreadable(struct said_reader *r, const struct said *said, const char *as);
/* whether a value was left empty, or written as null */
bool said_nothing(const struct yaml_node *node);
/* bytes from..to of a scalar, without white space at the ends */
struct said said_part(const struct yaml_node *node, size_t from, size_t to);

/* a text as it stands; false after a notice, or when the value is empty */
bool said_text(struct said_reader *r, const struct yaml_node *key, const struct yaml_node *value,
               struct said *out);
/* the same for a row of readers */
void said_words(struct said_reader *r, const struct yaml_node *key, const struct yaml_node *value,
                struct said *out);
/* an address that may be published */
void said_address(struct said_reader *r, const struct yaml_node *key, const struct yaml_node *value,
                  struct said *out);
/* an ISO 8601 date */
void said_date(struct said_reader *r, const struct yaml_node *key, const struct yaml_node *value,
               struct said *out);
/* a list, or one line with commas */
void said_list_read(struct said_reader *r, const struct yaml_node *key,
                    const struct yaml_node *value, struct said_list *out);

#endif
