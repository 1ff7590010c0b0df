#include "judge/method.h"

#include "base/list.h"
#include "judge/names.h"
#include "judge/step_amounts.h"
#include "judge/tools.h"
#include "judge/unlisted.h"

static const struct written_food *
first_food(const struct ingredient *in)
{
    return in->option_count > 0 && in->options[0].count > 0 ? in->options[0].helpings[0].written
                                                            : NULL;
}

static struct slice
words_of(const struct ingredient *in)
{
    const struct written_food *f = first_food(in);
    return f != NULL && f->name.length > 0 ? f->name : in->line.text;
}

static struct place
place_of(const struct ingredient *in)
{
    const struct written_food *f = first_food(in);
    if (in->line.node == NULL)
        return (struct place){0};
    return f != NULL ? ingredient_line_place(&in->line, f->name_from, f->name_to)
                     : in->line.node->place;
}

static void
judge_unused(struct arena *a, const struct dish *d, const bool *used, struct notices *notices)
{
    static const char *const granted[] = {"water", "salt", "ice", NULL};
    for (size_t i = 0; i < d->count; i++) {
        struct words w;
        if (used[i])
            continue;
        words_read(a, words_of(&d->ingredients[i]), &w);
        if (w.count > 0 && words_any(&w, granted, 0, w.count, NULL) != NULL)
            continue;
        notice_add(notices, RULE_INGREDIENT_UNUSED, place_of(&d->ingredients[i]),
                   words_of(&d->ingredients[i]), SLICE(""));
    }
}

/* the step that first names each ingredient for sure; SIZE_MAX: none does, or it is one that cooks
 * list where they like */
static size_t *
first_steps(struct arena *a, const struct dish *d, const struct named_list *found)
{
    static const char *const anywhere[] = {
        "oil",      "salt",       "pepper",    "water",   "butter",   "stock",
        "to serve", "to garnish", "garnish",   "juice",   "zest",     "to taste",
        "flour",    "sugar",      "to finish", "to dust", "to brush", NULL};
    size_t *first = arena_take_array(a, d->count + 1, sizeof *first);
    for (size_t i = 0; i < d->count; i++)
        first[i] = SIZE_MAX;
    for (size_t i = 0; i < found->count; i++) {
        const struct named *n = &found->items[i];
        if (first[n->ingredient] == SIZE_MAX)
            first[n->ingredient] = n->sure ? n->step : SIZE_MAX - 1;
    }
    for (size_t i = 0; i < d->count; i++) {
        const struct words *w = d->ingredients[i].words;
        if (first[i] == SIZE_MAX - 1 || d->ingredients[i].optional ||
            words_any(w, anywhere, 0, w->count, NULL) != NULL)
            first[i] = SIZE_MAX;
    }
    return first;
}

/* one note a post: the ingredient that is used two steps or more before one listed above it and
 * stands three lines or more below where its use would put it */
static void
judge_order(struct arena *a, const struct dish *d, const struct named_list *found,
            struct notices *notices)
{
    enum { STEPS_EARLIER = 2, LINES_LATER = 3 };
    size_t *first = first_steps(a, d, found);
    size_t latest = SIZE_MAX; /* the ingredient so far whose first use is latest */
    for (size_t i = 0; i < d->count; i++) {
        if (first[i] == SIZE_MAX)
            continue;
        if (latest == SIZE_MAX || d->ingredients[latest].part != d->ingredients[i].part ||
            first[i] >= first[latest]) {
            latest = i;
            continue;
        }
        if (first[i] + STEPS_EARLIER > first[latest] || i - latest < LINES_LATER)
            continue;
        notice_add(notices, RULE_INGREDIENT_ORDER, place_of(&d->ingredients[i]),
                   words_of(&d->ingredients[i]),
                   text_formatted(a, "“%.*s”", SLICE_ARGS(words_of(&d->ingredients[latest]))));
        return;
    }
}

/* whether two part names are one, but for "the" and capitals, or share a word that names something
 */
static bool
share_a_word(struct arena *a, struct slice one, struct slice other)
{
    struct words w, v;
    words_read(a, one, &w);
    words_read(a, other, &v);
    if (w.count > 0 && v.count > 0 &&
        slice_equal(w.items[w.count - 1].folded, v.items[v.count - 1].folded))
        return true;
    for (size_t i = 0; i < w.count && i < 20; i++)
        for (size_t k = 0; k < v.count && k < 20; k++) {
            struct slice stem = names_stem(a, w.items[i].folded);
            if (stem.length > 2 && !names_describes(stem) &&
                slice_equal(stem, names_stem(a, v.items[k].folded)))
                return true;
        }
    return false;
}

static void
judge_parts(struct arena *a, const struct post *post, struct notices *notices)
{
    static const char *const together[] = {
        "assemble", "assembly",    "assembling", "serve",   "serving",  "finish", "finishing",
        "bake",     "baking",      "cook",       "cooking", "together", "shape",  "shaping",
        "prepare",  "preparation", "prep",       "final",   "put",      "fry",    "roast",
        "build",    "make",        "day",        NULL};
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
        words_read(a, part->name, &w);
        known = known || words_any(&w, together, 0, w.count, NULL) != NULL;
        for (size_t i = 0; i < f->part_count && !known; i++)
            known = share_a_word(a, part->name, f->parts[i].name.text);
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
                                              .ingredient = n->ingredient};
    }
}

void
method_judge(struct arena *a, const struct post *post, const struct dish *d,
             const struct schedule *s, const struct tables *t, struct reads *reads,
             struct notices *notices, struct mentions *out)
{
    struct names names;
    struct named_list found;
    *out = (struct mentions){0};
    if (s->count == 0)
        return;
    names_lay(a, post, d, &names);
    names_find(&names, d, s, &found);
    bool *used = arena_take_array(a, d->count + 1, sizeof *used);
    names_used(&names, d, s, t->larder, &found, used);
    judge_unused(a, d, used, notices);
    judge_order(a, d, &found, notices);
    judge_parts(a, post, notices);
    step_amounts_judge(a, post, d, s, &found, t, reads, notices);
    unlisted_judge(&names, post, s, t->larder, reads, notices);
    tools_judge(a, post, s, notices);
    keep_mentions(a, s, &found, out);
}
