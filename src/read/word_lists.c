#include "read/word_lists.h"

const char *const word_lists_text[] = {NULL}, *const word_lists_range[] = {NULL};

#define KINDS(...) ((const char *const[]){__VA_ARGS__, NULL})
#define WORD_LIST_KINDS(number, name, kinds) kinds,
static const char *const *const all_kinds[] = {WORD_LIST_ROWS(WORD_LIST_KINDS)};
#undef WORD_LIST_KINDS

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
    return all_kinds[list];
}

/* the number of the word in its list + 1; 0: it is not there */
static size_t
number_of(const struct word_list *l, struct slice word)
{
    return (size_t)(uintptr_t)map_get(&l->numbers, word);
}

const struct word_list *
word_lists_get(const struct word_lists *w, enum word_list_number list)
{
    static const char *none[] = {NULL};
    static const struct word_list empty = {.words = none};
    return w != NULL ? &w->lists[list] : &empty;
}

const char *const *
word_lists_all(const struct word_lists *w, enum word_list_number list)
{
    return (const char *const *)word_lists_get(w, list)->words;
}

bool
word_lists_have(const struct word_lists *w, enum word_list_number list, struct slice word)
{
    return number_of(word_lists_get(w, list), word) > 0;
}

const struct word_value *
word_lists_value(const struct word_lists *w, enum word_list_number list, struct slice word)
{
    const struct word_list *l = word_lists_get(w, list);
    const size_t number = l->values != NULL ? number_of(l, word) : 0;
    return number > 0 ? &l->values[number - 1] : NULL;
}
