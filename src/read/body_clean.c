#include "read/body_clean.h"

#include <string.h>

#include "base/list.h"
#include "read/hidden.h"

enum {
    NEST_COLUMNS_MOST = 100,
    DEFINITION_WORK_MOST = 64 << 20,
    DROPPED_MOST = 50,
    MARKS_MOST = 200000
};

/* bytes of a list or quote mark at the start of s, 0 when there is none */
static size_t
mark_at(struct slice s)
{
    if (s.length == 0)
        return 0;
    if (s.at[0] == '>')
        return 1;
    size_t n = 0;
    while (n < s.length && n < 9 && s.at[n] >= '0' && s.at[n] <= '9')
        n++;
    if (n == 0)
        n = strchr("-+*", s.at[0]) != NULL ? 1 : 0;
    else if (n < s.length && (s.at[n] == '.' || s.at[n] == ')'))
        n++;
    else
        return 0;
    return n > 0 && (n == s.length || s.at[n] == ' ' || s.at[n] == '\t') ? n : 0;
}

/* the column of the last list or quote mark in the line's beginning */
static size_t
nesting_of(struct slice line)
{
    size_t at = 0, last = 0;
    while (at < line.length) {
        if (line.at[at] == ' ' || line.at[at] == '\t') {
            at++;
            continue;
        }
        size_t n = mark_at(slice_part(line, at, line.length));
        if (n == 0)
            break;
        last = at;
        at += n;
    }
    return last;
}

/* A definition reaches to the next blank line at the most, and each use of it copies it: bytes of
 * the longest. */
static size_t
longest_definition(const struct lines *l)
{
    size_t definition = 0, longest = 0;
    for (size_t i = 0; i < l->count; i++) {
        struct slice line = body_lines_line(l, i);
        if (slice_find(line, "]:", 0) != SIZE_MAX)
            definition += line.length;
        else if (definition > 0)
            definition = slice_trim(line).length == 0 ? 0 : definition + line.length;
        longest = definition > longest ? definition : longest;
    }
    return longest;
}

bool
body_marks_bounded(struct slice body)
{
    size_t marks = 0;
    for (size_t i = 0; i < body.length; i++)
        marks += body.at[i] == '[' || body.at[i] == '*' || body.at[i] == '_';
    return marks <= MARKS_MOST;
}

bool
body_bounded(const struct lines *l, struct notices *notices)
{
    const struct slice deep = SLICE("lists and quotes are nested deeper than a recipe ever is");
    for (size_t i = 0; i < l->count; i++) {
        struct slice line = body_lines_line(l, i);
        if (line.length <= NEST_COLUMNS_MOST || nesting_of(line) <= NEST_COLUMNS_MOST)
            continue;
        notice_add(notices, RULE_BODY_TOO_DEEP, (struct place){l->first_line + (uint32_t)i, 1, 0},
                   deep, SLICE(""));
        return false;
    }
    const struct slice body = slice_part(l->file, l->starts[0], l->file.length);
    if (!body_marks_bounded(body)) {
        notice_add(notices, RULE_BODY_TOO_DEEP, (struct place){l->first_line, 0, 0},
                   SLICE("there are more brackets and stars than a recipe ever has"), SLICE(""));
        return false;
    }
    size_t brackets = 0, longest = 0;
    if (slice_find(body, "]:", 0) != SIZE_MAX)
        longest = longest_definition(l);
    for (size_t b = 0; longest > 0 && (b = slice_find_byte(body, '[', b)) != SIZE_MAX; b++)
        brackets++;
    if (longest == 0 || brackets < DEFINITION_WORK_MOST / longest)
        return true;
    notice_add(notices, RULE_BODY_TOO_DEEP, (struct place){l->first_line, 0, 0}, deep, SLICE(""));
    return false;
}

struct cleaner {
    struct arena *arena;
    const struct lines *lines;
    struct notices *notices;
    cmark_mem *memory;
    cmark_node *block;   /* the block at hand, until its bytes are asked for */
    struct slice source; /* what is left of its bytes */
    size_t dropped;
    struct body_links links;
};

/* few blocks are told of, so few are sought in the file */
static struct slice
source_left(struct cleaner *c)
{
    if (c->block != NULL)
        c->source = body_lines_source_of(c->lines, c->block);
    c->block = NULL;
    return c->source;
}

/* the place of words in the block at hand: the next one that fits, else the block */
static struct place
place_next(struct cleaner *c, struct slice words)
{
    struct slice first = slice_part(words, 0, body_line_end(words, 0));
    const struct slice source = source_left(c);
    size_t at = SIZE_MAX;
    if (first.length > 0)
        at = slice_find(source, slice_string(c->arena, first), 0);
    if (at == SIZE_MAX)
        return body_lines_place(c->lines, (size_t)(c->source.at - c->lines->file.at));
    c->source = slice_part(c->source, at, c->source.length);
    struct place place = body_lines_place(c->lines, (size_t)(c->source.at - c->lines->file.at));
    place.length = (uint32_t)slice_characters(first);
    c->source = slice_part(c->source, first.length, c->source.length);
    return place;
}

static void
notice_dropped(struct cleaner *c, const char *kind, struct slice words)
{
    if (c->dropped++ >= DROPPED_MOST)
        return;
    struct place place = place_next(c, words);
    size_t cut = body_line_end(words, 0);
    bool shortened = cut > 60;
    for (cut = cut > 60 ? 60 : cut; cut > 0 && cut < words.length; cut--)
        if (((unsigned char)words.at[cut] & 0xc0) != 0x80)
            break;
    notice_add(
        c->notices, RULE_HTML_DROPPED, place,
        text_formatted(c->arena, "%s “%.*s%s”", kind, (int)cut, words.at, shortened ? "..." : ""),
        SLICE(""));
}

static bool
is_break(struct slice html)
{
    return slice_is_anycase(html, "<br>") || slice_is_anycase(html, "<br/>") ||
           slice_is_anycase(html, "<br />");
}

static bool
is_comment(struct slice html)
{
    html = slice_trim(html);
    return slice_begins(html, "<!--") && slice_find(html, "-->", 0) == html.length - 3;
}

static void
drop_html(struct cleaner *c, cmark_node *node)
{
    struct slice html = slice_of(cmark_node_get_literal(node));
    if (is_break(html)) {
        cmark_node_replace(node, cmark_node_new_with_mem(CMARK_NODE_LINEBREAK, c->memory));
        return;
    }
    if (!is_comment(html))
        notice_dropped(c, "the HTML", slice_trim(html));
    cmark_node_unlink(node);
}

/* a link keeps its words, an image its description */
static void
unwrap(cmark_node *node)
{
    for (cmark_node *child; (child = cmark_node_first_child(node)) != NULL;)
        cmark_node_insert_before(node, child);
    cmark_node_unlink(node);
}

static void
strip_literal(struct cleaner *c, cmark_node *node)
{
    struct slice text = slice_of(cmark_node_get_literal(node));
    uint32_t code;
    if (hidden_find(text, 0, &code) == SIZE_MAX)
        return;
    cmark_node_set_literal(node, slice_string(c->arena, hidden_strip(c->arena, text)));
    uint32_t in_source;
    const struct slice source = source_left(c);
    if (hidden_find(source, 0, &in_source) == SIZE_MAX) /* it came as an entity */
        notice_add(c->notices, RULE_CHARACTER_HIDDEN,
                   body_lines_place(c->lines, (size_t)(source.at - c->lines->file.at)),
                   text_formatted(c->arena, "U+%04X", (unsigned)code), SLICE(""));
}

static void
clean_link(struct cleaner *c, cmark_node *node, const char *kind)
{
    struct slice title = slice_of(cmark_node_get_title(node)),
                 clean = hidden_strip(c->arena, title);
    if (clean.at != title.at)
        cmark_node_set_title(node, slice_string(c->arena, clean));
    struct slice url = slice_of(cmark_node_get_url(node));
    struct slice rest;
    if (link_is_safe(url)) {
        if (link_post(url, &rest).length > 0)
            *LIST_GROW(c->arena, &c->links) =
                (struct body_link){slice_copy(c->arena, url), place_next(c, url)};
        return;
    }
    notice_dropped(c, kind, url);
    unwrap(node);
}

/* it is published as it stands, and whether there is such a file on the site nobody here knows */
static void
note_picture(struct cleaner *c, cmark_node *node)
{
    struct slice url = slice_of(cmark_node_get_url(node));
    if (link_is_beside(url))
        notice_add(c->notices, RULE_IMAGE_LEFT, place_next(c, url), slice_copy(c->arena, url),
                   SLICE(""));
}

/* "| --- | :-: |", the line under a table's head */
static bool
is_rule_of_table(struct slice line)
{
    line = slice_trim(line);
    bool bar = false, dash = false;
    for (size_t i = 0; i < line.length; i++) {
        if (strchr("|-: \t", line.at[i]) == NULL)
            return false;
        bar = bar || line.at[i] == '|';
        dash = dash || line.at[i] == '-';
    }
    return bar && dash;
}

static void
note_table(struct cleaner *c)
{
    const struct slice source = source_left(c);
    size_t second = body_line_next(source, 0);
    if (second >= source.length ||
        !is_rule_of_table(slice_part(source, second, body_line_end(source, second))))
        return;
    struct place place = body_lines_place(c->lines, (size_t)(source.at - c->lines->file.at));
    place.length = (uint32_t)slice_characters(slice_part(source, 0, body_line_end(source, 0)));
    notice_add(c->notices, RULE_TABLE_PLAIN, place, SLICE(""), SLICE(""));
}

static void
clean_node(struct cleaner *c, cmark_node *node, cmark_event_type event)
{
    switch (cmark_node_get_type(node)) {
    case CMARK_NODE_PARAGRAPH:
    case CMARK_NODE_HEADING:
        if (event == CMARK_EVENT_ENTER) {
            c->block = node;
            note_table(c);
        }
        break;
    case CMARK_NODE_HTML_BLOCK:
        c->block = node;
        drop_html(c, node);
        break;
    case CMARK_NODE_HTML_INLINE:
        drop_html(c, node);
        break;
    case CMARK_NODE_LINK:
        if (event == CMARK_EVENT_EXIT)
            clean_link(c, node, "the link");
        break;
    case CMARK_NODE_IMAGE:
        if (event == CMARK_EVENT_EXIT) {
            note_picture(c, node);
            clean_link(c, node, "the picture");
        }
        break;
    case CMARK_NODE_CODE_BLOCK:
        c->block = node;
        strip_literal(c, node);
        break;
    case CMARK_NODE_TEXT:
    case CMARK_NODE_CODE:
        strip_literal(c, node);
        break;
    default:
        break;
    }
}

struct body_links
body_clean(struct arena *a, const struct lines *l, cmark_node *document, cmark_mem *memory,
           struct notices *notices)
{
    struct cleaner c = {.arena = a, .lines = l, .notices = notices, .memory = memory};
    struct slice body = slice_part(l->file, l->starts[0], l->file.length);
    c.source = slice_part(body, 0, 0);
    cmark_iter *iter = cmark_iter_new(document);
    for (cmark_event_type e; (e = cmark_iter_next(iter)) != CMARK_EVENT_DONE;)
        clean_node(&c, cmark_iter_get_node(iter), e);
    cmark_iter_free(iter);
    return c.links;
}
