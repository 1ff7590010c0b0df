#include "read/stem.h"

bool
stem_describes(const struct word_lists *lists, const struct stem *s)
{
    return s->text.length > 0 && word_lists_have(lists, WORDS_DESCRIBING, s->text);
}

struct slice
stem_singular(struct arena *a, struct slice w)
{
    static const char *const long_plurals[] = {"oes", "ses", "xes", "ches", "shes", "zes"};
    if (slice_ends(w, "'s"))
        w.length -= 2;
    if (w.length < 4 || w.at[w.length - 1] != 's')
        return w;
    const char before = w.at[w.length - 2];
    if (before == 's' || before == 'u' || before == 'i')
        return w;
    if (before != 'e')
        return slice_part(w, 0, w.length - 1);
    if (slice_ends(w, "ies"))
        return text_formatted(a, "%.*sy", (int)w.length - 3, w.at);
    if (slice_ends(w, "eaves") || slice_ends(w, "oaves") || slice_ends(w, "alves"))
        return text_formatted(a, "%.*sf", (int)w.length - 3, w.at);
    for (size_t i = 0; i < sizeof long_plurals / sizeof *long_plurals; i++)
        if (slice_ends(w, long_plurals[i]) && !slice_ends(w, "cheeses"))
            return slice_part(w, 0, w.length - 2);
    return slice_part(w, 0, w.length - 1);
}
