#include "read/line_shorthand.h"

#include <string.h>

#include "read/line_name.h"
#include "read/number.h"
#include "read/phrase.h"
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
        if (((all[i][0] ^ line.at[at]) & ~('a' ^ 'A')) != 0) /* not even the first letter */
            continue;
        const size_t n = strlen(all[i]);
        if (!slice_is_anycase(slice_part(line, at, at + n), all[i]) ||
            (is_letter(all[i][0]) && at > 0 &&
             (phrase_letter(line.at[at - 1]) || line.at[at - 1] == '-')) ||
            (is_letter(all[i][n - 1]) && at + n < line.length &&
             (phrase_letter(line.at[at + n]) || line.at[at + n] == '-')))
            continue;
        if (best == NULL || n > strlen(best))
            best = all[i];
    }
    return best;
}

/* bytes of a dash between spaces, or of a semicolon, at `at`, before a word; 0: there is none */
static size_t
dash_at(struct slice line, size_t at)
{
    static const char *const dashes[] = {" - ", " – ", " — ", " -- ", "; "};
    for (size_t i = 0; at > 0 && i < sizeof dashes / sizeof *dashes; i++) {
        const size_t n = strlen(dashes[i]);
        if (slice_begins(slice_part(line, at, line.length), dashes[i]) && at + n < line.length &&
            (is_letter(line.at[at + n]) || line.at[at + n] == '('))
            return n;
    }
    return 0;
}

/* a dash does what a comma does: "milk, oat - see below" */
static void
write_commas(struct food_reader *r)
{
    for (size_t at = 0; at < r->clean.length; at++) {
        const size_t n = dash_at(line_part(r, 0, r->clean.length), at);
        if (n > 0)
            line_replace(r, at, at + n, SLICE(", "));
    }
}

/* "1-15 oz can" is one can of 15 oz, and no 1 to 15 oz: where the dash stands, or SIZE_MAX */
static size_t
package_dash(const struct food_reader *r, struct slice line)
{
    struct number count, weight;
    const size_t dash = slice_find_byte(line, '-', 0);
    if (dash >= line.length)
        return SIZE_MAX;
    size_t n = number_read(r->lexicon->lists, slice_part(line, 0, dash), 0, &count);
    n = n > 0 ? phrase_skip(line, n) : 0;
    if (n == 0 || n >= line.length || line.at[n] != '-' || count.value.mid > 12)
        return SIZE_MAX;
    const size_t from = phrase_skip(line, n + 1),
                 m = number_read(r->lexicon->lists, line, from, &weight);
    size_t at = phrase_skip(line, from + m);
    const struct unit *of, *pack;
    const size_t u = m > 0 ? amount_unit(line, at, r->lexicon, &of) : 0;
    if (u == 0 || of->kind != UNIT_WEIGHT || weight.value.mid < 4 * count.value.mid)
        return SIZE_MAX;
    at = phrase_skip(line, at + u);
    if (amount_unit(line, at, r->lexicon, &pack) == 0 || pack->kind != UNIT_PIECE)
        return SIZE_MAX;
    return n;
}

void
line_shorthand_spell_out(struct food_reader *r)
{
    const size_t dash = package_dash(r, line_part(r, 0, r->clean.length));
    if (dash != SIZE_MAX)
        line_replace(r, dash, dash + 1, SLICE(" x "));
    write_commas(r);
    for (size_t at = 0; at < r->clean.length; at++) {
        const char *s = shorthand_at(r, line_part(r, 0, r->clean.length), at);
        if (s == NULL)
            continue;
        const struct word_value *value =
            word_lists_value(r->lexicon->lists, WORDS_SHORTHANDS, slice_of(s));
        const char *by = value->text;
        struct slice whole = strcmp(by, "nothing") == 0 ? SLICE("") : slice_of(by);
        size_t end = at + strlen(s);
        if (whole.length == 0 && end < r->clean.length && r->clean.bytes[end] == ' ' &&
            (at == 0 || r->clean.bytes[at - 1] == ' '))
            end++;
        line_replace(r, at, end, whole);
        at += whole.length;
        at -= at > 0;
    }
}
