#include "tables/food_words.h"

#include <string.h>

#include "tables/food_pairs.h"

/* Latin letters with marks, U+00C0 to U+017F, by their base letters; '-' stands for none */
static const char latin_bases[] =
    "aaaaaaaceeeeiiiidnooooo-ouuuuytsaaaaaaaceeeeiiiidnooooo-ouuuuyty"
    "aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiiiiijjkkklllllll"
    "lllnnnnnnnnnoooooooorrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs";

/* cuts the plural off; both numbers of a word must come to the same stem, nothing more */
static struct slice
singular(struct arena *a, const struct word_lists *lists, struct slice w)
{
    const struct word_value *known = word_lists_value(lists, WORDS_FOOD_STEMS, w);
    if (known != NULL)
        return slice_of(known->text);
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

static enum word_part
part_of(const struct word_lists *lists, struct slice stem)
{
    if (slice_ends(stem, "%")) /* "85% lean", "2% fat": of the label, unless a name has it */
        return WORD_SOFT;
    if (stem.length == 2 && stem.at[0] >= '0' && stem.at[0] <= '9' && stem.at[1] >= '0' &&
        stem.at[1] <= '9') /* "80/20 mince", "70 dark chocolate" */
        return WORD_SOFT;
    const struct word_value *known = word_lists_value(lists, WORDS_FOOD_WORDS, stem);
    return known != NULL ? (enum word_part)known->kind : WORD_NAME;
}

struct splitter {
    struct arena *arena;
    const struct word_lists *lists;
    struct food_word *words;
    size_t count;
};

/* adds the word, or the two that "GF" and "DF" stand for */
static void
add_words(struct splitter *s, struct slice letters, size_t from, size_t to)
{
    const bool gluten = slice_is(letters, "gf");
    if (s->count + 1 < FOOD_WORDS_MOST && (gluten || slice_is(letters, "df"))) {
        struct slice what = gluten ? SLICE("gluten") : SLICE("dairy");
        s->words[s->count++] = (struct food_word){what, WORD_NAME, DIET_VEGAN, from, to};
        s->words[s->count++] = (struct food_word){SLICE("free"), WORD_NAME, DIET_VEGAN, from, to};
        return;
    }
    struct slice stem = singular(s->arena, s->lists, letters);
    if (stem.at == letters.at)
        stem = slice_copy(s->arena, stem);
    s->words[s->count++] = (struct food_word){stem, part_of(s->lists, stem), DIET_VEGAN, from, to};
}

size_t
food_words_split(struct arena *a, const struct word_lists *lists, struct slice text,
                 struct food_word words[FOOD_WORDS_MOST])
{
    enum { LETTERS_MOST = 60 };
    char letters[LETTERS_MOST + 4];
    struct splitter s = {a, lists, words, 0};
    size_t letter_count = 0, from = 0, to = 0;
    for (size_t at = 0; at < text.length && s.count < FOOD_WORDS_MOST;) {
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
            add_words(&s, (struct slice){letters, letter_count}, from, to);
            letter_count = 0;
        }
        at += read;
    }
    if (letter_count > 0 && s.count < FOOD_WORDS_MOST)
        add_words(&s, (struct slice){letters, letter_count}, from, to);
    food_pairs_join(lists, words, s.count);
    return s.count;
}
