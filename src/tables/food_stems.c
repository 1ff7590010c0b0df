#include "tables/food_stems.h"

struct slice
food_stems_spaced(struct arena *a, const struct slice *stems, size_t count)
{
    struct text key = text_new(a);
    for (size_t i = 0; i < count; i++) {
        if (i > 0)
            text_add_byte(&key, ' ');
        text_add(&key, stems[i]);
    }
    return text_slice(&key);
}

struct slice
food_stems_key(struct arena *a, struct slice *stems, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        struct slice s = stems[i];
        size_t at = i;
        for (; at > 0 && slice_order(s, stems[at - 1]) < 0; at--)
            stems[at] = stems[at - 1];
        stems[at] = s;
    }
    return food_stems_spaced(a, stems, count);
}

struct slice
food_stems_joined(struct arena *a, const struct slice *stems, size_t count)
{
    struct text key = text_new(a);
    for (size_t i = 0; i < count; i++)
        text_add(&key, stems[i]);
    return text_slice(&key);
}
