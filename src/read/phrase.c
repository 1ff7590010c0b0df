#include "read/phrase.h"

#include "read/number.h"

size_t
phrase_at(const struct word_lists *lists, enum word_list_number list, struct slice text, size_t at,
          size_t *which)
{
    const char *const *phrases = word_lists_all(lists, list);
    size_t longest = 0;
    for (size_t i = 0; phrases[i] != NULL; i++) {
        const size_t n = word_at(text, at, phrases[i]) ? strlen(phrases[i]) : 0;
        if (n > longest) {
            longest = n;
            if (which != NULL)
                *which = i;
        }
    }
    return longest;
}

bool
phrase_is(const struct word_lists *lists, enum word_list_number list, struct slice text)
{
    text = slice_trim(text);
    return text.length > 0 && phrase_at(lists, list, text, 0, NULL) == text.length;
}
