#include "read/line_shorthand.h"

#include <string.h>

#include "read/line_name.h"
#include "read/number.h"
#include "read/word_lists.h"

static bool
is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* the shorthand at `at`, the longest one; NULL: there is none */
static const char *
shorthand_at(const struct food_reader *r, struct slice line, size_t at)
{
    const char *const *all = word_lists_all(r->lexicon->lists, WORDS_SHORTHANDS);
    const char *best = NULL;
    for (size_t i = 0; all[i] != NULL; i++) {
        const size_t n = strlen(all[i]);
        if (!slice_is_anycase(slice_part(line, at, at + n), all[i]) ||
            (is_letter(all[i][0]) && at > 0 &&
             (word_byte(line.at[at - 1]) || line.at[at - 1] == '-')) ||
            (is_letter(all[i][n - 1]) && at + n < line.length &&
             (word_byte(line.at[at + n]) || line.at[at + n] == '-')))
            continue;
        if (best == NULL || n > strlen(best))
            best = all[i];
    }
    return best;
}

void
line_shorthand_spell_out(struct food_reader *r)
{
    for (size_t at = 0; at < r->clean.length; at++) {
        const char *s = shorthand_at(r, line_part(r, 0, r->clean.length), at);
        if (s == NULL)
            continue;
        const struct word_value *value =
            word_lists_value(r->lexicon->lists, WORDS_SHORTHANDS, slice_of(s));
        const char *by = value->text;
        struct slice whole = strcmp(by, "nothing") == 0 ? SLICE("") : slice_of(by);
        line_replace(r, at, at + strlen(s), whole);
        at += whole.length > 0 ? whole.length - 1 : 0;
    }
}
