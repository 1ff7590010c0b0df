#include "base/notice.h"

#include "base/list.h"

void
notice_add(struct notices *list, enum rule rule, struct place place, struct slice what,
           struct slice more)
{
    notice_add_mended(list, rule, place, what, more, SLICE(""));
}

void
notice_add_mended(struct notices *list, enum rule rule, struct place place, struct slice what,
                  struct slice more, struct slice mend)
{
    *LIST_GROW(list->arena, list) = (struct notice){rule, place, what, more, mend, SLICE("")};
}

void
notice_pass(struct notices *list, const struct notice *n)
{
    *LIST_GROW(list->arena, list) = *n;
}
