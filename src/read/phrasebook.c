#include "read/phrasebook.h"

#include <stdlib.h>

#include "base/list.h"

/* Rooms enough for what the tables and the judges ask; a list that finds none is looked up the slow
 * way. Powers of two. */
enum {
    PHRASES_MOST = 4096,
    BEGINNINGS_BITS = 11,
    BEGINNINGS = 1 << BEGINNINGS_BITS,
    LETTERS_MOST = 31,
    SHORT = 8,
    LIST_PLACES = 2 * LISTS_MOST
};

/* the first word of phrases, in a table of open addressing */
struct beginning {
    const char *word; /* NULL: free */
    uint64_t ends;    /* see ends_of */
    uint32_t behind; /* how their second words begin, by the low five bits; bit 0: some have none */
    uint16_t phrase; /* the newest that begins with it */
    uint8_t length;
    uint8_t stem; /* 1: it stands for all words that begin so */
};

struct phrase {
    uint16_t list;        /* its number */
    uint16_t place;       /* in its list */
    uint16_t next;        /* another that begins so; 0: none */
    char goes_on;         /* how its second word begins; NUL: it has none */
    unsigned char behind; /* where that begins */
};

struct phrasebook {
    size_t list_count, phrase_count, beginning_count;
    uint16_t places[LIST_PLACES]; /* by a list's address its number + 1; 0: free */
    const char *const *lists[LISTS_MOST];
    struct beginning beginnings[BEGINNINGS];
    struct phrase phrases[PHRASES_MOST]; /* the first is none */
    uint32_t stem_lengths[32];           /* by a stem's first character, a bit for each length */
    uint64_t threes[(1 << 15) / 64];     /* how words that matter begin, see three_of */
};

struct phrase_hit {
    uint32_t at; /* word */
    uint16_t list, place;
};

struct phrase_hits {
    struct phrasebook *book;
    size_t known;                    /* lists of the book that are looked for */
    uint64_t lists[LISTS_MOST / 64]; /* those that occur */
    struct phrase_hit *items;        /* in the order of words */
    size_t count, room;
};

struct phrasebook *
phrasebook_open(void)
{
    struct phrasebook *b = malloc(sizeof *b);
    if (b != NULL)
        phrasebook_forget(b);
    return b;
}

void
phrasebook_close(struct phrasebook *b)
{
    free(b);
}

void
phrasebook_forget(struct phrasebook *b)
{
    if (b != NULL)
        *b = (struct phrasebook){.phrase_count = 1};
}

/* of a word shorter than SHORT all bytes, of a longer one both ends */
static inline uint64_t
ends_of(const char *word, size_t length)
{
    uint64_t first, last;
    uint32_t begin, end;
    if (length >= SHORT) {
        memcpy(&first, word, sizeof first);
        memcpy(&last, word + length - sizeof last, sizeof last);
        return first ^ (last << 21 | last >> 43);
    }
    if (length >= sizeof begin) {
        memcpy(&begin, word, sizeof begin);
        memcpy(&end, word + length - sizeof end, sizeof end);
        return begin | (uint64_t)end << 32;
    }
    if (length == 0)
        return 0;
    return (uint64_t)(unsigned char)word[0] | (uint64_t)(unsigned char)word[length / 2] << 8 |
           (uint64_t)(unsigned char)word[length - 1] << 16;
}

/* the low five bits of the first three characters, of as many as there are */
static inline size_t
three_of(const char *word, size_t length)
{
    const size_t one = (size_t)(word[0] & 31) << 10;
    if (length > 2)
        return one | (size_t)(word[1] & 31) << 5 | (size_t)(word[2] & 31);
    return length > 1 ? one | (size_t)(word[1] & 31) << 5 : one;
}

/* all that may begin so, when the stem is shorter than three characters */
static void
note_threes(struct phrasebook *b, const char *word, size_t length, bool stem)
{
    size_t three = three_of(word, length), all = 1;
    if (stem && length < 3)
        all = length == 2 ? 1 << 5 : 1 << 10;
    for (size_t i = three; i < three + all; i++)
        b->threes[i / 64] |= UINT64_C(1) << i % 64;
}

/* where the beginning stands, or may stand */
static inline struct beginning *
beginning_at(struct phrasebook *b, const char *word, size_t length, uint8_t stem)
{
    const uint64_t ends = ends_of(word, length);
    const uint64_t hash = (ends ^ (uint64_t)length << 56) * UINT64_C(0x9e3779b97f4a7c15);
    struct beginning *g = &b->beginnings[hash >> (64 - BEGINNINGS_BITS)];
    while (g->word != NULL && (g->ends != ends || g->length != length || g->stem != stem ||
                               (length >= SHORT && memcmp(g->word, word, length) != 0)))
        g = g + 1 < b->beginnings + BEGINNINGS ? g + 1 : b->beginnings;
    return g;
}

static void
add_phrase(struct phrasebook *b, const char *phrase, size_t list, size_t place)
{
    size_t length = 0;
    while (phrase[length] != '\0' && phrase[length] != ' ')
        length++;
    if (length == 0) /* it occurs nowhere */
        return;
    char goes_on = phrase[length] == ' ' ? phrase[length + 1] : '\0';
    size_t behind = length + 1;
    uint8_t stem = length > 1 && phrase[length - 1] == '*';
    length -= stem;
    struct beginning *g = beginning_at(b, phrase, length, stem);
    if (g->word == NULL) {
        *g = (struct beginning){phrase, ends_of(phrase, length), 0, 0, (uint8_t)length, stem};
        b->beginning_count++;
        note_threes(b, phrase, length, stem == 1);
        if (stem == 1)
            b->stem_lengths[phrase[0] & 31] |= 1u << length;
    }
    b->phrases[b->phrase_count] =
        (struct phrase){(uint16_t)list, (uint16_t)place, g->phrase, goes_on, (unsigned char)behind};
    g->phrase = (uint16_t)b->phrase_count++;
    g->behind |= 1u << (goes_on & 31);
}

/* whether there is room for a list, and none of its phrases begins with a very long word or with
 * one that has a space in it, "1 1/2" */
static bool
may_learn(const struct phrasebook *b, const char *const *list)
{
    size_t count = 0;
    for (; list[count] != NULL; count++) {
        const char *phrase = list[count];
        size_t n = strcspn(phrase, " ");
        bool mixed = phrase[n] == ' ' && phrase[0] >= '0' && phrase[0] <= '9' &&
                     !(phrase[n + 1] >= 'a' && phrase[n + 1] <= 'z');
        if (n > LETTERS_MOST || mixed)
            return false;
    }
    return b->list_count < LISTS_MOST && b->phrase_count + count <= PHRASES_MOST &&
           b->beginning_count + count <= BEGINNINGS / 4 * 3;
}

/* number_of a list that has none yet, whose place is free */
static size_t
learn(struct phrasebook *b, const char *const *list, uint16_t *place)
{
    if (!may_learn(b, list))
        return LISTS_MOST;
    const size_t number = b->list_count++;
    b->lists[number] = list;
    *place = (uint16_t)(number + 1);
    for (size_t k = 0; list[k] != NULL; k++)
        add_phrase(b, list[k], number, k);
    return number;
}

/* the number of a list, which is learnt when it is new; LISTS_MOST: there is no room for it */
static size_t
number_of(struct phrasebook *b, const char *const *list)
{
    const uint64_t hash = (uint64_t)(uintptr_t)list * UINT64_C(0x9e3779b97f4a7c15);
    size_t i = (size_t)(hash >> 32) % LIST_PLACES;
    for (; b->places[i] != 0; i = (i + 1) % LIST_PLACES)
        if (b->lists[b->places[i] - 1] == list)
            return b->places[i] - 1u;
    return learn(b, list, &b->places[i]);
}

/* what follows a phrase's first word */
static const char *
rest_of(const struct phrasebook *b, const struct phrase *p)
{
    return b->lists[p->list][p->place] + p->behind;
}

struct marker {
    struct arena *arena;
    struct phrasebook *book;
    const struct words *words;
    struct phrase_hits *hits;
};

/* notes the phrases that begin with a beginning found at word i, before a word that begins so */
static void
hit(const struct marker *m, size_t i, char behind, const struct beginning *g)
{
    const struct phrasebook *b = m->book;
    for (size_t p = g->phrase; p != 0; p = b->phrases[p].next) {
        const struct phrase *phrase = &b->phrases[p];
        bool more = phrase->goes_on != '\0'; /* a hyphen may stand in between */
        if ((more && phrase->goes_on != behind && behind != '-') ||
            (more && words_phrase_on(m->words, i, i + 1, rest_of(b, phrase)) == 0))
            continue;
        m->hits->lists[phrase->list / 64] |= UINT64_C(1) << phrase->list % 64;
        *LIST_GROW(m->arena, m->hits) =
            (struct phrase_hit){(uint32_t)i, phrase->list, phrase->place};
    }
}

/* the same of what may be a beginning, stem or whole word */
static inline void
try_beginning(const struct marker *m, size_t i, char behind, size_t length, uint8_t stem)
{
    const struct beginning *g = beginning_at(m->book, m->words->items[i].folded.at, length, stem);
    if (g->word != NULL && ((g->behind & (1u | 1u << (behind & 31))) != 0 || behind == '-'))
        hit(m, i, behind, g);
}

/* the phrases that stand at word i: by each stem that it may begin with, and by all of it */
static void
mark_word(const struct marker *m, size_t i)
{
    const struct words *w = m->words;
    const struct slice word = w->items[i].folded;
    const char behind = i + 1 < w->count ? w->items[i + 1].folded.at[0] : '\0';
    uint32_t stems = m->book->stem_lengths[word.at[0] & 31];
    if (word.length < LETTERS_MOST)
        stems &= (2u << word.length) - 1;
    for (; stems != 0; stems &= stems - 1)
        try_beginning(m, i, behind, (size_t)__builtin_ctz(stems), 1);
    try_beginning(m, i, behind, word.length, 0);
}

size_t
phrasebook_lists(const struct phrasebook *b)
{
    return b != NULL ? b->list_count : 0;
}

void
phrasebook_mark(struct phrasebook *b, struct arena *a, struct words *w)
{
    if (b == NULL || w->count == 0)
        return;
    struct phrase_hits *hits = arena_take(a, sizeof *hits);
    hits->book = b;
    hits->known = b->list_count;
    hits->room = w->count / 2 + 4;
    hits->items = arena_take_raw(a, hits->room * sizeof *hits->items);
    const struct marker m = {a, b, w, hits};
    for (size_t i = 0; i < w->count; i++) {
        size_t three = three_of(w->items[i].folded.at, w->items[i].folded.length);
        if ((b->threes[three / 64] >> three % 64 & 1) != 0)
            mark_word(&m, i);
    }
    w->hits = hits;
}

void
phrasebook_join(struct phrase_sum *s, const struct phrase_sum *more)
{
    if (more->texts == 0)
        return;
    if (s->texts == 0 || more->known < s->known)
        s->known = more->known;
    s->texts += more->texts;
    s->book = more->book;
    for (size_t i = 0; i < LISTS_MOST / 64; i++)
        s->lists[i] |= more->lists[i];
}

void
phrasebook_sum(struct phrase_sum *s, const struct words *w)
{
    struct phrase_sum one = {.texts = w->count > 0};
    if (w->hits != NULL) {
        one.book = w->hits->book;
        one.known = w->hits->known;
        memcpy(one.lists, w->hits->lists, sizeof one.lists);
    }
    phrasebook_join(s, &one);
}

bool
phrasebook_may(const struct phrase_sum *s, const char *const *list)
{
    if (s->texts == 0)
        return false;
    size_t number = s->known > 0 ? number_of(s->book, list) : LISTS_MOST;
    return number >= s->known || (s->lists[number / 64] >> number % 64 & 1) != 0;
}

bool
phrasebook_any(const struct phrase_hits *hits, const char *const *list, size_t from, size_t to,
               const char **found, size_t *at)
{
    size_t number = number_of(hits->book, list), best = SIZE_MAX;
    if (number >= hits->known)
        return false;
    *found = NULL;
    if ((hits->lists[number / 64] >> number % 64 & 1) == 0)
        return true;
    for (size_t i = 0; i < hits->count && hits->items[i].at < to; i++) {
        const struct phrase_hit *h = &hits->items[i];
        if (h->list != number || h->at < from || h->place >= best)
            continue;
        best = h->place;
        if (at != NULL)
            *at = h->at;
        *found = list[best];
    }
    return true;
}

bool
phrasebook_next(const struct phrase_hits *hits, const char *const *list, size_t from,
                const char **found, size_t *at)
{
    size_t number = number_of(hits->book, list), best = SIZE_MAX;
    if (number >= hits->known)
        return false;
    *found = NULL;
    if ((hits->lists[number / 64] >> number % 64 & 1) == 0)
        return true;
    for (size_t i = 0; i < hits->count; i++) {
        const struct phrase_hit *h = &hits->items[i];
        if (best != SIZE_MAX && h->at > *at)
            break;
        if (h->list != number || h->at < from || h->place >= best)
            continue;
        best = h->place;
        *at = h->at;
        *found = list[best];
    }
    return true;
}
