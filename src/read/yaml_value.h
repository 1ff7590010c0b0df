/* Values of a YAML tree: looked up in maps, read as numbers and truths. */
#ifndef READ_YAML_VALUE_H
#define READ_YAML_VALUE_H

#include "read/yaml_tree.h"

/* the value of a key of a map, or NULL; node may be NULL or no map */
const struct yaml_node *yaml_get(const struct yaml_node *map, const char *key);
/* the i-th key and value of a map */
const struct yaml_node *yaml_key(const struct yaml_node *map, size_t i);
const struct yaml_node *yaml_value(const struct yaml_node *map, size_t i);
/* a number in the YAML core schema (1, 1.5, 1e3); false when it is none */
bool yaml_number(const struct yaml_node *node, double *number);
/* yes/no, true/false, on/off; false when it is none */
bool yaml_truth(const struct yaml_node *node, bool *truth);

#endif
