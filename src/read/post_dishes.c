#include "read/post_dishes.h"

/* a heading's words or a dish's name, so that "1. The Omelette" is "the omelette" */
static struct slice
heading_key(struct arena *a, struct slice words)
{
    size_t from = 0;
    while (from < words.length &&
           ((words.at[from] >= '0' && words.at[from] <= '9') || words.at[from] == '.' ||
            words.at[from] == ')' || words.at[from] == ' '))
        from++;
    return post_slug(a, from < words.length ? slice_part(words, from, words.length) : words);
}

/* the number of the heading of a dish's name, or SIZE_MAX */
static size_t
heading_of(const struct body_headings *headings, const struct slice *keys, struct slice key)
{
    for (size_t i = 0; i < headings->count; i++)
        if (slice_equal(keys[i], key))
            return i;
    return SIZE_MAX;
}

/* where the section of heading i ends: at the next heading that is not below it */
static size_t
section_end(const struct body_headings *headings, size_t i, size_t end)
{
    for (size_t next = i + 1; next < headings->count; next++)
        if (headings->items[next].level <= headings->items[i].level)
            return headings->items[next].from;
    return end;
}

static void
read_dish(struct arena *a, const struct body_range *range, const struct body_headings *headings,
          size_t heading, struct notices *notices, struct post *dish)
{
    const struct front_value name = dish->front.title;
    struct body_range own = {range->file, range->to, range->to, range->first_line, range->lists};
    dish->readable = true;
    words_read(a, range->lists, name.text, &dish->title_words);
    words_read(a, range->lists, dish->front.summary.text, &dish->summary_words);
    words_read(a, range->lists, dish->front.storage.text, &dish->storage_words);
    if (heading == SIZE_MAX) {
        notice_add(notices, RULE_DISH_HEADING, name.place, name.text, SLICE(""));
        body_read(a, &own, BODY_PROSE, notices, &dish->body);
        return;
    }
    own.from = headings->items[heading].behind;
    own.to = section_end(headings, heading, range->to);
    own.first_line = headings->items[heading].next_line;
    body_read(a, &own, BODY_DISH, notices, &dish->body);
}

void
post_dishes_read(struct arena *a, struct notices *notices, struct post *post)
{
    const struct body_range *range = &post->range;
    const struct front_matter *f = &post->front;
    struct body_headings headings;
    size_t prose_end = range->to;
    body_headings_find(a, range, &headings);
    struct slice *keys = arena_take_array(a, headings.count + 1, sizeof *keys);
    for (size_t i = 0; i < headings.count; i++)
        keys[i] = heading_key(a, headings.items[i].text);
    post->dishes = arena_take_array(a, f->dish_count + 1, sizeof *post->dishes);
    post->dish_count = f->dish_count;
    for (size_t i = 0; i < f->dish_count; i++) {
        struct post *dish = &post->dishes[i];
        const struct slice key = heading_key(a, f->dishes[i].name.text);
        const size_t heading = heading_of(&headings, keys, key);
        *dish = (struct post){
            .path = post->path,
            .slug = text_formatted(a, "%.*s-%.*s", SLICE_ARGS(post->slug), SLICE_ARGS(key)),
            .bytes = post->bytes};
        dish->front = *f->dishes[i].front;
        read_dish(a, range, &headings, heading, notices, dish);
        if (heading != SIZE_MAX && headings.items[heading].from < prose_end)
            prose_end = headings.items[heading].from;
    }
    const struct body_range prose = {range->file, range->from, prose_end, range->first_line,
                                     range->lists};
    body_read(a, &prose, BODY_PROSE, notices, &post->body);
}
