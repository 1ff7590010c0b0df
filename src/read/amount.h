/* An amount as a cook writes it: "1½ cups", "2-3", "a couple of", "1 x 400 g tin", "3 tbsp + 1
 * tsp". Knows the grammar of numbers; which words are units, and of what, it asks a lexicon. */
#ifndef READ_AMOUNT_H
#define READ_AMOUNT_H

#include "base/notice.h"
#include "base/span.h"
#include "read/word_lists.h"

enum unit_kind {
    UNIT_VOLUME, /* `size` mL */
    UNIT_WEIGHT, /* `size` g */
    UNIT_PIECE,  /* clove, stalk, bunch, slice, tin: the food says what one weighs */
    UNIT_VAGUE   /* pinch, splash, handful: the measures table or the food gives a span */
};

struct unit {
    const char *id; /* cup, tbsp, g, clove, pinch: the key of its row in measures.yaml */
    enum unit_kind kind;
    bool spoon;       /* teaspoon to tablespoon: takes level, rounded, heaped */
    struct span size; /* mL or g in the region asked for; vague: mL, or g where `vague_grams` */
    bool vague_grams;
    const char *source;
    struct slice shown_one, shown_many; /* how the region writes it */
};

/* what the line reader asks of the tables; all functions take `ctx` first */
struct lexicon {
    void *ctx;
    /* the unit these words mean in the post's region, or NULL. `words` is one to three words as
     * written ("fl oz", "T", "tbsp.", "Tablespoons") */
    const struct unit *(*unit)(void *ctx, struct slice words);
    /* whether the words name a food exactly (used to split "salt and pepper", "milk or cream") */
    bool (*food)(void *ctx, struct slice words);
    /* whether the words are a name of a food as it is written, word by word; may be NULL itself */
    bool (*exactly)(void *ctx, struct slice words);
    /* spellings of units near a wrong word, best first, NULL-filled; may be NULL itself */
    void (*nearest)(void *ctx, struct slice word, const char *nearest[3]);
    const struct word_lists *lists; /* of the language */
    bool decimal_comma; /* the language writes 1,5 for one and a half, and 1.000 for a thousand */
};

enum fill {
    FILL_NONE,
    FILL_LEVEL,
    FILL_ROUNDED,
    FILL_HEAPED,
    FILL_SCANT,
    FILL_PACKED,
    FILL_SIFTED
};
enum piece_size { SIZE_NONE, SIZE_SMALL, SIZE_MEDIUM, SIZE_LARGE };

struct amount {
    struct span value;       /* "2-3" is 2, 2.5, 3; "a couple" 2 */
    const struct unit *unit; /* NULL: a plain count ("3 tomatoes") */
    enum fill fill;
    enum piece_size size;
    bool about;     /* "about", "roughly", "~" */
    bool plus;      /* adds to the amount before it ("3 tbsp + 1 tsp"), else another measure
                       of the same ("1 cup (170 g)") */
    bool container; /* the tin of "1 x 400 g tin": says how it is sold, weighs nothing of its own */
    bool each;      /* "1 x 400 g tin": value is per piece; multiply by `times` */
    struct span times; /* for each; else exactly 1 */
    size_t from, to;   /* bytes in the line */
};

/* reads one amount with its unit at byte `at` of the line; bytes read, 0 when there is none.
 * A number followed by words that are no unit is a plain count and ends before them. */
size_t amount_read(struct slice line, size_t at, const struct lexicon *lexicon, struct amount *out);

/* bytes of the unit at byte `at` (no space before it), 0 when there is none */
size_t amount_unit(struct slice line, size_t at, const struct lexicon *lexicon,
                   const struct unit **unit);

/* bytes of a word that says how a spoon or cup is filled ("heaped ", "firmly packed "), with the
 * space behind it, or 0 */
size_t amount_fill(const struct word_lists *lists, struct slice line, size_t at, enum fill *fill);

/* reads a number or range alone ("1½", "2 to 4", "half a dozen"); bytes read, 0 when none */
size_t amount_number(const struct word_lists *lists, struct slice line, size_t at, struct span *out,
                     bool *about);

#endif
