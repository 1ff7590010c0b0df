/* YAML as a tree that knows where each value stood. Built from libyaml's events, with bounds on
 * depth, nodes and aliases, so that no input can exhaust the machine. */
#ifndef READ_YAML_TREE_H
#define READ_YAML_TREE_H

#include "base/notice.h"

enum yaml_kind { YAML_SCALAR_NODE, YAML_LIST_NODE, YAML_MAP_NODE };

struct yaml_node {
    enum yaml_kind kind;
    struct place place;       /* of the value; for a scalar its first character behind any quote */
    struct slice text;        /* scalar: its text */
    struct slice source;      /* scalar: its bytes in the file, quotes and block header included */
    bool quoted;              /* scalar: was in quotes or a block, so always a string */
    struct yaml_node **items; /* list: items; map: keys and values in turn */
    size_t count;             /* list: items; map: pairs */
};

enum { YAML_DEPTH_MOST = 64, YAML_NODES_MOST = 200000 };

/* the tree of one document in `bytes`, whose first line is line `first_line` of its file;
 * NULL after a notice; an empty document is an empty map. Aliases are followed, to a bound. The
 * second of two equal keys is left out. `bytes` must live as long as the tree: it points into them.
 */
const struct yaml_node *yaml_tree_read(struct arena *a, struct slice bytes, uint32_t first_line,
                                       struct notices *notices);

/* the place of bytes from..to of a scalar's text; exact also through quotes, escapes and folded
 * lines */
struct place yaml_place_in(const struct yaml_node *node, size_t from, size_t to);

#endif
