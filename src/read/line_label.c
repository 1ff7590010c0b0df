#include "read/line_label.h"

#include "read/line_name.h"
#include "read/line_portion.h"
#include "read/line_words.h"

void
line_label_take(struct food_reader *r)
{
    const size_t end = r->clean.length, colon = line_name_end(r, 0, end);
    if (colon == 0 || colon >= end || r->clean.bytes[colon] != ':' ||
        line_ends_in_food(r, line_part(r, 0, colon)))
        return;
    if (line_portion_take_phrase(r, colon)) { /* "per person: ", "topping per person: " */
        r->out->per_portion = true;
        line_label_take(r);
        return;
    }
    struct slice label = slice_trim(line_part(r, 0, colon));
    if (slice_is_anycase(label, "optional"))
        return;
    struct amount_list found = {0};
    line_amounts(&r->amounts, colon + 1, end, &found);
    const bool says_for = line_is_purpose(r->lexicon->lists, label); /* "For the sauce" */
    if (found.count == 0 && (!says_for || slice_trim(line_part(r, colon + 1, end)).length == 0))
        return;
    r->label = says_for ? slice_copy(r->arena, label)
                        : text_formatted(r->arena, "for %.*s", SLICE_ARGS(label));
    line_erase(&r->clean, 0, colon + 1);
    while (r->clean.length > 0 && r->clean.bytes[0] == ' ')
        line_erase(&r->clean, 0, 1);
}
