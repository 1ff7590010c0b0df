#include "read/ingredient_line.h"

#include <string.h>

#include "base/list.h"
#include "read/line_decimals.h"
#include "read/line_either.h"
#include "read/line_food.h"
#include "read/line_label.h"
#include "read/line_lists.h"
#include "read/line_pasted.h"
#include "read/line_parts.h"
#include "read/line_portion.h"
#include "read/line_shorthand.h"
#include "read/line_words.h"
#include "read/number.h"
#include "read/line_name.h"
#include "read/line_rest.h"
#include "read/yaml_source.h"

struct food_list {
    struct written_food *items;
    size_t count, room;
};

/* a comma in front of the name proper: "2 large, ripe tomatoes", "1 cup cold, filtered water";
 * where the name really ends */
static size_t
over_comma(const struct food_reader *r, size_t from, size_t to, size_t end)
{
    if (to >= end || r->clean.bytes[to] != ',' || line_is_food(r, line_part(r, from, to)))
        return to;
    size_t second = line_name_end(r, to + 1, end);
    struct slice left = slice_trim(line_part(r, from, to)),
                 right = slice_trim(line_part(r, to + 1, second));
    bool one_word = slice_find_byte(left, ' ', 0) == SIZE_MAX;
    return one_word && right.length > 0 && !line_ends_in_food(r, left) && line_is_food(r, right)
               ? second
               : to;
}

/* "1 sleeve (200 g) crackers": a vessel that is no unit, its weight, then the food; where the food
 * begins, or `at` */
static size_t
over_vessel(struct food_reader *r, size_t at, size_t end)
{
    size_t open = line_name_end(r, at, end);
    if (open >= end || r->clean.bytes[open] != '(' || r->list.count != 1 ||
        r->list.items[0].unit != NULL || line_ends_in_food(r, line_part(r, at, open)))
        return at;
    struct amount_list found = {0};
    size_t behind = open + line_bracket(&r->amounts, open, end, &found);
    if (behind == open || !line_is_food(r, line_part(r, behind, line_name_end(r, behind, end))))
        return at;
    for (size_t i = 0; i < found.count; i++) {
        found.items[i].each = true;
        found.items[i].times = r->list.items[0].value;
    }
    line_add_after(
        r, text_formatted(r->arena, "in %.*s", SLICE_ARGS(slice_trim(line_part(r, at, open)))));
    r->list = found;
    return behind;
}

/* the amounts in front; a number written as a word may be of the name: "half and half" */
static size_t
read_amounts(struct food_reader *r, size_t at, size_t end)
{
    size_t behind = line_amounts(&r->amounts, at, end, &r->list);
    bool article = phrase_stands_at(line_upto(r, end), at, "a") ||
                   phrase_stands_at(line_upto(r, end), at, "an");
    const struct unit *unit = r->list.count == 1 ? r->list.items[0].unit : NULL;
    const size_t word = line_last_word(r, at, behind);
    if (unit != NULL && unit->kind == UNIT_PIECE && word > at &&
        line_is_food(r, line_part(r, word, line_name_end(r, word, end))) &&
        !line_ends_in_food(r, line_part(r, behind, line_name_end(r, behind, end)))) {
        r->list.items[0].unit = NULL; /* "1 bottle gourd" */
        return word;
    }
    if (r->list.count == 1 && r->list.items[0].unit == NULL && phrase_letter(r->clean.bytes[at]) &&
        !article && line_is_food(r, line_part(r, at, line_name_end(r, at, end)))) {
        r->list.count = 0;
        return at;
    }
    return behind;
}

/* the part that stood in front: an egg's white and yolk are foods of their own, all else is how the
 * food is cut */
static void
take_part(struct food_reader *r, struct written_food *food, struct slice part)
{
    struct slice whole =
        text_formatted(r->arena, "%.*s %.*s", SLICE_ARGS(food->name), SLICE_ARGS(part));
    bool of_egg = slice_begins(part, "yolk") || slice_begins(part, "white");
    if (of_egg && line_is_food(r, whole))
        food->name = whole;
    else
        line_add_after(r, part);
}

static size_t
read_food(struct food_reader *r, size_t at, size_t end, struct written_food *food,
          enum joint *joint, struct held_bracket *held)
{
    *joint = JOINT_NONE;
    r->list = (struct amount_list){0};
    r->after = text_new(r->arena);
    line_add_after(r, r->label);
    r->label = SLICE("");
    at = phrase_skip(line_upto(r, end), at);
    at += line_of_it(r->lexicon->lists, line_upto(r, end), at, &food->of_it);
    struct slice part = SLICE("");
    at += line_part_of(r->lexicon->lists, line_upto(r, end), at, &part);
    size_t little = line_little(r->lexicon->lists, line_upto(r, end), at);
    if (little == 0)
        at = read_amounts(r, at, end);
    at += little;
    food->little = little > 0;
    while (at < end && strchr(",;:([ ", r->clean.bytes[at]) != NULL) {
        if (r->clean.bytes[at] == '(' || r->clean.bytes[at] == '[')
            at = line_read_bracket(r, food, at, end, held);
        else
            at++;
    }
    at = over_vessel(r, at, end);
    size_t to = over_comma(r, at, line_name_end(r, at, end), end), next = 0;
    struct slice tail;
    size_t parted = line_find_joint(r, at, to, end, joint, &next, &tail);
    line_finish_name(r, food, at, parted != SIZE_MAX ? parted : to);
    take_part(r, food, part);
    if (parted != SIZE_MAX) {
        if (tail.length > 0)
            line_lengthen_name(r, food, tail);
        at = next;
    } else {
        *joint = JOINT_NONE;
        at = line_read_rest(r, food, to, end, joint, held);
    }
    line_check_digits(r, food);
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
take_foods_behind(struct food_reader *r, struct food_list *foods)
{
    struct written_food *last = &foods->items[foods->count - 1];
    struct slice rest = last->after;
    bool each = r->amounts.each_said;
    if ((last->amount_count > 0 && !each) || rest.length == 0 || !line_is_food(r, last->name))
        return;
    size_t next;
    for (size_t from = 0; from < rest.length; from = next) {
        struct slice item = slice_part(rest, from, item_end(rest, from, &next));
        if (line_is_purpose(r->lexicon->lists, item) ||
            !line_is_food(r, item)) /* "salt, to sprinkle" */
            return;
    }
    struct written_food first = *last;
    last->after = SLICE("");
    for (size_t from = 0; from < rest.length; from = next) {
        struct slice name = slice_part(rest, from, item_end(rest, from, &next));
        struct written_food food = {.to_taste = first.to_taste};
        size_t at = slice_find(line_part(r, 0, r->clean.length), slice_string(r->arena, name), 0);
        if (each) {
            food.amounts = first.amounts;
            food.amount_count = first.amount_count;
        }
        line_set_name(r, &food, at == SIZE_MAX ? 0 : at, at == SIZE_MAX ? 0 : at + name.length);
        *LIST_GROW(r->arena, foods) = food;
    }
}

static void read_options(struct food_reader *r, size_t at, size_t end);

/* "(or 2 tsp dried)" */
static void
read_bracket_option(struct food_reader *r, size_t at, size_t end)
{
    struct food_reader inner = *r;
    inner.list = (struct amount_list){0};
    inner.after = text_new(r->arena);
    inner.options = (struct option_list){0};
    inner.brackets++;
    read_options(&inner, at, end);
    for (size_t i = 0; i < inner.options.count; i++)
        *LIST_GROW(r->arena, &r->options) = inner.options.items[i];
}

static void
read_options(struct food_reader *r, size_t at, size_t end)
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
        if (before != NULL && line_is_egg_part(r, before->name, food.name))
            food.name = text_formatted(r->arena, "%.*s %.*s", SLICE_ARGS(before->name),
                                       SLICE_ARGS(food.name));
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

/* "1 garlic clove or ½ tsp powder": what is made of the first food, by the name's beginning */
static bool
borrow_head(struct food_reader *r, const struct written_food *first, struct written_food *food)
{
    for (size_t end = first->name.length; end > 0; end--) {
        if (end < first->name.length && first->name.at[end] != ' ')
            continue;
        struct slice joined =
            text_formatted(r->arena, "%.*s %.*s", (int)end, first->name.at, SLICE_ARGS(food->name));
        if (line_is_food(r, joined)) {
            food->name = joined;
            return true;
        }
    }
    return false;
}

/* the name's end behind the words, from its word `skip` on */
static bool
borrow_tail(struct food_reader *r, const struct written_food *first, struct written_food *food,
            size_t skip)
{
    for (; skip < 4; skip++) {
        struct slice tail = line_without_words(first->name, skip);
        struct slice joined =
            text_formatted(r->arena, "%.*s %.*s", SLICE_ARGS(food->name), SLICE_ARGS(tail));
        if (tail.length == 0 || !line_is_food(r, joined))
            continue;
        food->name = joined;
        return true;
    }
    return false;
}

/* "(or 2 tsp dried)": the name's end is the first food's, less the word that says the other kind:
 * "ground ginger or 2 tsp fresh" */
static void
borrow_name(struct food_reader *r, const struct written_food *first, struct written_food *food)
{
    if (line_is_food(r, food->name) ||
        (line_is_made_of(r, food->name) && borrow_head(r, first, food)))
        return;
    const bool ordinary = line_either_is_ordinary(r, food->name);
    const bool other = ordinary || line_either_is_state(r, food->name);
    struct slice plain = ordinary ? line_either_without_diet(r, first->name) : SLICE("");
    if (plain.length > 0 && line_is_food(r, plain)) {
        food->name = plain; /* "lactose-free yoghurt or regular" */
        return;
    }
    if (!borrow_tail(r, first, food, other))
        borrow_tail(r, first, food, 0);
}

static void
share_amounts(struct written_food *to, const struct written_food *from)
{
    if (to->amount_count > 0 || to->to_taste || to->amount_unread || to->little)
        return;
    to->amounts = from->amounts;
    to->amount_count = from->amount_count;
    to->amount_unread = from->amount_unread;
}

/* what is said once holds for all: amounts in front, words and "to taste" behind */
static void
share(struct food_reader *r)
{
    struct option_list *o = &r->options;
    struct written_food *first = &o->items[0].foods[0];
    struct written_food *last = &o->items[o->count - 1].foods[o->items[o->count - 1].count - 1];
    for (size_t i = 0; i < o->count; i++) {
        for (size_t j = 0; j < o->items[i].count; j++) {
            struct written_food *food = &o->items[i].foods[j];
            food->to_taste = food->to_taste || (last->to_taste && food->amount_count == 0);
            if (food->after.length == 0 && last->after.length > 0) {
                food->after = last->after;
                food->after_shared = true;
            }
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

/* struck text is told of once a line */
static void
note_struck(struct food_reader *r, struct slice written, const struct pasted_line *pasted)
{
    if (pasted->struck_to == 0)
        return;
    const struct ingredient_line raw = {.text = written, .node = r->out->node};
    notice_add(r->notices, RULE_LINE_STRUCK,
               written_line_place(&raw, pasted->struck_from, pasted->struck_to),
               slice_copy(r->arena, slice_part(written, pasted->struck_from, pasted->struck_to)),
               SLICE(""));
    r->out->struck = pasted->all_struck;
}

/* where a number may be read both ways, none of the line's amounts is believed */
static void
doubt_amounts(struct food_reader *r)
{
    for (size_t i = 0; i < r->options.count; i++)
        for (size_t k = 0; k < r->options.items[i].count; k++) {
            struct written_food *food = &r->options.items[i].foods[k];
            food->amount_unread = true;
            food->amount_count = 0;
        }
}

void
ingredient_line_read(struct arena *a, struct slice text, const struct yaml_node *node,
                     const struct lexicon *lexicon, struct notices *notices,
                     struct ingredient_line *out)
{
    *out = (struct ingredient_line){.text = text, .node = node};
    struct food_reader r = {.arena = a, .lexicon = lexicon, .notices = notices, .out = out};
    bool readable = text.length <= LINE_BYTES_MOST;
    if (readable) {
        const struct pasted_line pasted = line_pasted(a, text);
        note_struck(&r, text, &pasted);
        out->text = pasted.text;
        out->origin = pasted.origin;
        out->link = pasted.link;
        out->link_from = pasted.link_from;
        out->link_to = pasted.link_to;
        r.clean = line_clean(a, out->text);
        const bool doubtful = line_decimals_resolve(&r);
        r.amounts = (struct line_reader){.arena = a, .lexicon = lexicon, .clean = &r.clean};
        line_shorthand_spell_out(&r);
        line_label_take(&r);
        line_parts_spell_out(&r);
        line_either_spell_out(&r);
        size_t from, to;
        while (line_find_optional(lexicon->lists, line_part(&r, 0, r.clean.length), &from, &to)) {
            out->optional = true;
            line_erase(&r.clean, from, to);
        }
        out->per_portion = line_portion_take(&r) || out->per_portion;
        line_spell_out(&r);
        r.amounts = (struct line_reader){.arena = a, .lexicon = lexicon, .clean = &r.clean};
        read_options(&r, 0, r.clean.length);
        share(&r);
        if (doubtful)
            doubt_amounts(&r);
        readable = r.options.items[0].foods[0].name.length > 0;
        out->options = r.options.items;
        out->option_count = readable ? r.options.count : 0;
    }
    if (!readable && !out->struck) {
        size_t shown = text.length;
        for (shown = shown > 80 ? 80 : shown; shown < text.length && shown > 0; shown--)
            if (((unsigned char)text.at[shown] & 0xc0) != 0x80)
                break;
        notice_add(
            notices, RULE_LINE_UNREADABLE, written_line_place(out, 0, out->text.length),
            text_formatted(a, "%.*s%s", (int)shown, text.at, shown < text.length ? "..." : ""),
            SLICE(""));
    }
}
