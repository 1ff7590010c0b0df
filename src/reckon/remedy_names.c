#include "reckon/remedy_names.h"

#include <string.h>

static bool
stands_in(struct slice text, struct slice words)
{
    for (size_t at = 0; words.length > 0 && at + words.length <= text.length; at++)
        if (text.at[at] == words.at[0] && memcmp(text.at + at, words.at, words.length) == 0)
            return true;
    return false;
}

/* "Hot sauce, to serve" begins its line with a capital that no sentence wants within; what the
 * larder writes with one keeps it: "Worcestershire sauce" */
static struct slice
within_sentence(struct arena *a, const struct ingredient_line *line, const struct helping *h)
{
    const struct slice name = h->written->name;
    const bool begins = name.length > 1 && line->text.length >= name.length &&
                        memcmp(line->text.at, name.at, name.length) == 0;
    const char first = name.length > 0 ? name.at[0] : '\0';
    if (!begins || first < 'A' || first > 'Z' || name.at[1] < 'a' || name.at[1] > 'z' ||
        (h->food->name[0] >= 'A' && h->food->name[0] <= 'Z'))
        return name;
    char *lower = arena_copy(a, name.at, name.length);
    lower[0] = (char)(first - 'A' + 'a');
    return (struct slice){lower, name.length};
}

/* At home the writer's own words, where they stand so in the line ("maple or golden syrup" does not
 * hold "maple syrup"); elsewhere what readers there call it. */
static struct slice
plain_name(struct arena *a, const struct kitchen *k, const struct ingredient_line *line,
           const struct helping *h)
{
    const struct slice name = h->written->name;
    if (h->food == NULL)
        return name;
    if (k->region == k->dish->region && stands_in(line->text, name))
        return within_sentence(a, line, h);
    /* "canned chickpeas, drained" breaks a sentence in two */
    const struct slice shown = slice_of(foods_shown(h->food, k->region, k->reads));
    return slice_ends(shown, ", drained") ? slice_part(shown, 0, shown.length - strlen(", drained"))
                                          : shown;
}

static inline bool
is_same(const struct helping *a, const struct helping *b)
{
    return a->food != NULL ? a->food == b->food : slice_equal(a->written->name, b->written->name);
}

/* "the second listed", where several ingredients are the same food: their order tells them apart */
void
remedy_food_name(struct text *text, const struct kitchen *k, const struct ingredient *in,
                 const struct helping *h)
{
    const struct dish *d = k->dish;
    static const char *const orders[] = {"first", "second", "third", "fourth", "fifth"};
    const struct slice name = plain_name(text->arena, k, &in->line, h);
    size_t same = 0, order = 0;
    text_add(text, name);
    for (size_t i = 0; i < d->count; i++) {
        const struct ingredient *other = &d->ingredients[i];
        bool holds = false;
        for (size_t o = 0; o < other->option_count && !holds; o++)
            for (size_t j = 0; j < other->options[o].count && !holds; j++)
                holds = is_same(h, &other->options[o].helpings[j]);
        if (other == in)
            order = same;
        same += holds;
    }
    if (same > 1)
        text_addf(text, " (the %s listed)",
                  order < sizeof orders / sizeof *orders ? orders[order] : "last");
}

/* "salt and pepper" */
void
remedy_option_name(struct text *text, const struct kitchen *k, const struct ingredient *in,
                   size_t o)
{
    const struct dish_option *option = &in->options[o];
    for (size_t i = 0; i < option->count; i++) {
        if (i > 0)
            text_add_string(text, i + 1 < option->count ? ", " : " and ");
        remedy_food_name(text, k, in, &option->helpings[i]);
    }
}
