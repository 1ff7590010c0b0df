#include "judge/drawing_scan.h"

#include <unistr.h>

/* elements that run, or hold what is not SVG */
static const char *const active_elements[] = {"script", "handler", "listener", "foreignobject",
                                              "iframe", "object",  "embed",    "audio",
                                              "video",  "canvas",  NULL};
/* how the value of a link may begin */
static const char *const still_links[] = {"#",
                                          "http://",
                                          "https://",
                                          "data:image/png",
                                          "data:image/jpeg",
                                          "data:image/gif",
                                          "data:image/webp",
                                          NULL};

static bool
is_space(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f';
}

static bool
ends_name(char c)
{
    return is_space(c) || c == '>' || c == '/' || c == '=' || c == '<' || c == '"' || c == '\'';
}

/* a name from *at, without the prefix of its namespace */
static struct slice
take_name(struct slice s, size_t *at)
{
    size_t from = *at;
    for (; *at < s.length && !ends_name(s.at[*at]); (*at)++)
        if (s.at[*at] == ':')
            from = *at + 1;
    return slice_part(s, from, *at);
}

static void
skip_spaces(struct slice s, size_t *at)
{
    while (*at < s.length && is_space(s.at[*at]))
        (*at)++;
}

/* the value behind an attribute's name; empty where it has none */
static struct slice
take_value(struct slice s, size_t *at)
{
    size_t look = *at;
    skip_spaces(s, &look);
    if (look >= s.length || s.at[look] != '=')
        return SLICE("");
    look++;
    skip_spaces(s, &look);
    const char quote = look < s.length ? s.at[look] : '\0';
    if (quote != '"' && quote != '\'') { /* no XML; browsers of HTML read on to a space */
        const size_t from = look;
        while (look < s.length && !is_space(s.at[look]) && s.at[look] != '>')
            look++;
        *at = look;
        return slice_part(s, from, look);
    }
    size_t end = slice_find_byte(s, quote, look + 1);
    *at = end == SIZE_MAX ? s.length : end + 1;
    return slice_part(s, look + 1, end);
}

static bool
begins_anycase(struct slice s, const char *word)
{
    return slice_is_anycase(slice_part(s, 0, strlen(word)), word);
}

static bool
is_one_of(struct slice name, const char *const *words)
{
    for (size_t i = 0; words[i] != NULL; i++)
        if (slice_is_anycase(name, words[i]))
            return true;
    return false;
}

static bool
link_is_still(struct slice value)
{
    value = slice_trim(value);
    for (size_t i = 0; still_links[i] != NULL; i++)
        if (begins_anycase(value, still_links[i]))
            return true;
    /* a name beside the drawing: nothing that could be a scheme, or spell one by a reference */
    return slice_find_byte(value, ':', 0) == SIZE_MAX && slice_find_byte(value, '&', 0) == SIZE_MAX;
}

static bool
attribute_is_active(struct slice name, struct slice value)
{
    if (begins_anycase(name, "on"))
        return true;
    if (slice_is_anycase(name, "href") || slice_is_anycase(name, "src"))
        return !link_is_still(value);
    /* an animation could set one of these */
    return slice_is_anycase(name, "attributename") &&
           (slice_find_byte(value, '&', 0) != SIZE_MAX || begins_anycase(slice_trim(value), "on") ||
            slice_ends(slice_trim(value), "href"));
}

/* a tag from behind its "<"; *at comes to stand behind it */
static bool
tag_is_active(struct slice s, size_t *at, struct slice *element)
{
    bool active = false;
    *element = take_name(s, at);
    active = is_one_of(*element, active_elements);
    while (*at < s.length && s.at[*at] != '>' && s.at[*at] != '<') {
        const size_t before = *at;
        const struct slice name = take_name(s, at);
        if (name.length > 0)
            active = attribute_is_active(name, take_value(s, at)) || active;
        if (*at == before)
            (*at)++;
    }
    return active;
}

/* behind the end of what begins at `at`; the length where it has none */
static size_t
behind(struct slice s, const char *end, size_t at)
{
    const size_t found = slice_find(s, end, at);
    return found == SIZE_MAX ? s.length : found + strlen(end);
}

/* a declaration or instruction from its "<"; false where it is neither comment nor one of those
 * that only say what follows: a style sheet's could run (XSLT), entities could spell anything */
static bool
skip_declaration(struct slice s, size_t *at)
{
    const struct slice rest = slice_part(s, *at, s.length);
    if (slice_begins(rest, "<!--")) {
        *at = behind(s, "-->", *at);
        return true;
    }
    if (slice_begins(rest, "<![CDATA[")) {
        *at = behind(s, "]]>", *at);
        return true;
    }
    const size_t end = behind(s, ">", *at);
    const struct slice whole = slice_part(s, *at, end);
    *at = end;
    if (slice_begins(whole, "<?xml "))
        return slice_find(whole, "encoding", 0) == SIZE_MAX ||
               slice_find(whole, "UTF-8", 0) != SIZE_MAX ||
               slice_find(whole, "utf-8", 0) != SIZE_MAX;
    return begins_anycase(whole, "<!DOCTYPE") && slice_find_byte(whole, '[', 0) == SIZE_MAX;
}

enum drawing_kind
drawing_scan(struct slice s)
{
    bool active = false, is_drawing = false, any = false;
    if (u8_check((const uint8_t *)s.at, s.length) != NULL || memchr(s.at, '\0', s.length) != NULL)
        return DRAWING_NONE;
    for (size_t at = slice_find_byte(s, '<', 0); at < s.length; at = slice_find_byte(s, '<', at)) {
        const char next = at + 1 < s.length ? s.at[at + 1] : '\0';
        if (next == '!' || next == '?') {
            active = !skip_declaration(s, &at) || active;
            continue;
        }
        struct slice element;
        at += next == '/' ? 2 : 1;
        active = tag_is_active(s, &at, &element) || active;
        is_drawing = is_drawing || (!any && slice_is(element, "svg"));
        any = true;
    }
    return !is_drawing ? DRAWING_NONE : active ? DRAWING_ACTIVE : DRAWING_STILL;
}
