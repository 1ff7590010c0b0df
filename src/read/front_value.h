/* The values of front matter as what was said, each with its place: texts, addresses, dates, lists.
 * A value that is none of what its key wants is told and left out. */
#ifndef READ_FRONT_VALUE_H
#define READ_FRONT_VALUE_H

#include "base/notice.h"
#include "read/word_lists.h"
#include "read/yaml_tree.h"

/* a text with its place; length 0 when not given */
struct front_value {
    struct slice text;
    struct place place;
};

struct front_list {
    struct front_value *items;
    size_t count, room;
};

struct front_reader {
    struct arena *arena;
    const struct word_lists *lists;
    struct notices *notices;
};

/* notices that a value is not of the kind that its key wants, or cannot be read as that */
void front_wrong_type(struct front_reader *r, const struct yaml_node *key,
                      const struct yaml_node *value, const char *should);
void front_unreadable(struct front_reader *r, const struct front_value *front_value,
                      const char *as);
/* whether a value was left empty, or written as null */
bool front_nothing(const struct yaml_node *node);
/* bytes from..to of a scalar, without white space at the ends */
struct front_value front_part(const struct yaml_node *node, size_t from, size_t to);

/* a text as it stands; false after a notice, or when the value is empty */
bool front_text(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
                struct front_value *out);
/* the same for a row of readers */
void front_words(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
                 struct front_value *out);
/* an address that may be published */
void front_address(struct front_reader *r, const struct yaml_node *key,
                   const struct yaml_node *value, struct front_value *out);
/* an ISO 8601 date */
void front_date(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *value,
                struct front_value *out);
/* a list, or one line with commas */
void front_list_read(struct front_reader *r, const struct yaml_node *key,
                     const struct yaml_node *value, struct front_list *out);

#endif
