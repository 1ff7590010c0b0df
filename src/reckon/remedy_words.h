/* The sentences of remedies: plain, exact, for writer and reader. */
#ifndef RECKON_REMEDY_WORDS_H
#define RECKON_REMEDY_WORDS_H

#include "reckon/remedies.h"
#include "reckon/remedy_names.h"

/* "Use 2 tsp (about 14 g) of honey instead of 2 tbsp." in the kitchen's measures and names of
 * foods; amounts that are cut are rounded down */
struct slice remedy_words(struct arena *a, const struct kitchen *k, const struct remedy *r);
/* where there is no remedy: which foods are the matter, and how much of each a portion may hold */
struct slice remedies_refusal(struct arena *a, const struct kitchen *k, const struct remedies *r,
                              const char *phase);

#endif
