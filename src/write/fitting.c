#include "write/fitting.h"

#include <math.h>
#include <stdlib.h>

#include "write/markup.h"
#include "write/recipe_name.h"

/* parts are told in thousandths, so that a figure's last digit moves no page */
enum { PARTS_WHOLE = 1000, FIELDS = 7 };

/* what every page ends its cooking with: the folds behind it */
static const char behind[] = "<div class=\"dl-more\">\n";
static const char before[] = "<p class=\"dl-beside\">";

static void
add_field(struct text *t, struct slice s)
{
    for (size_t i = 0; i < s.length; i++)
        text_add_byte(t, s.at[i] == '\n' ? ' ' : s.at[i]);
    text_add_byte(t, '\n');
}

static void
add_part(struct text *t, double part)
{
    text_add_whole(t, (size_t)ceil(fmin(part, 2) * PARTS_WHOLE));
    text_add_byte(t, '\n');
}

static struct slice
title_of(struct arena *a, const struct outcome *o)
{
    struct text t = text_new(a);
    if (o->post.front.language.text.length > 0) {
        text_add_string(&t, " lang=\"");
        text_add_html(&t, o->post.front.language.text);
        text_add_string(&t, "\" dir=\"auto\"");
    }
    text_add_byte(&t, '>');
    markup_words(&t, o->post.front.title.text);
    return text_slice(&t);
}

struct slice
fitting_facts(struct arena *a, const struct outcome *o)
{
    struct text t = text_new(a), foods = text_new(a), address = text_new(a);
    const struct slice url = recipe_url(a, o);
    if (outcome_round_up(o) || !o->beside.fits)
        return SLICE("");
    for (size_t i = 0; i < o->beside.count; i++) {
        text_add_string(&foods, o->beside.foods[i]);
        text_add_byte(&foods, ' ');
    }
    text_add_html(&address, url.length > 0 ? url : recipe_path(a, o));
    add_part(&t, o->beside.sitting);
    add_part(&t, o->beside.portion);
    add_field(&t, text_slice(&foods));
    add_field(&t, slice_trim(o->post.front.category.text));
    add_field(&t, o->post.slug);
    add_field(&t, text_slice(&address));
    add_field(&t, title_of(a, o));
    return text_slice(&t);
}

static double
part_of(struct slice digits)
{
    double part = 0;
    for (size_t i = 0; i < digits.length; i++)
        part = part * 10 + (digits.at[i] - '0');
    return part / PARTS_WHOLE;
}

bool
fitting_read(struct slice facts, struct fitting *out)
{
    struct slice fields[FIELDS];
    for (size_t i = 0; i < FIELDS; i++) {
        const size_t end = slice_find_byte(facts, '\n', 0);
        if (end == SIZE_MAX)
            return false;
        fields[i] = slice_part(facts, 0, end);
        facts = slice_part(facts, end + 1, facts.length);
    }
    *out = (struct fitting){part_of(fields[0]), part_of(fields[1]), fields[2], fields[3],
                            fields[4],          fields[5],          fields[6]};
    return true;
}

/* the next id of a list, from byte *at on; false behind the last */
static bool
next_food(struct slice foods, size_t *at, struct slice *food)
{
    const size_t end = slice_find_byte(foods, ' ', *at);
    if (end == SIZE_MAX)
        return false;
    *food = slice_part(foods, *at, end);
    *at = end + 1;
    return true;
}

static bool
share_foods(struct slice one, struct slice other)
{
    struct slice food, beside;
    for (size_t at = 0; next_food(one, &at, &food);)
        for (size_t k = 0; next_food(other, &k, &beside);)
            if (slice_equal(food, beside))
                return true;
    return false;
}

bool
fitting_suits(const struct fitting *one, const struct fitting *other)
{
    const bool alike = one->category.length > 0 && slice_equal(one->category, other->category);
    return !alike && one->sitting + other->sitting <= 1 && one->portion + other->portion <= 1 &&
           !share_foods(one->foods, other->foods);
}

struct slice
fitting_line(struct arena *a, const struct fitting *others, size_t count, bool preview)
{
    struct text t = text_new(a);
    text_add_string(&t, before);
    text_add_string(&t, "At the same sitting there is room for one portion of ");
    for (size_t i = 0; i < count; i++) {
        const struct fitting *o = &others[i];
        text_add_string(&t, i == 0 ? "" : i + 1 == count ? " or " : ", ");
        text_add_string(&t, "<a href=\"");
        text_add(&t, preview ? o->slug : o->address);
        text_add_string(&t, preview ? ".html\"" : "\"");
        text_add(&t, o->title);
        text_add_string(&t, "</a>");
    }
    text_add_string(&t, ".</p>\n");
    return text_slice(&t);
}

/* where the folds begin, behind the line; SIZE_MAX: it is no page of a dish */
static size_t
folds_at(struct slice page)
{
    size_t last = SIZE_MAX;
    for (size_t at = 0; (at = slice_find(page, behind, at)) != SIZE_MAX; at++)
        last = at;
    return last;
}

bool
fitting_takes(struct slice page)
{
    return folds_at(page) != SIZE_MAX;
}

struct slice
fitting_find(struct slice page)
{
    const size_t end = folds_at(page);
    if (end == SIZE_MAX || end < 2)
        return SLICE("");
    size_t begin = end - 1;
    while (begin > 0 && page.at[begin - 1] != '\n')
        begin--;
    const struct slice line = slice_part(page, begin, end);
    return slice_begins(line, before) ? line : SLICE("");
}

struct slice
fitting_put(struct arena *a, struct slice page, struct slice line)
{
    const size_t end = folds_at(page), own = fitting_find(page).length;
    struct text t = text_new(a);
    if (end == SIZE_MAX)
        return page;
    text_widen(&t, page.length + line.length);
    text_add(&t, slice_part(page, 0, end - own));
    text_add(&t, line);
    text_add(&t, slice_part(page, end, page.length));
    return text_slice(&t);
}
