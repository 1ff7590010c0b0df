#include "read/line_parts.h"

#include <string.h>

#include "read/line_name.h"
#include "read/line_words.h"
#include "read/number.h"

/* bytes of what joins a further part to the line at `at`; 0 when nothing does */
static size_t
joint_at(struct slice line, size_t at)
{
    static const char *const joints[] = {", and ", ", plus ", ", ", " and ",
                                         " & ",    " plus ",  " + "};
    for (size_t i = 0; i < sizeof joints / sizeof *joints; i++)
        if (slice_is_anycase(slice_part(line, at, at + strlen(joints[i])), joints[i]))
            return strlen(joints[i]);
    return 0;
}

/* where words about the part end that begin at `at`, and no name of a fruit follows; 0: there is
 * no such part. *of_one: it is "juice of 1", else "2 tbsp juice". */
static size_t
part_end(struct food_reader *r, size_t at, bool *of_one)
{
    const struct slice line = line_part(r, 0, r->clean.length);
    struct amount_list found = {0};
    struct number number;
    enum of_it of;
    const size_t n = line_of_it(r->lexicon->lists, line, at, &of);
    size_t end = 0;
    *of_one = n > 0;
    if (n > 0) {
        end = number_read(r->lexicon->lists, line, at + n, &number);
        end += end > 0 ? at + n : 0;
    } else {
        const size_t behind = line_amounts(&r->amounts, at, line.length, &found);
        const char *const parts[] = {"juice", "zest"};
        for (size_t i = 0; found.count > 0 && found.items[0].unit != NULL && i < 2; i++)
            if (phrase_stands_at(line, behind, parts[i]))
                end = behind + strlen(parts[i]);
    }
    const size_t next = phrase_skip(line, end);
    return end > 0 && (next >= line.length || strchr(",;(", line.at[next]) != NULL) ? end : 0;
}

/* the fruit that the line begins with: "2 oranges", "zest of 2 oranges" */
static struct slice
fruit_of(struct food_reader *r, size_t *to)
{
    struct amount_list found = {0};
    enum of_it of;
    const struct slice line = line_part(r, 0, r->clean.length);
    size_t at = line_of_it(r->lexicon->lists, line, 0, &of);
    at = phrase_skip(line, line_amounts(&r->amounts, at, line.length, &found));
    *to = line_name_end(r, at, line.length);
    for (size_t i = at; i < *to; i++)
        if (joint_at(line, i) > 0)
            *to = i;
    return slice_trim(line_part(r, at, *to));
}

/* "orange" or "oranges" with its part */
static bool
has_part(const struct food_reader *r, struct slice fruit)
{
    return line_is_food(r, fruit) &&
           line_is_food(r, text_formatted(r->arena, "%.*s juice", SLICE_ARGS(fruit)));
}

/* "1 egg (plus 1 yolk)": what is added in a bracket stands as well without it */
static void
open_plus(struct food_reader *r)
{
    const struct slice line = line_part(r, 0, r->clean.length);
    const size_t open = slice_find_byte(line, '(', 0);
    if (open == SIZE_MAX || open == 0)
        return;
    const size_t close = line_bracket_end(&r->clean, open, line.length);
    if (close < line.length || !phrase_stands_at(line, open + 1, "plus") ||
        line.at[close - 1] != ')' ||
        !line_begins_with_amount(r, phrase_skip(line, open + 1 + strlen("plus")), close - 1))
        return;
    line_replace(r, close - 1, close, SLICE(""));
    line_replace(r, open, open + 1, SLICE(""));
}

void
line_parts_spell_out(struct food_reader *r)
{
    open_plus(r);
    size_t from;
    struct slice fruit = fruit_of(r, &from);
    if (!has_part(r, fruit))
        return;
    fruit = slice_copy(r->arena, fruit);
    for (size_t at = from; at < r->clean.length; at++) {
        const size_t n = joint_at(line_part(r, 0, r->clean.length), at);
        bool of_one;
        size_t end = n > 0 ? part_end(r, at + n, &of_one) : 0;
        if (end == 0)
            continue;
        if (!of_one) /* "2 tbsp lemon juice" */
            end = line_last_word(r, at + n, end) - 1;
        line_replace(r, end, end, text_formatted(r->arena, " %.*s", SLICE_ARGS(fruit)));
        line_replace(r, at, at + n, of_one ? SLICE(" and ") : SLICE(" plus "));
        return;
    }
}
