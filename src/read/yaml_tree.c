#include "read/yaml_tree.h"

#include "read/yaml_events.h"
#include "read/yaml_plain.h"

const struct yaml_node *
yaml_tree_read(struct arena *a, struct slice bytes, uint32_t first_line, struct notices *notices)
{
    if (slice_begins(bytes, "\xef\xbb\xbf"))
        bytes = slice_part(bytes, 3, bytes.length);
    const struct yaml_node *root = yaml_plain_read(a, bytes, first_line);
    return root != NULL ? root : yaml_events_read(a, bytes, first_line, notices);
}
