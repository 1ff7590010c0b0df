#include "read/initials.h"

bool
initials_occur(const char *const *rows, size_t width, const struct words *w, size_t from, size_t to)
{
    if (to > w->count)
        to = w->count;
    for (size_t i = from; i < to; i++)
        if (initials_at(rows + initial_of(w->items[i].folded) * width, width, w, i) != NULL)
            return true;
    return false;
}
