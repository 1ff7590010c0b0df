#include "tables/food_near.h"

#include "base/edit.h"

enum { NEAR_MOST = 24, SKELETON_MOST = 24, SHORTEST_WORD = 5, LONG_WORD = 7, CORRECTED_MOST = 2 };

/* the larder's words that are near one of the question */
struct near_words {
    struct slice stems[NEAR_MOST];
    double like[NEAR_MOST]; /* 1: the same */
    size_t count;
};

struct near_name {
    const struct food_name *name;
    double score;
};

/* slips of the pen seldom change the first letter, and this spares most of the work */
static bool
may_be_near(struct slice word, struct slice stem, size_t most)
{
    const size_t longer = word.length > stem.length ? word.length : stem.length;
    const size_t shorter = word.length + stem.length - longer;
    return longer - shorter <= most && stem.length > 0 && word.at[0] == stem.at[0];
}

static void
find_near(const struct food_query *q, const struct food_word *w, struct near_words *out)
{
    const struct map *stems = &q->larder->stems;
    const size_t most = w->stem.length < 4 ? 0 : w->stem.length < 7 ? 1 : 2;
    out->count = 0;
    for (size_t i = 0; i < stems->count && out->count < NEAR_MOST; i++) {
        if (!may_be_near(w->stem, stems->rows[i].key, most))
            continue;
        const size_t d = edit_distance(w->stem, stems->rows[i].key, most);
        if (d > most)
            continue;
        out->stems[out->count] = stems->rows[i].key;
        out->like[out->count++] = 1 - 0.2 * (double)d;
    }
}

/* keeps the three best names, one a food */
static void
keep_near(struct near_name best[3], const struct food_name *name, double score)
{
    size_t last = 2;
    for (size_t i = 0; i < 3; i++)
        if (best[i].name != NULL && best[i].name->row == name->row) {
            if (best[i].score >= score)
                return;
            last = i;
        }
    if (best[last].name != NULL && best[last].score >= score)
        return;
    while (last > 0 && (best[last - 1].name == NULL || best[last - 1].score < score)) {
        best[last] = best[last - 1];
        last--;
    }
    best[last] = (struct near_name){name, score};
}

/* how near a word of the question comes to one of a key's */
static double
nearest_in(const struct near_words *near, struct slice key)
{
    double best = 0;
    for (size_t at = 0; at < key.length && near->count > 0;) {
        size_t end = slice_find_byte(key, ' ', at);
        end = end == SIZE_MAX ? key.length : end;
        for (size_t i = 0; i < near->count; i++)
            if (near->like[i] > best && slice_equal(near->stems[i], slice_part(key, at, end)))
                best = near->like[i];
        at = end + 1;
    }
    return best;
}

static size_t
words_in(struct slice key)
{
    size_t n = key.length > 0;
    for (size_t i = 0; i < key.length; i++)
        n += key.at[i] == ' ';
    return n;
}

void
food_near(const struct food_query *q, const char *nearest[3])
{
    struct near_name best[3] = {{NULL, 0}, {NULL, 0}, {NULL, 0}};
    struct near_words near[FOOD_WORDS_MOST + 2];
    const struct map *names = &q->larder->names;
    size_t counted = 0;
    bool last = false; /* the last word is the noun */
    for (size_t i = 0; i < q->count; i++) {
        if (q->words[i].part == WORD_GLUE || q->words[i].part == WORD_NOISE)
            continue;
        find_near(q, &q->words[i], &near[counted++]);
        last = i + 1 == q->count;
    }
    for (size_t i = 0; i < names->count; i++) {
        double shared = 0;
        for (size_t k = 0; k < counted; k++)
            shared +=
                nearest_in(&near[k], names->rows[i].key) * (last && k + 1 == counted ? 1.2 : 1);
        const double all = (double)(counted + words_in(names->rows[i].key));
        if (shared > 0 && 2 * shared / all >= 0.5)
            keep_near(best, names->rows[i].value, 2 * shared / all);
    }
    for (size_t i = 0; i < 3; i++)
        nearest[i] = best[i].name != NULL ? best[i].name->text : NULL;
}

/* the consonants that are heard, doubled ones once: "brocolli" and "broccoli" are brkl */
static struct slice
skeleton(struct slice word, char out[SKELETON_MOST])
{
    size_t count = 0;
    for (size_t i = 0; i < word.length && count < SKELETON_MOST; i++) {
        char c = word.at[i];
        const char next = i + 1 < word.length ? word.at[i + 1] : '\0';
        if (c == 'p' && next == 'h')
            c = 'f';
        c = c == 'c' || c == 'q' ? 'k' : c == 'z' ? 's' : c;
        const bool silent = c == 'a' || c == 'e' || c == 'i' || c == 'o' || c == 'u' || c == 'y' ||
                            c == 'h' || c == 'w';
        if (!silent && (count == 0 || out[count - 1] != c))
            out[count++] = c;
    }
    return (struct slice){out, count};
}

static bool
sounds_like(struct slice one, struct slice other)
{
    char a[SKELETON_MOST], b[SKELETON_MOST];
    return slice_equal(skeleton(one, a), skeleton(other, b));
}

/* the one word of the larder that is near, or none */
static struct slice
correct_word(const struct food_query *q, struct slice word)
{
    const struct map *stems = &q->larder->stems;
    const size_t most = 2;
    struct slice best = SLICE("");
    size_t least = most + 1;
    bool alone = true;
    for (size_t i = 0; i < stems->count; i++) {
        struct slice stem = stems->rows[i].key;
        if (stem.length < SHORTEST_WORD || !may_be_near(word, stem, most))
            continue;
        const size_t d = edit_distance(word, stem, most);
        /* two slips in a short word keep both ends: "yogart", but "philly" is no phyllo */
        const bool ends = d < 2 || word.length >= LONG_WORD ||
                          word.at[word.length - 1] == stem.at[stem.length - 1];
        const bool heard = d <= most && ends && sounds_like(word, stem);
        const bool slip = d == 1 && word.length >= LONG_WORD && stem.length >= LONG_WORD;
        if (d > least || !(heard || slip))
            continue;
        alone = d < least;
        least = d;
        best = stem;
    }
    return alone ? best : SLICE("");
}

bool
food_near_correct(struct food_query *q)
{
    size_t corrected = 0;
    for (size_t i = 0; i < q->count; i++) {
        struct food_word *w = &q->words[i];
        if (w->part != WORD_NAME || map_get(&q->larder->stems, w->stem) != NULL)
            continue;
        if (word_lists_have(q->larder->words, WORDS_IMITATIONS, w->stem))
            return false;
        struct slice near = w->stem.length >= SHORTEST_WORD ? correct_word(q, w->stem) : SLICE("");
        if (near.length == 0 || ++corrected > CORRECTED_MOST)
            return false;
        w->stem = near;
    }
    return corrected > 0;
}
