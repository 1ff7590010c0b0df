/* YAML as most people write it (lists, maps and scalars, indented or in brackets and braces), read
 * in one pass, in a tenth of the time that libyaml takes. It knows no anchors, tags, block scalars,
 * escapes but of quotes, tabs, or anything that is wrong: it leaves those to read/yaml_events.h,
 * which reads all of YAML and makes the same tree of the same bytes. */
#ifndef READ_YAML_PLAIN_H
#define READ_YAML_PLAIN_H

#include "read/yaml_tree.h"

/* the tree of a document; NULL, without a notice, when it is not plain */
const struct yaml_node *yaml_plain_read(struct arena *a, struct slice bytes, uint32_t first_line);

#endif
