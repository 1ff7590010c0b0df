#include "tables/food_word.h"

bool
food_stem_among(struct slice stem, const char *const *words, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (slice_is(stem, words[i]))
            return true;
    return false;
}
