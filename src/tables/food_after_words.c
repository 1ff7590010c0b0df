#include "tables/food_after_words.h"

bool
food_after_word_is_idle(const struct word_lists *lists, struct slice stem)
{
    for (size_t i = 0; i < stem.length; i++) /* "2cm", "1", "15%" */
        if (stem.at[i] >= '0' && stem.at[i] <= '9')
            return true;
    return word_lists_have(lists, WORDS_BEHIND_IDLE, stem);
}

bool
food_after_word_ends(const struct word_lists *lists, const struct food_word *w)
{
    return w->part == WORD_STOP || word_lists_have(lists, WORDS_BEHIND_ENDS, w->stem);
}

bool
food_after_word_is_deed(const struct word_lists *lists, const struct food_word *w)
{
    struct slice s = w->stem;
    if (word_lists_have(lists, WORDS_TELLING, s) || word_lists_have(lists, WORDS_BEHIND_NOUNS, s))
        return false;
    if (w->part == WORD_CUT || w->part == WORD_HOW || word_lists_have(lists, WORDS_BEHIND_DEEDS, s))
        return true;
    if (s.length > 5 && slice_begins(s, "un"))
        return true; /* "unshaken": not done */
    const bool verb = (slice_ends(s, "ed") && !slice_ends(s, "eed")) || slice_ends(s, "ing");
    return (s.length > 3 && verb) || (s.length > 3 && slice_ends(s, "ly"));
}
