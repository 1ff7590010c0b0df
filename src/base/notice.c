#include "base/notice.h"

#include "base/list.h"

void
notice_add(struct notices *list, enum rule rule, struct place place, struct slice what,
           struct slice more)
{
    *LIST_GROW(list->arena, list) = (struct notice){rule, place, what, more};
}
