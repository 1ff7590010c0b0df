#include "read/yaml_source.h"

size_t
yaml_break_at(struct slice s, size_t at)
{
    unsigned char c = (unsigned char)s.at[at];
    if (c == '\n')
        return 1;
    if (c == '\r')
        return at + 1 < s.length && s.at[at + 1] == '\n' ? 2 : 1;
    if (c == 0xc2 && at + 1 < s.length && (unsigned char)s.at[at + 1] == 0x85)
        return 2;
    if (c == 0xe2 && at + 2 < s.length && (unsigned char)s.at[at + 1] == 0x80 &&
        ((unsigned char)s.at[at + 2] & 0xfe) == 0xa8)
        return 3;
    return 0;
}

size_t
yaml_character_at(struct slice s, size_t at)
{
    size_t n = 1;
    while (at + n < s.length && ((unsigned char)s.at[at + n] & 0xc0) == 0x80)
        n++;
    return n;
}

size_t
yaml_text_start(struct slice source, bool quoted)
{
    if (!quoted || source.length == 0)
        return 0;
    if (source.at[0] != '|' && source.at[0] != '>')
        return 1;
    size_t i = 0;
    while (i < source.length && yaml_break_at(source, i) == 0)
        i++;
    while (i < source.length && (source.at[i] == ' ' || yaml_break_at(source, i) > 0))
        i++;
    return i;
}

void
yaml_place_move(struct place *p, struct slice source, size_t from, size_t to)
{
    for (size_t n; from < to; from += n) {
        n = yaml_break_at(source, from);
        if (n > 0) {
            p->line++;
            p->column = 1;
        } else {
            n = yaml_character_at(source, from);
            p->column++;
        }
    }
}

/* bytes of the escape sequence behind a backslash at `at`, the backslash included */
static size_t
escape_at(struct slice s, size_t at)
{
    size_t n = 2;
    if (at + 1 < s.length)
        n += s.at[at + 1] == 'x' ? 2 : s.at[at + 1] == 'u' ? 4 : s.at[at + 1] == 'U' ? 8 : 0;
    return at + n <= s.length ? n : s.length - at;
}

/* byte of the source where byte `to` of the text stands; walks both from s and t */
static size_t
source_of(const struct yaml_node *node, size_t s, size_t t, size_t to)
{
    struct slice text = node->text, source = node->source;
    char quote = node->quoted ? source.at[0] : 0;
    while (t < to && s < source.length) {
        char c = source.at[s];
        if (quote == '"' && c == '\\' && s + 1 < source.length &&
            yaml_break_at(source, s + 1) == 0) {
            s += escape_at(source, s);
            t += yaml_character_at(text, t);
        } else if (c == ' ' || c == '\t' || c == '\\' || yaml_break_at(source, s) > 0) {
            bool same = c == text.at[t];
            size_t from = s;
            s += yaml_break_at(source, s) > 0 ? yaml_break_at(source, s) : 1;
            /* a fold: white space about one line break or more is one space or fewer breaks */
            if (same || (yaml_break_at(source, from) > 0 && text.at[t] == ' '))
                t++;
            else if (text.at[t] == '\n' && yaml_break_at(source, from) > 0)
                t++;
            continue;
        } else if ((unsigned char)c >= 0x80 && c != text.at[t]) {
            s += yaml_character_at(source, s); /* a hidden character was taken out */
        } else if (quote == '\'' && c == '\'' && s + 1 < source.length) {
            s += 2;
            t++;
        } else {
            s++;
            t++;
        }
    }
    return s;
}

/* the place where the source says the text as it is, on one line, as it nearly always does; false
 * where it does not. A quoted text that is a part of its source has nothing in it that stands for
 * something else. */
static bool
place_plainly(const struct yaml_node *node, size_t from, size_t to, struct place *place)
{
    const struct slice text = node->text, source = slice_part(node->source, node->quoted, SIZE_MAX);
    uint32_t before = 0, within = 0;
    if ((node->quoted && text.at != source.at) || to > source.length || from >= to ||
        (text.at[from] & 0xc0) == 0x80)
        return false;
    for (size_t i = 0; i < to; i++) {
        const unsigned char c = (unsigned char)source.at[i];
        if (source.at[i] != text.at[i] ||
            ((c < ' ' || c == 0xc2 || c == 0xe2) && yaml_break_at(source, i) > 0))
            return false;
        *(i < from ? &before : &within) += (c & 0xc0) != 0x80;
    }
    place->column += before;
    place->length = within;
    return true;
}

struct place
yaml_place_in(const struct yaml_node *node, size_t from, size_t to)
{
    struct place place = node->place;
    struct slice source = node->source;
    if (node->kind != YAML_SCALAR_NODE || source.length == 0 || from > to || to > node->text.length)
        return place;
    if (place_plainly(node, from, to, &place))
        return place;
    size_t start = yaml_text_start(source, node->quoted);
    size_t here = source_of(node, start, 0, from);
    /* indentation of a folded line comes before the words, not with them */
    if (from < node->text.length && node->text.at[from] != ' ')
        while (here < source.length && node->text.at[from] != source.at[here] &&
               (source.at[here] == ' ' || source.at[here] == '\\' || source.at[here] == '\t' ||
                yaml_break_at(source, here) > 0))
            here += yaml_break_at(source, here) > 0 ? yaml_break_at(source, here) : 1;
    size_t there = source_of(node, here, from, to);
    yaml_place_move(&place, source, start, here);
    struct place end = place;
    yaml_place_move(&end, source, here, there);
    place.length = end.line == place.line ? end.column - place.column : 0;
    return place;
}
