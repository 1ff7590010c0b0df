#include "reckon/yield.h"

#include <math.h>
#include <string.h>

enum { YIELD_AMOUNTS_MOST = 4 };

/* a yield or portion as written: "24 fingers", "900 g", "1 loaf (12 slices)" gives two */
struct front_amount {
    enum yield_kind kind;
    struct span value;
    struct slice thing; /* counts: "fingers" */
};

static bool
is_word_byte(char c)
{
    return c != ' ' && c != ',' && c != ';' && c != '(' && c != ')' && c != '/' && c != '.';
}

/* the next word at or after *at, or an empty slice */
static struct slice
next_word(struct slice s, size_t *at)
{
    size_t from = *at;
    while (from < s.length && !is_word_byte(s.at[from]))
        from++;
    size_t to = from;
    while (to < s.length && is_word_byte(s.at[to]))
        to++;
    *at = to;
    return slice_part(s, from, to);
}

/* letters of a word without its plural ending: loaves and loaf, patties and patty, slices and slice
 * give the same */
static size_t
stem(struct slice word, char out[40])
{
    size_t n = word.length < 40 ? word.length : 40;
    for (size_t i = 0; i < n; i++)
        out[i] = (char)(word.at[i] >= 'A' && word.at[i] <= 'Z' ? word.at[i] + 32 : word.at[i]);
    if (n > 2 && out[n - 1] == 's' && out[n - 2] != 's')
        n--;
    if (n > 2 && out[n - 1] == 'e')
        n--;
    if (n > 0 && out[n - 1] == 'v')
        out[n - 1] = 'f';
    if (n > 0 && out[n - 1] == 'i')
        out[n - 1] = 'y';
    return n;
}

static bool
same_stem(struct slice a, struct slice b)
{
    char sa[40], sb[40];
    size_t na = stem(a, sa), nb = stem(b, sb);
    return na == nb && memcmp(sa, sb, na) == 0;
}

static bool
is_one_of(struct slice word, const char *const *words)
{
    for (; *words != NULL; words++)
        if (same_stem(word, slice_of(*words)))
            return true;
    return false;
}

static bool
names_eaters(const struct word_lists *lists, struct slice thing)
{
    size_t at = 0;
    for (struct slice w; (w = next_word(thing, &at)).length > 0;)
        if (is_one_of(w, word_lists_all(lists, WORDS_YIELD_EATERS)))
            return true;
    return false;
}

/* whether two counted things can be the same: "large muffin" and "muffins"; no word, or "pieces",
 * fits anything */
static bool
same_thing(const struct word_lists *lists, struct slice a, struct slice b)
{
    const char *const *little_words = word_lists_all(lists, WORDS_YIELD_LITTLE);
    size_t ia = 0;
    bool named_a = false, named_b = false;
    for (struct slice wa; (wa = next_word(a, &ia)).length > 0;) {
        if (same_stem(wa, SLICE("pieces")))
            return true;
        if (is_one_of(wa, little_words))
            continue;
        named_a = true;
        size_t ib = 0;
        for (struct slice wb; (wb = next_word(b, &ib)).length > 0;)
            if (same_stem(wa, wb) || same_stem(wb, SLICE("pieces")))
                return true;
    }
    size_t ib = 0;
    for (struct slice wb; (wb = next_word(b, &ib)).length > 0;)
        named_b = named_b || !is_one_of(wb, little_words);
    return !named_a || !named_b;
}

static size_t
front_amount_read(struct slice text, size_t at, const struct lexicon *lexicon,
                  struct front_amount *out)
{
    struct amount amount;
    memset(&amount, 0, sizeof amount);
    bool about = false;
    size_t bytes = amount_read(text, at, lexicon, &amount);
    if (bytes == 0)
        return 0;
    if (amount.unit != NULL && !amount.each &&
        (amount.unit->kind == UNIT_WEIGHT || amount.unit->kind == UNIT_VOLUME)) {
        out->kind = amount.unit->kind == UNIT_WEIGHT ? YIELD_WEIGHT : YIELD_VOLUME;
        out->value = span_times(amount.value, amount.unit->size);
        out->thing = (struct slice){NULL, 0};
        return bytes;
    }
    struct span number;
    size_t number_bytes = amount_number(lexicon->lists, text, at, &number, &about);
    if (number_bytes == 0)
        return bytes;
    size_t from = at + number_bytes, to = from;
    while (to < text.length && strchr("(,;/", text.at[to]) == NULL)
        to++;
    *out = (struct front_amount){YIELD_COUNT, number, slice_trim(slice_part(text, from, to))};
    return to - at;
}

static size_t
front_amounts_read(struct slice text, const struct lexicon *lexicon,
                   struct front_amount out[YIELD_AMOUNTS_MOST])
{
    size_t count = 0;
    for (size_t at = 0; at < text.length && count < YIELD_AMOUNTS_MOST;) {
        while (at < text.length && !is_word_byte(text.at[at]) && text.at[at] != '.')
            at++;
        struct front_amount one = {YIELD_NONE, {0, 0, 0}, {NULL, 0}};
        size_t bytes = at < text.length ? front_amount_read(text, at, lexicon, &one) : 0;
        if (bytes > 0) {
            at += bytes;
            if (one.kind != YIELD_NONE && one.value.low > 0)
                out[count++] = one;
        } else {
            next_word(text, &at);
        }
    }
    return count;
}

static void
add_said(struct notices *notices, enum rule rule, const struct front_value *front_value,
         struct slice more)
{
    notice_add(notices, rule, front_value->place, front_value->text, more);
}

/* the amount of the yield that the portion is a part of, and of the portion */
static bool
pair_amounts(const struct word_lists *lists, const struct front_amount *yields,
             const struct front_amount *portions, size_t *y, size_t *p)
{
    for (*y = 0; yields[*y].kind != YIELD_NONE; ++*y)
        for (*p = 0; portions[*p].kind != YIELD_NONE; ++*p)
            if (yields[*y].kind == portions[*p].kind &&
                (yields[*y].kind != YIELD_COUNT ||
                 same_thing(lists, yields[*y].thing, portions[*p].thing)))
                return true;
    return false;
}

static bool
is_whole(double value)
{
    return fabs(value - round(value)) < 1e-6 * fmax(1, value);
}

/* "serves 4 as a main, 6 as a side", "one cake (serves 8)": the first number behind such a word;
 * false: there is none */
static bool
serves_of(const struct lexicon *lexicon, struct slice text, struct span *out)
{
    bool about = false, asked = false;
    size_t at = 0;
    for (struct slice w; (w = next_word(text, &at)).length > 0;) {
        if (asked && amount_number(lexicon->lists, text, (size_t)(w.at - text.at), out, &about) > 0)
            return out->low > 0;
        asked = asked ? slice_is_anycase(w, "for") || slice_is_anycase(w, "about")
                      : is_one_of(w, word_lists_all(lexicon->lists, WORDS_YIELD_SERVES));
    }
    return false;
}

/* portions out of yield and portion; false when they do not go together */
static bool
divide_yield(struct arena *a, const struct front_matter *front, const struct lexicon *lexicon,
             struct notices *notices, struct dish *out)
{
    struct front_amount yields[YIELD_AMOUNTS_MOST + 1] = {0},
                                                    portions[YIELD_AMOUNTS_MOST + 1] = {0};
    size_t yield_count = front_amounts_read(front->yield.text, lexicon, yields);
    size_t portion_count = front_amounts_read(front->portion.text, lexicon, portions);
    if (front->yield.text.length > 0 && yield_count == 0)
        add_said(notices, RULE_VALUE_UNREADABLE, &front->yield,
                 SLICE("a yield: a number with its thing or measure, such as 24 fingers or 900 g"));
    if (front->portion.text.length > 0 && portion_count == 0)
        add_said(
            notices, RULE_VALUE_UNREADABLE, &front->portion,
            SLICE("a portion: a number with its thing or measure, such as 4 fingers or 150 g"));
    if (portion_count == 0 && serves_of(lexicon, front->yield.text, &out->portions)) {
        out->yield_kind = YIELD_COUNT;
        out->yield = out->portions;
        out->yield_thing = SLICE("servings");
        out->portion = span_exact(1);
        return true;
    }
    if (yield_count == 0)
        return false;
    size_t y = 0, p = 0;
    bool paired = pair_amounts(lexicon->lists, yields, portions, &y, &p);
    if (!paired)
        y = 0;
    out->yield_kind = yields[y].kind;
    out->yield = yields[y].value;
    out->yield_thing = yields[y].thing;
    if (portion_count == 0) {
        if (yields[0].kind != YIELD_COUNT || !names_eaters(lexicon->lists, yields[0].thing))
            return false;
        out->portion = span_exact(1);
        out->portions = yields[0].value;
        return true;
    }
    if (!paired) {
        add_said(notices, RULE_YIELD_MISFIT, &front->portion,
                 text_formatted(a, ": the yield, %.*s, is not counted in the same way",
                                SLICE_ARGS(front->yield.text)));
        return false;
    }
    out->portion = portions[p].value;
    out->portions = span_over(out->yield, out->portion);
    return true;
}

enum { MANY = 10 }; /* portions of a jar or a loaf: what is left over of so many is no misfit */

static void
check_division(struct arena *a, const struct front_matter *front, struct notices *notices,
               const struct dish *d, const struct span *front_value)
{
    struct text more = text_new(a);
    if (d->portions.high < 1 - 1e-9) {
        text_addf(&more, ": it is more than the whole yield, %.*s", SLICE_ARGS(front->yield.text));
    } else if (front_value != NULL && (front_value->low > d->portions.high * (1 + 1e-9) ||
                                       front_value->high < d->portions.low * (1 - 1e-9))) {
        text_add_string(&more, ": yield and portion make ");
        text_add_number(&more, d->portions.mid, 2);
        text_addf(&more, " portions, not %.*s", SLICE_ARGS(front->portions.text));
    } else if (front_value == NULL && d->portions.low == d->portions.high &&
               (d->yield_kind == YIELD_COUNT || d->portions.low < MANY) &&
               !is_whole(d->portions.low)) {
        text_addf(&more, ": %.*s make ", SLICE_ARGS(front->yield.text));
        text_add_number(&more, d->portions.mid, 2);
        text_add_string(&more, " portions of it");
    }
    if (more.length > 0)
        add_said(notices, RULE_YIELD_MISFIT, &front->portion, text_slice(&more));
}

void
yield_read(struct arena *a, const struct front_matter *front, const struct lexicon *lexicon,
           struct notices *notices, struct dish *out)
{
    bool divided = divide_yield(a, front, lexicon, notices, out);
    struct span front_value = {0, 0, 0};
    size_t at = 0, from = 0;
    bool about = false;
    const struct slice text = front->portions.text;
    for (struct slice w; from == 0 && (w = next_word(text, &at)).length > 0;)
        from = amount_number(lexicon->lists, text, (size_t)(w.at - text.at), &front_value, &about);
    bool given = text.length > 0 && from > 0 && front_value.low > 0;
    if (text.length > 0 && !given)
        add_said(notices, RULE_VALUE_UNREADABLE, &front->portions,
                 SLICE("a number of portions or a range of them, such as 6 or 4-6"));
    if (divided && front->portion.text.length > 0)
        check_division(a, front, notices, out, given ? &front_value : NULL);
    if (divided && given)
        /* the fewest of both: what one eats is then never reckoned too small */
        out->portions = front_value.low < out->portions.low ? front_value : out->portions;
    else if (given)
        out->portions = front_value;
    out->portions_known = divided || given;
    if (divided && out->portions.low < 1)
        out->portions_known = false;
    if (!out->portions_known && front->yield.text.length > 0 && front->portion.text.length == 0 &&
        text.length == 0) {
        add_said(notices, RULE_YIELD_MISSING, &front->yield, SLICE(""));
        add_said(notices, RULE_YIELD_MISFIT, &front->yield,
                 SLICE(": neither `portion` nor `portions` says how much of it one eats"));
    }
}
