#include "read/line_either.h"

#include <string.h>

#include "read/line_name.h"
#include "read/line_words.h"
#include "read/number.h"
#include "read/word_lists.h"

enum { KIND_WORDS_MOST = 4 };

/* a name and one piece behind it, bytes of the clean line */
struct named_piece {
    size_t name_from, name_to;
    size_t from, to; /* the words of the piece */
    size_t behind;   /* what follows it */
};

/* where a phrase of the list stands in the words, at the start of a word; SIZE_MAX: nowhere. *bytes
 * are those of the phrase. */
static size_t
find_phrase(const struct food_reader *r, struct slice words, enum word_list_number list,
            size_t *bytes)
{
    const char *const *phrases = word_lists_all(r->lexicon->lists, list);
    for (size_t at = 0; at < words.length; at++)
        for (size_t i = 0; phrases[i] != NULL && (at == 0 || !phrase_letter(words.at[at - 1])); i++)
            if (phrase_stands_at(words, at, phrases[i])) {
                *bytes = strlen(phrases[i]);
                return at;
            }
    return SIZE_MAX;
}

static bool
has_phrase(const struct food_reader *r, struct slice words, enum word_list_number list)
{
    size_t bytes;
    return find_phrase(r, words, list, &bytes) != SIZE_MAX;
}

static bool
is_phrase(const struct food_reader *r, struct slice words, enum word_list_number list)
{
    size_t bytes;
    words = slice_trim(words);
    return find_phrase(r, words, list, &bytes) == 0 && bytes == words.length;
}

bool
line_either_is_ordinary(const struct food_reader *r, struct slice words)
{
    return is_phrase(r, words, WORDS_ORDINARY);
}

struct slice
line_either_without_diet(const struct food_reader *r, struct slice name)
{
    size_t bytes;
    const size_t at = find_phrase(r, name, WORDS_FOR_A_DIET, &bytes);
    if (at == SIZE_MAX)
        return SLICE("");
    struct slice rest = slice_trim(slice_part(name, at + bytes, name.length));
    return text_formatted(r->arena, "%.*s%.*s", (int)at, name.at, SLICE_ARGS(rest));
}

bool
line_either_is_state(const struct food_reader *r, struct slice words)
{
    return is_phrase(r, words, WORDS_STATES);
}

/* a few words without a number or a sign */
static bool
is_plain(struct slice words)
{
    size_t count = words.length > 0;
    for (size_t i = 0; i < words.length; i++) {
        if (strchr("()[]:;/+,.", words.at[i]) != NULL || (words.at[i] >= '0' && words.at[i] <= '9'))
            return false;
        count += words.at[i] == ' ';
    }
    return count > 0 && count <= KIND_WORDS_MOST;
}

/* a kind of the food as a food: "coconut" of "yoghurt" is coconut yoghurt; empty: it is none */
static struct slice
kind_of(const struct food_reader *r, struct slice kind, struct slice name)
{
    kind = slice_trim(kind);
    if (line_either_is_ordinary(r, kind))
        return name;
    if (!is_plain(kind))
        return SLICE("");
    struct slice whole = text_formatted(r->arena, "%.*s %.*s", SLICE_ARGS(kind), SLICE_ARGS(name));
    const size_t word = line_last_word(r, (size_t)(name.at - r->clean.bytes),
                                       (size_t)(name.at - r->clean.bytes) + name.length);
    struct slice noun = slice_part(name, word - (size_t)(name.at - r->clean.bytes), name.length);
    if (slice_ends(kind, slice_string(r->arena, noun)) && line_is_food(r, kind))
        return kind;
    if (line_is_food(r, whole))
        return whole;
    whole = text_formatted(r->arena, "%.*s %.*s", SLICE_ARGS(name), SLICE_ARGS(kind));
    return line_is_food(r, whole) ? whole : SLICE(""); /* "garlic (powder or fresh)" */
}

/* words that are of a speech about a food, and not of it: "use", "I like", "instead" */
static struct slice
without_speech(const struct food_reader *r, struct slice words)
{
    size_t bytes;
    words = slice_trim(words);
    while (find_phrase(r, words, WORDS_USE_INSTEAD, &bytes) == 0)
        words = slice_trim(slice_part(words, bytes, words.length));
    const char *const tails[] = {" instead", " only", " one", " version"};
    for (size_t i = 0; i < sizeof tails / sizeof *tails; i++)
        if (slice_ends(words, tails[i]))
            words = slice_trim(slice_part(words, 0, words.length - strlen(tails[i])));
    return words;
}

/* where " if " or " for " stands in the words, or SIZE_MAX */
static size_t
condition_in(struct slice words)
{
    for (size_t at = 1; at + 1 < words.length; at++)
        if (words.at[at - 1] == ' ' &&
            (phrase_stands_at(words, at, "if") || phrase_stands_at(words, at, "for")))
            return at - 1;
    return SIZE_MAX;
}

/* what is taken instead under a condition of a diet: "coconut" of "coconut for vegan", "vegan" of
 * "vegan if needed", "tamari" of "if gluten-free use tamari"; empty: there is no such condition */
static struct slice
kind_for_diet(const struct food_reader *r, struct slice piece)
{
    size_t bytes, cut;
    if (!has_phrase(r, piece, WORDS_FOR_A_DIET))
        return SLICE("");
    if (phrase_stands_at(piece, 0, "if") || phrase_stands_at(piece, 0, "for")) {
        cut = find_phrase(r, piece, WORDS_USE_INSTEAD, &bytes);
        return cut != SIZE_MAX ? without_speech(r, slice_part(piece, cut, piece.length))
                               : SLICE("");
    }
    cut = condition_in(piece);
    return cut != SIZE_MAX ? without_speech(r, slice_part(piece, 0, cut)) : SLICE("");
}

/* the two ways of a piece, the first one first; false: it offers none */
static bool
ways_of(const struct food_reader *r, const struct named_piece *p, struct slice *one,
        struct slice *other)
{
    struct slice name = slice_trim(line_part(r, p->name_from, p->name_to)),
                 piece = slice_trim(line_part(r, p->from, p->to));
    struct slice kind = kind_for_diet(r, piece);
    if (kind.length > 0) {
        *one = name;
        *other = kind_of(r, kind, name);
        if (other->length == 0 && is_plain(kind) && line_is_food(r, kind))
            *other = kind;
        return other->length > 0 && line_is_food(r, name);
    }
    const size_t joint = slice_find(piece, " or ", 0);
    if (joint == SIZE_MAX)
        return false;
    *one = kind_of(r, slice_part(piece, 0, joint), name);
    *other = kind_of(r, slice_part(piece, joint + strlen(" or "), piece.length), name);
    return one->length > 0 && other->length > 0;
}

static void
write_ways(struct food_reader *r, const struct named_piece *p, struct slice one, struct slice other)
{
    struct slice both =
        text_formatted(r->arena, "%.*s or %.*s", SLICE_ARGS(one), SLICE_ARGS(other));
    line_replace(r, p->from - 1, p->behind, SLICE(""));
    line_replace(r, p->name_from, p->name_to, both);
}

/* "omit if vegan", "leave out for dairy-free": the line may be left out */
static bool
is_left_out(const struct food_reader *r, struct slice piece)
{
    size_t bytes;
    piece = slice_trim(piece);
    if (!has_phrase(r, piece, WORDS_FOR_A_DIET) ||
        find_phrase(r, piece, WORDS_LEAVE_OUT, &bytes) != 0)
        return false;
    const size_t at = phrase_skip(piece, bytes);
    return phrase_stands_at(piece, at, "if") || phrase_stands_at(piece, at, "for") ||
           phrase_stands_at(piece, at, "to");
}

/* the piece that begins at the comma or bracket at `at` */
static struct named_piece
piece_at(const struct food_reader *r, size_t at)
{
    struct named_piece p = {.from = at + 1};
    if (r->clean.bytes[at] == '(' || r->clean.bytes[at] == '[') {
        p.behind = line_bracket_end(&r->clean, at, r->clean.length);
        p.to = p.behind > p.from && strchr(")]", r->clean.bytes[p.behind - 1]) != NULL
                   ? p.behind - 1
                   : p.behind;
        return p;
    }
    p.to = p.from;
    while (p.to < r->clean.length && strchr(",;([", r->clean.bytes[p.to]) == NULL)
        p.to++;
    p.behind = p.to;
    return p;
}

/* "2 tbsp paste, tomato": a noun that is no food without the word behind its comma */
static bool
turn_round(struct food_reader *r, size_t from, struct slice name)
{
    const size_t comma = from + name.length;
    if (comma >= r->clean.length || r->clean.bytes[comma] != ',' ||
        slice_find_byte(name, ' ', 0) != SIZE_MAX || line_is_food(r, name))
        return false;
    const struct named_piece p = piece_at(r, comma);
    struct slice turned =
        text_formatted(r->arena, "%.*s %.*s", SLICE_ARGS(slice_trim(line_part(r, p.from, p.to))),
                       SLICE_ARGS(name));
    if (!is_plain(turned) || !line_is_food(r, turned))
        return false;
    line_replace(r, from, p.behind, turned);
    return true;
}

void
line_either_spell_out(struct food_reader *r)
{
    struct amount_list amounts = {0};
    const size_t end = r->clean.length,
                 from = phrase_skip(line_upto(r, end), line_amounts(&r->amounts, 0, end, &amounts)),
                 to = line_name_end(r, from, end);
    struct slice name = slice_trim(line_part(r, from, to));
    if (name.length == 0 || slice_find(name, " or ", 0) != SIZE_MAX ||
        slice_find(name, " and ", 0) != SIZE_MAX || turn_round(r, from, name))
        return;
    for (size_t at = to; at < end;) {
        if (strchr(",;([", r->clean.bytes[at]) == NULL) {
            at++;
            continue;
        }
        struct named_piece p = piece_at(r, at);
        struct slice one, other;
        p.name_from = from;
        p.name_to = from + name.length;
        if (is_left_out(r, line_part(r, p.from, p.to))) {
            r->out->optional = true;
        } else if (ways_of(r, &p, &one, &other)) {
            write_ways(r, &p, one, other);
            return;
        }
        at = p.behind;
    }
}
