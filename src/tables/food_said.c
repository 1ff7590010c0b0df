#include "tables/food_said.h"

#include <string.h>

#include "tables/food_after_words.h"
#include "tables/food_cooked.h"
#include "tables/food_words.h"

void
food_said_split(const struct larder *l, struct arena *a, struct slice text, struct after *out)
{
    out->lists = l->words;
    out->count = food_words_split(a, l->words, text, out->words);
    for (size_t i = 0; i < out->count; i++) {
        const size_t from = i > 0 ? out->words[i - 1].to : 0;
        struct slice gap = slice_part(text, from, out->words[i].from);
        out->begins[i] = i == 0 || slice_find_byte(gap, ',', 0) != SIZE_MAX ||
                         slice_find_byte(gap, ';', 0) != SIZE_MAX;
    }
}

/* the piece that begins at word *at, which is moved behind it */
static struct after_piece
next_piece(const struct after *after, size_t *at)
{
    const size_t from = *at;
    do
        ++*at;
    while (*at < after->count && !after->begins[*at]);
    return (struct after_piece){after->words + from, *at - from, after->lists};
}

static bool
is_word(const struct food_word *w)
{
    return w->part == WORD_NAME || w->part == WORD_DIET;
}

/* a noun that says which kind is meant: neither a part, a tool, a deed nor a word of state */
static bool
is_noun(const struct word_lists *lists, const struct food_word *w)
{
    return is_word(w) && !food_after_word_is_idle(lists, w->stem) &&
           !food_after_word_is_deed(lists, w) && !word_lists_have(lists, WORDS_TELLING, w->stem) &&
           !slice_is(w->stem, "or");
}

static bool
has_word(const struct after_piece *p, enum word_list_number list)
{
    for (size_t i = 0; i < p->count; i++)
        if (word_lists_have(p->lists, list, p->words[i].stem))
            return true;
    return false;
}

/* "green part only", "white tops", "no white": the one colour of a leek or spring onion that is
 * used. Under a condition it is not the one. */
static const char *
colour_of(const struct after_piece *p)
{
    bool green = false, white = false, part = false, only = false, hangs = false, top = false;
    for (size_t i = 0; i < p->count; i++) {
        struct slice stem = p->words[i].stem;
        green = green || slice_is(stem, "green");
        white = white || slice_is(stem, "white");
        part = part || word_lists_have(p->lists, WORDS_COLOUR_PARTS, stem);
        only = only || slice_is(stem, "only");
        top = top || slice_is(stem, "top");
        hangs = hangs || slice_is(stem, "for") || slice_is(stem, "if");
    }
    green = green || (top && only && !white); /* "green onions, tops only" */
    if (green == white || (hangs && !only))
        return NULL;
    if (has_word(p, WORDS_BEHIND_WITHOUT))
        green = !green;
    else if (!part)
        return NULL;
    return green ? "green" : "white";
}

/* whether the piece is about colours of parts: "white and green parts" */
static bool
is_of_parts(const struct after_piece *p)
{
    bool colour = false, part = false;
    for (size_t i = 0; i < p->count; i++) {
        colour =
            colour || slice_is(p->words[i].stem, "green") || slice_is(p->words[i].stem, "white");
        part = part || slice_is(p->words[i].stem, "part") || slice_is(p->words[i].stem, "top") ||
               slice_is(p->words[i].stem, "end") || slice_is(p->words[i].stem, "tip");
    }
    return colour && part;
}

/* the words before "in", "until", "with": what follows says how, where or for what */
static size_t
words_before_end(const struct after_piece *p)
{
    size_t n = 0;
    while (n < p->count && !food_after_word_ends(p->lists, &p->words[n]))
        n++;
    return n;
}

static enum piece_kind
kind_of(const struct after_piece *p)
{
    const size_t count = words_before_end(p);
    bool deed = false, noun = false, tells = false, wet = false;
    if (food_said_cooked(p->lists, p->words, p->count))
        return PIECE_COOKED;
    for (size_t i = 0; i < p->count; i++)
        if (word_lists_have(p->lists, WORDS_BEHIND_SPEECH, p->words[i].stem))
            return PIECE_DONE;
    if (count == 0 || is_of_parts(p) || slice_is(p->words[0].stem, "or"))
        return PIECE_DONE; /* alternatives are the reader's to find */
    for (size_t i = 0; i < count; i++) {
        const struct food_word *w = &p->words[i];
        deed = deed || food_after_word_is_deed(p->lists, w);
        noun = noun || is_noun(p->lists, w);
        tells = tells || word_lists_have(p->lists, WORDS_TELLING, w->stem);
        wet = wet || word_lists_have(p->lists, WORDS_BEHIND_WET, w->stem);
    }
    if (deed && noun)
        return PIECE_DONE;
    if (tells && !noun)
        return PIECE_STATE;
    return noun ? PIECE_KIND : PIECE_STATE;
}

/* "dry" behind washing is what a towel does */
static bool
is_towelled(const struct after *after, const struct food_word *w)
{
    if (!slice_is(w->stem, "dried"))
        return false;
    for (size_t i = 0; i < after->count; i++)
        if (word_lists_have(after->lists, WORDS_BEHIND_WET, after->words[i].stem))
            return true;
    return false;
}

/* "fresh or frozen": either will do, so that it is what the name says */
static bool
is_one_of_two(const struct after_piece *p, size_t i)
{
    return (i > 0 && slice_is(p->words[i - 1].stem, "or")) ||
           (i + 1 < p->count && slice_is(p->words[i + 1].stem, "or"));
}

static void
add_kind(struct kinds *kinds, const struct food_word *w, bool obliged, size_t bytes)
{
    if (kinds->count >= KINDS_MOST)
        return;
    struct food_word *mine = &kinds->words[kinds->count];
    *mine = *w;
    kinds->diet[kinds->count] = w->part == WORD_DIET;
    mine->part = WORD_SOFT;
    mine->from = mine->to = bytes;
    kinds->obliged[kinds->count++] = obliged;
}

static void
take_piece(const struct after *after, const struct after_piece *p, enum piece_kind kind,
           size_t bytes, struct kinds *kinds)
{
    const size_t count = words_before_end(p);
    for (size_t i = 0; i < count; i++) {
        const struct food_word *w = &p->words[i];
        const bool tells = word_lists_have(p->lists, WORDS_TELLING, w->stem);
        if (slice_is(w->stem, "or") && kind == PIECE_KIND)
            return; /* "red or yellow": the one that is named first */
        if (is_towelled(after, w) || word_lists_have(p->lists, WORDS_BEHIND_LATER, w->stem) ||
            (kind == PIECE_STATE && is_one_of_two(p, i)) ||
            (food_after_word_is_idle(p->lists, w->stem) && !slice_ends(w->stem, "%")))
            continue;
        if (tells || (kind == PIECE_KIND && is_noun(p->lists, w)))
            add_kind(kinds, w, !tells || word_lists_have(p->lists, WORDS_BEHIND_STATES, w->stem),
                     bytes);
        else if (slice_is(w->stem, "fresh") || slice_is(w->stem, "freshly"))
            add_kind(kinds, &(struct food_word){SLICE("fresh"), WORD_SOFT, DIET_VEGAN, 0, 0}, false,
                     bytes);
        else if (is_word(w) || w->part == WORD_SOFT)
            add_kind(kinds, w, word_lists_have(p->lists, WORDS_BEHIND_STATES, w->stem), bytes);
    }
}

bool
food_said_packed(const struct word_lists *lists, const struct food_word *words, size_t count)
{
    size_t i =
        count > 0 && (slice_is(words[0].stem, "packed") || slice_is(words[0].stem, "canned"));
    if (i >= count || !slice_is(words[i].stem, "in"))
        return false;
    for (i++; i < count; i++) {
        if (word_lists_have(lists, WORDS_PACKING_LIQUIDS, words[i].stem))
            return true;
        if (!word_lists_have(lists, WORDS_PACKING_KINDS, words[i].stem))
            return false;
    }
    return false;
}

/* whether the piece begins the bracket, and ends it or a part of its list; *makings: the bracket
 * lists several, as "(rice, maize)" */
static bool
is_bracket(const struct food_query *q, const struct sought *sought, const struct after_piece *p,
           bool *makings)
{
    struct after bracket;
    food_said_split(q->larder, q->arena, sought->bracket, &bracket);
    *makings = false;
    bool same = bracket.count >= p->count && p->count > 0;
    for (size_t i = 0; same && i < p->count; i++)
        same = slice_equal(bracket.words[i].stem, p->words[i].stem);
    for (size_t i = 1; same && i < bracket.count; i++)
        *makings = *makings || bracket.begins[i] || slice_is(bracket.words[i].stem, "and");
    return same && (bracket.count == p->count || bracket.begins[p->count]);
}

void
food_said_hear(const struct food_query *q, const struct sought *sought, const struct after *after,
               struct food_said *said)
{
    const struct food_word canned = {SLICE("canned"), WORD_SOFT, DIET_VEGAN, 0, 0};
    memset(said, 0, sizeof *said);
    for (size_t at = 0; at < after->count;) {
        const struct after_piece p = next_piece(after, &at);
        const enum piece_kind kind = kind_of(&p);
        if (said->colour == NULL && !sought->shared)
            said->colour = colour_of(&p);
        if (food_said_packed(p.lists, p.words, p.count))
            add_kind(&said->kinds, &canned, false, q->bytes);
        else if (kind == PIECE_COOKED)
            said->cooked = p;
        else if (kind == PIECE_STATE || (kind == PIECE_KIND && !sought->shared))
            take_piece(after, &p, kind, q->bytes, &said->kinds);
        if (kind == PIECE_KIND && said->nouns.count == 0) {
            said->nouns = (struct after_piece){p.words, words_before_end(&p), p.lists};
            said->bracketed = is_bracket(q, sought, &p, &said->makings);
        }
    }
    for (size_t i = 1; i < q->count && said->colour == NULL; i++)
        if (slice_is(q->words[i].stem, "without")) /* "1 leek without the white" */
            said->colour =
                colour_of(&(struct after_piece){q->words + i, q->count - i, after->lists});
    if (sought->tinned && said->kinds.count > 0)
        add_kind(&said->kinds, &canned, false, q->bytes);
}

/* whether a name of the food has the word, so that it says nothing of another one */
bool
food_said_in_names(const struct word_lists *lists, struct arena *a, const struct food_row *row,
                   struct slice stem)
{
    struct food_word words[FOOD_WORDS_MOST];
    for (size_t n = 0; n < row->name_count; n++) {
        const size_t count = food_words_split(a, lists, slice_of(row->names[n].text), words);
        for (size_t i = 0; i < count; i++)
            if (slice_equal(words[i].stem, stem))
                return true;
    }
    return false;
}

struct slice
food_said_passed(struct arena *a, const struct after *after, const struct food_row *row)
{
    struct text t = text_new(a);
    for (size_t at = 0; at < after->count;) {
        const struct after_piece p = next_piece(after, &at);
        bool speech = false;
        for (size_t i = 0; i < p.count; i++)
            speech = speech || word_lists_have(p.lists, WORDS_BEHIND_SPEECH, p.words[i].stem);
        speech = speech || is_of_parts(&p) || slice_is(p.words[0].stem, "or");
        for (size_t i = 0; i < p.count && !speech && !food_after_word_ends(p.lists, &p.words[i]);
             i++) {
            if (!is_noun(p.lists, &p.words[i]) || p.words[i].part == WORD_DIET ||
                (row != NULL && food_said_in_names(p.lists, a, row, p.words[i].stem)))
                continue;
            text_addf(&t, "%s%.*s", t.length > 0 ? ", " : "", SLICE_ARGS(p.words[i].stem));
        }
    }
    return text_slice(&t);
}

static bool
is_speech(const struct after_piece *p)
{
    for (size_t i = 0; i < p->count; i++)
        if (word_lists_have(p->lists, WORDS_BEHIND_SPEECH, p->words[i].stem))
            return true;
    return false;
}

/* what a noun that is not of the food's name could bring */
static void
doubt_word(const struct food_query *q, struct slice stem, bool prose, struct found *found)
{
    const struct food_name *n = map_get(&q->larder->names, stem);
    if (n == NULL && !prose && map_get(&q->larder->stems, stem) == NULL)
        found->doubt_allergens = found->doubt_diets = UINT32_MAX;
    for (; n != NULL; n = n->next) {
        const struct food *f = &n->row->food;
        found->doubt_allergens |= f->allergens | f->may_carry;
        found->doubt_diets |= f->breaks | f->labelled;
    }
}

/* how far the words of a piece may name what is eaten: "coated in flour", but not "to sprinkle" */
static size_t
words_eaten(const struct after_piece *p)
{
    const size_t end = words_before_end(p);
    const bool eaten =
        end < p->count && word_lists_have(p->lists, WORDS_EATEN_BEHIND, p->words[end].stem);
    return eaten ? p->count : end;
}

void
food_said_doubts(const struct food_query *q, const struct after *after, const struct food_row *row,
                 struct found *found)
{
    for (size_t at = 0; at < after->count;) {
        const struct after_piece p = next_piece(after, &at);
        const size_t end = words_before_end(&p);
        const bool prose = is_speech(&p) || slice_is(p.words[0].stem, "or");
        for (size_t i = 0; i < words_eaten(&p); i++)
            if (is_noun(p.lists, &p.words[i]) && p.words[i].part != WORD_DIET &&
                !word_lists_have(p.lists, WORDS_BEHIND_SPEECH, p.words[i].stem) &&
                !food_said_in_names(q->larder->words, q->arena, row, p.words[i].stem))
                doubt_word(q, p.words[i].stem, prose || i >= end || is_of_parts(&p), found);
    }
}
