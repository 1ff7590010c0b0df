#include "write/causes.h"

#include <stdlib.h>

void
causes_begin(struct arena *a, struct causes *out)
{
    *out = (struct causes){.arena = a, .by_words = map_new(a)};
}

/* one post more for a cause, if the post did not count towards it before */
static void
add(struct causes *c, const char *path, enum level level, struct slice words, struct slice example)
{
    const uintptr_t number = (uintptr_t)map_get(&c->by_words, words);
    if (number > 0) {
        struct cause *known = &c->items.items[number - 1];
        if (known->path != path)
            known->posts++;
        known->path = path; /* the last that counted */
        return;
    }
    const struct slice kept = slice_copy(c->arena, words);
    *LIST_GROW(c->arena, &c->items) = (struct cause){.words = kept,
                                                     .example = slice_copy(c->arena, example),
                                                     .path = path,
                                                     .level = level,
                                                     .posts = 1};
    map_put(&c->by_words, kept, (void *)(uintptr_t)c->items.count);
}

static const char *
food_name(const struct outcome *o, const struct load *l)
{
    const struct helping *h = l->helping;
    if (h->food != NULL)
        return h->food->name;
    return slice_string(o->reads->arena, slice_trim(h->written->name));
}

/* the limits that decide how the portion stands, each food's nearest one */
static void
add_limits(struct causes *c, const char *path, const struct outcome *o, struct arena *a)
{
    const struct phase_stand *s = &o->phases[o->tables->site.phase];
    const struct slice mend = o->remedies.count > 0 ? o->remedies.items[0].sentence : SLICE("");
    bool food_over = false; /* then the sitting follows from it */
    for (size_t i = 0; i < s->limit_count; i++)
        food_over = food_over ||
                    (s->limits[i].standing == STANDING_OVER && s->limits[i].of.column != SITTING);
    for (size_t i = 0; i < s->limit_count; i++) {
        const struct limit_stand *l = &s->limits[i];
        const struct load *unknown = l->worst.lack.load, *chief = l->worst.chief;
        if (l->standing == STANDING_UNKNOWN && unknown != NULL)
            add(c, path, LEVEL_WARNING,
                text_formatted(a, "no %s for %s", l->worst.lack.amount ? "amount" : "figure",
                               food_name(o, unknown)),
                SLICE(""));
        else if (l->standing == STANDING_OVER && l->of.column == SITTING && !food_over)
            add(c, path, LEVEL_ERROR, SLICE("too much for one sitting"), mend);
        else if (l->standing == STANDING_OVER && l->of.column != SITTING && chief != NULL)
            add(c, path, LEVEL_ERROR, text_formatted(a, "%s over a limit", food_name(o, chief)),
                mend);
    }
}

static bool
tells_portion(enum rule r)
{
    return r == RULE_PORTION_OVER || r == RULE_PORTION_CHOICE || r == RULE_PORTION_UNKNOWN;
}

void
causes_add(struct causes *c, const char *path, const struct outcome *o)
{
    struct arena *a = o->reads->arena;
    if (o->phases == NULL || outcome_round_up(o) || o->dish.count == 0) {
        c->others++;
    } else {
        c->standing[o->phases[o->tables->site.phase].standing]++;
        add_limits(c, path, o, a);
    }
    for (size_t i = 0; i < o->findings.count; i++) {
        const struct finding *f = &o->findings.items[i];
        if (!f->answered && !tells_portion(f->rule))
            add(c, path, f->level, slice_of(rules_row(f->rule)->id), SLICE(""));
    }
}

static int
by_posts(const void *left, const void *right)
{
    const struct cause *a = left, *b = right;
    if (a->level != b->level)
        return a->level > b->level ? -1 : 1;
    if (a->posts != b->posts)
        return a->posts > b->posts ? -1 : 1;
    return slice_order(a->words, b->words);
}

void
causes_write(struct text *t, struct causes *c, size_t most)
{
    const size_t *n = c->standing;
    text_addf(t, "%zu within, %zu close, %zu over, %zu not known", n[STANDING_WITHIN],
              n[STANDING_CLOSE], n[STANDING_OVER], n[STANDING_UNKNOWN]);
    if (c->others > 0)
        text_addf(t, ", %zu without a portion", c->others);
    text_add_byte(t, '\n');
    if (c->items.count > 1)
        qsort(c->items.items, c->items.count, sizeof *c->items.items, by_posts);
    for (size_t i = 0; i < c->items.count && i < most; i++) {
        const struct cause *one = &c->items.items[i];
        text_addf(t, "%5zu post%s %-7s  %.*s\n", one->posts, one->posts == 1 ? " " : "s",
                  finding_level_word(one->level), SLICE_ARGS(one->words));
        if (one->example.length > 0)
            text_addf(t, "                       the first: %.*s\n", SLICE_ARGS(one->example));
    }
    if (c->items.count > most)
        text_addf(t, "and %zu causes more\n", c->items.count - most);
}
