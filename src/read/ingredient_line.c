#include "read/ingredient_line.h"

#include <string.h>

#include "base/list.h"
#include "read/line_amounts.h"
#include "read/line_words.h"
#include "read/number.h"
#include "read/unit_guess.h"

enum joint { JOINT_NONE, JOINT_OR, JOINT_AND };

struct food_list {
    struct written_food *items;
    size_t count, room;
};

struct option_list {
    struct written_option *items;
    size_t count, room;
};

struct reader {
    struct line_reader amounts;
    struct arena *arena;
    const struct lexicon *lexicon;
    struct notices *notices;
    struct ingredient_line *out;
    struct clean_line clean;
    struct amount_list list; /* of the food at hand */
    struct text after;       /* of the food at hand */
    struct option_list options;
    size_t brackets; /* alternatives in brackets read so far: they are not nested */
};

static struct slice
upto(const struct reader *r, size_t end)
{
    return (struct slice){r->clean.bytes, end};
}

static struct slice
part(const struct reader *r, size_t from, size_t to)
{
    return slice_part((struct slice){r->clean.bytes, r->clean.length}, from, to);
}

static bool
is_food(const struct reader *r, struct slice words)
{
    words = slice_trim(words);
    return words.length > 0 && r->lexicon->food(r->lexicon->ctx, words);
}

static void
add_after(struct reader *r, struct slice piece)
{
    piece = slice_trim(piece);
    if (piece.length == 0)
        return;
    if (r->after.length > 0)
        text_add_string(&r->after, ", ");
    text_add(&r->after, piece);
}

static void
set_name(struct reader *r, struct written_food *food, size_t from, size_t to)
{
    struct slice whole = part(r, from, to), name = slice_trim(whole);
    size_t start = name.length > 0 ? (size_t)(name.at - r->clean.bytes) : from;
    char *copy = arena_copy(r->arena, name.at, name.length);
    food->name = (struct slice){copy, name.length};
    for (size_t i = 0; i + 1 < food->name.length; i++) {
        if (copy[i] != ',' || copy[i + 1] != ' ')
            continue;
        memmove(copy + i, copy + i + 1, food->name.length - i - 1);
        food->name.length--;
    }
    line_origin(&r->clean, start, start + name.length, &food->name_from, &food->name_to);
}

/* two names made one for the shared end of the second: "red" and "wine vinegar" */
static void
lengthen_name(struct reader *r, struct written_food *food, struct slice tail)
{
    food->name = text_formatted(r->arena, "%.*s %.*s", SLICE_ARGS(food->name), SLICE_ARGS(tail));
}

/* where the name ends: at a comma, a bracket, a dash or colon between spaces, "plus", or `end` */
static size_t
name_end(const struct reader *r, size_t at, size_t end)
{
    struct slice s = upto(r, end);
    for (size_t i = at; i < end; i++) {
        char c = s.at[i];
        if (c == ';' || c == '(' || c == '[')
            return i;
        if (c == ',' && !(i > at && i + 1 < end && s.at[i + 1] >= '0' && s.at[i + 1] <= '9' &&
                          s.at[i - 1] >= '0' && s.at[i - 1] <= '9'))
            return i;
        if (c == ':' && (i + 1 == end || s.at[i + 1] == ' '))
            return i;
        if (c != ' ')
            continue;
        struct slice rest = slice_part(s, i + 1, end);
        if (slice_begins(rest, "- ") || slice_begins(rest, "– ") || slice_begins(rest, "— ") ||
            slice_begins(rest, "+ ") || word_at(s, i + 1, "plus"))
            return i;
    }
    return end;
}

/* the words behind the first `count` of a name */
static struct slice
without_words(struct slice name, size_t count)
{
    size_t at = 0;
    for (; count > 0; count--) {
        at = slice_find_byte(name, ' ', at);
        if (at == SIZE_MAX)
            return slice_part(name, name.length, name.length);
        at++;
    }
    return slice_part(name, at, name.length);
}

static bool
ends_alike(struct slice a, struct slice b)
{
    size_t i = 0;
    while (i < a.length && i < b.length && a.at[a.length - 1 - i] == b.at[b.length - 1 - i] &&
           a.at[a.length - 1 - i] != ' ')
        i++;
    return i > 3;
}

/* the end of `right` that makes a food of `left` too: "red" or "white [wine vinegar]"; empty when
 * there is none */
static struct slice
shared_tail(const struct reader *r, struct slice left, struct slice right)
{
    char joined[200];
    for (size_t skip = 1; skip <= 4; skip++) {
        struct slice tail = without_words(right, skip);
        if (tail.length == 0 || left.length + 1 + tail.length > sizeof joined)
            break;
        if (ends_alike(left, tail)) /* "soy sauce or fish sauce" share nothing */
            break;
        memcpy(joined, left.at, left.length);
        joined[left.length] = ' ';
        memcpy(joined + left.length + 1, tail.at, tail.length);
        if (is_food(r, (struct slice){joined, left.length + 1 + tail.length}))
            return tail;
    }
    return slice_part(right, right.length, right.length);
}

/* a food, or one behind a few words that describe it */
static bool
ends_in_food(const struct reader *r, struct slice words)
{
    for (size_t skip = 0; skip <= 3; skip++) {
        struct slice rest = without_words(words, skip);
        if (rest.length == 0)
            return false;
        if (is_food(r, rest))
            return true;
    }
    return false;
}

static bool
begins_with_amount(const struct reader *r, size_t at, size_t end)
{
    struct amount amount;
    size_t n = amount_read(upto(r, end), at, r->lexicon, &amount);
    return n > 0 && (amount.unit != NULL || amount.size != SIZE_NONE ||
                     (r->clean.bytes[at] >= '0' && r->clean.bytes[at] <= '9'));
}

/* the joint at byte `at`: bytes with its spaces, 0 when there is none */
static size_t
joint_at(const struct reader *r, size_t at, size_t end, enum joint *joint)
{
    static const struct {
        const char *words;
        enum joint joint;
    } joints[] = {
        {" or ", JOINT_OR}, {" and/or ", JOINT_OR}, {" / ", JOINT_OR},
        {"/", JOINT_OR},    {" and ", JOINT_AND},   {" & ", JOINT_AND},
    };
    struct slice rest = part(r, at, end);
    if (rest.length > 1 && rest.at[0] == '/' && rest.at[1] >= '0' && rest.at[1] <= '9' && at > 0 &&
        r->clean.bytes[at - 1] >= '0' && r->clean.bytes[at - 1] <= '9')
        return 0;
    for (size_t i = 0; i < sizeof joints / sizeof *joints; i++) {
        size_t n = strlen(joints[i].words);
        if (slice_is_anycase(slice_part(rest, 0, n), joints[i].words)) {
            *joint = joints[i].joint;
            return n;
        }
    }
    return 0;
}

/* whether the joint between the words parts two foods; *tail is what the right lends to the left */
static bool
parts_foods(const struct reader *r, size_t from, size_t at, size_t next, size_t to, size_t end,
            enum joint joint, struct slice *tail)
{
    struct slice left = slice_trim(part(r, from, at)), right = part(r, next, to);
    size_t purpose = words_find_purpose(right, true);
    right = slice_trim(slice_part(right, 0, purpose == SIZE_MAX ? right.length : purpose));
    *tail = slice_part(right, right.length, right.length);
    if (left.length == 0)
        return false;
    if (begins_with_amount(r, next, end) && !is_food(r, right))
        return true;
    if (joint == JOINT_OR && words_is_no_alternative(right))
        return false;
    bool left_food = is_food(r, left), right_food = ends_in_food(r, right);
    if (!left_food || joint == JOINT_OR)
        *tail = shared_tail(r, left, right);
    if (tail->length > 0)
        return joint == JOINT_OR || right_food;
    bool stroke = r->clean.bytes[at] == '/' || r->clean.bytes[at + 1] == '/';
    if (joint == JOINT_AND || stroke)
        return (left_food || ends_in_food(r, left)) && right_food;
    return left_food || right_food || ends_in_food(r, left);
}

/* finds the first joint of a name from..to that parts it */
static size_t
find_joint(const struct reader *r, size_t from, size_t to, size_t end, enum joint *joint,
           size_t *next, struct slice *tail)
{
    bool asked = false, whole_food = false;
    for (size_t at = from; at < to; at++) {
        size_t n = joint_at(r, at, to, joint);
        if (n == 0)
            continue;
        if (!asked)
            whole_food = is_food(r, part(r, from, to));
        asked = true;
        size_t stop = name_end(r, at + n, to);
        /* a further joint ends the right side: "a, b or c" */
        for (size_t i = at + n; i < stop; i++) {
            enum joint other;
            if (joint_at(r, i, stop, &other) > 0)
                stop = i;
        }
        if (!whole_food && parts_foods(r, from, at, at + n, stop, end, *joint, tail)) {
            *next = at + n;
            return at;
        }
    }
    return SIZE_MAX;
}

/* "plus 1 tsp to brush", "plus extra to serve": bytes from `at` on, which is behind "plus", to be
 * taken into the food; the words go to `after` */
static void
read_plus(struct reader *r, struct written_food *food, size_t at, size_t end)
{
    struct amount amount;
    size_t unmeasured = words_unmeasured(upto(r, end), at);
    size_t n = unmeasured > 0 ? 0 : amount_read(upto(r, end), at, r->lexicon, &amount);
    if (n > 0 && food->extra == NULL) {
        line_origin(&r->clean, amount.from, amount.to, &amount.from, &amount.to);
        food->extra = arena_take(r->arena, sizeof *food->extra);
        *food->extra = amount;
    } else {
        food->extra_unmeasured = true;
    }
    struct slice words = part(r, at, end);
    add_after(r, text_formatted(r->arena, "plus %.*s", SLICE_ARGS(words)));
}

/* cuts what a food is for off its name, and an amount that stands behind it ("flour 200 g") */
static size_t
trim_name(struct reader *r, struct written_food *food, size_t from, size_t to)
{
    struct slice name = part(r, from, to);
    size_t cut = words_find_purpose(name, true);
    if (cut != SIZE_MAX && is_food(r, name)) /* "chickpeas in water" may be its name */
        cut = words_find_purpose(name, false);
    if (cut != SIZE_MAX && cut > 0) {
        struct slice rest = slice_part(name, cut, name.length);
        food->to_taste = food->to_taste || words_is_to_taste(rest);
        if (!words_is_to_taste(rest))
            add_after(r, rest);
        to = from + cut;
        name = part(r, from, to);
    }
    for (size_t i = 1; i < name.length && r->list.count == 0; i++) {
        bool digit = (name.at[i] >= '0' && name.at[i] <= '9') || (unsigned char)name.at[i] == 0xc2;
        if (name.at[i - 1] != ' ' || !digit)
            continue;
        struct amount_list found = {0};
        size_t end = line_amounts(&r->amounts, from + i, to, &found);
        if (end != to || found.count == 0 || found.items[0].unit == NULL)
            continue;
        r->list = found;
        return from + i - 1;
    }
    return to;
}

/* "2 garlic cloves": the word for the piece stands behind the food */
static size_t
piece_behind(struct reader *r, size_t from, size_t to)
{
    struct amount *amount = r->list.count > 0 ? &r->list.items[0] : NULL;
    while (to > from && r->clean.bytes[to - 1] == ' ')
        to--;
    size_t last = to;
    while (last > from && r->clean.bytes[last - 1] != ' ')
        last--;
    if (amount == NULL || amount->unit != NULL || last == from)
        return to;
    const struct unit *unit;
    size_t n = amount_unit(upto(r, to), last, r->lexicon, &unit);
    if (n == 0 || n != to - last || unit->kind != UNIT_PIECE ||
        !ends_in_food(r, part(r, from, last - 1)))
        return to;
    amount->unit = unit;
    /* "lime leaves" are known as such, and are no leaves of limes */
    return is_food(r, part(r, from, to)) ? to : last - 1;
}

/* "6 cloves": the unit is the food */
static void
unit_as_food(struct reader *r, struct written_food *food)
{
    size_t from = r->amounts.last_to;
    struct amount *last = r->list.count > 0 ? &r->list.items[r->list.count - 1] : NULL;
    if (last == NULL || last->unit == NULL || last->unit->kind == UNIT_WEIGHT ||
        last->unit->kind == UNIT_VOLUME)
        return;
    while (from > r->amounts.last_from && r->clean.bytes[from - 1] != ' ')
        from--;
    set_name(r, food, from, r->amounts.last_to);
    if (last->container)
        r->list.count--;
    else
        last->unit = NULL;
}

/* digits in front that are no amount: "1/0 cup milk" */
static void
check_digits(struct reader *r, struct written_food *food)
{
    if (food->name.at[0] < '0' || food->name.at[0] > '9' || is_food(r, food->name))
        return;
    food->amount_unread = true;
    notice_add(r->notices, RULE_LINE_UNREADABLE,
               ingredient_line_place(r->out, food->name_from, food->name_to), food->name,
               SLICE(""));
}

static void
finish_name(struct reader *r, struct written_food *food, size_t from, size_t to)
{
    to = trim_name(r, food, from, to);
    size_t idle = words_idle(upto(r, to), from);
    if (from + idle < to && !is_food(r, part(r, from, to)))
        from += idle;
    enum of_it of;
    size_t n = food->of_it == OF_WHOLE ? words_of_it(upto(r, to), from, &of) : 0;
    if (n > 0) {
        food->of_it = of;
        from += n;
        if (r->list.count == 0)
            from = line_amounts(&r->amounts, from, to, &r->list);
    }
    to = piece_behind(r, from, to);
    size_t unknown = unit_guess(r->lexicon, upto(r, to), from, r->list.count, r->list.items);
    if (unknown > 0) {
        size_t of_from, of_to;
        line_origin(&r->clean, from, from + unknown, &of_from, &of_to);
        notice_add(r->notices, RULE_UNIT_UNKNOWN, ingredient_line_place(r->out, of_from, of_to),
                   slice_copy(r->arena, part(r, from, from + unknown)),
                   unit_guess_more(r->arena, r->lexicon, part(r, from, from + unknown)));
        r->list.count = 0;
        food->amount_unread = true;
        from = spaces_skip(upto(r, to), from + unknown);
        from += words_idle(upto(r, to), from);
    }
    set_name(r, food, from, to);
    if (food->name.length == 0)
        unit_as_food(r, food);
    else if (r->list.count == 0 && !food->amount_unread)
        check_digits(r, food);
}

/* one piece behind the name; true when it was taken as something other than words */
static bool
read_piece(struct reader *r, struct written_food *food, size_t from, size_t to)
{
    struct slice piece = slice_trim(part(r, from, to));
    enum of_it of;
    enum fill fill;
    if (words_is_to_taste(piece)) {
        food->to_taste = true;
        return true;
    }
    if (r->list.count > 0 && amount_fill(piece, 0, &fill) == piece.length && fill != FILL_SIFTED) {
        r->list.items[0].fill = fill;
        return true;
    }
    if (food->of_it == OF_WHOLE && words_is_of_it(piece, &of))
        food->of_it = of;
    if (food->amount_unread)
        return false;
    if (r->list.count > 0)
        return line_measure(&r->amounts, from, to, &r->list);
    struct amount_list found = {0};
    size_t start = spaces_skip(upto(r, to), from),
           end = line_amounts(&r->amounts, start, to, &found);
    if (found.count == 0 || (end < to && found.items[0].unit == NULL))
        return false;
    add_after(r, part(r, end, to));
    r->list = found;
    return true;
}

/* where a piece of the line behind the name ends: at the next comma, bracket or "plus" */
static size_t
piece_end(const struct reader *r, size_t at, size_t end)
{
    for (size_t i = at; i < end; i++) {
        char c = r->clean.bytes[i];
        if (c == '(' || c == '[' || c == ';')
            return i;
        if (c == ',' && !(i + 1 < end && r->clean.bytes[i + 1] >= '0' &&
                          r->clean.bytes[i + 1] <= '9' && i > at))
            return i;
        if (c == ' ' &&
            (word_at(upto(r, end), i + 1, "plus") || slice_begins(part(r, i + 1, end), "+ ")))
            return i;
    }
    return end;
}

/* where what is added ends: at the next comma, over brackets */
static size_t
plus_end(const struct reader *r, size_t at, size_t end)
{
    size_t to = piece_end(r, at, end);
    while (to < end && strchr("([", r->clean.bytes[to]) != NULL)
        to = piece_end(r, line_bracket_end(&r->clean, to, end), end);
    return to;
}

/* " or " in a piece whose right side is an amount or a food of its own: its byte, or SIZE_MAX */
static size_t
alternative_in(const struct reader *r, size_t from, size_t to, size_t end, size_t *next)
{
    size_t or_at = slice_find(part(r, from, to), " or ", 0);
    if (or_at != SIZE_MAX && is_food(r, part(r, from, from + or_at)) &&
        is_food(r, part(r, from + or_at + 4, to))) {
        *next = from; /* "parsley, mint or coriander" */
        return from;
    }
    if (word_at(upto(r, to), spaces_skip(upto(r, to), from), "or")) {
        *next = spaces_skip(upto(r, to), spaces_skip(upto(r, to), from) + 2);
        return words_is_no_alternative(part(r, *next, to)) ? SIZE_MAX : from;
    }
    for (size_t at = from; at < to; at++) {
        if (!slice_is_anycase(part(r, at, at + 4), " or ") || at + 4 > to)
            continue;
        *next = at + 4;
        if (begins_with_amount(r, *next, end))
            return at;
    }
    return SIZE_MAX;
}

static void read_options(struct reader *r, size_t at, size_t end);

/* "(or 2 tsp dried)" */
static void
read_bracket_option(struct reader *r, size_t at, size_t end)
{
    struct reader inner = *r;
    inner.list = (struct amount_list){0};
    inner.after = text_new(r->arena);
    inner.options = (struct option_list){0};
    inner.brackets++;
    read_options(&inner, at, end);
    for (size_t i = 0; i < inner.options.count; i++)
        *LIST_GROW(r->arena, &r->options) = inner.options.items[i];
}

struct held_bracket {
    size_t from, to; /* 0: none */
};

/* a bracket behind the name: amounts, an alternative, or words */
static size_t
read_bracket(struct reader *r, struct written_food *food, size_t at, size_t end,
             struct held_bracket *held)
{
    size_t close = line_bracket_end(&r->clean, at, end), inner = close;
    if (inner > at + 1 && strchr(")]", r->clean.bytes[inner - 1]) != NULL)
        inner--;
    size_t next;
    if (held->to == 0 && r->brackets == 0 && word_at(upto(r, inner), at + 1, "or") &&
        alternative_in(r, at + 1, inner, inner, &next) != SIZE_MAX) {
        *held = (struct held_bracket){next, inner};
        return close;
    }
    if (word_at(upto(r, inner), at + 1, "plus")) {
        read_plus(r, food, spaces_skip(upto(r, inner), at + 1 + strlen("plus")), inner);
        return close;
    }
    if (line_bracket(&r->amounts, at, end, &r->list) == 0 && !read_piece(r, food, at + 1, inner))
        add_after(r, part(r, at + 1, inner));
    return close;
}

/* what stands behind the name up to the end of the food; where the next food begins, or `end` */
static size_t
read_pieces(struct reader *r, struct written_food *food, size_t at, size_t end, enum joint *joint,
            struct held_bracket *held)
{
    while (at < end) {
        char c = r->clean.bytes[at];
        if (c == '(' || c == '[') {
            at = read_bracket(r, food, at, end, held);
            continue;
        }
        struct slice rest = part(r, at, end);
        if (c == ' ' || c == ',' || c == ';' || c == ':') {
            at++;
            continue;
        }
        if (slice_begins(rest, "- ") || slice_begins(rest, "– ") || slice_begins(rest, "— ")) {
            at += c == '-' ? 1 : 3;
            continue;
        }
        bool plus = word_at(rest, 0, "plus");
        if (plus || slice_begins(rest, "+ ") || word_at(rest, 0, "and extra") ||
            word_at(rest, 0, "and more")) {
            size_t from = spaces_skip(upto(r, end), at + (plus ? 4 : c == '+' ? 1 : 3));
            size_t to = plus_end(r, from, end);
            if (food->name.length > 0 && is_food(r, part(r, from, to))) {
                *joint = JOINT_AND;
                return from;
            }
            read_plus(r, food, from, to);
            at = to;
            continue;
        }
        size_t to = piece_end(r, at, end), next;
        size_t or_at = alternative_in(r, at, to, end, &next);
        size_t stop = or_at != SIZE_MAX ? or_at : to;
        if (stop > at && !read_piece(r, food, at, stop))
            add_after(r, part(r, at, stop));
        if (or_at != SIZE_MAX) {
            *joint = JOINT_OR;
            return next;
        }
        at = to;
    }
    return end;
}

/* a comma in front of the name proper: "2 large, ripe tomatoes", "1 cup cold, filtered water";
 * where the name really ends */
static size_t
over_comma(const struct reader *r, size_t from, size_t to, size_t end)
{
    if (to >= end || r->clean.bytes[to] != ',' || is_food(r, part(r, from, to)))
        return to;
    size_t second = name_end(r, to + 1, end);
    struct slice left = slice_trim(part(r, from, to)), right = slice_trim(part(r, to + 1, second));
    bool one_word = slice_find_byte(left, ' ', 0) == SIZE_MAX;
    return one_word && right.length > 0 && !ends_in_food(r, left) && is_food(r, right) ? second
                                                                                       : to;
}

/* "For the sauce: 1 tbsp oil": the words before the colon are kept, and the line begins behind it
 */
static size_t
over_label(struct reader *r, size_t at, size_t end)
{
    size_t colon = name_end(r, at, end);
    if (r->list.count > 0 || colon >= end || r->clean.bytes[colon] != ':' ||
        ends_in_food(r, part(r, at, colon)))
        return at;
    struct amount_list found = {0};
    size_t behind = line_amounts(&r->amounts, colon + 1, end, &found);
    if (found.count == 0 || slice_trim(part(r, behind, name_end(r, behind, end))).length == 0)
        return at;
    add_after(r, part(r, at, colon));
    r->list = found;
    return behind;
}

/* "1 sleeve (200 g) crackers": a vessel that is no unit, its weight, then the food; where the food
 * begins, or `at` */
static size_t
over_vessel(struct reader *r, size_t at, size_t end)
{
    size_t open = name_end(r, at, end);
    if (open >= end || r->clean.bytes[open] != '(' || r->list.count != 1 ||
        r->list.items[0].unit != NULL || ends_in_food(r, part(r, at, open)))
        return at;
    struct amount_list found = {0};
    size_t behind = open + line_bracket(&r->amounts, open, end, &found);
    if (behind == open || !is_food(r, part(r, behind, name_end(r, behind, end))))
        return at;
    for (size_t i = 0; i < found.count; i++) {
        found.items[i].each = true;
        found.items[i].times = r->list.items[0].value;
    }
    add_after(r, part(r, at, open));
    r->list = found;
    return behind;
}

/* the amounts in front; a number written as a word may be of the name: "half and half" */
static size_t
read_amounts(struct reader *r, size_t at, size_t end)
{
    size_t behind = line_amounts(&r->amounts, at, end, &r->list);
    bool article = word_at(upto(r, end), at, "a") || word_at(upto(r, end), at, "an");
    if (r->list.count == 1 && r->list.items[0].unit == NULL && word_byte(r->clean.bytes[at]) &&
        !article && is_food(r, part(r, at, name_end(r, at, end)))) {
        r->list.count = 0;
        return at;
    }
    return behind;
}

static size_t
read_food(struct reader *r, size_t at, size_t end, struct written_food *food, enum joint *joint,
          struct held_bracket *held)
{
    *joint = JOINT_NONE;
    r->list = (struct amount_list){0};
    r->after = text_new(r->arena);
    at = spaces_skip(upto(r, end), at);
    at += words_of_it(upto(r, end), at, &food->of_it);
    size_t little = words_little(upto(r, end), at);
    if (little == 0)
        at = read_amounts(r, at, end);
    at += little;
    while (at < end && strchr(",;:([ ", r->clean.bytes[at]) != NULL) {
        if (r->clean.bytes[at] == '(' || r->clean.bytes[at] == '[')
            at = read_bracket(r, food, at, end, held);
        else
            at++;
    }
    at = over_vessel(r, over_label(r, at, end), end);
    size_t to = over_comma(r, at, name_end(r, at, end), end), next = 0;
    struct slice tail;
    size_t parted = find_joint(r, at, to, end, joint, &next, &tail);
    finish_name(r, food, at, parted != SIZE_MAX ? parted : to);
    if (parted != SIZE_MAX) {
        if (tail.length > 0)
            lengthen_name(r, food, tail);
        at = next;
    } else {
        *joint = JOINT_NONE;
        at = read_pieces(r, food, to, end, joint, held);
    }
    food->amounts = r->list.items;
    food->amount_count = r->list.count;
    food->after = text_slice(&r->after);
    return at;
}

/* where the next item of a list of foods ends ("pepper", "cumin and nutmeg"); *next is where the
 * one behind it begins */
static size_t
item_end(struct slice list, size_t from, size_t *next)
{
    static const char *const joints[] = {", and ", ", ", " and ", " & "};
    size_t end = list.length;
    *next = end;
    for (size_t i = 0; i < sizeof joints / sizeof *joints; i++) {
        size_t at = slice_find(list, joints[i], from);
        if (at < end) {
            end = at;
            *next = at + strlen(joints[i]);
        }
    }
    return end;
}

/* "salt, pepper", "1 tsp each cumin, coriander and paprika": pieces behind the comma that are
 * foods, where no amount is written or it is one of each, are foods too */
static void
take_foods_behind(struct reader *r, struct food_list *foods)
{
    struct written_food *last = &foods->items[foods->count - 1];
    struct slice rest = last->after;
    bool each = r->amounts.each_said;
    if ((last->amount_count > 0 && !each) || rest.length == 0 || !is_food(r, last->name))
        return;
    size_t next;
    for (size_t from = 0; from < rest.length; from = next)
        if (!is_food(r, slice_part(rest, from, item_end(rest, from, &next))))
            return;
    struct written_food first = *last;
    last->after = SLICE("");
    for (size_t from = 0; from < rest.length; from = next) {
        struct slice name = slice_part(rest, from, item_end(rest, from, &next));
        struct written_food food = {.to_taste = first.to_taste};
        size_t at = slice_find(part(r, 0, r->clean.length), slice_string(r->arena, name), 0);
        if (each) {
            food.amounts = first.amounts;
            food.amount_count = first.amount_count;
        }
        set_name(r, &food, at == SIZE_MAX ? 0 : at, at == SIZE_MAX ? 0 : at + name.length);
        *LIST_GROW(r->arena, foods) = food;
    }
}

static void
read_options(struct reader *r, size_t at, size_t end)
{
    struct food_list foods = {0};
    struct held_bracket held = {0, 0};
    for (enum joint joint = JOINT_AND; at < end || foods.count == 0;) {
        struct written_food food = {0};
        at = read_food(r, at, end, &food, &joint, &held);
        const struct written_food *before = foods.count > 0 ? &foods.items[foods.count - 1] : NULL;
        if (before != NULL && before->of_it != OF_WHOLE && food.of_it == OF_WHOLE &&
            food.amount_count > 0 && food.amounts[0].unit == NULL)
            food.of_it = before->of_it; /* "juice of 1 lemon and 1 lime" */
        *LIST_GROW(r->arena, &foods) = food;
        take_foods_behind(r, &foods);
        if (joint == JOINT_OR || joint == JOINT_NONE || at >= end) {
            *LIST_GROW(r->arena, &r->options) = (struct written_option){foods.items, foods.count};
            foods = (struct food_list){0};
            if (joint == JOINT_NONE || at >= end)
                break;
        }
    }
    if (held.to > 0)
        read_bracket_option(r, held.from, held.to);
}

/* "(or 2 tsp dried)": the name's end is the first food's */
static void
borrow_name(struct reader *r, const struct written_food *first, struct written_food *food)
{
    if (is_food(r, food->name))
        return;
    struct slice tail = first->name;
    for (size_t skip = 0; skip < 4 && tail.length > 0; skip++) {
        struct slice joined =
            text_formatted(r->arena, "%.*s %.*s", SLICE_ARGS(food->name), SLICE_ARGS(tail));
        if (is_food(r, joined)) {
            food->name = joined;
            return;
        }
        tail = without_words(first->name, skip + 1);
    }
}

static void
share_amounts(struct written_food *to, const struct written_food *from)
{
    if (to->amount_count > 0 || to->to_taste || to->amount_unread)
        return;
    to->amounts = from->amounts;
    to->amount_count = from->amount_count;
    to->amount_unread = from->amount_unread;
}

/* what is said once holds for all: amounts in front, words and "to taste" behind */
static void
share(struct reader *r)
{
    struct option_list *o = &r->options;
    struct written_food *first = &o->items[0].foods[0];
    struct written_food *last = &o->items[o->count - 1].foods[o->items[o->count - 1].count - 1];
    for (size_t i = 0; i < o->count; i++) {
        for (size_t j = 0; j < o->items[i].count; j++) {
            struct written_food *food = &o->items[i].foods[j];
            food->to_taste = food->to_taste || (last->to_taste && food->amount_count == 0);
            if (food->after.length == 0)
                food->after = last->after;
            if (j > 0)
                share_amounts(food, &o->items[i].foods[j - 1]);
            else if (i > 0)
                share_amounts(food, first);
            if (i > 0)
                borrow_name(r, first, food);
        }
        for (size_t j = o->items[i].count; j-- > 0;)
            share_amounts(&o->items[i].foods[j], last);
    }
}

void
ingredient_line_read(struct arena *a, struct slice text, const struct yaml_node *node,
                     const struct lexicon *lexicon, struct notices *notices,
                     struct ingredient_line *out)
{
    *out = (struct ingredient_line){.text = text, .node = node};
    struct reader r = {.arena = a, .lexicon = lexicon, .notices = notices, .out = out};
    bool readable = text.length <= LINE_BYTES_MOST;
    if (readable) {
        r.clean = line_clean(a, text);
        r.amounts = (struct line_reader){.arena = a, .lexicon = lexicon, .clean = &r.clean};
        size_t from, to;
        while (words_find_optional(part(&r, 0, r.clean.length), &from, &to)) {
            out->optional = true;
            line_erase(&r.clean, from, to);
        }
        read_options(&r, 0, r.clean.length);
        share(&r);
        readable = r.options.items[0].foods[0].name.length > 0;
        out->options = r.options.items;
        out->option_count = readable ? r.options.count : 0;
    }
    if (!readable) {
        size_t shown = text.length;
        for (shown = shown > 80 ? 80 : shown; shown < text.length && shown > 0; shown--)
            if (((unsigned char)text.at[shown] & 0xc0) != 0x80)
                break;
        notice_add(
            notices, RULE_LINE_UNREADABLE, ingredient_line_place(out, 0, text.length),
            text_formatted(a, "%.*s%s", (int)shown, text.at, shown < text.length ? "..." : ""),
            SLICE(""));
    }
}

struct place
ingredient_line_place(const struct ingredient_line *line, size_t from, size_t to)
{
    if (line->node != NULL)
        return yaml_place_in(line->node, from, to);
    struct slice before = slice_part(line->text, 0, from);
    return (struct place){1, (uint32_t)slice_characters(before) + 1,
                          (uint32_t)slice_characters(slice_part(line->text, from, to))};
}
