#include "read/words.h"

#include <string.h>

#include "base/list.h"
#include "read/character.h"

/* what each byte begins: a space, a mark, 0 a digit, a or A a letter, * a character of more bytes
 */
static const char begins[256 + 1] = ".........     .................."
                                    " ...............0000000000......"
                                    ".AAAAAAAAAAAAAAAAAAAAAAAAAA....."
                                    ".aaaaaaaaaaaaaaaaaaaaaaaaaa....."
                                    "********************************"
                                    "********************************"
                                    "********************************"
                                    "********************************";

/* U+00C0 to U+00FF without their accents */
static const char plain_letters[] = "aaaaaaaceeeeiiiidnooooo*ouuuuyts"
                                    "aaaaaaaceeeeiiiidnooooo/ouuuuyty";

static bool
digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool
ascii_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static double
digits_value(struct slice s)
{
    double value = 0;
    for (size_t i = 0; i < s.length && value < 1e12; i++)
        value = value * 10 + (s.at[i] - '0');
    return value;
}

static size_t
digits_at(struct slice s, size_t at)
{
    size_t n = 0;
    while (at + n < s.length && digit(s.at[at + n]))
        n++;
    return n;
}

/* "1/2" at `at`: a proper fraction with a kitchen's denominator, so that "6/200" is none */
static size_t
slash_fraction(struct slice s, size_t at, double *value)
{
    size_t n = digits_at(s, at);
    if (n == 0 || n > 2)
        return 0;
    size_t over = at + n;
    if (over < s.length && s.at[over] == '/')
        over++;
    else if (slice_begins(slice_part(s, over, s.length), "⁄"))
        over += 3;
    else
        return 0;
    size_t m = digits_at(s, over);
    if (m == 0 || m > 2)
        return 0;
    double top = digits_value(slice_part(s, at, at + n));
    double bottom = digits_value(slice_part(s, over, over + m));
    if (top >= bottom || bottom > 16 || bottom < 2)
        return 0;
    *value = top / bottom;
    return over + m - at;
}

/* a fraction that stands behind a whole number: "½", " ½", " 1/2", "-1/2" */
static size_t
mixed_fraction(struct slice s, size_t at, double *value)
{
    size_t gap = character_space(slice_part(s, at, s.length));
    const struct fraction *f = character_fraction(slice_part(s, at + gap, s.length));
    if (f != NULL) {
        *value = f->value;
        return gap + strlen(f->bytes);
    }
    if (gap == 0 && at < s.length && s.at[at] == '-')
        gap = 1;
    if (gap == 0)
        return 0;
    size_t n = slash_fraction(s, at + gap, value);
    return n > 0 ? gap + n : 0;
}

/* a number at the start of s: its bytes, 0 when there is none */
static size_t
number_at(struct slice s, double *value)
{
    const struct fraction *f = character_fraction(s);
    if (f != NULL) {
        *value = f->value;
        return strlen(f->bytes);
    }
    size_t n = slash_fraction(s, 0, value);
    if (n > 0)
        return n;
    n = digits_at(s, 0);
    if (n == 0)
        return 0;
    *value = digits_value(slice_part(s, 0, n));
    while (n + 1 < s.length && (s.at[n] == '.' || s.at[n] == ',') && digit(s.at[n + 1])) {
        size_t m = digits_at(s, n + 1);
        double more = digits_value(slice_part(s, n + 1, n + 1 + m));
        if (s.at[n] == ',' && m == 3) {
            *value = *value * 1000 + more;
            n += 1 + m;
            continue;
        }
        for (size_t i = 0; i < m; i++)
            more /= 10;
        *value += more;
        return n + 1 + m;
    }
    double part = 0;
    size_t more = mixed_fraction(s, n, &part);
    *value += part;
    return n + more;
}

/* how many bytes of letters (apostrophes inside, no hyphens) begin s */
static size_t
letters_at(struct slice s)
{
    size_t i = 0;
    while (i < s.length) {
        if (ascii_letter(s.at[i])) {
            i++;
            continue;
        }
        struct slice rest = slice_part(s, i, s.length);
        unsigned char c = (unsigned char)s.at[i];
        size_t n = character_length(rest);
        bool apostrophe = s.at[i] == '\'' || slice_begins(rest, "’");
        if (apostrophe) {
            if (i == 0 || i + n >= s.length || !ascii_letter(s.at[i + n]))
                break;
        } else if (c < 0x80) {
            break;
        } else if (character_folding(rest) != NULL || character_fraction(rest) != NULL ||
                   (c == 0xe2 && n == 3 && (unsigned char)s.at[i + 1] <= 0x81) || c == 0xc2) {
            break;
        }
        i += n;
    }
    return i;
}

/* letters folded into `bytes`, which has room for as many */
static struct slice
fold_letters(struct slice s, char *bytes)
{
    size_t n = 0;
    for (size_t i = 0; i < s.length;) {
        struct slice rest = slice_part(s, i, s.length);
        unsigned char c = (unsigned char)s.at[i];
        if (c >= 'A' && c <= 'Z') {
            bytes[n++] = (char)(c - 'A' + 'a');
            i++;
        } else if (c == 0xc3 && rest.length > 1 && ((unsigned char)rest.at[1] & 0xc0) == 0x80) {
            bytes[n++] = plain_letters[(unsigned char)rest.at[1] & 0x3f];
            i += 2;
        } else if (slice_begins(rest, "’")) {
            bytes[n++] = '\'';
            i += 3;
        } else {
            bytes[n++] = s.at[i++];
        }
    }
    return (struct slice){bytes, n};
}

/* a full stop closes a sentence unless the writing goes on in lower case ("10 min. per side") */
static bool
stop_closes(struct slice text, size_t at)
{
    while (at < text.length && (character_space(slice_part(text, at, text.length)) > 0 ||
                                text.at[at] == ')' || text.at[at] == '"'))
        at++;
    return at >= text.length || !(text.at[at] >= 'a' && text.at[at] <= 'z');
}

struct cutter {
    struct arena *arena;
    struct slice text;
    char *lower; /* as long as the text, once a word is not written as it is folded */
};

static inline char
begins_at(struct slice text, size_t i)
{
    return i < text.length ? begins[(unsigned char)text.at[i]] : ' ';
}

/* the letters at byte i folded, when they have capitals, accents or apostrophes */
static struct slice
fold(struct cutter *c, size_t i, size_t n, bool ascii)
{
    if (c->lower == NULL)
        c->lower = arena_take_raw(c->arena, c->text.length);
    char *lower = c->lower + i;
    if (!ascii)
        return fold_letters((struct slice){c->text.at + i, n}, lower);
    for (size_t k = 0; k < n; k++)
        lower[k] = (char)(c->text.at[i + k] | 0x20);
    return (struct slice){lower, n};
}

/* where the lower-case letters of ASCII end that begin at byte i */
static inline size_t
lower_to(struct slice text, size_t i)
{
    while (i < text.length && begins[(unsigned char)text.at[i]] == 'a')
        i++;
    return i;
}

/* the letters at byte i into w, of which those up to `to` are known to be in lower case; bytes, 0
 * when there are none */
static size_t
letters_read(struct cutter *c, size_t i, size_t to, struct word *w)
{
    struct slice text = c->text;
    size_t n = to;
    w->kind = WORD_LETTERS;
    w->upper = begins_at(text, i) == 'A';
    while ((begins_at(text, n) | 0x20) == 'a')
        n++;
    if (n < text.length && (text.at[n] == '\'' || begins_at(text, n) == '*')) {
        size_t all = letters_at(slice_part(text, i, text.length));
        if (i + all > n) {
            w->folded = fold(c, i, all, false);
            return all;
        }
    }
    w->folded = n > to ? fold(c, i, n - i, true) : (struct slice){text.at + i, n - i};
    return n - i;
}

/* the mark at the start of rest into w; bytes */
static size_t
mark_read(struct slice rest, struct word *w)
{
    const struct folding *f = character_folding(rest);
    size_t n = f != NULL ? strlen(f->bytes) : character_length(rest);
    w->kind = WORD_MARK;
    w->folded = f != NULL ? slice_of(f->as) : slice_part(rest, 0, n);
    return n;
}

/* the word, number or mark at byte i, which begins as `kind` does, into w; bytes */
static inline size_t
word_read(struct cutter *c, size_t i, char kind, struct word *w)
{
    const struct slice rest = {c->text.at + i, c->text.length - i};
    size_t n = 0;
    if (kind == 'a') {
        n = lower_to(c->text, i);
        if (begins_at(c->text, n) != ' ')
            return letters_read(c, i, n, w);
        w->kind = WORD_LETTERS;
        w->folded = (struct slice){rest.at, n - i};
        return n - i;
    }
    if (kind == 'A')
        return letters_read(c, i, i, w);
    if (kind == '0' || kind == '*')
        n = number_at(rest, &w->value);
    if (n > 0) {
        w->kind = WORD_NUMBER;
        w->folded = slice_part(rest, 0, n);
        return n;
    }
    if (kind == '*' && (n = letters_read(c, i, i, w)) > 0)
        return n;
    return mark_read(rest, w);
}

/* the bit for how a word begins, by its first two characters; the second of a short one is 0 */
static inline size_t
begins_bit(char first, char second)
{
    return ((size_t)(unsigned char)first * 21 + (size_t)(second & 31)) % BEGINS;
}

static inline void
note_begins(struct words *w, struct slice word)
{
    const size_t bit = begins_bit(word.at[0], word.length > 1 ? word.at[1] : '\0');
    w->begins[bit / 64] |= UINT64_C(1) << bit % 64;
}

/* false: no word begins as the phrase does */
static inline bool
may_begin(const struct words *w, const char *phrase)
{
    if (phrase[0] == '\0')
        return false;
    if (phrase[1] == '*')
        return true;
    const size_t bit = begins_bit(phrase[0], phrase[1] != ' ' ? phrase[1] : '\0');
    return (w->begins[bit / 64] >> bit % 64 & 1) != 0;
}

/* room for more words; there is mostly room for all at once, five bytes a word being few */
static void
widen(struct arena *a, struct words *out, size_t length)
{
    if (out->items != NULL) {
        out->items = list_widen(a, out->items, &out->room, sizeof *out->items);
        return;
    }
    out->room = length / 4 + 4;
    out->items = arena_take_raw(a, out->room * sizeof *out->items);
}

void
words_read(struct arena *a, const struct word_lists *lists, struct slice text, struct words *out)
{
    struct cutter c = {a, text, NULL};
    uint32_t sentence = 0;
    bool joined = false, closed = false;
    *out = (struct words){.lists = lists};
    for (size_t i = 0; i < text.length;) {
        char kind = begins[(unsigned char)text.at[i]];
        size_t n = kind == ' '   ? 1
                   : kind == '*' ? character_space(slice_part(text, i, text.length))
                                 : 0;
        if (n > 0) {
            closed = closed || text.at[i] == '\n';
            joined = false;
            i += n;
            continue;
        }
        if (out->count == out->room)
            widen(a, out, text.length);
        struct word *w = &out->items[out->count++];
        *w = (struct word){.from = (uint32_t)i, .sentence = sentence += closed, .joined = joined};
        i += word_read(&c, i, kind, w);
        w->to = (uint32_t)i;
        closed = false;
        note_begins(out, w->folded);
        if (w->kind == WORD_MARK) {
            char mark = w->folded.at[0];
            closed = mark == '!' || mark == '?' || (mark == '.' && stop_closes(text, i));
        }
        joined = i == text.length || text.at[i] != ' ';
        i += !joined; /* as most words have it */
    }
}

bool
words_among(const struct word *w, const char *const *list)
{
    return slice_among(w->folded, list);
}

/* whether `word` is the first word of the phrase, or begins as one that ends in `*`; *rest is what
 * follows in the phrase */
static inline bool
is_next(struct slice word, const char *phrase, const char **rest)
{
    size_t n = 0;
    while (n < word.length && phrase[n] == word.at[n]) /* no letter is NUL */
        n++;
    if (phrase[n] == '*' && n > 0 && (phrase[n + 1] == ' ' || phrase[n + 1] == '\0'))
        n++;
    else if (n != word.length || (phrase[n] != ' ' && phrase[n] != '\0'))
        return false;
    *rest = phrase + n + (phrase[n] == ' ');
    return true;
}

size_t
words_phrase(const struct words *w, size_t i, const char *phrase)
{
    size_t at = i;
    while (*phrase != '\0') {
        if (at > i && at + 1 < w->count && word_is(&w->items[at], "-") && phrase[0] != '-')
            at++;
        if (at >= w->count || !is_next(w->items[at].folded, phrase, &phrase))
            return 0;
        at++;
    }
    return at - i;
}

size_t
words_find(const struct words *w, const char *phrase, size_t from, size_t to)
{
    if (to > w->count)
        to = w->count;
    if (!may_begin(w, phrase))
        return SIZE_MAX;
    for (size_t i = from; i < to; i++)
        if (words_at(w, i, phrase) > 0)
            return i;
    return SIZE_MAX;
}

const char *
words_any(const struct words *w, const char *const *phrases, size_t from, size_t to, size_t *at)
{
    for (; phrases != NULL && *phrases != NULL; phrases++) {
        size_t i = words_find(w, *phrases, from, to);
        if (i == SIZE_MAX)
            continue;
        if (at != NULL)
            *at = i;
        return *phrases;
    }
    return NULL;
}

const char *
words_next(const struct words *w, const char *const *phrases, size_t from, size_t *at)
{
    const char *next = NULL;
    for (; *phrases != NULL; phrases++) {
        const size_t i = words_find(w, *phrases, from, next != NULL ? *at : w->count);
        if (i == SIZE_MAX)
            continue;
        *at = i;
        next = *phrases;
    }
    return next;
}

size_t
words_byte(const struct words *w, size_t byte)
{
    size_t low = 0, high = w->count;
    while (low + 1 < high) {
        size_t mid = low + (high - low) / 2;
        if (w->items[mid].from <= byte)
            low = mid;
        else
            high = mid;
    }
    return low;
}

size_t
words_sentence_from(const struct words *w, size_t i)
{
    size_t most = i > SENTENCE_MOST ? i - SENTENCE_MOST : 0;
    while (i > most && w->items[i - 1].sentence == w->items[i].sentence)
        i--;
    return i;
}

size_t
words_sentence_to(const struct words *w, size_t i)
{
    size_t most = i + SENTENCE_MOST < w->count ? i + SENTENCE_MOST : w->count;
    uint32_t sentence = w->items[i].sentence;
    while (i < most && w->items[i].sentence == sentence)
        i++;
    return i;
}
