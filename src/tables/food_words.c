#include "tables/food_words.h"

#include <string.h>

#include "tables/food_pairs.h"
#include "tables/food_word_rows.h"

/* Latin letters with marks, U+00C0 to U+017F, by their base letters; '-' stands for none */
static const char latin_bases[] =
    "aaaaaaaceeeeiiiidnooooo-ouuuuytsaaaaaaaceeeeiiiidnooooo-ouuuuyty"
    "aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiiiiijjkkklllllll"
    "lllnnnnnnnnnoooooooorrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs";

/* cuts the plural off; both numbers of a word must come to the same stem, nothing more */
static struct slice
singular(struct arena *a, struct slice w)
{
    const char *known = food_word_stem(w);
    if (known != NULL)
        return slice_of(known);
    if (w.length < 4 || w.at[w.length - 1] != 's' || slice_ends(w, "ss") || slice_ends(w, "us"))
        return w;
    if (slice_ends(w, "ies"))
        return text_formatted(a, "%.*sy", (int)w.length - 3, w.at);
    if (slice_ends(w, "sses") || slice_ends(w, "shes") || slice_ends(w, "ches") ||
        slice_ends(w, "xes") || slice_ends(w, "oes") || slice_ends(w, "zzes"))
        return slice_part(w, 0, w.length - 2);
    return slice_part(w, 0, w.length - 1);
}

/* one character at `at` in lower case without marks: bytes written to out (0 to 4), bytes read */
static size_t
fold(struct slice text, size_t at, char out[4], size_t *written)
{
    unsigned char c = (unsigned char)text.at[at];
    *written = 0;
    if (c < 0x80) {
        bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '%';
        if (c >= 'A' && c <= 'Z') {
            c = (unsigned char)(c - 'A' + 'a');
            letter = true;
        }
        if (letter)
            out[(*written)++] = (char)c;
        return 1;
    }
    size_t bytes = c >= 0xf0 ? 4 : c >= 0xe0 ? 3 : 2;
    if (at + bytes > text.length)
        bytes = text.length - at;
    if (bytes == 2 && c >= 0xc3 && c <= 0xc5) {
        unsigned point = (unsigned)(c & 0x1f) << 6 | ((unsigned char)text.at[at + 1] & 0x3f);
        if (point == 0xc6 || point == 0xe6 || point == 0x152 || point == 0x153) { /* ae, oe */
            out[0] = point < 0x100 ? 'a' : 'o';
            out[1] = 'e';
            *written = 2;
        } else if (latin_bases[point - 0xc0] != '-') {
            out[(*written)++] = latin_bases[point - 0xc0];
        }
        return bytes;
    }
    memcpy(out, text.at + at, bytes); /* other scripts stay as they are */
    *written = bytes;
    return bytes;
}

/* typographic apostrophes: they join a word, so that baker's and bakers are one */
static size_t
apostrophe_at(struct slice text, size_t at)
{
    struct slice rest = slice_part(text, at, text.length);
    return slice_begins(rest, "\xe2\x80\x99") || slice_begins(rest, "\xe2\x80\x98") ? 3 : 0;
}

/* spaces and dashes of three bytes, the times sign and no-break space */
static size_t
separator_at(struct slice text, size_t at)
{
    struct slice rest = slice_part(text, at, text.length);
    if (slice_begins(rest, "\xc2\xa0") || slice_begins(rest, "\xc3\x97") ||
        slice_begins(rest, "\xc2\xae"))
        return 2;
    return slice_begins(rest, "\xe2\x80") || slice_begins(rest, "\xe2\x84\xa2") ? 3 : 0;
}

static struct food_word
word_of(struct arena *a, const char *letters, size_t count, size_t from, size_t to)
{
    struct slice stem = singular(a, (struct slice){letters, count});
    bool constant = stem.at != letters;
    return (struct food_word){constant ? stem : slice_copy(a, stem), food_word_part(stem),
                              DIET_VEGAN, from, to};
}

/* the word, or the two that "GF" and "DF" stand for; how many */
static size_t
words_of(struct arena *a, struct slice letters, size_t from, size_t to, struct food_word *out,
         size_t room)
{
    bool gluten = slice_is(letters, "gf");
    if (room < 2 || (!gluten && !slice_is(letters, "df"))) {
        *out = word_of(a, letters.at, letters.length, from, to);
        return 1;
    }
    struct slice what = gluten ? SLICE("gluten") : SLICE("dairy");
    out[0] = (struct food_word){what, WORD_NAME, DIET_VEGAN, from, to};
    out[1] = (struct food_word){SLICE("free"), WORD_NAME, DIET_VEGAN, from, to};
    return 2;
}

size_t
food_words_split(struct arena *a, struct slice text, struct food_word words[FOOD_WORDS_MOST])
{
    enum { LETTERS_MOST = 60 };
    char letters[LETTERS_MOST + 4];
    size_t count = 0, letter_count = 0, from = 0, to = 0;
    for (size_t at = 0; at < text.length && count < FOOD_WORDS_MOST;) {
        bool plain = (unsigned char)text.at[at] < 0x80;
        size_t written = 0, read = plain ? 0 : separator_at(text, at);
        char out[4];
        size_t joins = plain ? text.at[at] == '\'' : apostrophe_at(text, at);
        if (joins > 0) {
            at += joins;
            continue;
        }
        if (read == 0)
            read = fold(text, at, out, &written);
        if (written > 0) {
            if (letter_count == 0)
                from = at;
            if (letter_count < LETTERS_MOST) {
                memcpy(letters + letter_count, out, written);
                letter_count += written;
            }
            to = at + read;
        } else if (letter_count > 0) {
            count += words_of(a, (struct slice){letters, letter_count}, from, to, words + count,
                              FOOD_WORDS_MOST - count);
            letter_count = 0;
        }
        at += read;
    }
    if (letter_count > 0 && count < FOOD_WORDS_MOST)
        count += words_of(a, (struct slice){letters, letter_count}, from, to, words + count,
                          FOOD_WORDS_MOST - count);
    food_pairs_join(words, count);
    return count;
}

bool
food_word_tells(struct slice stem)
{
    static const char *const telling[] = {"canned",     "dehydrated", "desiccated", "dried",
                                          "evaporated", "frozen",     "ground",     "rolled",
                                          "smoked",     "sweetened",  "unsweetened"};
    for (size_t i = 0; i < sizeof telling / sizeof *telling; i++)
        if (slice_is(stem, telling[i]))
            return true;
    return false;
}
