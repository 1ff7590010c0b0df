#include "read/yaml_walk.h"

#include <string.h>

#include "read/hidden.h"

/* what may end a scalar without quotes, within brackets and braces or not */
enum mark { MARK_ANYWHERE = 3, MARK_IN_FLOW = 1, MARK_IN_BLOCK = 2 };

static const unsigned char marks[256] = {
    ['\n'] = MARK_ANYWHERE, [':'] = MARK_ANYWHERE, ['#'] = MARK_ANYWHERE,
    [','] = MARK_IN_FLOW,   ['['] = MARK_IN_FLOW,  [']'] = MARK_IN_FLOW,
    ['{'] = MARK_IN_FLOW,   ['}'] = MARK_IN_FLOW,  ['?'] = MARK_IN_FLOW,
};

/* "---" and "..." at the margin part documents */
static void
begin_line(struct yaml_walk *w, size_t at)
{
    struct slice line = slice_part(w->bytes, at, at + 3);
    w->odd = w->odd || slice_is(line, "---") || slice_is(line, "...");
    w->line_at = w->counted = at;
    w->place.line++;
    w->place.column = 1;
}

bool
yaml_walk_begin(struct yaml_walk *w, struct arena *a, struct slice bytes, uint32_t first_line)
{
    *w = (struct yaml_walk){.arena = a, .bytes = bytes, .place = {first_line - 1, 1, 0}};
    begin_line(w, 0);
    return !w->odd && slice_find_byte(bytes, '\t', 0) == SIZE_MAX &&
           slice_find_byte(bytes, '\r', 0) == SIZE_MAX && hidden_absent(bytes);
}

bool
yaml_walk_on(struct yaml_walk *w)
{
    const struct slice s = w->bytes;
    while (w->at < s.length && !w->odd) {
        if (s.at[w->at] == '\n') {
            begin_line(w, ++w->at);
        } else if (s.at[w->at] == ' ') {
            w->at++;
        } else if (s.at[w->at] == '#' && (w->at == w->line_at || s.at[w->at - 1] == ' ')) {
            size_t end = slice_find_byte(s, '\n', w->at);
            w->at = end != SIZE_MAX ? end : s.length;
        } else {
            return true;
        }
    }
    return false;
}

static struct place
place_at(struct yaml_walk *w, size_t at)
{
    w->place.column += (uint32_t)slice_characters(slice_part(w->bytes, w->counted, at));
    w->counted = at;
    return w->place;
}

struct place
yaml_walk_place(struct yaml_walk *w)
{
    return place_at(w, w->at);
}

/* bytes from..to as they are read: white space with line breaks in it is folded, escapes are what
 * they stand for */
static struct slice
text_of(struct yaml_walk *w, size_t from, size_t to, char quote)
{
    const char *s = w->bytes.at;
    char *text = arena_take_raw(w->arena, to - from + 1);
    size_t n = 0;
    for (size_t i = from; i < to;) {
        size_t breaks = 0, blank = i;
        for (; i < to && (s[i] == ' ' || s[i] == '\n'); i++)
            breaks += s[i] == '\n';
        if (breaks == 1) {
            text[n++] = ' ';
        } else if (breaks > 1) {
            memset(text + n, '\n', breaks - 1);
            n += breaks - 1;
        } else {
            memset(text + n, ' ', i - blank);
            n += i - blank;
        }
        if (i == to)
            break;
        i += (quote == '"' && s[i] == '\\') || (quote == '\'' && s[i] == '\'');
        text[n++] = s[i++];
    }
    text[n] = '\0';
    return (struct slice){text, n};
}

/* fills the node; `plainly`: its text stands in the bytes as it is read */
static void
fill(struct yaml_walk *w, struct yaml_node *node, size_t from, size_t to, char quote, bool plainly)
{
    const size_t mark = quote != '\0';
    *node = (struct yaml_node){.kind = YAML_SCALAR_NODE, .quoted = mark};
    node->source = slice_part(w->bytes, from, to);
    node->text = plainly ? slice_part(w->bytes, from + mark, to - mark)
                         : text_of(w, from + mark, to - mark, quote);
    node->place = place_at(w, from + mark);
}

/* over the lines of a scalar that is filled already, whose last one begins at `line_at` */
static void
pass_lines(struct yaml_walk *w, size_t from, size_t to)
{
    const struct slice s = slice_part(w->bytes, 0, to);
    for (size_t at = from; (at = slice_find_byte(s, '\n', at)) != SIZE_MAX; at++)
        begin_line(w, at + 1);
}

static bool
read_quoted(struct yaml_walk *w, struct yaml_node *node)
{
    const struct slice s = w->bytes;
    const char quote = s.at[w->at];
    const size_t from = w->at;
    bool plainly = true;
    size_t i = from + 1;
    for (; i < s.length; i++) {
        const char c = s.at[i], next = yaml_walk_byte(w, i + 1);
        if (c == '\n') {
            plainly = false;
        } else if (c == quote) {
            if (quote == '"' || next != '\'')
                break;
            i++;
            plainly = false;
        } else if (c == '\\' && quote == '"') {
            if (next != '"' && next != '\\')
                break;
            i++;
            plainly = false;
        }
    }
    if (i >= s.length || s.at[i] != quote) {
        w->odd = true;
        return false;
    }
    fill(w, node, from, i + 1, quote, plainly);
    w->at = i + 1;
    if (memchr(s.at + from, '\n', i - from) != NULL)
        pass_lines(w, from, i);
    else
        node->place.length = place_at(w, i).column - node->place.column;
    return !w->odd;
}

/* whether a scalar without quotes may begin so; YAML lets some more */
static bool
may_begin(const struct yaml_walk *w)
{
    unsigned char c = (unsigned char)w->bytes.at[w->at];
    if (c == '-')
        c = (unsigned char)yaml_walk_byte(w, w->at + 1);
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
           c >= 0x80 || (c != '\0' && strchr("()+./<=^_~$;", c) != NULL);
}

/* where the words at `i` end in their line */
static size_t
words_end(struct yaml_walk *w, size_t i, bool flow)
{
    const struct slice s = w->bytes;
    const unsigned char mark = flow ? MARK_IN_FLOW : MARK_IN_BLOCK;
    const size_t from = i;
    for (; i < s.length; i++) {
        const char c = s.at[i];
        if ((marks[(unsigned char)c] & mark) == 0)
            continue;
        if (c == ':' && !yaml_walk_blank(w, i + 1)) {
            w->odd = w->odd || (flow && strchr(",[]{}?", yaml_walk_byte(w, i + 1)) != NULL);
            continue;
        }
        if (c == '#' && i > from && s.at[i - 1] != ' ')
            continue;
        w->odd = w->odd || c == '?';
        break;
    }
    while (i > from && s.at[i - 1] == ' ')
        i--;
    return i;
}

/* the next line's words, if they go on with a scalar of lesser indent; SIZE_MAX when not */
static size_t
words_below(const struct yaml_walk *w, size_t at, int indent)
{
    const struct slice s = w->bytes;
    size_t line = at;
    for (; at < s.length && (s.at[at] == ' ' || s.at[at] == '\n'); at++)
        line = s.at[at] == '\n' ? at + 1 : line;
    const bool below = line > 0 && s.at[line - 1] == '\n' && at < s.length && s.at[at] != '#';
    return below && (indent == YAML_INDENT_FLOW || (int)(at - line) > indent) ? at : SIZE_MAX;
}

static bool
read_plain(struct yaml_walk *w, int indent, struct yaml_node *node)
{
    const bool flow = indent == YAML_INDENT_FLOW;
    const size_t from = w->at;
    if (!may_begin(w)) {
        w->odd = true;
        return false;
    }
    size_t first = words_end(w, from, flow), end = first;
    for (size_t below; yaml_walk_blank(w, end);) {
        below = words_below(w, end, indent);
        size_t more = below != SIZE_MAX ? words_end(w, below, flow) : below;
        if (more == below)
            break;
        end = more;
    }
    fill(w, node, from, end, '\0', end == first);
    w->at = end;
    if (end != first)
        pass_lines(w, from, end);
    else
        node->place.length = place_at(w, end).column - node->place.column;
    return !w->odd;
}

bool
yaml_walk_scalar(struct yaml_walk *w, int indent, struct yaml_node *node)
{
    const char c = w->bytes.at[w->at];
    return c == '"' || c == '\'' ? read_quoted(w, node) : read_plain(w, indent, node);
}
