/* All of YAML, built from libyaml's events, with bounds on depth, nodes and aliases, so that no
 * input can exhaust the machine. */
#ifndef READ_YAML_EVENTS_H
#define READ_YAML_EVENTS_H

#include "read/yaml_tree.h"

/* as yaml_tree_read; a byte order mark is not looked for */
const struct yaml_node *yaml_events_read(struct arena *a, struct slice bytes, uint32_t first_line,
                                         struct notices *notices);

#endif
