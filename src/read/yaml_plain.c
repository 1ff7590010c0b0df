#include "read/yaml_plain.h"

#include <string.h>

#include "base/list.h"
#include "base/map.h"
#include "read/yaml_walk.h"

/* A key must be told within 1024 characters; of more than a few to compare, a map is quicker. */
enum { KEY_BYTES_MOST = 1000, KEYS_FEW = 16 };

struct reader {
    struct yaml_walk walk;
    size_t depth, nodes;
    LIST_OF(struct yaml_node *) pile; /* items of lists and maps not yet closed */
};

static struct yaml_node *leaf(struct reader *r, int indent);
static struct yaml_node *block_value(struct reader *r, int indent, bool entry);

static struct yaml_node *
node_new(struct reader *r)
{
    return ++r->nodes <= YAML_NODES_MOST ? arena_take_raw(r->walk.arena, sizeof(struct yaml_node))
                                         : NULL;
}

/* a list or map that begins at the byte at hand, or whose first key does; NULL when too deep */
static struct yaml_node *
open(struct reader *r, enum yaml_kind kind, struct place place)
{
    struct yaml_node *node = r->depth < YAML_DEPTH_MOST ? node_new(r) : NULL;
    if (node != NULL)
        *node = (struct yaml_node){.kind = kind, .place = place};
    r->depth++;
    return node;
}

static bool
add(struct reader *r, struct yaml_node *item)
{
    if (item != NULL)
        *LIST_GROW(r->walk.arena, &r->pile) = item;
    return item != NULL;
}

static bool
keys_differ(struct reader *r, const struct yaml_node *map)
{
    struct map seen = {0};
    if (map->count > KEYS_FEW)
        seen = map_for(r->walk.arena, map->count);
    for (size_t i = 0; i < map->count; i++) {
        const struct slice key = map->items[2 * i]->text;
        if (map->count > KEYS_FEW && !map_put(&seen, key, map->items[2 * i]))
            return false;
        for (size_t j = 0; j < i && map->count <= KEYS_FEW; j++)
            if (slice_equal(map->items[2 * j]->text, key))
                return false;
    }
    return true;
}

/* the node with the items that are on the pile from `first` on */
static struct yaml_node *
close(struct reader *r, struct yaml_node *node, size_t first)
{
    size_t count = r->pile.count - first;
    node->items = arena_take_raw(r->walk.arena, count * sizeof *node->items);
    if (count > 0)
        memcpy(node->items, r->pile.items + first, count * sizeof *node->items);
    node->count = node->kind == YAML_MAP_NODE ? count / 2 : count;
    r->pile.count = first;
    r->depth--;
    return node->kind != YAML_MAP_NODE || keys_differ(r, node) ? node : NULL;
}

/* whether the node just read is the key of what follows */
static bool
is_key(const struct reader *r, const struct yaml_node *node, uint32_t line)
{
    const struct yaml_walk *w = &r->walk;
    return node != NULL && node->kind == YAML_SCALAR_NODE && w->place.line == line &&
           node->source.length <= KEY_BYTES_MOST && yaml_walk_byte(w, w->at) == ':' &&
           yaml_walk_blank(w, w->at + 1);
}

static struct yaml_node *
flow_list(struct reader *r)
{
    struct yaml_walk *w = &r->walk;
    size_t first = r->pile.count;
    struct yaml_node *node = open(r, YAML_LIST_NODE, yaml_walk_place(w));
    w->at++;
    if (node == NULL || !yaml_walk_on(w))
        return NULL;
    for (char c = w->bytes.at[w->at]; c != ']'; c = w->bytes.at[w->at]) {
        if (r->pile.count > first && (c != ',' || (w->at++, !yaml_walk_on(w))))
            return NULL;
        if (!add(r, leaf(r, YAML_INDENT_FLOW)) || !yaml_walk_on(w))
            return NULL;
    }
    w->at++;
    return close(r, node, first);
}

static struct yaml_node *
flow_map(struct reader *r)
{
    struct yaml_walk *w = &r->walk;
    size_t first = r->pile.count;
    struct yaml_node *node = open(r, YAML_MAP_NODE, yaml_walk_place(w));
    w->at++;
    if (node == NULL || !yaml_walk_on(w))
        return NULL;
    for (char c = w->bytes.at[w->at]; c != '}'; c = w->bytes.at[w->at]) {
        if (r->pile.count > first && (c != ',' || (w->at++, !yaml_walk_on(w))))
            return NULL;
        uint32_t line = w->place.line;
        struct yaml_node *key = leaf(r, YAML_INDENT_FLOW);
        if (!is_key(r, key, line) || !add(r, key))
            return NULL;
        w->at++;
        if (!yaml_walk_on(w) || !add(r, leaf(r, YAML_INDENT_FLOW)) || !yaml_walk_on(w))
            return NULL;
    }
    w->at++;
    return close(r, node, first);
}

/* a scalar, or all between brackets or braces */
static struct yaml_node *
leaf(struct reader *r, int indent)
{
    const char c = r->walk.bytes.at[r->walk.at];
    if (c == '[')
        return flow_list(r);
    if (c == '{')
        return flow_map(r);
    struct yaml_node *node = node_new(r);
    return node != NULL && yaml_walk_scalar(&r->walk, indent, node) ? node : NULL;
}

/* on to the next line's words; false when this line says more */
static bool
leave_line(struct yaml_walk *w)
{
    uint32_t line = w->place.line;
    return !yaml_walk_on(w) ? !w->odd : w->place.line > line;
}

/* whether a list's dash is at hand */
static bool
is_entry(const struct yaml_walk *w)
{
    return yaml_walk_byte(w, w->at) == '-' && yaml_walk_blank(w, w->at + 1);
}

static bool
is_at_end(const struct yaml_walk *w)
{
    return w->at == w->bytes.length;
}

/* a list whose dashes stand at the indent of the one at hand; `beside`: so does its key */
static struct yaml_node *
block_list(struct reader *r, bool beside)
{
    struct yaml_walk *w = &r->walk;
    const int indent = yaml_walk_indent(w);
    size_t first = r->pile.count;
    struct yaml_node *node = open(r, YAML_LIST_NODE, yaml_walk_place(w));
    while (node != NULL) {
        w->at++;
        if (!add(r, block_value(r, indent, true)))
            return NULL;
        if (is_at_end(w) || yaml_walk_indent(w) < indent)
            return close(r, node, first);
        if (yaml_walk_indent(w) > indent)
            return NULL;
        if (!is_entry(w))
            return beside ? close(r, node, first) : NULL;
    }
    return NULL;
}

/* a map whose keys stand at `indent`, from the colon behind its first key on */
static struct yaml_node *
block_map(struct reader *r, int indent, struct yaml_node *key)
{
    struct yaml_walk *w = &r->walk;
    size_t first = r->pile.count;
    const struct place place = {key->place.line, key->place.column - key->quoted, 0};
    struct yaml_node *node = open(r, YAML_MAP_NODE, place);
    while (node != NULL) {
        w->at++;
        if (!add(r, key) || !add(r, block_value(r, indent, false)))
            return NULL;
        if (is_at_end(w) || yaml_walk_indent(w) < indent)
            return close(r, node, first);
        uint32_t line = w->place.line;
        if (yaml_walk_indent(w) > indent)
            return NULL;
        key = leaf(r, indent);
        if (!is_key(r, key, line))
            return NULL;
    }
    return NULL;
}

/* what stands at the byte at hand, within a list or map at `indent`, and on to what comes next */
static struct yaml_node *
block(struct reader *r, int indent)
{
    struct yaml_walk *w = &r->walk;
    if (is_entry(w))
        return block_list(r, false);
    const int own = yaml_walk_indent(w);
    const uint32_t line = w->place.line;
    struct yaml_node *node = leaf(r, indent);
    if (is_key(r, node, line))
        return block_map(r, own, node);
    return node != NULL && leave_line(w) ? node : NULL;
}

/* the value behind a dash (`entry`) or a key's colon of a list or map at `indent` */
static struct yaml_node *
block_value(struct reader *r, int indent, bool entry)
{
    struct yaml_walk *w = &r->walk;
    const struct place place = yaml_walk_place(w);
    const struct slice nothing = slice_part(w->bytes, w->at, w->at);
    const bool more = yaml_walk_on(w), beside = more && w->place.line == place.line;
    if (beside && !entry) {
        struct yaml_node *node = leaf(r, indent);
        return node != NULL && leave_line(w) ? node : NULL;
    }
    if (more && (beside || yaml_walk_indent(w) > indent))
        return block(r, indent);
    if (more && !entry && yaml_walk_indent(w) == indent && is_entry(w))
        return block_list(r, true);
    struct yaml_node *node = w->odd ? NULL : node_new(r);
    if (node != NULL)
        *node = (struct yaml_node){
            .kind = YAML_SCALAR_NODE, .place = place, .text = nothing, .source = nothing};
    return node;
}

const struct yaml_node *
yaml_plain_read(struct arena *a, struct slice bytes, uint32_t first_line)
{
    struct reader r = {.depth = 0};
    if (!yaml_walk_begin(&r.walk, a, bytes, first_line) || !yaml_walk_on(&r.walk))
        return NULL;
    const struct yaml_node *root = block(&r, YAML_INDENT_ROOT);
    const bool whole = root != NULL && !r.walk.odd && is_at_end(&r.walk);
    return whole && root->kind != YAML_SCALAR_NODE ? root : NULL;
}
