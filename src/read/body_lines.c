#include "read/body_lines.h"

#include <string.h>

#include "base/list.h"

size_t
body_line_end(struct slice s, size_t at)
{
    /* no memchr: a file of CR alone would be searched to its end for each line */
    while (at < s.length && s.at[at] != '\n' && s.at[at] != '\r')
        at++;
    return at;
}

size_t
body_line_behind(struct slice s, size_t end)
{
    if (end < s.length)
        end += s.at[end] == '\r' && end + 1 < s.length && s.at[end + 1] == '\n' ? 2 : 1;
    return end;
}

size_t
body_line_next(struct slice s, size_t at)
{
    return body_line_behind(s, body_line_end(s, at));
}

/* a byte, and the characters before it in its line: a long line with many places is counted once */
struct lines_cursor {
    size_t at, characters;
};

struct lines
body_lines_new(struct arena *a, struct slice file, size_t body_from, uint32_t first_line)
{
    struct lines l = {.file = file, .first_line = first_line};
    LIST_OF(size_t) starts = {0};
    for (size_t at = body_from; at < file.length; at = body_line_next(file, at))
        *LIST_GROW(a, &starts) = at;
    l.count = starts.count;
    *LIST_GROW(a, &starts) = file.length;
    l.starts = starts.items;
    l.cursor = arena_take(a, sizeof *l.cursor);
    return l;
}

struct slice
body_lines_line(const struct lines *l, size_t i)
{
    const size_t from = l->starts[i];
    size_t end = l->starts[i + 1];
    if (end > from && l->file.at[end - 1] == '\n')
        end--;
    if (end > from && l->file.at[end - 1] == '\r')
        end--;
    return slice_part(l->file, from, end);
}

struct place
body_lines_place(const struct lines *l, size_t at)
{
    size_t low = 0, high = l->count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (l->starts[middle] <= at)
            low = middle;
        else
            high = middle;
    }
    if (l->count == 0)
        return (struct place){l->first_line, 1, 0};
    struct lines_cursor *c = l->cursor;
    if (c->at > at || c->at < l->starts[low])
        *c = (struct lines_cursor){l->starts[low], 0};
    c->characters += slice_characters(slice_part(l->file, c->at, at));
    c->at = at;
    return (struct place){l->first_line + (uint32_t)low, (uint32_t)c->characters + 1, 0};
}

/* byte of the file of cmark's line and column, which count from 1 and in bytes */
static size_t
byte_at(const struct lines *l, int line, int column)
{
    if (line < 1 || (size_t)line > l->count)
        return l->count > 0 ? l->starts[l->count] : l->file.length;
    size_t at = l->starts[line - 1] + (column > 0 ? (size_t)column - 1 : 0);
    size_t next = l->starts[line];
    return at < next ? at : next;
}

struct slice
body_lines_source_of(const struct lines *l, cmark_node *block)
{
    cmark_node *from = block;
    if (cmark_node_get_type(block) == CMARK_NODE_ITEM && cmark_node_first_child(block) != NULL)
        from = cmark_node_first_child(block);
    size_t start = byte_at(l, cmark_node_get_start_line(from), cmark_node_get_start_column(from));
    int last = cmark_node_get_end_line(block);
    size_t end = last >= 1 && (size_t)last <= l->count ? l->starts[last] : l->file.length;
    return slice_trim(slice_part(l->file, start, end > start ? end : start));
}

struct place
body_lines_place_of(const struct lines *l, cmark_node *block)
{
    size_t at = byte_at(l, cmark_node_get_start_line(block), cmark_node_get_start_column(block));
    return body_lines_place(l, at);
}
