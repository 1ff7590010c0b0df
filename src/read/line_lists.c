#include "read/line_lists.h"

#include <string.h>

#include "read/line_name.h"
#include "read/line_words.h"
#include "read/number.h"
#include "read/phrase.h"

enum { ITEMS_MOST = 6, NAME_BYTES_MOST = 80, TAIL_WORDS_MOST = 2 };

struct item {
    size_t from, to; /* its name, bytes of the clean line */
};

/* items in front of a joint, and the name behind it */
struct listed {
    struct item items[ITEMS_MOST];
    size_t count;
    struct item last;
    bool counted; /* the last has an amount of its own */
    bool other;   /* "or other neutral oil" */
    bool either;  /* joined by "or" */
};

/* bytes of " or ", " and " at `at`; 0 when there is none */
static size_t
joint_at(const struct food_reader *r, size_t at, bool *either)
{
    static const char *const joints[] = {" and/or ", " or ", " and "};
    for (size_t i = 0; i < sizeof joints / sizeof *joints; i++) {
        const size_t n = strlen(joints[i]);
        if (slice_is_anycase(line_part(r, at, at + n), joints[i])) {
            *either = i < 2;
            return n;
        }
    }
    return 0;
}

/* the name that stands at `at`, behind its amounts, up to `end` */
static struct item
name_in(struct food_reader *r, size_t at, size_t end, bool *counted)
{
    struct amount_list found = {0};
    at = phrase_skip(line_upto(r, end), at);
    const size_t from = line_amounts(&r->amounts, at, end, &found);
    *counted = found.count > 0;
    return (struct item){phrase_skip(line_upto(r, end), from), end};
}

static bool
is_plain(const struct food_reader *r, const struct item *item)
{
    struct slice name = line_part(r, item->from, item->to);
    for (size_t i = 0; i < name.length; i++)
        if (strchr("()[]:;/+", name.at[i]) != NULL || (name.at[i] >= '0' && name.at[i] <= '9'))
            return false;
    return name.length > 0 && name.length < NAME_BYTES_MOST;
}

/* the items in front of the joint at `joint`, and what stands behind it */
static bool
read_list(struct food_reader *r, size_t joint, size_t behind, struct listed *out)
{
    bool counted;
    size_t from = 0;
    for (size_t at = 0; at <= joint; at++) {
        const bool comma = at < joint && r->clean.bytes[at] == ',' && r->clean.bytes[at + 1] == ' ';
        if ((!comma && at < joint) || out->count == ITEMS_MOST)
            continue;
        out->items[out->count] = name_in(r, from, at, &counted);
        if (!is_plain(r, &out->items[out->count]))
            return false;
        out->count++;
        from = at + 1;
    }
    const size_t end = line_name_end(r, behind, r->clean.length);
    size_t stop = end;
    for (size_t i = behind; i < stop; i++) {
        bool either;
        if (joint_at(r, i, &either) > 0)
            stop = i;
    }
    out->last = name_in(r, behind, stop, &out->counted);
    struct slice last = line_part(r, out->last.from, out->last.to);
    const size_t purpose = line_find_purpose(r->lexicon->lists, last, true);
    if (purpose != SIZE_MAX)
        out->last.to = out->last.from + purpose;
    out->other = out->other || phrase_at(r->lexicon->lists, WORDS_OTHERS, last, 0, NULL) > 0;
    return is_plain(r, &out->last);
}

/* the last `words` of the last name, with fewer than all of them; empty when there are none */
static struct slice
tail_of(const struct food_reader *r, const struct item *last, size_t words)
{
    struct slice name = slice_trim(line_part(r, last->from, last->to));
    size_t at = name.length;
    for (; words > 0; words--) {
        while (at > 0 && name.at[at - 1] != ' ')
            at--;
        if (at == 0)
            return slice_part(name, name.length, name.length);
        at--;
    }
    return slice_part(name, at + 1, name.length);
}

/* whether the item with the tail is a food, and not the last one again */
static bool
takes_tail(const struct food_reader *r, const struct listed *list, const struct item *item,
           struct slice tail)
{
    char joined[2 * NAME_BYTES_MOST + 1];
    struct slice name = slice_trim(line_part(r, item->from, item->to));
    struct slice last = slice_trim(line_part(r, list->last.from, list->last.to));
    memcpy(joined, name.at, name.length);
    joined[name.length] = ' ';
    memcpy(joined + name.length + 1, tail.at, tail.length);
    struct slice whole = {joined, name.length + 1 + tail.length};
    return !slice_ends(name, slice_string(r->arena, tail)) && !slice_equal(whole, last) &&
           line_is_food(r, whole);
}

/* whether the items stand without their noun, which is the tail */
static bool
lacks_tail(const struct food_reader *r, const struct listed *list, struct slice tail)
{
    size_t taking = 0;
    for (size_t i = 0; i < list->count; i++)
        taking += takes_tail(r, list, &list->items[i], tail);
    const struct item *only = &list->items[0];
    if (list->count > 1) /* "olive, rapeseed or sunflower oil" */
        return list->either && !list->counted && taking > 0;
    return taking > 0 && (list->counted || list->other) &&
           (list->other || !line_is_food(r, line_part(r, only->from, only->to)));
}

/* the line anew, with the tail behind each item, and "or" for its commas */
static void
write_tails(struct food_reader *r, const struct listed *list, struct slice tail)
{
    const struct clean_line old = r->clean;
    const size_t room = old.length + list->count * (tail.length + strlen(" or ")) + 1;
    struct clean_line new = {arena_take(r->arena, room),
                             arena_take_array(r->arena, room, sizeof *new.origin), 0};
    size_t at = 0;
    for (size_t i = 0; i < list->count; i++) {
        const struct item *item = &list->items[i];
        const uint32_t origin = old.origin[item->to - 1];
        line_copy(&new, &old, at, item->to);
        at = item->to;
        if (!slice_ends(slice_trim(line_part(r, item->from, item->to)),
                        slice_string(r->arena, tail))) {
            line_put(&new, SLICE(" "), origin);
            line_put(&new, tail, origin);
        }
        if (i + 1 < list->count) {
            line_put(&new, SLICE(" or "), origin);
            at += strlen(", ");
        }
    }
    line_copy(&new, &old, at, old.length);
    new.origin[new.length] = old.origin[old.length];
    r->clean = new;
}

/* bytes of ", mixed with " and the like at `at`; 0 when there are none */
static size_t
mixed_at(const struct word_lists *lists, struct slice line, size_t at)
{
    size_t from = at + (line.at[at] == ',');
    if (from >= line.length || (line.at[from] != ' ' && line.at[from] != '('))
        return 0;
    from++;
    const size_t deed = phrase_at(lists, WORDS_MIXED, line, from, NULL);
    const size_t behind = phrase_skip(line, from + deed);
    const size_t with = deed > 0 ? phrase_at(lists, WORDS_MIXED_WITH, line, behind, NULL) : 0;
    return with > 0 ? phrase_skip(line, behind + with) - at : 0;
}

/* "1 tbsp cornflour mixed with 2 tbsp water" is cornflour and water: "and" for the words between
 * two foods with amounts */
static void
join_mixed(struct food_reader *r)
{
    for (size_t at = 1; at + 1 < r->clean.length; at++) {
        struct slice line = line_part(r, 0, r->clean.length);
        const bool bracket = line.at[at] == '(';
        const size_t close = bracket ? line_bracket_end(&r->clean, at, line.length) : 0;
        size_t n = mixed_at(r->lexicon->lists, line, at);
        if (n > 0 && (line_begins_with_amount(r, at + n, line.length) ||
                      line_little(r->lexicon->lists, line, at + n) > 0)) {
            if (bracket && line.at[close - 1] == ')')
                line_replace(r, close - 1, close, SLICE(""));
            line_replace(r, at, at + n, bracket ? SLICE("and ") : SLICE(" and "));
            return;
        }
        if (bracket)
            at = close - 1;
    }
}

void
line_spell_out(struct food_reader *r)
{
    join_mixed(r);
    for (size_t at = 0; at < r->clean.length; at++) {
        struct listed list = {0};
        if (r->clean.bytes[at] == '(' || r->clean.bytes[at] == '[')
            return;
        const size_t n = joint_at(r, at, &list.either);
        if (n == 0)
            continue;
        if (!read_list(r, at, at + n, &list))
            return;
        for (size_t words = 1; words <= TAIL_WORDS_MOST; words++) {
            struct slice tail = tail_of(r, &list.last, words);
            if (tail.length > 0 && lacks_tail(r, &list, tail)) {
                write_tails(r, &list, slice_copy(r->arena, tail));
                return;
            }
        }
        return;
    }
}
