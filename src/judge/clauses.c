#include "judge/clauses.h"

#include "judge/clause_objects.h"
#include "read/words_listed.h"

/* the forms of a verb that a sign may stand in */
enum verb_form { FORM_BASE, FORM_GERUND, FORM_PARTICIPLE };

/* what is read of one passage */
struct reading {
    struct arena *arena;
    struct clauses *out;
    struct passage *passage;
    const struct words *words;
    struct signs signs;
    const struct cooking *cooking;
    const struct named_list *named; /* ingredients by name */
    size_t first_clause;            /* of the passage */
};

static bool
before_is(const struct words *w, size_t i, enum word_list_number list)
{
    return i > 0 && w->items[i - 1].sentence == w->items[i].sentence &&
           words_one_of(w, i - 1, list);
}

static bool
is_behind(const struct words *w, size_t i, const char *word)
{
    return i > 0 && w->items[i - 1].sentence == w->items[i].sentence &&
           word_is(&w->items[i - 1], word);
}

static enum verb_form
form_of(const struct reading *r, const struct sign *s)
{
    const struct slice word = r->words->items[s->from].folded;
    if (slice_ends(word, "ing") && word.length > 5)
        return FORM_GERUND;
    return (slice_ends(word, "ed") && word.length > 4) ||
                   words_one_of(r->words, s->from, WORDS_IRREGULAR_PARTICIPLES)
               ? FORM_PARTICIPLE
               : FORM_BASE;
}

/* "the boil", "a gentle simmer", "your roast": a noun */
static bool
is_noun(const struct words *w, size_t i)
{
    return before_is(w, i, WORDS_BEFORE_NOUNS);
}

/* "salt and pepper", "butter and jam", where "salt the water" is done */
static bool
is_food(const struct reading *r, const struct sign *s)
{
    const struct words *w = r->words;
    bool food = meanings_meet(&s->row->means, &r->cooking->food_words);
    const size_t k = names_behind(r->named, s->from);
    food = food || (k < r->named->count && s->from >= r->named->items[k].from);
    return s->end == s->from + 1 && food &&
           (s->from + 1 >= w->count || !words_one_of(w, s->from + 1, WORDS_VERB_OBJECTS));
}

/* "leaves and all": a verb in -s has a subject before it */
static bool
is_plural(const struct reading *r, const struct clause *now, size_t i)
{
    const struct slice word = r->words->items[i].folded;
    return slice_ends(word, "s") && !slice_ends(word, "ss") &&
           (i == now->from || r->words->items[i - 1].kind == WORD_MARK);
}

/* "is left", "be kept", "soaked overnight": done, where "the soaked beans" are a thing */
static bool
is_done(const struct words *w, size_t i)
{
    const size_t subject = i > 0 && words_one_of(w, i - 1, WORDS_CLAUSE_ADVERBS) ? i - 1 : i;
    if (before_is(w, subject, WORDS_AUXILIARIES))
        return true;
    return i + 1 < w->count && w->items[i + 1].sentence == w->items[i].sentence &&
           (words_one_of(w, i + 1, WORDS_BEHIND_PARTICIPLES) ||
            w->items[i + 1].kind == WORD_NUMBER);
}

/* what a sign of an action does to the clauses */
enum effect { EFFECT_NONE, EFFECT_JOINS, EFFECT_OPENS };

static bool
lets(const struct reading *r, const struct clause *c)
{
    return c->verb != SIZE_MAX && words_one_of(r->words, c->verb, WORDS_WEAK_VERBS);
}

/* "leave on the side; the custard thickens": not what it is left to do */
static bool
is_parted(const struct words *w, size_t verb, size_t at)
{
    for (size_t i = verb; i < at; i++)
        if (word_is(&w->items[i], ";") || word_is(&w->items[i], ":"))
            return true;
    return false;
}

static enum effect
effect_of(const struct reading *r, const struct clause *now, const struct sign *s)
{
    const struct words *w = r->words;
    const bool open = now->verb == SIZE_MAX;
    switch (form_of(r, s)) {
    case FORM_GERUND:
        if (is_noun(w, s->from))
            return EFFECT_NONE;
        return open || before_is(w, s->from, WORDS_BEFORE_GERUNDS) ? EFFECT_OPENS : EFFECT_JOINS;
    case FORM_PARTICIPLE:
        if (before_is(w, s->from, WORDS_UNTIL_DONE) || !is_done(w, s->from))
            return EFFECT_NONE;
        return open ? EFFECT_OPENS : lets(r, now) ? EFFECT_JOINS : EFFECT_OPENS;
    case FORM_BASE:
        break;
    }
    if (!s->gapped && (is_noun(w, s->from) || before_is(w, s->from, WORDS_COPULAS) ||
                       is_food(r, s) || is_plural(r, now, s->from)))
        return EFFECT_NONE;
    if (is_behind(w, s->from, "to") && !open && meanings_meet(&s->row->means, &now->means))
        return EFFECT_JOINS;
    return lets(r, now) && !before_is(w, s->from, WORDS_VERB_LINKS) &&
                   !is_parted(w, now->verb, s->from)
               ? EFFECT_JOINS
               : EFFECT_OPENS;
}

/* where the clause of a verb begins: behind the last link between it and the verb before, else at
 * the small words that lead it in */
static size_t
clause_from(const struct reading *r, size_t least, size_t verb)
{
    const struct words *w = r->words;
    size_t from = verb;
    while (from > least && !words_one_of(w, from - 1, WORDS_CLAUSE_SEPARATORS))
        from--;
    if (from > least)
        return from;
    for (from = verb; from > least && words_one_of(w, from - 1, WORDS_VERB_LEADS);)
        from--;
    return from;
}

static void
put_sign(struct clause *c, const struct sign *s)
{
    if (c->sign_count == 0)
        c->first_sign = s;
    c->sign_count = (size_t)(s - c->first_sign) + 1;
}

/* what a turn does: "not" before the verb, or anywhere where there is none; "if" and a remark to
 * all of the sentence */
static void
turn(const struct reading *r, struct clause *c, const struct sign *s, size_t first_of_sentence)
{
    const char *id = s->row->id;
    struct clauses *all = r->out;
    if (id[0] == 'n') {
        c->negated = c->negated || c->verb == SIZE_MAX || s->from < c->verb;
        return;
    }
    for (size_t i = first_of_sentence; i < all->count; i++) {
        all->items[i].conditional = all->items[i].conditional || id[0] == 'i';
        all->items[i].remark = all->items[i].remark || id[0] == 'r';
    }
}

/* "do not rinse or wash" */
static bool
or_before(const struct reading *r, const struct clause *c)
{
    const struct words *w = r->words;
    return is_behind(w, c->from, "or") || is_behind(w, c->from, "nor");
}

static bool
word_of(const struct sign *s, const struct clause *c)
{
    return s->from >= c->from && s->from < c->end;
}

/* hands the signs of a sentence to its clauses */
static void
resolve(const struct reading *r, size_t first, size_t sign, size_t sign_end)
{
    struct clauses *all = r->out;
    for (size_t i = first; i < all->count; i++) {
        struct clause *c = &all->items[i];
        if (i > first && or_before(r, c))
            c->negated = all->items[i - 1].negated;
        for (size_t k = sign; k < sign_end; k++) {
            const struct sign *s = &r->signs.items[k];
            if (!word_of(s, c))
                continue;
            put_sign(c, s);
            if (s->row->kind == COOKING_TURN)
                turn(r, c, s, first);
            else if (s->row->kind != COOKING_ACTION)
                meanings_join(&c->means, &s->row->means);
        }
    }
}

static struct clause *
open_clause(struct reading *r, size_t from, size_t end)
{
    struct clause *c = LIST_GROW(r->arena, r->out);
    *c = (struct clause){.passage = r->passage, .from = from, .end = end, .verb = SIZE_MAX};
    return c;
}

/* "no need to chill it, a shelf will do": what stands behind the comma is not denied, where it has
 * a verb that no table knows */
static void
part_denied(struct reading *r, size_t first, size_t sign, size_t sign_end)
{
    const struct words *w = r->words;
    bool before = false;
    for (size_t i = first; i < r->out->count; i++) {
        const struct clause c = r->out->items[i];
        bool denied = before && or_before(r, &c); /* "no need to peel or trim" */
        for (size_t k = sign; k < sign_end && c.verb != SIZE_MAX; k++)
            denied =
                denied || (r->signs.items[k].row->id[0] == 'n' &&
                           r->signs.items[k].row->kind == COOKING_TURN &&
                           r->signs.items[k].from >= c.from && r->signs.items[k].from < c.verb);
        before = denied;
        for (size_t n = c.verb; denied && n + 2 < c.end && i + 1 == r->out->count; n++)
            if ((word_is(&w->items[n], ",") || word_is(&w->items[n], ":") ||
                 word_is(&w->items[n], ";")) &&
                words_any(w, words_list(w, WORDS_MODALS), n + 1, n + 6, NULL) != NULL) {
                r->out->items[i].end = n + 1;
                open_clause(r, n + 1, c.end);
                return;
            }
    }
}

/* the clauses of words from..to, one sentence, whose signs are from..end */
static void
read_sentence(struct reading *r, size_t from, size_t to, size_t sign, size_t sign_end)
{
    const size_t first = r->out->count;
    struct clause *now = open_clause(r, from, to);
    for (size_t k = sign; k < sign_end; k++) {
        struct sign *s = &r->signs.items[k];
        if (s->row->kind != COOKING_ACTION)
            continue;
        enum effect e = effect_of(r, now, s);
        if (e == EFFECT_NONE)
            continue;
        if (e == EFFECT_OPENS && now->verb != SIZE_MAX) {
            const size_t begins = clause_from(r, now->verb + 1, s->from);
            now->end = begins;
            now = open_clause(r, begins, to);
        }
        if (now->verb == SIZE_MAX)
            now->verb = s->from;
        meanings_join(&now->means, &s->row->means);
        s->done = true;
    }
    part_denied(r, first, sign, sign_end);
    resolve(r, first, sign, sign_end);
}

static void
read_passage(struct reading *r)
{
    const struct words *w = r->words;
    cooking_read(r->arena, r->cooking, w, &r->signs);
    r->first_clause = r->out->count;
    size_t sign = 0;
    for (size_t from = 0, to; from < w->count; from = to) {
        for (to = from; to < w->count && w->items[to].sentence == w->items[from].sentence;)
            to++;
        size_t sign_end = sign;
        while (sign_end < r->signs.count && r->signs.items[sign_end].from < to)
            sign_end++;
        read_sentence(r, from, to, sign, sign_end);
        sign = sign_end;
    }
}

bool
clauses_hold(const struct clause *c, size_t byte)
{
    const struct words *w = c->passage->words;
    return c->end > c->from && byte >= w->items[c->from].from && byte < w->items[c->end - 1].to;
}

void
clauses_read(const struct judging *j, struct clauses *out)
{
    struct told told;
    *out = (struct clauses){.dish = j->dish};
    reads_note(j->reads, &j->tables->cooking.entry);
    passages_read(j->arena, j->post, j->schedule, &out->passages);
    out->named = arena_take_array(j->arena, out->passages.count + 1, sizeof *out->named);
    clause_objects_begin(j->dish, &j->tables->cooking, &told);
    for (size_t i = 0; i < out->passages.count; i++) {
        struct passage *p = &out->passages.items[i];
        struct reading r = {.arena = j->arena, .out = out, .passage = p, .words = p->words};
        r.cooking = &j->tables->cooking;
        names_find_in(j->names, p->words, p->kind == PASSAGE_STEP ? p->part : 0, i, &out->named[i]);
        r.named = &out->named[i];
        read_passage(&r);
        for (size_t k = r.first_clause; k < out->count; k++) {
            clause_objects_read(j->names, &out->named[i], &out->items[k], &told);
            meanings_join(&out->means, &out->items[k].means);
        }
    }
}
