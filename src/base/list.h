/* Growable arrays in an arena. A list of T is any struct with `T *items; size_t count, room;`. */
#ifndef BASE_LIST_H
#define BASE_LIST_H

#include "base/arena.h"

#define LIST_OF(type)       \
    struct {                \
        type *items;        \
        size_t count, room; \
    }

/* a pointer to a new zeroed item at the end: *LIST_GROW(arena, &list) = value; */
#define LIST_GROW(arena, list)                                                                   \
    ((list)->items =                                                                             \
         list_room((arena), (list)->items, &(list)->room, (list)->count, sizeof *(list)->items), \
     &(list)->items[(list)->count++])

/* the items again, with room for twice as many */
void *list_widen(struct arena *a, void *items, size_t *room, size_t size);
/* items with room for one more than count; inline, since there nearly always is */
static inline void *
list_room(struct arena *a, void *items, size_t *room, size_t count, size_t size)
{
    return count < *room ? items : list_widen(a, items, room, size);
}

#endif
