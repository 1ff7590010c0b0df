#include "read/yaml_tree.h"

#include <string.h>

/* libyaml's document tree, which is not used here, has a constant of the same name */
#define YAML_SCALAR_NODE LIBYAML_SCALAR_NODE
#include <yaml.h>
#undef YAML_SCALAR_NODE

#include "base/list.h"
#include "base/map.h"
#include "read/hidden.h"
#include "read/yaml_fault.h"
#include "read/yaml_source.h"

struct anchor {
    struct slice name;
    struct yaml_node *node;
    size_t weight;   /* nodes it stands for, aliases within it followed */
    unsigned height; /* levels below it */
};

struct frame { /* a list or map not yet closed */
    struct yaml_node *node;
    struct slice anchor; /* empty: none */
    size_t pending;      /* where its items begin on the pile */
    size_t weight_before;
    unsigned height;
};

/* A place in the bytes that only moves forward, as libyaml's marks do, so that finding the bytes of
 * all scalars costs one pass, and of those between two wide characters a sum. */
struct cursor {
    size_t at, index; /* bytes, characters */
    size_t wide;      /* the next byte that is no character of its own, or the end */
};

struct builder {
    struct arena *arena;
    struct slice bytes;
    uint32_t first_line;
    struct notices *notices;
    yaml_parser_t parser;
    yaml_event_t event;
    bool event_held;
    jmp_buf outer; /* the arena's guard while ours is set */
    struct cursor cursor;
    struct frame *frames; /* YAML_DEPTH_MOST of them */
    size_t depth, weight;
    bool aliased;
    LIST_OF(struct yaml_node *) pile;
    LIST_OF(struct anchor) anchors;
    struct yaml_node *root;
};

static size_t
next_wide(struct slice bytes, size_t at)
{
    while (at < bytes.length && (unsigned char)bytes.at[at] < 0x80)
        at++;
    return at;
}

static size_t
seek(struct builder *b, const yaml_mark_t *mark)
{
    struct cursor *c = &b->cursor;
    while (c->index < mark->index && c->at < b->bytes.length) {
        size_t narrow = mark->index - c->index;
        if (narrow > c->wide - c->at)
            narrow = c->wide - c->at;
        c->at += narrow;
        c->index += narrow;
        if (c->index == mark->index || c->at == b->bytes.length)
            break;
        c->at += yaml_character_at(b->bytes, c->at);
        c->index++;
        c->wide = next_wide(b->bytes, c->at);
    }
    return c->at;
}

static struct place
place_of(const struct builder *b, const yaml_mark_t *mark)
{
    return (struct place){b->first_line + (uint32_t)mark->line, (uint32_t)mark->column + 1, 0};
}

/* words: the rest of the line at the mark */
static bool
broken(struct builder *b, enum rule rule, const yaml_mark_t *mark, const char *why)
{
    size_t at = seek(b, mark);
    if (at < b->bytes.length && b->bytes.at[at] == '\t')
        why = "a tab where YAML takes only spaces";
    const struct yaml_fault fault = yaml_fault_of(why);
    notice_add(b->notices, rule, place_of(b, mark), slice_of(fault.words), slice_of(fault.mend));
    return false;
}

static bool
parser_failed(struct builder *b)
{
    yaml_parser_t *p = &b->parser;
    if (p->error == YAML_MEMORY_ERROR)
        arena_take(b->arena, SIZE_MAX); /* jumps to the guard */
    yaml_mark_t mark = p->problem_mark;
    if (p->error == YAML_READER_ERROR) {
        /* the reader knows bytes, not lines */
        mark = (yaml_mark_t){0};
        for (size_t at = 0; at < p->problem_offset && at < b->bytes.length; mark.index++) {
            size_t n = yaml_break_at(b->bytes, at);
            mark.line += n > 0;
            mark.column = n > 0 ? 0 : mark.column + 1;
            mark.index += n == 2 && b->bytes.at[at] == '\r';
            at += n > 0 ? n : yaml_character_at(b->bytes, at);
        }
    }
    return broken(b, RULE_YAML_BROKEN, &mark, p->problem);
}

/* libyaml counts anchor and tag to the scalar */
static struct slice
without_properties(struct slice source)
{
    while (source.length > 0 && (source.at[0] == '&' || source.at[0] == '!')) {
        size_t i = 0;
        while (i < source.length && source.at[i] != ' ' && source.at[i] != '\t' &&
               yaml_break_at(source, i) == 0)
            i++;
        while (i < source.length && (source.at[i] == ' ' || source.at[i] == '\t'))
            i++;
        source = slice_part(source, i, source.length);
    }
    return source;
}

static struct yaml_node *
scalar_new(struct builder *b)
{
    const yaml_event_t *e = &b->event;
    struct yaml_node *node = arena_take_raw(b->arena, sizeof *node);
    size_t from = seek(b, &e->start_mark), to = seek(b, &e->end_mark);
    struct slice whole = slice_part(b->bytes, from, to), source = whole;
    const bool bare = e->data.scalar.anchor == NULL && e->data.scalar.tag == NULL;
    if (!bare)
        source = without_properties(whole);
    yaml_scalar_style_t style = e->data.scalar.style;
    *node = (struct yaml_node){.kind = YAML_SCALAR_NODE,
                               .quoted = style != YAML_PLAIN_SCALAR_STYLE,
                               .place = place_of(b, &e->start_mark),
                               .source = source};
    struct slice text = {(const char *)e->data.scalar.value, e->data.scalar.length};
    bool in_quotes =
        style == YAML_SINGLE_QUOTED_SCALAR_STYLE || style == YAML_DOUBLE_QUOTED_SCALAR_STYLE;
    uint32_t hidden_code = 0;
    struct slice inner =
        in_quotes && source.length >= 2 ? slice_part(source, 1, source.length - 1) : source;
    node->text = slice_equal(inner, text) ? inner : slice_copy(b->arena, text);
    uint32_t code;
    if (hidden_find(text, 0, &code) != SIZE_MAX) {
        node->text = hidden_strip(b->arena, node->text);
        hidden_code = hidden_find(inner, 0, &code) == SIZE_MAX ? code : 0;
    }
    if (!bare || node->quoted)
        yaml_place_move(&node->place, whole, 0,
                        whole.length - source.length + yaml_text_start(source, node->quoted));
    if (e->start_mark.line == e->end_mark.line)
        node->place.length =
            bare ? (uint32_t)(e->end_mark.index - e->start_mark.index) - 2 * in_quotes
                 : (uint32_t)slice_characters(inner);
    if (hidden_code !=
        0) /* it came through an escape; those in plain sight the file's reader sees */
        notice_add(b->notices, RULE_CHARACTER_HIDDEN, node->place,
                   text_formatted(b->arena, "U+%04X", (unsigned)hidden_code), SLICE(""));
    return node;
}

/* counts `weight` nodes; false after a notice when they are too many */
static bool
weigh_in(struct builder *b, size_t weight)
{
    b->weight += weight;
    if (b->weight <= YAML_NODES_MOST)
        return true;
    return broken(b, b->aliased ? RULE_YAML_TOO_MANY_ALIASES : RULE_YAML_BROKEN,
                  &b->event.start_mark, "more than 200000 values");
}

/* puts a finished node where it belongs; `height` levels below it */
static void
atomic_file_node(struct builder *b, struct yaml_node *node, unsigned height)
{
    if (b->depth == 0) {
        b->root = node;
        return;
    }
    struct frame *f = &b->frames[b->depth - 1];
    if (f->height < height + 1)
        f->height = height + 1;
    *LIST_GROW(b->arena, &b->pile) = node;
}

static void
anchor_set(struct builder *b, struct slice name, struct yaml_node *node, size_t weight,
           unsigned height)
{
    if (name.length > 0)
        *LIST_GROW(b->arena, &b->anchors) = (struct anchor){name, node, weight, height};
}

static struct slice
anchor_name(struct builder *b, const yaml_char_t *name)
{
    struct slice s = slice_of((const char *)name);
    return s.length > 0 ? slice_copy(b->arena, s) : s;
}

static bool
alias(struct builder *b)
{
    struct slice name = slice_of((const char *)b->event.data.alias.anchor);
    b->aliased = true;
    for (size_t i = b->anchors.count; i-- > 0;) {
        const struct anchor *known = &b->anchors.items[i];
        if (!slice_equal(known->name, name))
            continue;
        if (b->depth + known->height > YAML_DEPTH_MOST)
            return broken(b, RULE_YAML_TOO_DEEP, &b->event.start_mark, "aliases within aliases");
        if (!weigh_in(b, known->weight))
            return false;
        atomic_file_node(b, known->node, known->height);
        return true;
    }
    return broken(b, RULE_YAML_BROKEN, &b->event.start_mark, "an alias without its anchor");
}

static bool
open(struct builder *b, enum yaml_kind kind, const yaml_char_t *anchor)
{
    if (b->depth == YAML_DEPTH_MOST)
        return broken(b, RULE_YAML_TOO_DEEP, &b->event.start_mark, "64 levels");
    size_t weight_before = b->weight;
    if (!weigh_in(b, 1))
        return false;
    struct yaml_node *node = arena_take_raw(b->arena, sizeof *node);
    *node = (struct yaml_node){.kind = kind, .place = place_of(b, &b->event.start_mark)};
    b->frames[b->depth++] =
        (struct frame){node, anchor_name(b, anchor), b->pile.count, weight_before, 0};
    return true;
}

static void
key_twice(struct builder *b, const struct yaml_node *key)
{
    notice_add(b->notices, RULE_KEY_TWICE, key->place, key->text, SLICE(""));
}

/* leaves out pairs whose key came before; a key that is no scalar ends the reading */
static bool
pairs_check(struct builder *b, struct yaml_node *map)
{
    struct map seen = map_new(b->arena);
    bool many = map->count > 12;
    size_t kept = 0;
    for (size_t i = 0; i < map->count; i++) {
        struct yaml_node *key = map->items[2 * i];
        if (key->kind != YAML_SCALAR_NODE) {
            notice_add(b->notices, RULE_YAML_BROKEN, key->place,
                       SLICE("a list or map used as a key"), SLICE(""));
            return false;
        }
        bool fresh = true;
        if (many)
            fresh = map_put(&seen, key->text, key);
        for (size_t j = 0; !many && j < kept && fresh; j++)
            fresh = !slice_equal(map->items[2 * j]->text, key->text);
        if (!fresh) {
            key_twice(b, key);
            continue;
        }
        map->items[2 * kept] = key;
        map->items[2 * kept + 1] = map->items[2 * i + 1];
        kept++;
    }
    map->count = kept;
    return true;
}

static bool
close(struct builder *b)
{
    struct frame *f = &b->frames[--b->depth];
    struct yaml_node *node = f->node;
    size_t count = b->pile.count - f->pending;
    node->items = arena_take_raw(b->arena, count * sizeof *node->items);
    if (count > 0)
        memcpy(node->items, b->pile.items + f->pending, count * sizeof *node->items);
    node->count = node->kind == YAML_MAP_NODE ? count / 2 : count;
    b->pile.count = f->pending;
    if (node->kind == YAML_MAP_NODE && !pairs_check(b, node))
        return false;
    anchor_set(b, f->anchor, node, b->weight - f->weight_before, f->height);
    atomic_file_node(b, node, f->height);
    return true;
}

static bool
take_event(struct builder *b)
{
    yaml_event_t *e = &b->event;
    switch (e->type) {
    case YAML_SCALAR_EVENT: {
        if (!weigh_in(b, 1))
            return false;
        struct yaml_node *node = scalar_new(b);
        anchor_set(b, anchor_name(b, e->data.scalar.anchor), node, 1, 0);
        atomic_file_node(b, node, 0);
        return true;
    }
    case YAML_ALIAS_EVENT:
        return alias(b);
    case YAML_SEQUENCE_START_EVENT:
        return open(b, YAML_LIST_NODE, e->data.sequence_start.anchor);
    case YAML_MAPPING_START_EVENT:
        return open(b, YAML_MAP_NODE, e->data.mapping_start.anchor);
    case YAML_SEQUENCE_END_EVENT:
    case YAML_MAPPING_END_EVENT:
        return close(b);
    case YAML_DOCUMENT_START_EVENT:
        return b->root == NULL ||
               broken(b, RULE_YAML_BROKEN, &e->start_mark, "a second document in one place");
    default:
        return true;
    }
}

static bool
build(struct builder *b)
{
    yaml_parser_set_encoding(&b->parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&b->parser, (const unsigned char *)b->bytes.at, b->bytes.length);
    for (;;) {
        if (!yaml_parser_parse(&b->parser, &b->event))
            return parser_failed(b);
        b->event_held = true;
        bool end = b->event.type == YAML_STREAM_END_EVENT, good = take_event(b);
        yaml_event_delete(&b->event);
        b->event_held = false;
        if (end || !good)
            return good;
    }
}

/* gives libyaml's memory, which is not the arena's, back to the machine */
static void
release(struct builder *b)
{
    if (b->event_held)
        yaml_event_delete(&b->event);
    yaml_parser_delete(&b->parser);
    memcpy(arena_guard(b->arena), &b->outer, sizeof b->outer);
}

const struct yaml_node *
yaml_tree_read(struct arena *a, struct slice bytes, uint32_t first_line, struct notices *notices)
{
    struct builder *b = arena_take(a, sizeof *b);
    b->arena = a;
    b->bytes = slice_begins(bytes, "\xef\xbb\xbf") ? slice_part(bytes, 3, bytes.length) : bytes;
    b->first_line = first_line;
    b->notices = notices;
    b->frames = arena_take_raw(a, YAML_DEPTH_MOST * sizeof *b->frames);
    b->cursor.wide = next_wide(b->bytes, 0);
    if (!yaml_parser_initialize(&b->parser))
        arena_take(a, SIZE_MAX); /* jumps to the guard */
    /* what runs out of memory below must pass here first, for libyaml's sake */
    memcpy(&b->outer, arena_guard(a), sizeof b->outer);
    if (setjmp(*arena_guard(a)) != 0) {
        release(b);
        longjmp(*arena_guard(b->arena), 1);
    }
    bool good = build(b);
    release(b);
    if (!good)
        return NULL;
    struct yaml_node *root = b->root;
    if (root == NULL || (root->kind == YAML_SCALAR_NODE && !root->quoted && !root->text.length)) {
        root = arena_take(a, sizeof *root);
        root->kind = YAML_MAP_NODE;
        root->place = (struct place){first_line, 1, 0};
    }
    return root;
}
