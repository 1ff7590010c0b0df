#include "tables/food_words.h"

#include <string.h>

#include "tables/food_pairs.h"

/* Latin letters with marks, U+00C0 to U+017F, by their base letters; '-' stands for none */
static const char latin_bases[] =
    "aaaaaaaceeeeiiiidnooooo-ouuuuytsaaaaaaaceeeeiiiidnooooo-ouuuuyty"
    "aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiiiiijjkkklllllll"
    "lllnnnnnnnnnoooooooorrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs";

struct word_row {
    const char *stem;
    enum word_part part;
};

/* sorted by stem, for the search in halves */
static const struct word_row word_rows[] = {
    {"a", WORD_GLUE},
    {"additional", WORD_NOISE},
    {"all", WORD_NOISE},
    {"an", WORD_GLUE},
    {"and", WORD_GLUE},
    {"approximately", WORD_STOP},
    {"artisan", WORD_NOISE},
    {"as", WORD_STOP},
    {"at", WORD_STOP},
    {"baby", WORD_SOFT},
    {"baton", WORD_CUT},
    {"beaten", WORD_HOW},
    {"best", WORD_NOISE},
    {"big", WORD_NOISE},
    {"blanched", WORD_NUT},
    {"boiling", WORD_NOISE},
    {"bone", WORD_SOFT},
    {"boned", WORD_CUT},
    {"boneless", WORD_CUT},
    {"brand", WORD_NOISE},
    {"broken", WORD_HOW},
    {"bruised", WORD_HOW},
    {"but", WORD_GLUE},
    {"chilled", WORD_NOISE},
    {"chopped", WORD_CUT},
    {"chunk", WORD_CUT},
    {"chunky", WORD_HOW},
    {"clean", WORD_NOISE},
    {"cleaned", WORD_CUT},
    {"coarse", WORD_SOFT},
    {"coarsely", WORD_HOW},
    {"coin", WORD_CUT},
    {"cold", WORD_NOISE},
    {"cooking", WORD_SOFT},
    {"cooled", WORD_HOW},
    {"cored", WORD_CUT},
    {"creamy", WORD_SOFT},
    {"crisp", WORD_NOISE},
    {"crumbled", WORD_CUT},
    {"crunchy", WORD_NOISE},
    {"crushed", WORD_CUT},
    {"cubed", WORD_CUT},
    {"cut", WORD_CUT},
    {"deseeded", WORD_CUT},
    {"destoned", WORD_CUT},
    {"deveined", WORD_CUT},
    {"diagonally", WORD_HOW},
    {"diced", WORD_CUT},
    {"drained", WORD_HOW},
    {"each", WORD_NOISE},
    {"eg", WORD_STOP},
    {"extra", WORD_SOFT},
    {"fashioned", WORD_SOFT},
    {"fillet", WORD_SOFT},
    {"filleted", WORD_CUT},
    {"fine", WORD_SOFT},
    {"finely", WORD_HOW},
    {"fire", WORD_SOFT},
    {"firm", WORD_SOFT},
    {"firmly", WORD_HOW},
    {"flaked", WORD_STATE},
    {"flesh", WORD_CUT},
    {"floret", WORD_CUT},
    {"for", WORD_STOP},
    {"free", WORD_NAME},
    {"fresh", WORD_NOISE},
    {"freshly", WORD_HOW},
    {"from", WORD_STOP},
    {"frozen", WORD_SOFT},
    {"generous", WORD_NOISE},
    {"glossy", WORD_NOISE},
    {"good", WORD_NOISE},
    {"grade", WORD_NOISE},
    {"grain", WORD_SOFT},
    {"grated", WORD_CUT},
    {"grind", WORD_SOFT},
    {"ground", WORD_STATE},
    {"halved", WORD_CUT},
    {"heaping", WORD_NOISE},
    {"heirloom", WORD_NOISE},
    {"high", WORD_SOFT},
    {"homemade", WORD_NOISE},
    {"hot", WORD_SOFT},
    {"hulled", WORD_CUT},
    {"ice", WORD_NAME},
    {"if", WORD_STOP},
    {"in", WORD_GLUE},
    {"jointed", WORD_CUT},
    {"juicy", WORD_NOISE},
    {"julienned", WORD_CUT},
    {"just", WORD_NOISE},
    {"large", WORD_NOISE},
    {"lean", WORD_SOFT},
    {"leftover", WORD_NOISE},
    {"lengthways", WORD_HOW},
    {"lengthwise", WORD_HOW},
    {"lightly", WORD_HOW},
    {"like", WORD_STOP},
    {"little", WORD_SOFT},
    {"local", WORD_NOISE},
    {"long", WORD_SOFT},
    {"loosely", WORD_HOW},
    {"lukewarm", WORD_NOISE},
    {"mashed", WORD_STATE},
    {"matchstick", WORD_CUT},
    {"medium", WORD_NOISE},
    {"melted", WORD_HOW},
    {"mild", WORD_SOFT},
    {"minced", WORD_CUT},
    {"natural", WORD_SOFT},
    {"nice", WORD_NOISE},
    {"nonstick", WORD_NOISE},
    {"of", WORD_GLUE},
    {"old", WORD_SOFT},
    {"on", WORD_GLUE},
    {"optional", WORD_NOISE},
    {"organic", WORD_NOISE},
    {"overripe", WORD_NOISE},
    {"packed", WORD_HOW},
    {"peeled", WORD_CUT},
    {"picked", WORD_CUT},
    {"pip", WORD_NAME},
    {"pitted", WORD_CUT},
    {"plain", WORD_SOFT},
    {"plu", WORD_STOP},
    {"plump", WORD_NOISE},
    {"pre", WORD_NOISE},
    {"preferably", WORD_STOP},
    {"premium", WORD_NOISE},
    {"pressed", WORD_HOW},
    {"pure", WORD_SOFT},
    {"pureed", WORD_STATE},
    {"quality", WORD_NOISE},
    {"quartered", WORD_CUT},
    {"range", WORD_NAME},
    {"raw", WORD_SOFT},
    {"ready", WORD_NOISE},
    {"regular", WORD_SOFT},
    {"rehydrated", WORD_NAME},
    {"ribbon", WORD_CUT},
    {"rindless", WORD_CUT},
    {"rinsed", WORD_HOW},
    {"ripe", WORD_NOISE},
    {"roasted", WORD_NUT},
    {"room", WORD_NOISE},
    {"rough", WORD_HOW},
    {"roughly", WORD_HOW},
    {"salted", WORD_NUT},
    {"season", WORD_NOISE},
    {"seasonal", WORD_NOISE},
    {"seeded", WORD_CUT},
    {"seedless", WORD_NOISE},
    {"segmented", WORD_CUT},
    {"separated", WORD_HOW},
    {"shaved", WORD_CUT},
    {"shell", WORD_SOFT},
    {"shelled", WORD_CUT},
    {"shredded", WORD_CUT},
    {"shucked", WORD_CUT},
    {"sieved", WORD_HOW},
    {"sifted", WORD_HOW},
    {"silky", WORD_SOFT},
    {"skin", WORD_SOFT},
    {"skinless", WORD_CUT},
    {"skinned", WORD_CUT},
    {"sliced", WORD_CUT},
    {"slivered", WORD_STATE},
    {"small", WORD_NOISE},
    {"smallish", WORD_NOISE},
    {"softened", WORD_HOW},
    {"some", WORD_GLUE},
    {"spiral", WORD_SOFT},
    {"spray", WORD_SOFT},
    {"stale", WORD_NOISE},
    {"standard", WORD_NOISE},
    {"stemmed", WORD_CUT},
    {"stoned", WORD_CUT},
    {"stripped", WORD_CUT},
    {"sturdy", WORD_NOISE},
    {"such", WORD_STOP},
    {"temperature", WORD_NOISE},
    {"tender", WORD_NOISE},
    {"thawed", WORD_HOW},
    {"the", WORD_GLUE},
    {"then", WORD_GLUE},
    {"thick", WORD_SOFT},
    {"thickly", WORD_HOW},
    {"thin", WORD_SOFT},
    {"thinly", WORD_HOW},
    {"to", WORD_STOP},
    {"toasted", WORD_NUT},
    {"torn", WORD_CUT},
    {"trimmed", WORD_CUT},
    {"twist", WORD_SOFT},
    {"uncooked", WORD_SOFT},
    {"unpeeled", WORD_NOISE},
    {"unroasted", WORD_NUT},
    {"unsalted", WORD_SOFT},
    {"unsmoked", WORD_SOFT},
    {"unsweetened", WORD_SOFT},
    {"unwaxed", WORD_NOISE},
    {"very", WORD_GLUE},
    {"warm", WORD_NOISE},
    {"washed", WORD_NOISE},
    {"well", WORD_HOW},
    {"whisked", WORD_HOW},
    {"whole", WORD_STATE},
    {"with", WORD_STOP},
    {"without", WORD_STOP},
    {"your", WORD_GLUE},
    {"zested", WORD_HOW},
};

/* words that a rule for plurals would get wrong, and other spellings of one word; sorted */
static const struct {
    const char *word, *stem;
} stem_rows[] = {
    {"asparagus", "asparagus"},
    {"brownies", "brownie"},
    {"calves", "calf"},
    {"chile", "chilli"},
    {"chiles", "chilli"},
    {"chili", "chilli"},
    {"chilies", "chilli"},
    {"chilis", "chilli"},
    {"chillies", "chilli"},
    {"chillis", "chilli"},
    {"chipped", "chip"},
    {"cookies", "cookie"},
    {"couscous", "couscous"},
    {"desiccated", "desiccated"},
    {"dessicated", "desiccated"},
    {"dried", "dried"},
    {"dry", "dried"},
    {"filet", "fillet"},
    {"filets", "fillet"},
    {"freerange", "freerange"},
    {"grey", "gray"},
    {"halves", "half"},
    {"knives", "knife"},
    {"leaves", "leaf"},
    {"lite", "light"},
    {"loaves", "loaf"},
    {"lowfat", "lowfat"},
    {"molasses", "molasses"},
    {"nonfat", "nonfat"},
    {"pies", "pie"},
    {"pulverised", "ground"},
    {"pulverized", "ground"},
    {"quiches", "quiche"},
    {"shelves", "shelf"},
    {"skimmed", "skim"},
    {"smoothies", "smoothie"},
    {"swiss", "swiss"},
    {"tin", "can"},
    {"tinned", "canned"},
    {"tins", "can"},
    {"veggies", "vegetable"},
    {"whiskey", "whisky"},
    {"yoghourt", "yoghurt"},
    {"yogurt", "yoghurt"},
    {"yogurts", "yoghurt"},
};

static int
order(struct slice word, const char *row)
{
    for (size_t i = 0; i < word.length; i++)
        if (word.at[i] != row[i])
            return (unsigned char)word.at[i] < (unsigned char)row[i] ? -1 : 1;
    return row[word.length] != '\0' ? -1 : 0;
}

static const char *
irregular(struct slice word)
{
    size_t low = 0, high = sizeof stem_rows / sizeof *stem_rows;
    while (low < high) {
        size_t mid = (low + high) / 2;
        int o = order(word, stem_rows[mid].word);
        if (o == 0)
            return stem_rows[mid].stem;
        if (o < 0)
            high = mid;
        else
            low = mid + 1;
    }
    return NULL;
}

static enum word_part
part_of(struct slice stem)
{
    if (slice_ends(stem, "%")) /* "85% lean", "2% fat": of the label, unless a name has it */
        return WORD_SOFT;
    size_t low = 0, high = sizeof word_rows / sizeof *word_rows;
    while (low < high) {
        size_t mid = (low + high) / 2;
        int o = order(stem, word_rows[mid].stem);
        if (o == 0)
            return word_rows[mid].part;
        if (o < 0)
            high = mid;
        else
            low = mid + 1;
    }
    return WORD_NAME;
}

/* cuts the plural off; both numbers of a word must come to the same stem, nothing more */
static struct slice
singular(struct arena *a, struct slice w)
{
    const char *known = irregular(w);
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
    return (struct food_word){constant ? stem : slice_copy(a, stem), part_of(stem), DIET_VEGAN,
                              from, to};
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
    static const char *const telling[] = {"canned",    "desiccated", "dried",  "evaporated",
                                          "frozen",    "ground",     "rolled", "smoked",
                                          "sweetened", "unsweetened"};
    for (size_t i = 0; i < sizeof telling / sizeof *telling; i++)
        if (slice_is(stem, telling[i]))
            return true;
    return false;
}
