#include "read/line_words.h"

#include <string.h>

#include "read/number.h"
#include "read/phrase.h"

static size_t
skip_how(const struct word_lists *lists, struct slice s, size_t at)
{
    size_t n;
    while ((n = phrase_at(lists, WORDS_HOW_OF_IT, s, at, NULL)) > 0)
        at = phrase_skip(s, at + n);
    return at;
}

static size_t
it_at(const struct word_lists *lists, struct slice s, size_t at, enum of_it *of)
{
    size_t which, n = phrase_at(lists, WORDS_OF_IT, s, at, &which);
    if (n > 0)
        *of = (enum of_it)word_lists_get(lists, WORDS_OF_IT)->values[which].kind;
    return n;
}

/* "juice ½ lemon", "zest 1 lime": the "of" left out */
static bool
counts_at(struct slice s, size_t at)
{
    return at < s.length && ((s.at[at] >= '0' && s.at[at] <= '9') ||
                             slice_begins(slice_part(s, at, s.length), "½") ||
                             slice_begins(slice_part(s, at, s.length), "¼"));
}

size_t
line_of_it(const struct word_lists *lists, struct slice s, size_t at, enum of_it *of)
{
    enum of_it found;
    size_t from = skip_how(lists, s, at), n = it_at(lists, s, from, &found);
    if (n == 0)
        return 0;
    from = phrase_skip(s, from + n);
    const char *word = phrase_stands_at(s, from, "of")     ? "of"
                       : phrase_stands_at(s, from, "from") ? "from"
                                                           : NULL;
    if (word == NULL && !counts_at(s, from))
        return 0;
    *of = found;
    if (word == NULL)
        return from - at;
    from = phrase_skip(s, from + strlen(word));
    return (phrase_stands_at(s, from, "the") ? phrase_skip(s, from + strlen("the")) : from) - at;
}

/* "1", "½", "a", "half": what may stand between "flesh of" and the food */
static bool
begins_count(const struct word_lists *lists, struct slice s, size_t at)
{
    return (at < s.length && s.at[at] >= '0' && s.at[at] <= '9') ||
           slice_begins(slice_part(s, at, s.length), "½") ||
           phrase_at(lists, WORDS_COUNTS_OF_WHOLES, s, at, NULL) > 0;
}

size_t
line_part_of(const struct word_lists *lists, struct slice s, size_t at, struct slice *part)
{
    size_t from = skip_how(lists, s, at);
    const size_t n = phrase_at(lists, WORDS_PARTS_OF, s, from, NULL);
    if (n == 0)
        return 0;
    size_t behind = phrase_skip(s, from + n);
    if (!phrase_stands_at(s, behind, "of") && !phrase_stands_at(s, behind, "from"))
        return 0;
    behind = phrase_skip(s, behind + (phrase_stands_at(s, behind, "of") ? 2 : 4));
    if (phrase_stands_at(s, behind, "the"))
        behind = phrase_skip(s, behind + 3);
    if (!begins_count(lists, s, behind))
        return 0;
    *part = slice_part(s, from, from + n);
    return behind - at;
}

bool
line_is_of_it(const struct word_lists *lists, struct slice piece, enum of_it *of)
{
    enum of_it found;
    piece = slice_trim(piece);
    size_t from = skip_how(lists, piece, 0), n = it_at(lists, piece, from, &found);
    if (n == 0)
        return false;
    struct slice rest = slice_trim(slice_part(piece, from + n, piece.length));
    if (rest.length > 0 && !slice_is_anycase(rest, "only") && !slice_is_anycase(rest, "of"))
        return false;
    *of = found;
    return true;
}

static bool
is_about(char c)
{
    return c == ' ' || c == ',' || c == '(' || c == ')' || c == ':' || c == '-' || c == '*' ||
           c == ';' || c == '[' || c == ']';
}

/* whether "if you like" ends its remark, and in a bracket is all of it: "(leave the seeds in if you
 * like it hot)" makes no line optional */
static bool
is_whole_remark(struct slice s, size_t from, size_t to)
{
    if (slice_is_anycase(slice_part(s, from, from + 8), "optional"))
        return true;
    to = phrase_skip(s, to);
    if (to < s.length && strchr(",;)].-:", s.at[to]) == NULL)
        return false;
    while (from > 0 && strchr(",;([", s.at[from - 1]) == NULL)
        from--;
    const bool in_bracket = from > 0 && (s.at[from - 1] == '(' || s.at[from - 1] == '[');
    return !in_bracket || (s.at[phrase_skip(s, from)] | 0x20) == 'i';
}

bool
line_find_optional(const struct word_lists *lists, struct slice s, size_t *from, size_t *to)
{
    for (size_t at = 0; at < s.length; at++) {
        if ((at > 0 && phrase_letter(s.at[at - 1])) || strchr("oOiI(", s.at[at]) == NULL)
            continue;
        const size_t n = phrase_at(lists, WORDS_OPTIONAL, s, at, NULL);
        if (n == 0 || !is_whole_remark(s, at, at + n))
            continue;
        size_t start = at, end = at + n;
        while (end < s.length && is_about(s.at[end]) && !(s.at[end] == '(' || s.at[end] == '[') &&
               (at == 0 || s.at[end] == ')' || s.at[end] == ']'))
            end++;
        while (start > 0 && is_about(s.at[start - 1]) && s.at[start - 1] != ')')
            start--;
        /* "(optional, for colour)": the bracket stays open for what follows */
        if (memchr(s.at + start, '(', at - start) != NULL && s.at[end - 1] != ')') {
            start = at;
            while (end < s.length && (s.at[end] == ',' || s.at[end] == ' ' || s.at[end] == ';'))
                end++;
        }
        *from = start;
        *to = end;
        return true;
    }
    return false;
}

bool
line_is_to_taste(const struct word_lists *lists, struct slice piece)
{
    return phrase_is(lists, WORDS_TO_TASTE, piece);
}

size_t
line_find_purpose(const struct word_lists *lists, struct slice name, bool manner)
{
    for (size_t at = 0; at + 1 < name.length; at++) {
        if (name.at[at] != ' ')
            continue;
        if (phrase_at(lists, WORDS_PURPOSES, name, at + 1, NULL) > 0 ||
            (manner && phrase_at(lists, WORDS_MANNERS, name, at + 1, NULL) > 0))
            return at;
    }
    return SIZE_MAX;
}

size_t
line_find_packed(const struct word_lists *lists, struct slice name)
{
    for (size_t at = 0; at + 1 < name.length; at++)
        if (name.at[at] == ' ' && phrase_at(lists, WORDS_PACKED_IN, name, at + 1, NULL) > 0)
            return at;
    return SIZE_MAX;
}

bool
line_is_purpose(const struct word_lists *lists, struct slice piece)
{
    return phrase_at(lists, WORDS_PURPOSES, piece, 0, NULL) > 0;
}

bool
line_is_no_alternative(const struct word_lists *lists, struct slice piece)
{
    return piece.length == 0 || phrase_at(lists, WORDS_NO_ALTERNATIVES, piece, 0, NULL) > 0;
}

size_t
line_unmeasured(const struct word_lists *lists, struct slice s, size_t at)
{
    return phrase_at(lists, WORDS_UNMEASURED, s, at, NULL);
}

size_t
line_idle(const struct word_lists *lists, struct slice s, size_t at)
{
    size_t from = at, n;
    while ((n = phrase_at(lists, WORDS_IDLE_BEFORE_FOODS, s, from, NULL)) > 0)
        from = phrase_skip(s, from + n);
    return from - at;
}

size_t
line_little(const struct word_lists *lists, struct slice s, size_t at)
{
    const size_t n = phrase_at(lists, WORDS_LITTLE, s, at, NULL);
    if (n == 0)
        return 0;
    size_t next = phrase_skip(s, at + n);
    bool number = next < s.length && s.at[next] >= '0' && s.at[next] <= '9';
    return number || next == s.length ? 0 : next - at;
}
