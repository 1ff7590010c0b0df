/* A walk through the bytes of a YAML document that is written plainly: over blanks, breaks and
 * comments, from scalar to scalar. Whatever it does not know for certain makes it stop as `odd`. */
#ifndef READ_YAML_WALK_H
#define READ_YAML_WALK_H

#include "read/yaml_tree.h"

enum { YAML_INDENT_ROOT = -1, YAML_INDENT_FLOW = -2 };

struct yaml_walk {
    struct arena *arena;
    struct slice bytes;
    size_t at, line_at; /* the byte at hand, and the first of its line */
    size_t counted;     /* a byte of the line, and the place of it */
    struct place place;
    bool odd; /* not plain: nothing read is of use */
};

/* false when the bytes hold tabs, returns, hidden characters or no UTF-8 */
bool yaml_walk_begin(struct yaml_walk *w, struct arena *a, struct slice bytes, uint32_t first_line);
/* on to what is no blank, break or comment; false at the end, and when it is odd */
bool yaml_walk_on(struct yaml_walk *w);
/* the place of the byte at hand, length 0 */
struct place yaml_walk_place(struct yaml_walk *w);
/* fills `node` with the scalar at hand and moves behind it; false when it is odd. A scalar without
 * quotes goes on over lines indented by more than `indent`, or to a flow's next mark. */
bool yaml_walk_scalar(struct yaml_walk *w, int indent, struct yaml_node *node);

/* the byte at `i`; behind the end stands a line break */
static inline char
yaml_walk_byte(const struct yaml_walk *w, size_t i)
{
    return i < w->bytes.length ? w->bytes.at[i] : '\n';
}

static inline bool
yaml_walk_blank(const struct yaml_walk *w, size_t i)
{
    return yaml_walk_byte(w, i) == ' ' || yaml_walk_byte(w, i) == '\n';
}

/* columns between the margin and the byte at hand, in bytes */
static inline int
yaml_walk_indent(const struct yaml_walk *w)
{
    return (int)(w->at - w->line_at);
}

#endif
