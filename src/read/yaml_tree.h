/* YAML as a tree that knows where each value stood. Built from libyaml's events, with bounds on
 * depth, nodes and aliases, so that no input can exhaust the machine. */
#ifndef READ_YAML_TREE_H
#define READ_YAML_TREE_H

#include "read/yaml_node.h"

enum { YAML_DEPTH_MOST = 64, YAML_NODES_MOST = 200000 };

/* the tree of one document in `bytes`, whose first line is line `first_line` of its file;
 * NULL after a notice; an empty document is an empty map. Aliases are followed, to a bound. The
 * second of two equal keys is left out. `bytes` must live as long as the tree: it points into them.
 */
const struct yaml_node *yaml_tree_read(struct arena *a, struct slice bytes, uint32_t first_line,
                                       struct notices *notices);

#endif
