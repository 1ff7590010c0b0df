#include "read/time_night.h"

#include "read/words_listed.h"

enum { HOUR = 3600 };

static size_t
find(const struct words *w, enum word_list_number list, size_t i, struct span *seconds)
{
    const size_t n = words_range(w, list, i, seconds);
    if (n > 0)
        *seconds = span_scale(*seconds, HOUR);
    return n;
}

size_t
time_night_at(const struct words *w, size_t i, struct span *seconds)
{
    return find(w, WORDS_NIGHTS, i, seconds);
}

size_t
time_night_before(const struct words *w, size_t i, struct span *seconds)
{
    return find(w, WORDS_BEGUN_BEFORE, i, seconds);
}
