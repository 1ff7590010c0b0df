#include "write/fragment_context.h"

#include <math.h>

struct fragment_context
fragment_make(struct arena *a, const struct outcome *o, int heading_level, int region)
{
    const struct site *site = &o->tables->site;
    struct fragment_context s = {.o = o,
                                 .tables = o->tables,
                                 .arena = a,
                                 .heading_level = heading_level,
                                 .authors_language = SLICE("")};
    s.stand = &o->phases[site->phase];
    if (region >= 0) {
        s.regions[s.region_count++] = region;
        return s;
    }
    for (size_t i = 0; i < site->region_count; i++)
        s.regions[s.region_count++] = site->regions[i];
    if (s.region_count == 0)
        s.regions[s.region_count++] = o->dish.region;
    return s;
}

const struct region *
fragment_region(const struct fragment_context *s, size_t i)
{
    return &s->tables->measures.regions[s->regions[i]];
}

static void
add_number(struct text *t, size_t n)
{
    if (n >= 10)
        text_add_byte(t, (char)('0' + n / 10));
    text_add_byte(t, (char)('0' + n % 10));
}

/* all regions whose piece reads as the i-th does */
static void
add_alike(struct text *t, const struct fragment_context *s, const char *element,
          const struct slice *pieces, size_t i)
{
    text_add_byte(t, '<');
    text_add_string(t, element);
    text_add_string(t, " class=\"dl-in");
    for (size_t k = i; k < s->region_count; k++)
        if (k == i || slice_equal(pieces[k], pieces[i])) {
            text_add_string(t, " dl-in-");
            add_number(t, k + 1);
        }
    text_add_string(t, i > 0 ? "\" hidden>" : "\">");
    text_add(t, pieces[i]);
    text_add_string(t, "</");
    text_add_string(t, element);
    text_add_byte(t, '>');
}

void
fragment_vary(struct text *t, const struct fragment_context *s, const char *element,
              const struct slice *pieces)
{
    bool alike = true;
    for (size_t i = 1; i < s->region_count && alike; i++)
        alike = slice_equal(pieces[i], pieces[0]);
    if (alike) {
        text_add(t, pieces[0]);
        return;
    }
    for (size_t i = 0; i < s->region_count; i++) {
        bool seen = pieces[i].length == 0;
        for (size_t k = 0; k < i && !seen; k++)
            seen = slice_equal(pieces[k], pieces[i]);
        if (!seen)
            add_alike(t, s, element, pieces, i);
    }
}

void
fragment_heading(struct text *t, const struct fragment_context *s, int below, struct slice words)
{
    int level = s->heading_level + below;
    char digit = (char)('0' + (level > 6 ? 6 : level < 1 ? 1 : level));
    char open[] = "<h0>", close[] = "</h0>\n";
    open[2] = close[3] = digit;
    text_add_string(t, open);
    text_add(t, words);
    text_add_string(t, close);
}

void
fragment_fold(struct text *t, const char *class_name, const char *name)
{
    text_add_string(t, "<details class=\"");
    text_add_string(t, class_name);
    text_add_string(t, "\"><summary>");
    text_add_string(t, name);
    text_add_string(t, "</summary>\n");
}

struct slice
fragment_ingredient(const struct fragment_context *s, size_t ingredient, int region)
{
    const struct ingredient *in = &s->o->dish.ingredients[ingredient];
    if (in->option_count == 0 || in->options[0].count == 0)
        return slice_trim(in->line.text);
    const struct helping *h = &in->options[0].helpings[0];
    if (h->food != NULL)
        return slice_of(foods_shown(h->food, region, s->o->reads));
    return slice_trim(h->written->name);
}

void
fragment_range(struct text *t, double low, double high)
{
    bool minutes = low >= 60 && high < 3600 && fmod(low, 60) == 0 && fmod(high, 60) == 0;
    if (low < high && minutes) {
        add_number(t, (size_t)low / 60);
        text_add_string(t, " to ");
    } else if (low < high) {
        duration_write_words(t, low);
        text_add_string(t, " to ");
    }
    duration_write_words(t, high);
}

void
fragment_date(struct text *t, struct slice iso, bool month_first)
{
    static const char *const months[] = {"January",   "February", "March",    "April",
                                         "May",       "June",     "July",     "August",
                                         "September", "October",  "November", "December"};
    unsigned month = 0, day = 0;
    if (iso.length >= 10) {
        month = (unsigned)(iso.at[5] - '0') * 10 + (unsigned)(iso.at[6] - '0');
        day = (unsigned)(iso.at[8] - '0') * 10 + (unsigned)(iso.at[9] - '0');
    }
    if (month < 1 || month > 12 || day < 1 || day > 31) {
        text_add_html(t, iso);
        return;
    }
    struct slice year = slice_part(iso, 0, 4);
    if (month_first)
        text_addf(t, "%s %u, %.*s", months[month - 1], day, SLICE_ARGS(year));
    else
        text_addf(t, "%u %s %.*s", day, months[month - 1], SLICE_ARGS(year));
}
