#include "judge/step_amounts.h"

#include <string.h>

#include "tables/table_ask.h"
#include "read/words_listed.h"

/* what steps say of the amounts of one ingredient */
struct tally {
    double fraction;         /* "half the oil" 0.5, added up */
    double measured;         /* in mL, g or pieces, added up */
    const struct unit *unit; /* of `measured`, NULL for pieces */
    size_t fractions, measures, bare;
    bool rest;       /* "the remaining oil" */
    bool mixed;      /* volumes and weights: nothing can be added up */
    bool bare_after; /* named without an amount behind the last fraction */
    const struct named *last;
};

/* whether one of the phrases below may end right before word i, as hardly any does */
static bool
phrase_may_end(const struct words *w, size_t i)
{
    return i > 0 && words_one_of(w, i - 1, WORDS_REST_ENDS);
}

static bool
is_rest(const struct words *w, size_t i)
{
    if (!phrase_may_end(w, i))
        return false;
    size_t which;
    return words_longest_before(w, WORDS_REST_OF, i, &which) > 0;
}

static double
fraction_before(const struct words *w, size_t i)
{
    if (!phrase_may_end(w, i))
        return 0;
    size_t which;
    return words_longest_before(w, WORDS_FRACTIONS, i, &which) > 0
               ? word_lists_get(w->lists, WORDS_FRACTIONS)->values[which].range.mid
               : 0;
}

/* mL or g of an amount; pieces as they are */
static double
amount_size(const struct amount *a)
{
    double value = a->value.mid * (a->each ? a->times.mid : 1);
    bool sized = a->unit != NULL && (a->unit->kind == UNIT_VOLUME || a->unit->kind == UNIT_WEIGHT);
    return sized ? value * a->unit->size.mid : value;
}

static bool
same_kind(const struct unit *a, const struct unit *b)
{
    if (a == NULL || b == NULL)
        return a == b;
    if (a->kind == UNIT_VOLUME || a->kind == UNIT_WEIGHT)
        return a->kind == b->kind;
    return strcmp(a->id, b->id) == 0;
}

/* an amount that ends right before word i ("2 tbsp of the"); false when there is none */
static bool
amount_before(struct slice text, const struct words *w, size_t i, const struct lexicon *lexicon,
              struct amount *out)
{
    size_t end = i;
    if (end > 0 && (word_is(&w->items[end - 1], "the") || word_is(&w->items[end - 1], "your")))
        end--;
    if (end > 0 && word_is(&w->items[end - 1], "of"))
        end--;
    for (size_t back = 4; back > 0; back--) {
        if (back > end || w->items[end - back].kind != WORD_NUMBER)
            continue;
        size_t at = w->items[end - back].from, to = w->items[end - 1].to;
        size_t n = amount_read(text, at, lexicon, out);
        if (n > 0 && slice_trim(slice_part(text, at, at + n)).length == to - at && !out->about)
            return true;
    }
    return false;
}

/* "½ cup of the yoghurt for each portion": how much in all, nobody says */
static bool
is_each(const struct words *w, size_t i)
{
    return words_any(w, words_list(w, WORDS_EACH_EATER), words_sentence_from(w, i),
                     words_sentence_to(w, i), NULL) != NULL;
}

static void
add_measure(struct tally *t, const struct amount *a)
{
    if (t->measures > 0 && !same_kind(t->unit, a->unit))
        t->mixed = true;
    t->unit = a->unit;
    t->measured += amount_size(a);
    t->measures++;
}

static void
add_mention(const struct post *post, const struct schedule *s, const struct named *n,
            const struct lexicon *lexicon, struct tally *t)
{
    const struct step_time *st = &s->steps[n->step];
    const struct words *w = &st->marks.words;
    struct slice text = post->body.parts[st->part].steps[st->step].text;
    size_t before = n->from;
    bool the = before > 0 && word_is(&w->items[before - 1], "the");
    struct amount amount;
    double part = fraction_before(w, before - the);
    if (is_rest(w, before - the) || (the && is_rest(w, before))) {
        t->rest = true;
    } else if (part > 0) {
        t->fraction += part;
        t->fractions++;
        t->bare_after = false;
        t->last = n;
    } else if (amount_before(text, w, before, lexicon, &amount)) {
        t->mixed = t->mixed || is_each(w, n->from);
        add_measure(t, &amount);
        t->last = n;
    } else {
        t->bare++;
        t->bare_after = true;
    }
}

/* the list's amount in the kind of the steps' measure; 0: it has none that compares */
static double
listed(const struct written_food *f, const struct unit *unit, size_t *which)
{
    double sum = 0;
    for (size_t i = 0; i < f->amount_count; i++) {
        if (f->amounts[i].container || !same_kind(f->amounts[i].unit, unit))
            continue;
        if (sum > 0 && !f->amounts[i].plus)
            break;
        if (sum == 0)
            *which = i;
        sum += f->amounts[i].value.high / f->amounts[i].value.mid * amount_size(&f->amounts[i]);
    }
    return sum;
}

/* whether steps speak of the rest of something without naming it: "then another 8 tbsp" */
static bool
rest_unnamed(const struct schedule *s)
{
    for (size_t i = 0; i < s->count; i++)
        if (words_any(&s->steps[i].marks.words,
                      words_list(&s->steps[i].marks.words, WORDS_REST_UNNAMED), 0, SIZE_MAX,
                      NULL) != NULL)
            return true;
    return false;
}

static struct slice
measure_words(struct arena *a, double size, const struct unit *unit)
{
    struct text t = text_new(a);
    bool sized = unit != NULL && (unit->kind == UNIT_VOLUME || unit->kind == UNIT_WEIGHT);
    text_add_number(&t, sized ? size / unit->size.mid : size, 2);
    if (unit != NULL)
        text_addf(&t, " %s", unit->id);
    return text_slice(&t);
}

static void
raise(const struct post *post, const struct schedule *s, const struct named *n,
      struct notices *notices, struct slice what, struct slice more)
{
    const struct step_time *st = &s->steps[n->step];
    const struct step *step = &post->body.parts[st->part].steps[st->step];
    const struct words *w = &st->marks.words;
    notice_add(notices, RULE_STEP_AMOUNTS,
               body_step_place(step, w->items[n->from].from, w->items[n->end - 1].to), what, more);
}

static void
weigh_tally(const struct judging *j, const struct ingredient *in, const struct tally *t)
{
    struct arena *a = j->arena;
    const struct post *post = j->post;
    const struct schedule *s = j->schedule;
    struct notices *notices = j->notices;
    const struct written_food *f = in->options[0].helpings[0].written;
    bool over = t->fraction > 1.02, under = t->fraction < 0.98 && !t->rest && !t->bare_after;
    if (t->fractions > 0 && t->measures == 0 && (over || under)) {
        struct text what = text_new(a);
        text_add_number(&what, t->fraction * 100, 0);
        text_add_string(&what, " % of “");
        text_add(&what, f->name);
        text_add_string(&what, "”");
        raise(post, s, t->last, notices, text_slice(&what), SLICE("all of it"));
    }
    if (t->measures == 0 || t->fractions > 0 || t->mixed)
        return;
    size_t which = 0;
    double have = listed(f, t->unit, &which);
    over = t->measured > have * 1.02;
    under = t->measured < have * 0.98 && !t->rest && t->bare == 0;
    if (!(have > 0) || (!over && !under))
        return;
    struct slice what =
        text_formatted(a, "%.*s of “%.*s”", SLICE_ARGS(measure_words(a, t->measured, t->unit)),
                       SLICE_ARGS(f->name));
    raise(post, s, t->last, notices, what, measure_words(a, have, f->amounts[which].unit));
}

/* one food, one amount, nothing "plus extra": else nothing can be added up */
static bool
plain(const struct ingredient *in)
{
    if (in->option_count != 1 || in->options[0].count != 1)
        return false;
    const struct written_food *f = in->options[0].helpings[0].written;
    return f->amount_count > 0 && f->extra == NULL && !f->extra_unmeasured && !f->to_taste &&
           f->of_it == OF_WHOLE;
}

void
step_amounts_judge(const struct judging *j, const struct named_list *found)
{
    const struct dish *d = j->dish;
    const struct schedule *s = j->schedule;
    struct lexicon lexicon = tables_lexicon(j->tables, j->arena, d->region, j->reads);
    bool rest = rest_unnamed(s);
    struct tally *tallies = arena_take_array(j->arena, d->count + 1, sizeof *tallies);
    bool *unsure = arena_take_array(j->arena, d->count + 1, sizeof *unsure);
    for (size_t i = 0; i < found->count; i++) {
        const struct named *n = &found->items[i];
        if (!n->sure)
            unsure[n->ingredient] = true;
        else if (plain(&d->ingredients[n->ingredient]))
            add_mention(j->post, s, n, &lexicon, &tallies[n->ingredient]);
    }
    for (size_t i = 0; i < d->count; i++) {
        tallies[i].rest = tallies[i].rest || rest;
        if (!unsure[i] && tallies[i].last != NULL)
            weigh_tally(j, &d->ingredients[i], &tallies[i]);
    }
}
