#include "read/word_lists.h"

const char *const word_lists_text[] = {NULL};

const char *
word_lists_name(int list)
{
#define WORD_LIST_NAME(number, name, kinds) name,
    static const char *const names[] = {WORD_LIST_ROWS(WORD_LIST_NAME)};
#undef WORD_LIST_NAME
    return names[list];
}

const char *const *
word_lists_kinds(int list)
{
#define WORD_LIST_KINDS(number, name, kinds) kinds,
    static const char *const *const all[] = {WORD_LIST_ROWS(WORD_LIST_KINDS)};
#undef WORD_LIST_KINDS
    return all[list];
}

/* the number of the word in its list + 1; 0: it is not there */
static size_t
place_of(const struct word_list *l, struct slice word)
{
    return (size_t)(uintptr_t)map_get(&l->places, word);
}

const char *const *
word_lists_all(const struct word_lists *w, enum word_list_number list)
{
    static const char *const none[] = {NULL};
    return w != NULL ? w->lists[list].words : none;
}

bool
word_lists_have(const struct word_lists *w, enum word_list_number list, struct slice word)
{
    return w != NULL && place_of(&w->lists[list], word) > 0;
}

const char *
word_lists_value(const struct word_lists *w, enum word_list_number list, struct slice word)
{
    const struct word_list *l = w != NULL ? &w->lists[list] : NULL;
    const size_t place = l != NULL && l->values != NULL ? place_of(l, word) : 0;
    return place > 0 ? l->values[place - 1] : NULL;
}

int
word_lists_kind(const struct word_lists *w, enum word_list_number list, struct slice word)
{
    const struct word_list *l = w != NULL ? &w->lists[list] : NULL;
    const size_t place = l != NULL && l->kinds != NULL ? place_of(l, word) : 0;
    return place > 0 ? l->kinds[place - 1] : -1;
}
