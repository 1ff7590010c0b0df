#include "read/line_food.h"

#include <string.h>

#include "read/line_words.h"
#include "read/number.h"
#include "read/phrase.h"
#include "read/unit_guess.h"
#include "read/line_name.h"

struct slice
line_upto(const struct food_reader *r, size_t end)
{
    return (struct slice){r->clean.bytes, end};
}

struct slice
line_part(const struct food_reader *r, size_t from, size_t to)
{
    return slice_part((struct slice){r->clean.bytes, r->clean.length}, from, to);
}

void
line_replace(struct food_reader *r, size_t from, size_t to, struct slice by)
{
    const struct clean_line old = r->clean;
    const size_t room = old.length + by.length + 1;
    struct clean_line new = {arena_take(r->arena, room),
                             arena_take_array(r->arena, room, sizeof *new.origin), 0};
    line_copy(&new, &old, 0, from);
    line_put(&new, by, old.origin[from]);
    line_copy(&new, &old, to, old.length);
    new.origin[new.length] = old.origin[old.length];
    r->clean = new;
}

bool
line_is_food(const struct food_reader *r, struct slice words)
{
    words = slice_trim(words);
    return words.length > 0 && r->lexicon->food(r->lexicon->ctx, words);
}

bool
line_is_name(const struct food_reader *r, struct slice words)
{
    words = slice_trim(words);
    return words.length > 0 && r->lexicon->exactly != NULL &&
           r->lexicon->exactly(r->lexicon->ctx, words);
}

void
line_add_after(struct food_reader *r, struct slice piece)
{
    piece = slice_trim(piece);
    if (piece.length == 0)
        return;
    if (r->after.length > 0)
        text_add_string(&r->after, ", ");
    text_add(&r->after, piece);
}

void
line_set_name(struct food_reader *r, struct written_food *food, size_t from, size_t to)
{
    struct slice whole = line_part(r, from, to), name = slice_trim(whole);
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
void
line_lengthen_name(struct food_reader *r, struct written_food *food, struct slice tail)
{
    food->name = text_formatted(r->arena, "%.*s %.*s", SLICE_ARGS(food->name), SLICE_ARGS(tail));
}

/* where the last word of bytes from..to begins */
size_t
line_last_word(const struct food_reader *r, size_t from, size_t to)
{
    while (to > from && r->clean.bytes[to - 1] == ' ')
        to--;
    while (to > from && r->clean.bytes[to - 1] != ' ')
        to--;
    return to;
}

/* where the name ends: at a comma, a bracket, a dash or colon between spaces, "plus", or `end` */
size_t
line_name_end(const struct food_reader *r, size_t at, size_t end)
{
    struct slice s = line_upto(r, end);
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
            slice_begins(rest, "+ ") || phrase_stands_at(s, i + 1, "plus"))
            return i;
    }
    return end;
}

/* the words behind the first `count` of a name */
struct slice
line_without_words(struct slice name, size_t count)
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
shared_tail(const struct food_reader *r, struct slice left, struct slice right)
{
    char joined[200];
    /* what is a food by itself takes only what makes a name as it is written: no "butter milk" */
    const bool whole = line_is_name(r, left);
    for (size_t skip = 1; skip <= 4; skip++) {
        struct slice tail = line_without_words(right, skip);
        if (tail.length == 0 || left.length + 1 + tail.length > sizeof joined)
            break;
        if (ends_alike(left, tail)) /* "soy sauce or fish sauce" share nothing */
            break;
        memcpy(joined, left.at, left.length);
        joined[left.length] = ' ';
        memcpy(joined + left.length + 1, tail.at, tail.length);
        struct slice name = {joined, left.length + 1 + tail.length};
        if (slice_equal(name, right)) /* "garlic or garlic powder" */
            break;
        if (whole ? line_is_name(r, name) : line_is_food(r, name))
            return tail;
    }
    return slice_part(right, right.length, right.length);
}

/* a food, or one behind a few words that describe it */
bool
line_ends_in_food(const struct food_reader *r, struct slice words)
{
    for (size_t skip = 0; skip <= 3; skip++) {
        struct slice rest = line_without_words(words, skip);
        if (rest.length == 0)
            return false;
        if (line_is_food(r, rest))
            return true;
    }
    return false;
}

bool
line_is_egg_part(const struct food_reader *r, struct slice egg, struct slice part)
{
    part = slice_trim(part);
    return (phrase_stands_at(part, 0, "white") || phrase_stands_at(part, 0, "whites") ||
            phrase_stands_at(part, 0, "yolk") || phrase_stands_at(part, 0, "yolks")) &&
           line_is_food(r,
                        text_formatted(r->arena, "%.*s %.*s", SLICE_ARGS(egg), SLICE_ARGS(part)));
}

/* "leek sausages" behind "pork and": a food that the larder has not, named by one that it has */
static bool
is_compound(const struct food_reader *r, struct slice words)
{
    if (line_is_food(r, words))
        return false;
    for (size_t skip = 1; skip <= 2; skip++) {
        struct slice rest = line_without_words(words, skip);
        if (rest.length == 0)
            return false;
        if (line_is_food(r, rest))
            return line_is_food(r, slice_part(words, 0, words.length - rest.length));
    }
    return false;
}

bool
line_begins_with_amount(const struct food_reader *r, size_t at, size_t end)
{
    struct amount amount;
    size_t n = amount_read(line_upto(r, end), at, r->lexicon, &amount);
    return n > 0 && (amount.unit != NULL || amount.size != SIZE_NONE ||
                     (r->clean.bytes[at] >= '0' && r->clean.bytes[at] <= '9'));
}

/* the joint at byte `at`: bytes with its spaces, 0 when there is none */
static size_t
joint_at(const struct food_reader *r, size_t at, size_t end, enum joint *joint)
{
    static const struct {
        const char *words;
        enum joint joint;
    } joints[] = {
        {" or ", JOINT_OR}, {" and/or ", JOINT_OR}, {" / ", JOINT_OR},
        {"/", JOINT_OR},    {" and ", JOINT_AND},   {" & ", JOINT_AND},
    };
    struct slice rest = line_part(r, at, end);
    if (rest.length == 0 || (rest.at[0] != ' ' && rest.at[0] != '/'))
        return 0;
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

/* "1 cup almond and coconut milk", "2 tbsp lemon and lime juice": one word of one amount, no
 * plural, which rather lends its kind to the noun behind than that it stands for itself */
static bool
describes_alike(const struct food_reader *r, struct slice left)
{
    return r->list.count > 0 && !r->amounts.each_said &&
           slice_find_byte(left, ' ', 0) == SIZE_MAX && !slice_ends(left, "s");
}

bool
line_is_made_of(const struct food_reader *r, struct slice tail)
{
    return phrase_is(r->lexicon->lists, WORDS_MADE_OF_FOODS, tail);
}

/* one tin of "beans and sausages" is not one of each */
static bool
is_packed_together(const struct food_reader *r)
{
    const struct unit *unit = r->list.count > 0 ? r->list.items[0].unit : NULL;
    return unit != NULL && !r->amounts.each_said &&
           word_lists_have(r->lexicon->lists, WORDS_PACKS, slice_of(unit->id));
}

/* whether the joint between the words parts two foods; *tail is what the right lends to the left */
static bool
parts_foods(const struct food_reader *r, size_t from, size_t at, size_t next, size_t to, size_t end,
            enum joint joint, struct slice *tail)
{
    struct slice left = slice_trim(line_part(r, from, at)), right = line_part(r, next, to);
    size_t purpose = line_find_purpose(r->lexicon->lists, right, true);
    right = slice_trim(slice_part(right, 0, purpose == SIZE_MAX ? right.length : purpose));
    *tail = slice_part(right, right.length, right.length);
    if (left.length == 0)
        return false;
    if (line_begins_with_amount(r, next, end) && !line_is_food(r, right))
        return true;
    if (joint == JOINT_OR && line_is_no_alternative(r->lexicon->lists, right) &&
        !line_is_name(r, right)) /* "double it", but "double cream" */
        return false;
    if (joint == JOINT_AND && (is_packed_together(r) || slice_find(left, " with ", 0) != SIZE_MAX))
        return false; /* "corn with red and green peppers" is one thing */
    bool left_food = line_is_food(r, left), right_food = line_ends_in_food(r, right);
    const bool alike = left_food && joint == JOINT_AND && describes_alike(r, left);
    if (!left_food || joint == JOINT_OR || alike)
        *tail = shared_tail(r, left, right);
    if (alike && tail->length > 0 && !line_is_made_of(r, *tail)) {
        *tail = slice_part(right, right.length, right.length); /* "1 cup rice and coconut milk" */
        return false;
    }
    if (tail->length > 0)
        return joint == JOINT_OR || right_food;
    if (is_compound(r, right)) /* "pork and leek sausages", "chicken or turkey sausages" */
        return false;
    bool stroke = r->clean.bytes[at] == '/' || r->clean.bytes[at + 1] == '/';
    if (joint == JOINT_AND || stroke)
        return (left_food || line_ends_in_food(r, left)) && right_food;
    return left_food || right_food || line_ends_in_food(r, left);
}

/* finds the first joint of a name from..to that parts it */
size_t
line_find_joint(const struct food_reader *r, size_t from, size_t to, size_t end, enum joint *joint,
                size_t *next, struct slice *tail)
{
    bool asked = false, whole_food = false;
    for (size_t at = from; at < to; at++) {
        size_t n = joint_at(r, at, to, joint);
        if (n == 0)
            continue;
        if (!asked)
            whole_food = line_is_food(r, line_part(r, from, to));
        asked = true;
        size_t stop = line_name_end(r, at + n, to);
        /* a further joint ends the right side: "a, b or c" */
        for (size_t i = at + n; i < stop; i++) {
            enum joint other;
            if (joint_at(r, i, stop, &other) > 0)
                stop = i;
        }
        const bool stroke = r->clean.bytes[at] == '/' || r->clean.bytes[at + 1] == '/';
        if ((!whole_food || stroke) && parts_foods(r, from, at, at + n, stop, end, *joint, tail)) {
            *next = at + n;
            return at;
        }
    }
    return SIZE_MAX;
}

/* cuts what a food is for off its name, and an amount that stands behind it ("flour 200 g") */
static size_t
trim_name(struct food_reader *r, struct written_food *food, size_t from, size_t to)
{
    struct slice name = line_part(r, from, to);
    if (line_is_name(r, name))
        return to;
    size_t packed = line_find_packed(r->lexicon->lists, name);
    if (packed != SIZE_MAX && packed > 0) { /* no juice of tomatoes: "tomatoes in juice" */
        line_add_after(r, slice_part(name, packed, name.length));
        to = from + packed;
        name = line_part(r, from, to);
    }
    size_t cut = line_find_purpose(r->lexicon->lists, name, true);
    if (cut != SIZE_MAX && line_is_food(r, name)) /* "chickpeas in water" may be its name */
        cut = line_find_purpose(r->lexicon->lists, name, false);
    if (cut != SIZE_MAX && cut > 0) {
        struct slice rest = slice_part(name, cut, name.length);
        food->to_taste = food->to_taste || line_is_to_taste(r->lexicon->lists, rest);
        if (!line_is_to_taste(r->lexicon->lists, rest))
            line_add_after(r, rest);
        to = from + cut;
        name = line_part(r, from, to);
    }
    for (size_t i = 2; i < name.length && r->list.count == 0; i++) { /* "carrots x 3" */
        if (!phrase_stands_at(name, i, "x") || name.at[i - 1] != ' ')
            continue;
        struct amount_list found = {0};
        size_t end =
            line_amounts(&r->amounts, phrase_skip(line_upto(r, to), from + i + 1), to, &found);
        if (end != to || found.count != 1 || found.items[0].unit != NULL)
            continue;
        r->list = found;
        return from + i - 1;
    }
    for (size_t i = 1; i < name.length && r->list.count == 0; i++) {
        bool digit = (name.at[i] >= '0' && name.at[i] <= '9') || (unsigned char)name.at[i] >= 0xc2;
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

/* "fish cakes", "banana leaves": what food is made into, or a part of its plant; only the larder
 * knows of which foods they are pieces */
static bool
makes_dish(const struct food_reader *r, const struct unit *unit)
{
    return word_lists_have(r->lexicon->lists, WORDS_SHAPES, slice_of(unit->id));
}

/* "2 garlic cloves": the word for the piece stands behind the food */
static size_t
piece_behind(struct food_reader *r, size_t from, size_t to)
{
    struct amount *amount = r->list.count > 0 ? &r->list.items[0] : NULL;
    while (to > from && r->clean.bytes[to - 1] == ' ')
        to--;
    size_t last = to;
    while (last > from && r->clean.bytes[last - 1] != ' ')
        last--;
    size_t before = last > from ? last - 1 : from;
    while (before > from && r->clean.bytes[before - 1] != ' ')
        before--;
    /* "roasted peppers from a jar": they are not jars of them */
    if (amount == NULL || amount->unit != NULL || last == from ||
        word_lists_have(r->lexicon->lists, WORDS_OF_ONE, slice_trim(line_part(r, before, last))))
        return to;
    const struct unit *unit;
    size_t n = amount_unit(line_upto(r, to), last, r->lexicon, &unit);
    if (n == 0 || n != to - last || unit->kind != UNIT_PIECE ||
        !line_ends_in_food(r, line_part(r, from, last - 1)))
        return to;
    if (makes_dish(r, unit) && !line_ends_in_food(r, line_part(r, from, to)))
        return to;
    amount->unit = unit;
    /* "lime leaves" are known as such, and are no leaves of limes */
    return line_is_food(r, line_part(r, from, to)) ? to : last - 1;
}

/* "6 cloves": the unit is the food */
static void
unit_as_food(struct food_reader *r, struct written_food *food)
{
    size_t from = r->amounts.last_to;
    struct amount *last = r->list.count > 0 ? &r->list.items[r->list.count - 1] : NULL;
    if (last == NULL || last->unit == NULL || last->unit->kind == UNIT_WEIGHT ||
        last->unit->kind == UNIT_VOLUME)
        return;
    while (from > r->amounts.last_from && r->clean.bytes[from - 1] != ' ')
        from--;
    line_set_name(r, food, from, r->amounts.last_to);
    if (last->container)
        r->list.count--;
    else
        last->unit = NULL;
}

void
line_check_digits(struct food_reader *r, struct written_food *food)
{
    if (r->list.count > 0 || food->amount_unread || food->name.length == 0)
        return;
    if (food->name.at[0] < '0' || food->name.at[0] > '9' || line_is_food(r, food->name))
        return;
    food->amount_unread = true;
    notice_add(r->notices, RULE_LINE_UNREADABLE,
               written_line_place(r->out, food->name_from, food->name_to), food->name, SLICE(""));
}

void
line_finish_name(struct food_reader *r, struct written_food *food, size_t from, size_t to)
{
    to = trim_name(r, food, from, to);
    size_t idle = line_idle(r->lexicon->lists, line_upto(r, to), from);
    if (from + idle < to && !line_is_food(r, line_part(r, from, to)))
        from += idle;
    enum of_it of;
    size_t n =
        food->of_it == OF_WHOLE ? line_of_it(r->lexicon->lists, line_upto(r, to), from, &of) : 0;
    if (n > 0) {
        food->of_it = of;
        from += n;
        if (r->list.count == 0)
            from = line_amounts(&r->amounts, from, to, &r->list);
    }
    to = piece_behind(r, from, to);
    size_t unknown = unit_guess(r->lexicon, line_upto(r, to), from, r->list.count, r->list.items);
    if (unknown > 0) {
        size_t of_from, of_to;
        line_origin(&r->clean, from, from + unknown, &of_from, &of_to);
        notice_add(r->notices, RULE_UNIT_UNKNOWN, written_line_place(r->out, of_from, of_to),
                   slice_copy(r->arena, line_part(r, from, from + unknown)),
                   unit_guess_more(r->arena, r->lexicon, line_part(r, from, from + unknown)));
        r->list.count = 0;
        food->amount_unread = true;
        from = phrase_skip(line_upto(r, to), from + unknown);
        from += line_idle(r->lexicon->lists, line_upto(r, to), from);
    }
    line_set_name(r, food, from, to);
    if (food->name.length == 0)
        unit_as_food(r, food);
}
