#include "base/list.h"

void *
list_widen(struct arena *a, void *items, size_t *room, size_t size)
{
    /* of what is large there are mostly one or two */
    size_t more = *room == 0 ? (size > 64 ? 2 : 8) : *room * 2;
    items = arena_regrow(a, items, *room * size, more * size);
    *room = more;
    return items;
}
