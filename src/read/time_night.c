#include "read/time_night.h"

enum { HOUR = 3600 };

struct named_time {
    const char *phrase;
    double low, high; /* hours */
};

static const struct named_time stretches[] = {
    {"overnight", 8, 12},
    {"all night long", 8, 12},
    {"all night", 8, 12},
    {"a whole night", 8, 12},
    {"the whole night", 8, 12},
    {"one whole night", 8, 12},
    {"through the night", 8, 12},
    {"one night", 8, 12},
    {"a night", 8, 12},
    {"two nights", 32, 36},
    {"all day long", 8, 10},
    {"all day", 8, 10},
    {"the whole day", 8, 10},
    {"the entire day", 8, 10},
    {"half a day", 4, 6},
    {"half the day", 4, 6},
    {"all afternoon", 3, 5},
    {"all morning", 3, 5},
    {"until the next day", 8, 24},
    {"until next day", 8, 24},
    {"until the following day", 8, 24},
    {"until the next morning", 8, 12},
    {"until next morning", 8, 12},
    {"until the following morning", 8, 12},
    {"until the morning", 8, 12},
    {"until morning", 8, 12},
    {"until tomorrow", 8, 24},
    {"until the day after", 8, 24},
    {"until the next evening", 20, 28},
    {"till the next day", 8, 24},
    {"till next day", 8, 24},
    {"till the following day", 8, 24},
    {"till the next morning", 8, 12},
    {"till the morning", 8, 12},
    {"till morning", 8, 12},
    {"till tomorrow", 8, 24},
    {"into the next day", 8, 24},
};
static const struct named_time begun_before[] = {
    {"the night before", 8, 12},   {"the evening before", 8, 14},    {"the day before", 8, 24},
    {"the previous night", 8, 12}, {"the previous evening", 8, 14},  {"the previous day", 8, 24},
    {"a day before", 8, 24},       {"a day ahead", 8, 24},           {"one day ahead", 8, 24},
    {"a day in advance", 8, 24},   {"one day before", 8, 24},        {"the day ahead", 8, 24},
    {"a night ahead", 8, 12},      {"the afternoon before", 12, 20},
};

static size_t
find(const struct named_time *list, size_t count, const struct words *w, size_t i,
     struct span *seconds)
{
    for (size_t k = 0; k < count; k++) {
        const size_t n = words_at(w, i, list[k].phrase);
        if (n == 0)
            continue;
        *seconds = span_between(list[k].low * HOUR, list[k].high * HOUR);
        return n;
    }
    return 0;
}

size_t
time_night_at(const struct words *w, size_t i, struct span *seconds)
{
    return find(stretches, sizeof stretches / sizeof *stretches, w, i, seconds);
}

size_t
time_night_before(const struct words *w, size_t i, struct span *seconds)
{
    return find(begun_before, sizeof begun_before / sizeof *begun_before, w, i, seconds);
}
