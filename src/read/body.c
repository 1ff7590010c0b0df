#include "read/body.h"

#include <string.h>

#include "base/list.h"
#include "read/body_clean.h"
#include "read/body_section.h"

struct reader {
    struct arena *arena;
    const struct word_lists *lists;
    struct notices *notices;
    struct body *out;
    enum body_kind kind;
    struct lines lines;
    LIST_OF(struct method_part) parts;
    LIST_OF(struct step) steps; /* of the last part */
};

enum section { SECTION_PROSE, SECTION_METHOD, SECTION_NOTES };

/* cmark's memory is the arena lent; it gives allocators no pointer of their own */
static const cmark_mem lent_memory = {arena_lent_calloc, arena_lent_realloc, arena_lent_free};

/* adds a space between two words, unless one stands there */
static void
part_words(struct text *t)
{
    if (t->length > 0 && t->bytes[t->length - 1] != ' ')
        text_add_byte(t, ' ');
}

struct step_runs {
    struct arena *arena;
    struct step_run *items;
    size_t count, room;
};

/* whether words before and behind the node are apart */
static bool
parts(cmark_node_type type)
{
    return type == CMARK_NODE_SOFTBREAK || type == CMARK_NODE_LINEBREAK ||
           type == CMARK_NODE_PARAGRAPH || type == CMARK_NODE_HEADING || type == CMARK_NODE_ITEM;
}

static void
add_literal(struct text *t, cmark_node *node, struct step_runs *runs)
{
    if (runs != NULL)
        *LIST_GROW(runs->arena, runs) = (struct step_run){node, t->length};
    text_add_string(t, cmark_node_get_literal(node));
}

/* adds the plain text of a node and all below it; runs may be NULL. Goes from node to node itself,
 * since an iterator costs as much again as what is done at each. */
static void
add_plain(struct text *t, cmark_node *node, struct step_runs *runs)
{
    for (cmark_node *here = node, *next;; here = next) {
        const cmark_node_type type = cmark_node_get_type(here);
        if (type == CMARK_NODE_TEXT || type == CMARK_NODE_CODE || type == CMARK_NODE_CODE_BLOCK)
            add_literal(t, here, runs);
        else if (parts(type))
            part_words(t);
        next = cmark_node_first_child(here);
        while (next == NULL) { /* it is left, and each above it whose last it was */
            if (parts(cmark_node_get_type(here)))
                part_words(t);
            if (here == node)
                return;
            next = cmark_node_next(here);
            if (next == NULL)
                here = cmark_node_parent(here);
        }
    }
}

static struct slice
plain_text(struct arena *a, cmark_node *node)
{
    struct text t = text_new(a);
    add_plain(&t, node, NULL);
    return slice_trim(text_slice(&t));
}

static void
part_close(struct reader *r)
{
    if (r->parts.count == 0)
        return;
    struct method_part *part = &r->parts.items[r->parts.count - 1];
    part->steps = arena_take_array(r->arena, r->steps.count, sizeof *part->steps);
    if (r->steps.count > 0)
        memcpy(part->steps, r->steps.items, r->steps.count * sizeof *part->steps);
    part->count = r->steps.count;
    r->steps.count = 0;
    if (part->count == 0 && part->name.length == 0)
        r->parts.count--; /* a heading right under "Method" */
}

static void
part_open(struct reader *r, struct slice name, cmark_node *heading)
{
    part_close(r);
    *LIST_GROW(r->arena, &r->parts) =
        (struct method_part){.name = name, .place = body_lines_place_of(&r->lines, heading)};
}

static void
add_step(struct reader *r, cmark_node *node)
{
    struct text t = text_new(r->arena);
    struct step_runs runs = {.arena = r->arena};
    add_plain(&t, node, &runs);
    while (t.length > 0 && t.bytes[t.length - 1] == ' ')
        t.length--;
    if (t.length == 0)
        return;
    struct step step = {.text = {t.bytes, t.length}, .node = node};
    words_read(r->arena, r->lists, step.text, &step.words);
    step.runs = runs.items;
    step.run_count = runs.count;
    step.source = body_lines_source_of(&r->lines, node);
    step.place = body_lines_place(&r->lines, (size_t)(step.source.at - r->out->source.at));
    *LIST_GROW(r->arena, &r->steps) = step;
}

static void
add_steps(struct reader *r, cmark_node *node)
{
    switch (cmark_node_get_type(node)) {
    case CMARK_NODE_LIST:
        for (cmark_node *item = cmark_node_first_child(node); item != NULL;
             item = cmark_node_next(item))
            add_step(r, item);
        break;
    case CMARK_NODE_PARAGRAPH:
    case CMARK_NODE_BLOCK_QUOTE:
    case CMARK_NODE_CODE_BLOCK:
        add_step(r, node);
        break;
    default:
        break;
    }
}

/* moves a node to the end of the document, so that all notes stand side by side */
static void
add_note(struct reader *r, cmark_node *node)
{
    struct body_section *notes = &r->out->notes;
    cmark_node_unlink(node);
    cmark_node_append_child(r->out->document, node);
    if (notes->first == NULL)
        notes->first = node;
    notes->last = node;
}

/* whether steps by number stand right under a heading */
static bool
has_numbered_steps(cmark_node *heading)
{
    cmark_node *next = cmark_node_next(heading);
    return next != NULL && cmark_node_get_type(next) == CMARK_NODE_LIST &&
           cmark_node_get_list_type(next) == CMARK_ORDERED_LIST;
}

/* which section a heading opens, seen from the one it stands in */
static enum section
section_of(struct reader *r, cmark_node *heading, enum section now, int method_level)
{
    struct slice rest, name = plain_text(r->arena, heading);
    int level = body_heading_level(heading);
    const enum heading_kind kind = body_heading_kind(r->lists, name, &rest);
    if (kind == HEADING_METHOD && (now != SECTION_METHOD || level <= method_level)) {
        r->out->has_method = true;
        part_open(r, rest, heading);
        return SECTION_METHOD;
    }
    if (kind == HEADING_NOTES)
        return SECTION_NOTES;
    const bool within = now == SECTION_METHOD && (level > method_level || kind == HEADING_PART);
    if (within || (r->out->has_method && has_numbered_steps(heading))) {
        while (name.length > 0 && name.at[name.length - 1] == ':')
            name.length--;
        part_open(r, name, heading);
        return SECTION_METHOD;
    }
    return now == SECTION_PROSE ? SECTION_PROSE : SECTION_NOTES;
}

static bool
is_notes_title(struct reader *r, cmark_node *heading)
{
    struct slice name = plain_text(r->arena, heading);
    return slice_is_anycase(name, "notes") || slice_is_anycase(name, "note");
}

/* whether some heading of the document opens a method */
static bool
has_method_heading(struct reader *r)
{
    struct slice rest;
    for (cmark_node *node = cmark_node_first_child(r->out->document); node != NULL;
         node = cmark_node_next(node))
        if (body_is_heading(node) &&
            body_heading_kind(r->lists, plain_text(r->arena, node), &rest) == HEADING_METHOD)
            return true;
    return false;
}

/* the node at which a dish's method begins where no heading says so: its first list, or where it
 * has none its first block; NULL where a heading does */
static cmark_node *
method_without_heading(struct reader *r)
{
    if (r->kind != BODY_DISH || has_method_heading(r))
        return NULL;
    cmark_node *first = cmark_node_first_child(r->out->document), *node = first;
    while (node != NULL && cmark_node_get_type(node) != CMARK_NODE_LIST)
        node = cmark_node_next(node);
    return node != NULL ? node : first;
}

static void
divide(struct reader *r)
{
    struct body *out = r->out;
    enum section now = SECTION_PROSE;
    cmark_node *const begins = method_without_heading(r);
    int method_level = 0;
    cmark_node *end = cmark_node_last_child(out->document);
    for (cmark_node *node = cmark_node_first_child(out->document), *next; node != NULL;
         node = next) {
        next = node == end ? NULL : cmark_node_next(node);
        bool title = false;
        if (node == begins) {
            out->has_method = true;
            now = SECTION_METHOD;
            part_open(r, SLICE(""), node);
        }
        if (body_is_heading(node) && r->kind != BODY_PROSE) {
            enum section before = now;
            now = section_of(r, node, now, method_level);
            if (now == SECTION_METHOD &&
                (before == SECTION_PROSE || body_heading_level(node) < method_level))
                method_level = body_heading_level(node);
            title = now == SECTION_METHOD ||
                    (now == SECTION_NOTES && out->notes.first == NULL && is_notes_title(r, node));
        }
        if (title)
            continue;
        if (now == SECTION_METHOD) {
            add_steps(r, node);
        } else if (now == SECTION_NOTES) {
            add_note(r, node);
        } else {
            out->prose.first = out->prose.first != NULL ? out->prose.first : node;
            out->prose.last = node;
        }
    }
    part_close(r);
}

static struct slice
section_text(struct arena *a, const struct body_section *s)
{
    struct text t = text_new(a);
    for (cmark_node *node = s->first; node != NULL; node = cmark_node_next(node)) {
        part_words(&t);
        add_plain(&t, node, NULL);
        if (node == s->last)
            break;
    }
    return slice_trim(text_slice(&t));
}

static cmark_node *
parse(struct slice bytes)
{
    cmark_mem *memory = (cmark_mem *)&lent_memory; /* cmark only reads it */
    cmark_parser *parser = cmark_parser_new_with_mem(CMARK_OPT_SOURCEPOS, memory);
    cmark_parser_feed(parser, bytes.at, bytes.length);
    return cmark_parser_finish(parser);
}

void
body_headings_find(struct arena *a, const struct body_range *range, struct body_headings *out)
{
    const struct slice file = slice_part(range->file, 0, range->to);
    const struct lines lines = body_lines_new(a, file, range->from, range->first_line);
    struct arena *before = arena_lend(a);
    const struct slice body = slice_part(file, range->from, range->to);
    cmark_node *document = parse(body_marks_bounded(body) ? body : SLICE(""));
    *out = (struct body_headings){0};
    for (cmark_node *node = cmark_node_first_child(document); node != NULL;
         node = cmark_node_next(node)) {
        if (cmark_node_get_type(node) != CMARK_NODE_HEADING)
            continue;
        const size_t first = (size_t)cmark_node_get_start_line(node) - 1;
        const size_t last = (size_t)cmark_node_get_end_line(node);
        *LIST_GROW(a, out) =
            (struct body_heading){.level = cmark_node_get_heading_level(node),
                                  .text = plain_text(a, node),
                                  .from = lines.starts[first],
                                  .behind = lines.starts[last < lines.count ? last : lines.count],
                                  .next_line = range->first_line + (uint32_t)last,
                                  .place = body_lines_place_of(&lines, node)};
    }
    arena_lend(before);
}

void
body_read(struct arena *a, const struct body_range *range, enum body_kind kind,
          struct notices *notices, struct body *out)
{
    const struct slice file = slice_part(range->file, 0, range->to);
    struct reader r = {
        .arena = a, .lists = range->lists, .notices = notices, .out = out, .kind = kind};
    *out = (struct body){.source = file};
    r.lines = body_lines_new(a, file, range->from, range->first_line);
    struct arena *before = arena_lend(a);
    out->document = parse(body_bounded(&r.lines, notices) ? slice_part(file, range->from, range->to)
                                                          : SLICE(""));
    out->links = body_clean(a, &r.lines, out->document, (cmark_mem *)&lent_memory, notices);
    divide(&r);
    out->parts = r.parts.items;
    out->part_count = r.parts.count;
    out->prose.text = section_text(a, &out->prose);
    out->notes.text = section_text(a, &out->notes);
    words_read(a, range->lists, out->prose.text, &out->prose.words);
    words_read(a, range->lists, out->notes.text, &out->notes.words);
    arena_lend(before);
    if (kind != BODY_PROSE && (!out->has_method || out->part_count == 0))
        notice_add(notices, RULE_METHOD_MISSING, (struct place){range->first_line, 0, 0}, SLICE(""),
                   SLICE(""));
}

static bool
is_space(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* bytes of source at `at` that spell the words, any white space for a space; 0 when they do not */
static size_t
spelled(struct slice source, size_t at, struct slice words)
{
    size_t s = at;
    for (size_t w = 0; w < words.length; w++) {
        if (s >= source.length)
            return 0;
        if (words.at[w] == ' ' && is_space(source.at[s])) {
            while (s < source.length && is_space(source.at[s]))
                s++;
        } else if (words.at[w] == source.at[s]) {
            s++;
        } else {
            return 0;
        }
    }
    return s - at;
}

/* the places where the words begin are counted in the text, then as many in the source */
static size_t
occurrences(struct slice text, struct slice words, size_t before)
{
    size_t n = 0;
    for (size_t at = 0; at < before; at++) {
        const char *hit = memchr(text.at + at, words.at[0], before - at);
        if (hit == NULL)
            break;
        at = (size_t)(hit - text.at);
        n += slice_equal(slice_part(text, at, at + words.length), words);
    }
    return n;
}

struct place
body_step_place(const struct step *step, size_t from, size_t to)
{
    struct slice words = slice_part(step->text, from, to), source = step->source;
    if (words.length == 0)
        return step->place;
    size_t left = occurrences(step->text, words, from);
    struct place place = step->place;
    for (size_t at = 0; at < source.length; at++) {
        size_t n = source.at[at] == words.at[0] ? spelled(source, at, words) : 0;
        if (n > 0 && left-- == 0) {
            place.length = (uint32_t)slice_characters(slice_part(source, at, at + n));
            return place;
        }
        if (source.at[at] == '\n' || (source.at[at] == '\r' && source.at[at + 1] != '\n')) {
            place.line++;
            place.column = 1;
        } else if (((unsigned char)source.at[at] & 0xc0) != 0x80) {
            place.column++;
        }
    }
    return step->place;
}
