#include "read/line_portion.h"

#include <string.h>

#include "read/line_name.h"
#include "read/number.h"
#include "read/phrase.h"

static bool
is_apart(char c)
{
    return strchr(" ,;:()[]", c) != NULL;
}

bool
line_portion_take_phrase(struct food_reader *r, size_t end)
{
    for (size_t at = 0; at < end; at++) {
        const size_t n =
            phrase_at(r->lexicon->lists, WORDS_PER_EATER, line_upto(r, r->clean.length), at, NULL);
        if (n == 0 || (at > 0 && !is_apart(r->clean.bytes[at - 1])))
            continue;
        size_t from = at, to = at + n;
        while (from > 0 && is_apart(r->clean.bytes[from - 1]))
            from--;
        bool labels = false;
        for (; to < r->clean.length && is_apart(r->clean.bytes[to]); to++)
            labels = labels || r->clean.bytes[to] == ':';
        if (from > 0 && to < r->clean.length) { /* between two parts of the line */
            if (labels)
                r->clean.bytes[--to] = ' ';
            r->clean.bytes[--to] = labels ? ':' : ',';
        }
        line_erase(&r->clean, from, to);
        return true;
    }
    return false;
}

/* "1 egg each": behind a food, not behind the weight of one: "4 fillets, 150 g each" */
static bool
take_each(struct food_reader *r)
{
    const size_t each = strlen(" each"), end = r->clean.length;
    struct slice line = line_upto(r, end);
    if (end <= each || !slice_is_anycase(slice_part(line, end - each, end), " each") ||
        slice_find_byte(line, ',', 0) != SIZE_MAX || slice_find_byte(line, '(', 0) != SIZE_MAX)
        return false;
    struct amount_list found = {0};
    const size_t name = line_amounts(&r->amounts, 0, end - each, &found);
    if (found.count == 0 || !line_is_food(r, line_part(r, name, end - each)))
        return false;
    line_erase(&r->clean, end - each, end);
    return true;
}

bool
line_portion_take(struct food_reader *r)
{
    return line_portion_take_phrase(r, r->clean.length) || take_each(r);
}
