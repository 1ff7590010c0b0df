/* Where the text of a scalar stands in its bytes: through quotes, escapes and folded lines. */
#ifndef READ_YAML_SOURCE_H
#define READ_YAML_SOURCE_H

#include "read/yaml_node.h"

/* bytes of the line break at `at`, by YAML 1.1 as libyaml reads it; 0 when there is none */
size_t yaml_break_at(struct slice s, size_t at);
/* bytes of the character at `at` */
size_t yaml_character_at(struct slice s, size_t at);
/* byte of a scalar's bytes where its text begins: behind a quote or a block's header */
size_t yaml_text_start(struct slice source, bool quoted);
/* moves a place over source bytes from..to */
void yaml_place_move(struct place *p, struct slice source, size_t from, size_t to);

/* the place of bytes from..to of a scalar's text; exact also through quotes, escapes and folded
 * lines */
struct place yaml_place_in(const struct yaml_node *node, size_t from, size_t to);

#endif
