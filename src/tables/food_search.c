#include "tables/food_search.h"

#include <string.h>

#include "tables/food_head.h"
#include "tables/food_stems.h"
#include "tables/food_words.h"

/* how well a name fits what was asked; equal strength of two foods is ambiguous */
enum strength {
    STRENGTH_NONE = 0,
    STRENGTH_OTHER_MEASURE = 6, /* "pepper" by the spoon, but counted here */
    STRENGTH_OTHER_REGION = 8,
    STRENGTH_NEAR_REGION = 12, /* a New Zealander uses Australia's word */
    STRENGTH_ID = 16,
    STRENGTH_ANY = 18,
    STRENGTH_OWN = 20,
    STRENGTH_UNMEASURED = 25, /* no amount, and a name for spoons */
    STRENGTH_REGION = 30,
    STRENGTH_MEASURE = 40
};

enum { OPTIONAL_MOST = 8 };

static bool
is_near_region(const char *speech, const char *other)
{
    static const char *const near[][2] = {{"nz", "au"}, {"au", "nz"}, {"ca", "us"},
                                          {"us", "ca"}, {"nz", "uk"}, {"au", "uk"}};
    for (size_t i = 0; i < sizeof near / sizeof *near; i++)
        if (strcmp(speech, near[i][0]) == 0 && strcmp(other, near[i][1]) == 0)
            return true;
    return false;
}

static int
name_strength(const struct food_name *n, const char *speech, enum measured_by by)
{
    switch (n->scope) {
    case NAME_OWN:
        return STRENGTH_OWN;
    case NAME_ANY:
        return STRENGTH_ANY;
    case NAME_ID:
        return STRENGTH_ID;
    case NAME_REGION:
        if (strcmp(n->region, speech) == 0)
            return STRENGTH_REGION;
        return is_near_region(speech, n->region) ? STRENGTH_NEAR_REGION : STRENGTH_OTHER_REGION;
    case NAME_MEASURED:
        break;
    }
    if (n->by == by)
        return STRENGTH_MEASURE;
    return by == BY_NOTHING && n->by == BY_SPOON ? STRENGTH_UNMEASURED : STRENGTH_OTHER_MEASURE;
}

/* whether the stem chooses a form of the food */
static bool
chooses_form(const struct food *f, struct slice stem)
{
    for (size_t i = 0; i < f->form_count; i++) {
        const struct form *form = &f->forms[i];
        for (size_t k = 0; k < form->chosen_by_count; k++)
            if (form->chosen_by[k].count == 1 && slice_equal(form->chosen_by[k].items[0], stem))
                return true;
    }
    return false;
}

/* the piece of the food that the stem means: "clove" of garlic; or NULL */
static const char *
piece_of(const struct food *f, struct slice stem)
{
    for (size_t i = 0; i < f->form_count; i++)
        for (size_t k = 0; k < f->forms[i].piece_count; k++)
            if (slice_is(stem, f->forms[i].pieces[k].word))
                return f->forms[i].pieces[k].word;
    return NULL;
}

static bool
is_piece_or_form(const struct food *f, struct slice stem)
{
    return piece_of(f, stem) != NULL || chooses_form(f, stem);
}

/* grains and pulses are dry unless they are said to be cooked or canned */
static bool
is_dry(const struct food *f)
{
    bool stored = f->food_class == CLASS_GRAIN || f->food_class == CLASS_LEGUME;
    return stored && !f->fresh && strstr(f->name, "canned") == NULL &&
           strstr(f->name, "cooked") == NULL;
}

bool
food_swells(const struct food *f, enum measured_by by)
{
    return is_dry(f) || (f->fresh && by != BY_WEIGHT);
}

/* whether word `i`, not the last, stands in another name of the food, so that it says nothing of
 * another one: "dried ancho chilli", where "dried poblano" is the same */
static bool
is_said_elsewhere(const struct food_query *q, size_t i, const struct food_row *row)
{
    struct food_word words[FOOD_WORDS_MOST];
    if (i + 1 >= q->count || q->words[i + 1].from >= q->bytes ||
        map_get(&q->larder->names, q->words[i].stem) != NULL)
        return false; /* no milk is meant by "cream milk", though "full cream milk" is its name */
    for (size_t n = 0; n < row->name_count; n++) {
        const size_t count =
            food_words_split(q->arena, q->larder->words, slice_of(row->names[n].text), words);
        for (size_t k = 0; k + 1 < count; k++)
            if (slice_equal(words[k].stem, q->words[i].stem))
                return true;
    }
    return false;
}

/* whether the word may be left out of the name of this food */
static bool
matters_not(const struct food_query *q, size_t i, const struct food_row *row)
{
    const struct food_word *w = &q->words[i];
    const struct food *f = &row->food;
    bool nutty = f->food_class == CLASS_NUT || f->food_class == CLASS_SEED;
    switch (w->part) {
    case WORD_NAME:
        if (slice_is(w->stem, "dried") && is_dry(f))
            return true;
        return is_piece_or_form(f, w->stem) || is_said_elsewhere(q, i, row);
    case WORD_STATE:
        return slice_is(w->stem, "whole") || chooses_form(f, w->stem);
    case WORD_NUT:
        return nutty || chooses_form(f, w->stem);
    case WORD_DIET:
        return (f->breaks & (uint32_t)1 << w->diet) == 0;
    case WORD_GLUE:
    case WORD_STOP:
    case WORD_NOISE:
    case WORD_CUT:
    case WORD_HOW:
    case WORD_SOFT:
        break;
    }
    return true;
}

static bool
left_out_fit(const struct food_query *q, uint32_t left_out, const struct food_row *row)
{
    for (size_t i = 0; i < q->count; i++)
        if ((left_out >> i & 1) != 0 &&
            (!matters_not(q, i, row) ||
             (food_head_strange(q, i) && !is_piece_or_form(&row->food, q->words[i].stem))))
            return false;
    return true;
}

static const struct food_name *
names_of(const struct food_query *q, uint32_t used, bool joined)
{
    struct slice stems[FOOD_WORDS_MOST + 2];
    size_t count = 0;
    for (size_t i = 0; i < q->count; i++) {
        if ((used >> i & 1) != 0)
            stems[count++] = q->words[i].stem;
        else if (joined && q->words[i].part == WORD_STOP)
            return NULL; /* no lemon peel: "lemon with peel" */
    }
    if (joined) { /* "butter milk" for buttermilk, or "selfraising" for self-raising */
        struct slice one = food_stems_joined(q->arena, stems, count);
        const struct food_name *name = map_get(&q->larder->names, one);
        return name != NULL ? name : map_get(&q->larder->joined, one);
    }
    return map_get(&q->larder->names, food_stems_key(q->arena, stems, count));
}

static enum head_fit
fit_of(const struct food_query *q, uint32_t used, const struct food_name *name,
       const struct food_name *first)
{
    const enum head_fit fit = food_head_fits(q, used, name);
    return fit == HEAD_SAME && first->next != NULL && food_head_in_order(q, used, name) ? HEAD_EXACT
                                                                                        : fit;
}

/* how well the words fit the names that have them: none is taken that fits less than another */
static enum head_fit
best_fit(const struct food_query *q, uint32_t used, const struct food_name *names)
{
    enum head_fit best = HEAD_OTHER;
    for (const struct food_name *n = names; n != NULL; n = n->next) {
        const enum head_fit fit = fit_of(q, used, n, names);
        best = fit > best ? fit : best;
    }
    return best;
}

/* weighs the foods that have exactly the used words for a name */
static bool
weigh_names(const struct food_query *q, uint32_t used, uint32_t counted, bool joined,
            struct food_match *best)
{
    bool any = false;
    if (used == 0)
        return false;
    const struct food_name *first = names_of(q, used, joined);
    const enum head_fit fit = joined ? HEAD_SAME : best_fit(q, used, first);
    for (const struct food_name *n = first; n != NULL && fit != HEAD_OTHER; n = n->next) {
        if (!left_out_fit(q, counted & ~used, n->row) ||
            (!joined && fit_of(q, used, n, first) != fit))
            continue;
        int strength = name_strength(n, q->speech, q->by);
        any = true;
        if (strength > best->strength) {
            *best = (struct food_match){n->row, NULL, used, strength, NULL};
        } else if (strength == best->strength && n->row != best->row && best->rival == NULL) {
            best->rival = n->row;
        }
    }
    return any;
}

static unsigned
bits_set(uint32_t bits)
{
    unsigned n = 0;
    for (; bits != 0; bits &= bits - 1)
        n++;
    return n;
}

/* tries the words that must be there with ever fewer of those that need not; the longest wins */
static bool
search_subsets(const struct food_query *q, uint32_t must, uint32_t may, struct food_match *best)
{
    uint32_t optional[OPTIONAL_MOST];
    unsigned count = 0;
    for (size_t i = 0; i < q->count && count < OPTIONAL_MOST; i++)
        if ((may >> i & 1) != 0)
            optional[count++] = (uint32_t)1 << i;
    for (unsigned kept = count + 1; kept-- > 0;) {
        bool any = false;
        for (uint32_t subset = 0; subset < (uint32_t)1 << count; subset++) {
            if (bits_set(subset) != kept)
                continue;
            uint32_t used = must;
            for (unsigned k = 0; k < count; k++)
                if ((subset >> k & 1) != 0)
                    used |= optional[k];
            any = weigh_names(q, used, must | may, false, best) || any;
        }
        if (any)
            return true;
    }
    return false;
}

/* bits of the words that must be of the name, and of those that may be */
static void
sort_words(const struct food_query *q, size_t count, uint32_t *must, uint32_t *may)
{
    *must = *may = 0;
    for (size_t i = 0; i < count; i++) {
        enum word_part part = q->words[i].part;
        if (part == WORD_NAME)
            *must |= (uint32_t)1 << i;
        else if (part != WORD_GLUE)
            *may |= (uint32_t)1 << i;
    }
}

/* words that a form or a piece of the food may take up, when all of them make no name */
static bool
search_without_pieces(const struct food_query *q, uint32_t must, uint32_t may,
                      struct food_match *best)
{
    for (size_t i = 0; i < q->count; i++) {
        uint32_t bit = (uint32_t)1 << i;
        if ((must & bit) == 0 || must == bit)
            continue;
        struct food_match one = {0};
        if (search_subsets(q, must & ~bit, may | bit, &one) && one.strength > best->strength) {
            *best = one;
            if ((one.used & bit) == 0)
                best->piece_word = piece_of(&one.row->food, q->words[i].stem);
        }
    }
    return best->row != NULL;
}

/* "Maris Piper potatoes", "jalapeño chillies": a name of the food and the food's name again */
static bool
search_twice_named(const struct food_query *q, size_t count, uint32_t must, uint32_t may,
                   struct food_match *best)
{
    uint32_t front = 0;
    for (size_t i = 0; i + 1 < count; i++) {
        front |= must & (uint32_t)1 << i;
        const uint32_t back = must & ~front;
        if ((must >> i & 1) == 0 || back == 0)
            continue;
        struct food_match one = {0}, other = {0};
        if (!weigh_names(q, front, front | may, false, &one) ||
            !weigh_names(q, back, back | may, false, &other) || one.row != other.row)
            continue;
        *best = one;
        best->used = must;
        return true;
    }
    return false;
}

static bool
search_words(const struct food_query *q, size_t count, struct food_match *out)
{
    uint32_t must, may;
    sort_words(q, count, &must, &may);
    *out = (struct food_match){0};
    return search_subsets(q, must, may, out) || weigh_names(q, must | may, must | may, true, out) ||
           (may != 0 && weigh_names(q, must, must | may, true, out)) ||
           search_without_pieces(q, must, may, out) || search_twice_named(q, count, must, may, out);
}

bool
food_search(const struct food_query *q, struct food_match *out)
{
    if (search_words(q, q->count, out))
        return true;
    for (size_t i = 1; i < q->count; i++)
        if (q->words[i].part == WORD_STOP) {
            if (slice_is(q->words[i].stem, "with") &&
                food_with_other(q->larder, q->arena, q->words + i, q->count - i))
                return false;
            struct food_query cut = *q;
            /* words that were put in stand behind and still count */
            size_t kept = i;
            for (size_t k = i; k < q->count; k++)
                if (q->words[k].from >= q->bytes)
                    cut.words[kept++] = q->words[k];
            cut.count = kept;
            return search_words(&cut, kept, out);
        }
    return false;
}

/* whether a name is these very words, in this order */
static bool
is_spelt_so(const struct food_query *q, const struct food_name *name)
{
    struct food_word words[FOOD_WORDS_MOST];
    const size_t count = food_words_split(q->arena, q->larder->words, slice_of(name->text), words);
    bool same = count == q->count;
    for (size_t i = 0; same && i < count; i++)
        same = slice_equal(words[i].stem, q->words[i].stem);
    return same;
}

bool
food_search_exactly(const struct food_query *q, bool comma, struct food_match *out)
{
    uint32_t used = 0;
    struct food_match best = {0};
    for (size_t i = 0; i < q->count; i++)
        used |= q->words[i].part != WORD_GLUE ? (uint32_t)1 << i : 0;
    if (used == 0)
        return false;
    for (const struct food_name *n = names_of(q, used, false); n != NULL; n = n->next) {
        const int strength = name_strength(n, q->speech, q->by);
        if (!is_spelt_so(q, n) || (comma && strchr(n->text, ',') == NULL))
            continue;
        if (strength > best.strength)
            best = (struct food_match){n->row, NULL, used, strength, NULL};
        else if (strength == best.strength && n->row != best.row)
            best.rival = n->row;
    }
    if (out != NULL && best.row != NULL)
        *out = best;
    return best.row != NULL;
}
