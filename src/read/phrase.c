#include "read/phrase.h"

#include <string.h>

bool
phrase_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (unsigned char)c >= 0x80;
}

bool
phrase_stands(struct slice text, size_t at, const char *word)
{
    size_t n = strlen(word);
    if (!slice_is_anycase(slice_part(text, at, at + n), word))
        return false;
    return at + n >= text.length || !phrase_letter(word[n - 1]) || !phrase_letter(text.at[at + n]);
}

size_t
phrase_skip(struct slice text, size_t at)
{
    while (at < text.length && text.at[at] == ' ')
        at++;
    return at;
}

size_t
phrase_at(const struct word_lists *lists, enum word_list_number list, struct slice text, size_t at,
          size_t *which)
{
    const char *const *phrases = word_lists_all(lists, list);
    size_t longest = 0;
    for (size_t i = 0; phrases[i] != NULL; i++) {
        const size_t n = phrase_stands_at(text, at, phrases[i]) ? strlen(phrases[i]) : 0;
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
