#include "read/line_decimals.h"

#include <string.h>

#include "read/line_name.h"
#include "read/number.h"
#include "read/phrase.h"

static bool
is_digit(const struct clean_line *c, size_t at)
{
    return at < c->length && c->bytes[at] >= '0' && c->bytes[at] <= '9';
}

static size_t
digits_at(const struct clean_line *c, size_t at)
{
    size_t n = 0;
    while (is_digit(c, at + n))
        n++;
    return n;
}

/* whether three digits stand behind a sign that parts thousands, and one to three before it */
static bool
is_grouped(const struct clean_line *c, size_t sign)
{
    size_t before = 0;
    while (before < sign && is_digit(c, sign - 1 - before))
        before++;
    return before > 0 && before <= 3 && digits_at(c, sign + 1) == 3 &&
           c->bytes[sign - before] != '0';
}

/* "1.000 g", "1.500 ml" in English: nobody weighs milligrams in a kitchen, so that a thousand may
 * be meant */
static bool
is_doubtful(const struct food_reader *r, size_t sign)
{
    const struct clean_line *c = &r->clean;
    const size_t behind = phrase_skip(line_upto(r, c->length), sign + 4);
    return is_grouped(c, sign) && phrase_at(r->lexicon->lists, WORDS_SMALL_UNITS,
                                            line_upto(r, c->length), behind, NULL) > 0;
}

static void
tell(struct food_reader *r, size_t sign)
{
    size_t from = sign, to = sign + 4, origin_from, origin_to;
    while (from > 0 && is_digit(&r->clean, from - 1))
        from--;
    line_origin(&r->clean, from, to, &origin_from, &origin_to);
    struct slice written = slice_copy(r->arena, line_part(r, from, to));
    struct slice whole = line_part(r, from, sign), rest = line_part(r, sign + 1, to);
    notice_add(r->notices, RULE_UNIT_AMBIGUOUS, written_line_place(r->out, origin_from, origin_to),
               written,
               text_formatted(r->arena, "%.*s%.*s or %.*s and a fraction", SLICE_ARGS(whole),
                              SLICE_ARGS(rest), SLICE_ARGS(whole)));
}

bool
line_decimals_resolve(struct food_reader *r)
{
    struct clean_line *c = &r->clean;
    bool doubtful = false;
    for (size_t i = 1; i + 1 < c->length; i++) {
        const char sign = c->bytes[i];
        if ((sign != '.' && sign != ',') || !is_digit(c, i - 1) || !is_digit(c, i + 1))
            continue;
        if (r->lexicon->decimal_comma && sign == ',')
            c->bytes[i] = '.';
        else if (r->lexicon->decimal_comma && is_grouped(c, i))
            line_erase(c, i, i + 1);
        else if (!r->lexicon->decimal_comma && sign == '.' && !doubtful && is_doubtful(r, i)) {
            doubtful = true;
            tell(r, i);
        }
    }
    return doubtful;
}
