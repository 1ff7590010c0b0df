#include "tables/food_names.h"

#include <string.h>

#include "tables/food_cooked.h"
#include "tables/food_near.h"
#include "tables/food_sought.h"
#include "tables/food_search.h"
#include "tables/food_words.h"
#include "tables/larder_rows.h"

static const char *const by_words[] = {"nothing", "spoon", "cup", "weight", "piece", "bunch"};

enum { BY_WORDS = sizeof by_words / sizeof *by_words };

static void
query_begin(struct food_query *q, const struct larder *l, struct arena *a,
            const struct sought *sought)
{
    *q = (struct food_query){.larder = l, .arena = a, .by = sought->by};
    q->count = food_words_split(a, l->words, sought->name, q->words);
    bool known = sought->region >= 0 && (size_t)sought->region < l->measures->region_count;
    q->speech = known ? l->measures->regions[sought->region].speech : "";
    q->bytes = sought->name.length;
}

/* how many stems a phrase has, all of them among the words; else 0 */
static size_t
stems_among(const struct stems *phrase, const struct food_word *words, size_t count)
{
    for (size_t i = 0; i < phrase->count; i++) {
        bool there = false;
        for (size_t k = 0; k < count && !there; k++)
            there = slice_equal(phrase->items[i], words[k].stem);
        if (!there)
            return 0;
    }
    return phrase->count;
}

/* how many words choose the form; 0: none */
static size_t
form_words(const struct form *form, const struct food_word *words, size_t count)
{
    size_t best = 0;
    for (size_t i = 0; i < form->chosen_by_count; i++) {
        size_t n = stems_among(&form->chosen_by[i], words, count);
        best = n > best ? n : best;
    }
    return best;
}

/* whether the words say what becomes of a tin's liquid: poured off, or taken as well */
static void
note_drained(const struct word_lists *lists, const struct food_word *words, size_t count,
             struct found *found)
{
    for (size_t i = 0; i < count; i++) {
        const bool not_so = i > 0 && slice_is(words[i - 1].stem, "not");
        const bool drained = slice_is(words[i].stem, "drained");
        found->drained = found->drained || (drained && !not_so);
        found->undrained = found->undrained || (drained && not_so);
        found->undrained =
            found->undrained || word_lists_have(lists, WORDS_UNDRAINED, words[i].stem);
    }
}

/* a lemon "with peel" is measured as a lemon, not as peel */
static size_t
words_before_with(const struct food_query *q)
{
    for (size_t i = 1; i < q->count; i++)
        if (slice_is(q->words[i].stem, "with"))
            return i;
    return q->count;
}

/* the form that the words before the comma choose; behind it only how it was packed or drained */
static void
choose_form(const struct food_query *q, const struct sought *sought, const struct food_match *match,
            struct found *found)
{
    const struct food *f = found->food;
    struct food_word after[FOOD_WORDS_MOST], counted[FOOD_WORDS_MOST];
    size_t after_count = food_words_split(q->arena, q->larder->words, sought->after, after),
           kept = 0, best = 0;
    found->form = &f->forms[0];
    note_drained(q->larder->words, after, after_count, found);
    note_drained(q->larder->words, q->words, q->count, found);
    found->undrained = found->undrained && !found->drained; /* "drained, liquid kept" */
    for (size_t i = 0; i < after_count; i++)
        if (slice_is(after[i].stem, "drained") || slice_is(after[i].stem, "undrained") ||
            slice_is(after[i].stem, "packed"))
            counted[kept++] = after[i];
    const size_t before = words_before_with(q);
    for (size_t i = 0; i < f->form_count; i++) {
        /* words of the name count for less than words beside it: "ground almonds, chopped" */
        size_t n = 2 * form_words(&f->forms[i], q->words, before) +
                   form_words(&f->forms[i], counted, kept);
        if (f->forms[i].weighed_bought && !f->forms[i].drained_if_said) /* "prawns, shell on" */
            n += form_words(&f->forms[i], after, after_count);
        if (sought->part != NULL && slice_is(slice_of(f->forms[i].name), sought->part))
            n += 8;
        if (n > best) {
            best = n;
            found->form = &f->forms[i];
            found->form_said = true;
        }
    }
    best = 0;
    for (size_t i = 0; i < f->form_count; i++) {
        size_t n = form_words(&f->forms[i], after, after_count);
        if (n > best) {
            best = n;
            found->form_cut = &f->forms[i];
        }
    }
    for (size_t i = 0; i < q->count; i++)
        if (q->words[i].part == WORD_CUT && (match->used >> i & 1) == 0)
            found->prepared = true;
}

static void
mark_name(const struct food_query *q, const struct food_match *match, struct found *found)
{
    found->name_from = q->bytes;
    for (size_t i = 0; i < q->count; i++) {
        if ((match->used >> i & 1) == 0 || q->words[i].from >= q->bytes)
            continue;
        if (q->words[i].from < found->name_from)
            found->name_from = q->words[i].from;
        if (q->words[i].to > found->name_to)
            found->name_to = q->words[i].to;
    }
    if (found->name_to == 0)
        found->name_from = 0;
}

static struct found
answer(const struct larder *l, struct arena *a, const struct sought *sought)
{
    struct food_query q;
    struct food_match match = {0};
    struct found found;
    struct after after;
    memset(&found, 0, sizeof found);
    query_begin(&q, l, a, sought);
    food_said_split(l, a, sought->after, &after);
    if (!food_sought_find(&q, sought, &after, &match)) {
        struct food_query right = q;
        if (!food_near_correct(&right) || !food_sought_find(&right, sought, &after, &match)) {
            food_near(&q, found.nearest);
            return found;
        }
        q = right;
        found.corrected = true;
    }
    found.food = &match.row->food;
    found.rival = match.rival != NULL ? &match.rival->food : NULL;
    found.piece_word = match.piece_word;
    choose_form(&q, sought, &match, &found);
    mark_name(&q, &match, &found);
    found.passed = food_said_passed(a, &after, match.row);
    if (found.corrected)
        found.doubt_allergens = found.doubt_diets = UINT32_MAX;
    else if (!sought->shared)
        food_said_doubts(&q, &after, match.row, &found);
    found.doubt_allergens &= ~found.food->allergens;
    found.doubt_diets &= ~found.food->breaks;
    return found;
}

static uint64_t
answer_digest(const struct found *found)
{
    uint64_t flags = (uint64_t)found->form_said | (uint64_t)found->prepared << 1 |
                     (uint64_t)found->drained << 2 | (uint64_t)found->undrained << 3 |
                     (uint64_t)found->corrected << 4;
    uint64_t d = slice_digest(SLICE("found"), flags);
    d = slice_digest(slice_of(found->food != NULL ? found->food->id : NULL), d);
    d = slice_digest(slice_of(found->form != NULL ? found->form->name : NULL), d);
    d = slice_digest(slice_of(found->form_cut != NULL ? found->form_cut->name : NULL), d);
    d = slice_digest(slice_of(found->rival != NULL ? found->rival->id : NULL), d);
    d = slice_digest(slice_of(found->piece_word), d);
    d = slice_digest(found->passed, d);
    d = slice_digest(SLICE("doubt"),
                     d ^ (uint64_t)found->doubt_allergens << 32 ^ found->doubt_diets);
    for (size_t i = 0; i < 3; i++)
        d = slice_digest(slice_of(found->nearest[i]), d);
    return d;
}

static void
add_stems(struct text *key, const struct food_word *words, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (i > 0)
            text_add_byte(key, ' ');
        text_add(key, words[i].stem);
    }
}

static void
add_stems_of(struct text *key, const struct larder *l, struct arena *a, struct slice text)
{
    struct food_word words[FOOD_WORDS_MOST];
    add_stems(key, words, food_words_split(a, l->words, text, words));
}

/* the stems of what stands behind the comma, its pieces parted by commas */
static void
add_pieces_of(struct text *key, const struct larder *l, struct arena *a, struct slice text)
{
    struct after after;
    food_said_split(l, a, text, &after);
    for (size_t i = 0; i < after.count; i++)
        text_addf(key, "%s%.*s",
                  i == 0            ? ""
                  : after.begins[i] ? ", "
                                    : " ",
                  SLICE_ARGS(after.words[i].stem));
}

/* "find:au/cup/tinned/juice/lime green|chopped|": the question in its stems, which come to the same
 * stems again */
static struct slice
find_key(const struct larder *l, struct arena *a, const struct sought *sought)
{
    static const char *const flags[] = {"", "tinned", "shared", "tinned shared"};
    struct text key = text_new(a);
    bool known = sought->region >= 0 && (size_t)sought->region < l->measures->region_count;
    const char *const parts[] = {known ? l->measures->regions[sought->region].id : "",
                                 by_words[sought->by], flags[sought->tinned + 2 * sought->shared],
                                 sought->part != NULL ? sought->part : ""};
    text_add_string(&key, "find:");
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        text_add_string(&key, parts[i]);
        text_add_byte(&key, '/');
    }
    add_stems_of(&key, l, a, sought->name);
    text_add_byte(&key, '|');
    add_pieces_of(&key, l, a, sought->after);
    text_add_byte(&key, '|');
    add_stems_of(&key, l, a, sought->bracket);
    return text_slice(&key);
}

struct found
food_find(const struct larder *l, struct arena *a, const struct sought *sought, struct reads *reads)
{
    struct found found = answer(l, a, sought);
    if (reads != NULL) {
        reads_note_question(reads, find_key(l, a, sought), answer_digest(&found));
        reads_note(reads, found.food != NULL ? &found.food->identity : NULL);
        reads_note(reads, found.rival != NULL ? &found.rival->identity : NULL);
    }
    return found;
}

/* asks whether the words of a text name a food; the question keeps its words */
static bool
is_named(const struct larder *l, struct arena *a, struct slice words, struct food_query *q)
{
    struct food_match match;
    struct sought sought = {.name = words, .region = -1, .by = BY_NOTHING};
    query_begin(q, l, a, &sought);
    return q->count > 0 && (food_search(q, &match) || food_search_said_cooked(q, &match));
}

bool
food_names(const struct larder *l, struct arena *a, struct slice words, struct reads *reads)
{
    struct food_query q;
    bool named = is_named(l, a, words, &q);
    if (reads != NULL) {
        struct text key = text_new(a);
        text_add_string(&key, "names:");
        add_stems(&key, q.words, q.count);
        reads_note_question(reads, text_slice(&key), named ? 1 : 2);
    }
    return named;
}

bool
food_names_exactly(const struct larder *l, struct arena *a, struct slice words, struct reads *reads)
{
    struct food_query q;
    struct sought sought = {.name = words, .region = -1, .by = BY_NOTHING};
    query_begin(&q, l, a, &sought);
    bool named = food_search_exactly(&q, false, NULL);
    if (reads != NULL) {
        struct text key = text_new(a);
        text_add_string(&key, "exactly:");
        add_stems(&key, q.words, q.count);
        reads_note_question(reads, text_slice(&key), named ? 1 : 2);
    }
    return named;
}

/* the piece of the key up to the next '/', which is passed */
static struct slice
next_piece(struct slice *rest)
{
    size_t slash = slice_find_byte(*rest, '/', 0);
    struct slice piece = slice_part(*rest, 0, slash == SIZE_MAX ? rest->length : slash);
    *rest = slice_part(*rest, piece.length + 1, rest->length);
    return piece;
}

uint64_t
food_names_ask(const struct larder *l, struct arena *scratch, struct slice key)
{
    struct food_query q;
    if (slice_begins(key, "names:"))
        return is_named(l, scratch, slice_part(key, 6, key.length), &q) ? 1 : 2;
    if (slice_begins(key, "exactly:"))
        return food_names_exactly(l, scratch, slice_part(key, 8, key.length), NULL) ? 1 : 2;
    if (!slice_begins(key, "find:"))
        return 0;
    struct slice rest = slice_part(key, 5, key.length);
    struct sought sought = {.region = measures_region(l->measures, next_piece(&rest))};
    struct slice by = next_piece(&rest);
    for (int b = 0; b < BY_WORDS; b++)
        if (slice_is(by, by_words[b]))
            sought.by = (enum measured_by)b;
    struct slice flags = next_piece(&rest);
    sought.tinned = slice_begins(flags, "tinned");
    sought.shared = slice_ends(flags, "shared");
    struct slice part = next_piece(&rest);
    sought.part = part.length > 0 ? slice_string(scratch, part) : NULL;
    size_t bar = slice_find_byte(rest, '|', 0);
    sought.name = slice_part(rest, 0, bar == SIZE_MAX ? rest.length : bar);
    rest = slice_part(rest, bar == SIZE_MAX ? rest.length : bar + 1, rest.length);
    bar = slice_find_byte(rest, '|', 0);
    sought.after = slice_part(rest, 0, bar == SIZE_MAX ? rest.length : bar);
    sought.bracket = slice_part(rest, bar == SIZE_MAX ? rest.length : bar + 1, rest.length);
    struct found found = answer(l, scratch, &sought);
    return answer_digest(&found);
}
