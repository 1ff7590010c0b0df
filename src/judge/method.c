#include "judge/method.h"

#include "base/list.h"
#include "judge/clauses.h"
#include "judge/names.h"
#include "judge/step_amounts.h"
#include "judge/tools.h"
#include "read/stem.h"

static const struct written_food *
first_food(const struct ingredient *in)
{
    return in->option_count > 0 && in->options[0].count > 0 ? in->options[0].helpings[0].written
                                                            : NULL;
}

static struct place
place_of(const struct ingredient *in)
{
    const struct written_food *f = first_food(in);
    if (in->line.node == NULL)
        return (struct place){0};
    return f != NULL ? written_line_place(&in->line, f->name_from, f->name_to)
                     : in->line.node->place;
}

static void
judge_unused(struct arena *a, const struct dish *d, const bool *used, struct notices *notices)
{
    for (size_t i = 0; i < d->count; i++) {
        struct words w;
        if (used[i])
            continue;
        words_read(a, d->ingredients[i].words->lists, ingredient_called(&d->ingredients[i]), &w);
        if (w.count > 0 && words_have(&w, words_list(&w, WORDS_GRANTED)))
            continue;
        notice_add(notices, RULE_INGREDIENT_UNUSED, place_of(&d->ingredients[i]),
                   ingredient_called(&d->ingredients[i]), SLICE(""));
    }
}

/* the step that first names each ingredient; SIZE_MAX: none does for sure */
static size_t *
first_steps(struct arena *a, const struct dish *d, const struct named_list *found)
{
    size_t *first = arena_take_array(a, d->count + 1, sizeof *first);
    for (size_t i = 0; i < d->count; i++)
        first[i] = SIZE_MAX;
    for (size_t i = found->count; i > 0; i--) {
        const struct named *n = &found->items[i - 1];
        first[n->ingredient] =
            n->sure && !d->ingredients[n->ingredient].optional ? n->step : SIZE_MAX;
    }
    return first;
}

/* one that cooks list where they like */
static bool
listed_anywhere(const struct ingredient *in)
{
    return words_any(in->words, words_list(in->words, WORDS_USED_ANYWHERE), 0, in->words->count,
                     NULL) != NULL;
}

enum { STEPS_EARLIER = 2, LINES_LATER = 3 }; /* what is out of order */

/* false: no use is that much earlier than one of a line that stands so far above it, not even than
 * that of a line that may stand anywhere */
static bool
may_be_out_of_order(const struct dish *d, const size_t *first)
{
    size_t latest = 0, begin = 0;
    for (size_t i = 0; i < d->count; i++) {
        if (d->ingredients[begin].part != d->ingredients[i].part) {
            begin = i;
            latest = 0;
        }
        if (i - begin < LINES_LATER)
            continue;
        const size_t above = first[i - LINES_LATER];
        latest = above != SIZE_MAX && above > latest ? above : latest;
        if (first[i] != SIZE_MAX && first[i] + STEPS_EARLIER <= latest &&
            !listed_anywhere(&d->ingredients[i]))
            return true;
    }
    return false;
}

/* one note a post: the ingredient that is used two steps or more before one listed above it and
 * stands three lines or more below where its use would put it */
static void
judge_order(struct arena *a, const struct dish *d, const struct named_list *found,
            struct notices *notices)
{
    size_t *first = first_steps(a, d, found);
    size_t latest = SIZE_MAX; /* the ingredient so far whose first use is latest */
    if (!may_be_out_of_order(d, first))
        return;
    for (size_t i = 0; i < d->count; i++) {
        if (first[i] == SIZE_MAX || listed_anywhere(&d->ingredients[i]))
            continue;
        if (latest == SIZE_MAX || d->ingredients[latest].part != d->ingredients[i].part ||
            first[i] >= first[latest]) {
            latest = i;
            continue;
        }
        if (first[i] + STEPS_EARLIER > first[latest] || i - latest < LINES_LATER)
            continue;
        notice_add(
            notices, RULE_INGREDIENT_ORDER, place_of(&d->ingredients[i]),
            ingredient_called(&d->ingredients[i]),
            text_formatted(a, "“%.*s”", SLICE_ARGS(ingredient_called(&d->ingredients[latest]))));
        return;
    }
}

/* whether two part names are one, but for "the" and capitals, or share a word that names something
 */
static bool
share_a_word(struct arena *a, const struct word_lists *lists, struct slice one, struct slice other)
{
    struct words w, v;
    words_read(a, lists, one, &w);
    words_read(a, lists, other, &v);
    if (w.count > 0 && v.count > 0 &&
        slice_equal(w.items[w.count - 1].folded, v.items[v.count - 1].folded))
        return true;
    for (size_t i = 0; i < w.count && i < 20; i++)
        for (size_t k = 0; k < v.count && k < 20; k++) {
            const struct stem one_stem = stem_of(a, w.items[i].folded);
            const struct stem other_stem = stem_of(a, v.items[k].folded);
            if (one_stem.text.length > 2 && stem_equal(&one_stem, &other_stem) &&
                !stem_describes(lists, &one_stem))
                return true;
        }
    return false;
}

static bool
begins_word(struct slice text)
{
    const char c = text.length > 0 ? text.at[0] : ' ';
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static void
judge_parts(const struct judging *j)
{
    struct arena *a = j->arena;
    const struct post *post = j->post;
    struct notices *notices = j->notices;
    const struct front_matter *f = &post->front;
    size_t named = 0;
    for (size_t i = 0; i < f->part_count; i++)
        named += f->parts[i].name.text.length > 0;
    if (named < 2)
        return;
    for (size_t p = 0; p < post->body.part_count; p++) {
        const struct method_part *part = &post->body.parts[p];
        struct words w;
        bool known = part->name.length == 0;
        for (size_t i = 0; i < f->part_count && !known; i++)
            known = slice_equal(part->name, f->parts[i].name.text) && begins_word(part->name);
        if (known)
            continue;
        words_read(a, j->tables->words, part->name, &w);
        known = words_any(&w, words_list(&w, WORDS_PARTS_TOGETHER), 0, w.count, NULL) != NULL;
        for (size_t i = 0; i < f->part_count && !known; i++)
            known = share_a_word(a, j->tables->words, part->name, f->parts[i].name.text);
        if (known)
            continue;
        struct text more = text_new(a);
        for (size_t i = 0; i < f->part_count; i++) {
            text_add_string(&more, i == 0 ? "; the list has “" : ", “");
            text_add(&more, f->parts[i].name.text);
            text_add_string(&more, "”");
        }
        notice_add(notices, RULE_PART_UNKNOWN, part->place, part->name, text_slice(&more));
    }
}

/* whether it cooks or mixes all of the list: nothing was named yet */
static bool
takes_all(const struct judging *j, const struct clause *c)
{
    struct meanings acts = {{0}};
    for (const char *const *name = (const char *const[]){"heat", "mix", NULL}; *name != NULL;
         name++) {
        const int number = cooking_meaning(&j->tables->cooking, slice_of(*name));
        if (number >= 0)
            meanings_put(&acts, number);
    }
    for (size_t i = 0; i < j->dish->count && i < ACTED_ON_MOST; i++)
        if (!ingredient_set_has(&c->acted, i))
            return false;
    return meanings_meet(&c->means, &acts);
}

/* "whisk and rest", where nothing is named: what the clause acts on, all of it or the first */
static void
use_unsaid(const struct judging *j, bool *used)
{
    const size_t count = j->dish->count;
    for (size_t i = 0; i < j->clauses->count; i++) {
        const struct clause *c = &j->clauses->items[i];
        size_t first = 0;
        if (c->passage->kind != PASSAGE_STEP || c->verb == SIZE_MAX || c->on != ACTS_ON_IT ||
            c->negated)
            continue;
        const bool all = takes_all(j, c);
        while (first < count && !ingredient_set_has(&c->acted, first))
            first++;
        for (size_t k = first; k < count && (all || k == first); k++)
            used[k] = true;
    }
}

static void
keep_mentions(struct arena *a, const struct schedule *s, const struct named_list *found,
              struct mentions *out)
{
    *out = (struct mentions){0};
    for (size_t i = 0; i < found->count; i++) {
        const struct named *n = &found->items[i];
        const struct step_time *st = &s->steps[n->step];
        *LIST_GROW(a, out) = (struct mention){.part = st->part,
                                              .step = st->step,
                                              .from = st->marks.words.items[n->from].from,
                                              .to = st->marks.words.items[n->end - 1].to,
                                              .ingredient = n->ingredient,
                                              .sure = n->sure};
    }
}

void
method_judge(const struct judging *j, struct mentions *out)
{
    struct named_list found;
    *out = (struct mentions){0};
    if (j->schedule->count == 0)
        return;
    names_find(j->names, j->schedule, &found);
    bool *used = arena_take_array(j->arena, j->dish->count + 1, sizeof *used);
    names_used(j, &found, used);
    use_unsaid(j, used);
    judge_unused(j->arena, j->dish, used, j->notices);
    judge_order(j->arena, j->dish, &found, j->notices);
    judge_parts(j);
    step_amounts_judge(j, &found);
    tools_judge(j->arena, j->post, j->schedule, j->notices);
    keep_mentions(j->arena, j->schedule, &found, out);
}
