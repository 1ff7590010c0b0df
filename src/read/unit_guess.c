#include "read/unit_guess.h"

#include <string.h>

#include "read/nearest.h"
#include "read/number.h"
#include "read/phrase.h"

static size_t
word_end(struct slice s, size_t at)
{
    while (at < s.length && s.at[at] != ' ')
        at++;
    return at;
}

static bool
has_vowel(struct slice word)
{
    for (size_t i = 0; i < word.length; i++)
        if (strchr("aeiouyAEIOUY", word.at[i]) != NULL || (unsigned char)word.at[i] >= 0x80)
            return true;
    return false;
}

static bool
is_letters(struct slice word)
{
    for (size_t i = 0; i < word.length; i++)
        if (!phrase_letter(word.at[i]) && !(word.at[i] == '.' && i + 1 == word.length))
            return false;
    return word.length > 0;
}

/* one letter dropped, doubled, added or swapped with its neighbour; in long words also changed */
static bool
is_misspelt_unit(const struct word_lists *lists, struct slice word)
{
    const char *const *unit_words = word_lists_all(lists, WORDS_UNIT_SPELLINGS);
    if (word.length < 4 || phrase_is(lists, WORDS_NO_UNITS, word))
        return false;
    for (size_t i = 0; unit_words[i] != NULL; i++) {
        struct slice unit = slice_of(unit_words[i]);
        size_t most = word.length >= 8 ? 2 : 1, n = nearest_distance(word, unit, most);
        bool changed = word.length == unit.length && word.length < 6 && n == 1;
        if (n > 0 && n <= most && (!changed || nearest_is_swapped(word, unit)) &&
            (word.at[0] | 0x20) == unit.at[0])
            return true;
    }
    return false;
}

static bool
is_food(const struct lexicon *lexicon, struct slice words)
{
    words = slice_trim(words);
    return words.length > 0 && lexicon->food(lexicon->ctx, words);
}

size_t
unit_guess(const struct lexicon *lexicon, struct slice line, size_t at, size_t amount_count,
           const struct amount *amounts)
{
    if (amount_count != 1 || amounts->unit != NULL || at >= line.length)
        return 0;
    size_t end = word_end(line, at), next = phrase_skip(line, end);
    struct slice word = slice_part(line, at, end), rest = slice_part(line, next, line.length);
    if (rest.length == 0 || !is_letters(word) || word.length > 24)
        return 0;
    bool of = phrase_stands_at(line, next, "of");
    bool odd = !has_vowel(word) || is_misspelt_unit(lexicon->lists, word);
    if (!of && !odd)
        return 0;
    if (is_food(lexicon, slice_part(line, at, line.length)) || is_food(lexicon, word))
        return 0;
    return word.length;
}

struct slice
unit_guess_more(struct arena *a, const struct lexicon *lexicon, struct slice word)
{
    const char *near[3] = {NULL, NULL, NULL};
    if (lexicon->nearest != NULL)
        lexicon->nearest(lexicon->ctx, word, near);
    struct text more = text_new(a);
    for (size_t i = 0; i < 3 && near[i] != NULL; i++)
        text_addf(&more, "%s%s", i == 0 ? "; near it: " : ", ", near[i]);
    return text_slice(&more);
}
