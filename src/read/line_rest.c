#include "read/line_food.h"

#include <string.h>

#include "read/line_words.h"
#include "read/number.h"
#include "read/line_name.h"
#include "read/line_rest.h"

/* "plus 1 tsp to brush", "plus extra to serve": bytes from `at` on, which is behind "plus", to be
 * taken into the food; the words go to `after` */
static void
read_plus(struct food_reader *r, struct written_food *food, size_t at, size_t end)
{
    struct amount amount;
    size_t unmeasured = line_unmeasured(r->lexicon->lists, line_upto(r, end), at);
    size_t n = unmeasured > 0 ? 0 : amount_read(line_upto(r, end), at, r->lexicon, &amount);
    if (n > 0 && food->extra == NULL) {
        line_origin(&r->clean, amount.from, amount.to, &amount.from, &amount.to);
        food->extra = arena_take(r->arena, sizeof *food->extra);
        *food->extra = amount;
    } else {
        food->extra_unmeasured = true;
    }
    struct slice words = line_part(r, at, end);
    line_add_after(r, text_formatted(r->arena, "plus %.*s", SLICE_ARGS(words)));
}

/* "plus 1 tbsp water": a food of its own, with its amount or without; not "plus 1 tsp to brush" */
static bool
adds_food(struct food_reader *r, const struct written_food *food, size_t from, size_t to)
{
    struct amount amount;
    size_t n = amount_read(line_upto(r, to), from, r->lexicon, &amount);
    size_t at = phrase_skip(line_upto(r, to), from + n);
    struct slice words = line_part(r, at, to);
    const size_t bracket = slice_find_byte(words, '(', 0);
    words.length = bracket < words.length ? bracket : words.length;
    return !line_is_purpose(r->lexicon->lists, words) &&
           line_unmeasured(r->lexicon->lists, line_upto(r, to), at) == 0 &&
           (line_is_food(r, words) || line_is_egg_part(r, food->name, words));
}

/* one piece behind the name; true when it was taken as something other than words */
static bool
read_piece(struct food_reader *r, struct written_food *food, size_t from, size_t to)
{
    struct slice piece = slice_trim(line_part(r, from, to));
    enum of_it of;
    enum fill fill;
    if (line_is_to_taste(r->lexicon->lists, piece)) {
        food->to_taste = true;
        return true;
    }
    if (r->list.count > 0 && piece.length > 0 &&
        amount_fill(r->lexicon->lists, piece, 0, &fill) == piece.length && fill != FILL_SIFTED) {
        r->list.items[0].fill = fill;
        return true;
    }
    if (food->of_it == OF_WHOLE && line_is_of_it(r->lexicon->lists, piece, &of))
        food->of_it = of;
    if (food->amount_unread)
        return false;
    if (r->list.count > 0)
        return line_measure(&r->amounts, from, to, &r->list);
    struct amount_list found = {0};
    size_t start = phrase_skip(line_upto(r, to), from),
           end = line_amounts(&r->amounts, start, to, &found);
    if (found.count == 0 || (end < to && found.items[0].unit == NULL))
        return false;
    line_add_after(r, line_part(r, end, to));
    r->list = found;
    return true;
}

/* where a piece of the line behind the name ends: at the next comma, bracket or "plus" */
static size_t
piece_end(const struct food_reader *r, size_t at, size_t end)
{
    for (size_t i = at; i < end; i++) {
        char c = r->clean.bytes[i];
        if (c == '(' || c == '[' || c == ';')
            return i;
        if (c == ',' && !(i + 1 < end && r->clean.bytes[i + 1] >= '0' &&
                          r->clean.bytes[i + 1] <= '9' && i > at))
            return i;
        if (c == ' ' && (phrase_stands_at(line_upto(r, end), i + 1, "plus") ||
                         slice_begins(line_part(r, i + 1, end), "+ ")))
            return i;
    }
    return end;
}

/* where what is added ends: at the next comma, over brackets */
static size_t
plus_end(const struct food_reader *r, size_t at, size_t end)
{
    size_t to = piece_end(r, at, end);
    while (to < end && strchr("([", r->clean.bytes[to]) != NULL)
        to = piece_end(r, line_bracket_end(&r->clean, to, end), end);
    return to;
}

/* " or " in a piece whose right side is an amount or a food of its own: its byte, or SIZE_MAX */
static size_t
alternative_in(const struct food_reader *r, size_t from, size_t to, size_t end, size_t *next)
{
    size_t or_at = slice_find(line_part(r, from, to), " or ", 0);
    if (or_at != SIZE_MAX && line_is_food(r, line_part(r, from, from + or_at)) &&
        line_is_food(r, line_part(r, from + or_at + 4, to))) {
        *next = from; /* "parsley, mint or coriander" */
        return from;
    }
    if (phrase_stands_at(line_upto(r, to), phrase_skip(line_upto(r, to), from), "or")) {
        *next = phrase_skip(line_upto(r, to), phrase_skip(line_upto(r, to), from) + 2);
        return line_is_no_alternative(r->lexicon->lists, line_part(r, *next, to)) &&
                       !line_is_name(r, line_part(r, *next, to))
                   ? SIZE_MAX
                   : from;
    }
    for (size_t at = from; at < to; at++) {
        if (!slice_is_anycase(line_part(r, at, at + 4), " or ") || at + 4 > to)
            continue;
        *next = at + 4;
        if (line_begins_with_amount(r, *next, end))
            return at;
    }
    return SIZE_MAX;
}

/* words alone, as names are written: no numbers, no purpose */
static bool
is_plain_name(const struct food_reader *r, struct slice words)
{
    for (size_t i = 0; i < words.length; i++)
        if ((words.at[i] >= '0' && words.at[i] <= '9') || strchr(";:/.", words.at[i]) != NULL)
            return false;
    return line_find_purpose(r->lexicon->lists,
                             text_formatted(r->arena, " %.*s", SLICE_ARGS(words)),
                             true) == SIZE_MAX;
}

/* a bracket behind the name: amounts, an alternative, or words */
size_t
line_read_bracket(struct food_reader *r, struct written_food *food, size_t at, size_t end,
                  struct held_bracket *held)
{
    size_t close = line_bracket_end(&r->clean, at, end), inner = close;
    if (inner > at + 1 && strchr(")]", r->clean.bytes[inner - 1]) != NULL)
        inner--;
    size_t next;
    if (held->to == 0 && r->brackets == 0 && phrase_stands_at(line_upto(r, inner), at + 1, "or") &&
        alternative_in(r, at + 1, inner, inner, &next) != SIZE_MAX) {
        *held = (struct held_bracket){next, inner};
        return close;
    }
    if (phrase_stands_at(line_upto(r, inner), at + 1, "plus")) {
        read_plus(r, food, phrase_skip(line_upto(r, inner), at + 1 + strlen("plus")), inner);
        return close;
    }
    const size_t comma = slice_find_byte(line_upto(r, inner), ',', at);
    if (r->list.count == 0 && comma != SIZE_MAX && line_begins_with_amount(r, at + 1, comma) &&
        read_piece(r, food, at + 1, comma)) { /* "Onion (1 large, chopped)" */
        line_add_after(r, line_part(r, comma + 1, inner));
        return close;
    }
    if (line_bracket(&r->amounts, at, end, &r->list) == 0 && !read_piece(r, food, at + 1, inner)) {
        line_add_after(r, line_part(r, at + 1, inner));
        if (food->bracket.length == 0 && is_plain_name(r, line_part(r, at + 1, inner)))
            food->bracket = slice_copy(r->arena, slice_trim(line_part(r, at + 1, inner)));
    }
    return close;
}

/* whether a piece behind the comma is an amount and another food */
static bool
is_next_food(struct food_reader *r, const struct written_food *food, size_t from, size_t to)
{
    struct amount amount;
    size_t n = amount_read(line_upto(r, to), from, r->lexicon, &amount);
    struct slice words = slice_trim(line_part(r, from + n, to));
    return n > 0 && line_begins_with_amount(r, from, to) && adds_food(r, food, from, to) &&
           slice_find(food->name, slice_string(r->arena, words), 0) == SIZE_MAX &&
           slice_find(words, slice_string(r->arena, food->name), 0) == SIZE_MAX;
}

/* what stands behind the name up to the end of the food; where the next food begins, or `end` */
size_t
line_read_rest(struct food_reader *r, struct written_food *food, size_t at, size_t end,
               enum joint *joint, struct held_bracket *held)
{
    while (at < end) {
        char c = r->clean.bytes[at];
        if (c == '(' || c == '[') {
            at = line_read_bracket(r, food, at, end, held);
            continue;
        }
        struct slice rest = line_part(r, at, end);
        if (c == ' ' || c == ',' || c == ';' || c == ':') {
            at++;
            continue;
        }
        if (slice_begins(rest, "- ") || slice_begins(rest, "– ") || slice_begins(rest, "— ")) {
            at += c == '-' ? 1 : 3;
            continue;
        }
        bool plus = phrase_stands_at(rest, 0, "plus");
        if (plus || slice_begins(rest, "+ ") || phrase_stands_at(rest, 0, "and extra") ||
            phrase_stands_at(rest, 0, "and more")) {
            size_t from = phrase_skip(line_upto(r, end), at + (plus ? 4 : c == '+' ? 1 : 3));
            size_t to = plus_end(r, from, end);
            if (food->name.length > 0 && adds_food(r, food, from, to)) {
                *joint = JOINT_AND;
                return from;
            }
            read_plus(r, food, from, to);
            at = to;
            continue;
        }
        size_t to = piece_end(r, at, end), next;
        if (r->list.count > 0 && food->name.length > 0 && is_next_food(r, food, at, to)) {
            *joint = JOINT_AND; /* "4 cloves, 1 bay leaf" */
            return at;
        }
        size_t or_at = alternative_in(r, at, to, end, &next);
        size_t stop = or_at != SIZE_MAX ? or_at : to;
        if (stop > at && !read_piece(r, food, at, stop))
            line_add_after(r, line_part(r, at, stop));
        if (or_at != SIZE_MAX) {
            *joint = JOINT_OR;
            return next;
        }
        at = to;
    }
    return end;
}
