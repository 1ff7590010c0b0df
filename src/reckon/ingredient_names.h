/* The words by which prose may call an ingredient. They follow from its line and the larder alone,
 * so that they are remembered with the line. */
#ifndef RECKON_INGREDIENT_NAMES_H
#define RECKON_INGREDIENT_NAMES_H

#include "base/list.h"
#include "read/stem.h"
#include "read/words.h"

enum { NAME_WORDS_MOST = 12 };

/* one food of an ingredient: "smoked paprika" is `smoked` and `paprika`, the last its head */
struct name {
    struct stem *stems; /* colours, sizes and cuts left out */
    size_t count;
};

struct ingredient_names {
    struct name *names;            /* one of each food that has any */
    size_t name_count, stem_count; /* stems of all names */
    LIST_OF(struct stem) known;    /* of the whole line, and of the foods' own names */
    uint64_t marks;                /* stem_mark of all that are known: a quick no */
};

static inline uint64_t
stem_mark(const struct stem *s)
{
    return UINT64_C(1) << (s->code >> 58);
}

struct ingredient;
/* from its words and options */
const struct ingredient_names *
ingredient_names_read(struct arena *a, const struct word_lists *lists, const struct ingredient *in);

#endif
