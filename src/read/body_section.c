#include "read/body_section.h"

#include <string.h>

static bool
is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* whether a heading is one of the words, alone or with more behind it ("Method: the relish");
 * *rest is that */
static bool
heading_is(struct slice heading, const char *const *words, struct slice *rest)
{
    while (heading.length > 0 && !is_letter(heading.at[0])) /* "2. Method", other scripts */
        heading = slice_part(heading, 1, heading.length);
    while (heading.length > 0 && strchr(":!.", heading.at[heading.length - 1]) != NULL)
        heading.length--;
    for (size_t i = 0; words[i] != NULL && heading.length > 0; i++) {
        if ((heading.at[0] | 0x20) != words[i][0])
            continue;
        size_t n = strlen(words[i]);
        if (!slice_is_anycase(slice_part(heading, 0, n), words[i]))
            continue;
        *rest = slice_trim(slice_part(heading, n, heading.length));
        if (rest->length > 0 && (unsigned char)rest->at[0] >= 0xf0) /* a picture sign */
            *rest = SLICE("");
        if (rest->length == 0)
            return true;
        if (slice_begins(*rest, "for ") || slice_begins(*rest, "– ") || slice_begins(*rest, "- ") ||
            slice_begins(*rest, "— ") || heading.at[n] == ':') {
            size_t space = heading.at[n] == ':' ? 1 : slice_find_byte(*rest, ' ', 0);
            *rest = slice_trim(slice_part(*rest, space, rest->length));
            return true;
        }
    }
    return false;
}

enum { BOLD_LEVEL = 7 }; /* below every heading */

/* a few words that are no sentence */
static bool
is_short(struct slice text)
{
    enum { WORDS_MOST = 5 };
    size_t spaces = 0;
    text = slice_trim(text);
    for (size_t i = 0; i < text.length; i++)
        spaces += text.at[i] == ' ';
    return text.length > 0 && spaces < WORDS_MOST &&
           strchr(".!?", text.at[text.length - 1]) == NULL;
}

/* a heading, or a paragraph of bold words alone, which many write for one */
bool
body_is_heading(cmark_node *node)
{
    if (cmark_node_get_type(node) == CMARK_NODE_HEADING)
        return true;
    cmark_node *only = cmark_node_first_child(node);
    if (cmark_node_get_type(node) != CMARK_NODE_PARAGRAPH || only == NULL ||
        cmark_node_next(only) != NULL || cmark_node_get_type(only) != CMARK_NODE_STRONG)
        return false;
    cmark_node *words = cmark_node_first_child(only);
    const char *text =
        words != NULL && cmark_node_next(words) == NULL ? cmark_node_get_literal(words) : NULL;
    return text != NULL && is_short(slice_of(text)); /* "Do not leave it alone!" is a step */
}

int
body_heading_level(cmark_node *heading)
{
    const bool real = cmark_node_get_type(heading) == CMARK_NODE_HEADING;
    return real ? cmark_node_get_heading_level(heading) : BOLD_LEVEL;
}

/* "To serve", "For the icing": they begin so */
static bool
names_part(const struct word_lists *lists, struct slice name)
{
    const char *const *part_words = word_lists_all(lists, WORDS_PART_HEADINGS);
    for (size_t i = 0; part_words[i] != NULL; i++)
        if (slice_is_anycase(slice_part(name, 0, strlen(part_words[i])), part_words[i]))
            return true;
    return false;
}

enum heading_kind
body_heading_kind(const struct word_lists *lists, struct slice name, struct slice *rest)
{
    *rest = SLICE("");
    if (heading_is(name, word_lists_all(lists, WORDS_METHOD_HEADINGS), rest))
        return HEADING_METHOD;
    if (heading_is(name, word_lists_all(lists, WORDS_NOTES_HEADINGS), rest))
        return HEADING_NOTES;
    return names_part(lists, name) ? HEADING_PART : HEADING_OTHER;
}
