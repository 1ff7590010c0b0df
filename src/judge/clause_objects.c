#include "judge/clause_objects.h"

#include "read/stem.h"
#include "read/words_listed.h"

static void
put_meanings(const struct cooking *c, const char *const *names, struct meanings *out)
{
    for (; *names != NULL; names++) {
        const int number = cooking_meaning(c, slice_of(*names));
        if (number >= 0)
            meanings_put(out, number);
    }
}

void
clause_objects_begin(const struct dish *d, const struct cooking *c, struct told *told)
{
    const struct {
        struct meanings *out;
        const char *names[6];
    } asked[] = {{&told->acts, {"heat", "hold", "mix", "smaller", "washed"}},
                 {&told->places, {"cold", "out", "frozen", "warm-place", "shelf"}},
                 {&told->holds, {"hold", "keep"}},
                 {&told->closes, {"hold", "keep", "sealed", "pierced"}},
                 {&told->heat, {"heat"}},
                 {&told->wet, {"wet"}},
                 {&told->dry, {"dry-heat"}},
                 {&told->liquid, {"liquid"}},
                 {&told->jar, {"jar"}},
                 {&told->vessel, {"vessel"}}};
    *told = (struct told){.cooking = c, .kind = PASSAGE_STEP, .object = SIZE_MAX};
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++)
        put_meanings(c, asked[i].names, asked[i].out);
    for (size_t i = 0; i < d->count; i++)
        ingredient_set_put(&told->all, i);
    told->it = told->all;
}

static bool
is_empty(const struct ingredient_set *s)
{
    return !ingredient_sets_meet(s, s);
}

/* the number of what is named at word i, or SIZE_MAX */
static size_t
named_at(const struct named_list *named, size_t i)
{
    for (size_t k = 0; k < named->count; k++)
        if (i >= named->items[k].from && i < named->items[k].end)
            return named->items[k].ingredient;
    return SIZE_MAX;
}

static const struct sign *
sign_at(const struct clause *c, size_t i)
{
    for (size_t k = 0; k < c->sign_count; k++)
        if (c->first_sign[k].from <= i && i < c->first_sign[k].end &&
            c->first_sign[k].row->kind != COOKING_ACTION &&
            c->first_sign[k].row->kind != COOKING_STATE)
            return &c->first_sign[k];
    return NULL;
}

/* "gently", "together": no thing */
static bool
is_adverb(const struct words *w, size_t i)
{
    return slice_ends(w->items[i].folded, "ly") || words_one_of(w, i, WORDS_OBJECT_ADVERBS);
}

static bool
is_mixing(const struct clause *c)
{
    for (size_t k = 0; k < c->sign_count; k++)
        if (c->first_sign[k].done && (slice_is(slice_of(c->first_sign[k].row->id), "adding") ||
                                      slice_is(slice_of(c->first_sign[k].row->id), "coating")))
            return true;
    return false;
}

/* the word behind the verb: behind all of "turn off the heat", but in "take ~ off the heat" behind
 * "take" */
static size_t
verb_end(const struct clause *c)
{
    for (size_t k = 0; k < c->sign_count; k++)
        if (c->first_sign[k].done && c->first_sign[k].from == c->verb && !c->first_sign[k].gapped)
            return c->first_sign[k].end;
    return c->verb + 1;
}

/* what stands right behind the verb */
static enum acted_on
object_behind(const struct word_lists *lists, const struct clause *c,
              const struct named_list *named, const struct told *told)
{
    enum { LOOK_MOST = 9 };
    static const char *const whole[] = {"everything", "lot", NULL};
    const struct words *w = c->passage->words;
    enum acted_on on = ACTS_ON_IT;
    size_t i = verb_end(c);
    const bool particle = i < c->end && words_one_of(w, i, WORDS_OBJECT_PREPOSITIONS);
    if (particle &&
        (!is_mixing(c) || sign_at(c, i) != NULL || !words_one_of(w, i, WORDS_VERB_PARTICLES)))
        return ACTS_ON_IT; /* "fry in the oil", "rub with salt"; but "stir in the honey" */
    i += particle;
    for (size_t n = 0; i < c->end && n < LOOK_MOST; i++, n++) {
        const struct word *word = &w->items[i];
        if (named_at(named, i) != SIZE_MAX)
            return ACTS_ON_NAMED;
        if (word->kind == WORD_NUMBER || word_is(word, "-"))
            continue;
        if (word->kind == WORD_MARK || words_one_of(w, i, WORDS_OBJECT_PREPOSITIONS))
            break;
        const struct sign *s = sign_at(c, i);
        if (s != NULL && meanings_meet(&s->row->means, &told->jar))
            return ACTS_ON_DISH; /* what is in the jar */
        if (s != NULL && meanings_meet(&s->row->means, &told->vessel) && s->end < c->end &&
            word_is(&w->items[s->end], "of")) {
            i = s->end; /* "a bowl of it": what is behind */
            continue;
        }
        if (s != NULL && meanings_meet(&s->row->means, &told->vessel) &&
            meanings_meet(&c->means, &told->closes) && !meanings_meet(&c->means, &told->heat))
            return ACTS_ON_IT; /* "leave the pan": what is in it */
        if (s != NULL && (s->row->kind == COOKING_TOOL || s->row->kind == COOKING_PLACE))
            return on == ACTS_ON_IT && !particle ? ACTS_ON_NOTHING : on;
        if (s != NULL && s->row->kind == COOKING_DISH)
            return ACTS_ON_DISH;
        if (words_one_of(w, i, WORDS_OBJECT_PRONOUNS))
            return ACTS_ON_IT;
        if (words_among(word, whole))
            return ACTS_ON_DISH;
        const struct stem stem = {word->folded, stem_code(word->folded)};
        if (!is_adverb(w, i) && !stem_describes(lists, &stem))
            on = ACTS_ON_DISH;
    }
    return on;
}

/* "heat the garlic in the cream, take it out": the garlic */
static size_t
object_of(const struct clause *c, const struct named_list *named, const struct told *told)
{
    size_t object = SIZE_MAX;
    if (c->on == ACTS_ON_IT)
        return told->object;
    for (size_t i = c->verb != SIZE_MAX ? verb_end(c) : c->end; i < c->end; i++) {
        const size_t k = named_at(named, i);
        if (words_one_of(c->passage->words, i, WORDS_OBJECT_PREPOSITIONS))
            break;
        if (k != SIZE_MAX && object != SIZE_MAX && k != object)
            return SIZE_MAX;
        object = k != SIZE_MAX ? k : object;
    }
    return object;
}

/* "the rice is left", "the rice keeps": before the verb, and not behind a preposition */
static bool
subject_before(const struct clause *c, const struct named_list *named)
{
    const struct words *w = c->passage->words;
    bool indirect = false;
    for (size_t i = c->from; i < c->verb && i < c->end; i++) {
        indirect = indirect || words_one_of(w, i, WORDS_OBJECT_PREPOSITIONS);
        if (word_is(&w->items[i], ","))
            indirect = false;
        if (!indirect && named_at(named, i) != SIZE_MAX)
            return true;
    }
    return false;
}

/* "the bird", "the whites": all ingredients of a kind */
static void
name_by_kind(const struct names *names, const struct cooking *cooking, struct slice word,
             struct clause *c)
{
    const struct food_kind *k = map_get(&cooking->kind_words, word);
    for (size_t i = 0; k != NULL && i < names->dish->count; i++)
        if (names_of_kind(&names->dish->ingredients[i], k))
            ingredient_set_put(&c->named, i);
}

/* other words of the list's lines: "the chips" of potatoes cut into chips */
static void
name_by_line(const struct names *names, const struct cooking *cooking, struct clause *c,
             const struct named_list *named)
{
    const struct words *w = c->passage->words;
    for (size_t i = c->from; i < c->end; i++) {
        if (w->items[i].kind != WORD_LETTERS || w->items[i].folded.length < 4)
            continue;
        size_t k = named_at(named, i);
        if (k == SIZE_MAX)
            k = names_other(names, w->items[i].folded);
        if (k != SIZE_MAX)
            ingredient_set_put(&c->named, k);
        else
            name_by_kind(names, cooking, w->items[i].folded, c);
    }
    for (size_t k = 0; k < named->count; k++)
        if (named->items[k].from >= c->from && named->items[k].from < c->end)
            ingredient_set_put(&c->named, named->items[k].ingredient);
}

/* "put it in the fridge and leave until the next day": it stays where it was put */
static void
mind_the_place(struct clause *c, struct told *told)
{
    if (c->verb == SIZE_MAX || c->negated)
        return;
    if (c->on == ACTS_ON_IT && meanings_meet(&c->means, &told->holds) &&
        !meanings_meet(&c->means, &told->places) && !meanings_meet(&c->means, &told->heat))
        meanings_join(&c->means, &told->where);
    for (int i = 0; i < MEANINGS_MOST / 64; i++)
        told->where.bits[i] = c->means.bits[i] & told->places.bits[i];
}

static bool
says_everything(const struct clause *c)
{
    for (size_t k = 0; k < c->sign_count; k++)
        if (slice_is(slice_of(c->first_sign[k].row->id), "everything"))
            return true;
    return false;
}

/* whether all that is named is water, stock and the like */
static bool
only_liquid(const struct names *names, const struct clause *c)
{
    for (size_t i = 0; i < names->dish->count; i++)
        if (ingredient_set_has(&c->named, i) &&
            !words_have(names->dish->ingredients[i].words,
                        words_list(names->dish->ingredients[i].words, WORDS_COOKING_LIQUIDS)))
            return false;
    return true;
}

/* "cook the rice in the water": in water, though the verb does not say so */
static void
mind_the_liquid(struct clause *c, const struct told *told)
{
    if (meanings_meet(&c->means, &told->heat) && meanings_meet(&c->means, &told->liquid) &&
        !meanings_meet(&c->means, &told->dry))
        meanings_join(&c->means, &told->wet);
}

/* "bring a pan of water to the boil, add the beans": what goes into a hot pot is heated as it is */
static void
mind_the_pot(const struct names *names, struct clause *c, struct told *told)
{
    const bool wet = meanings_meet(&c->means, &told->wet);
    if (wet && (c->on == ACTS_ON_NOTHING || (!is_empty(&c->named) && only_liquid(names, c))))
        told->pot = c->means;
    else if (meanings_meet(&c->means, &told->heat))
        told->pot = (struct meanings){{0}};
    else if (is_mixing(c))
        meanings_join(&c->means, &told->pot);
}

/* what is named in the words that a clause's own are looked at with: names stand in the order of
 * the passage, so that each clause of a long one looks at its own alone */
static struct named_list
named_near(const struct named_list *named, const struct clause *c)
{
    const size_t low = names_behind(named, c->from);
    size_t end = low;
    for (; end < named->count && named->items[end].from < c->end;)
        end++;
    struct named_list near = *named;
    near.items = low < named->count ? named->items + low : named->items;
    near.count = end - low;
    return near;
}

void
clause_objects_read(const struct names *names, const struct named_list *all, struct clause *c,
                    struct told *told)
{
    const struct named_list near = named_near(all, c), *named = &near;
    if (c->passage->kind != told->kind) { /* notes and prose speak of the whole dish */
        told->kind = c->passage->kind;
        told->it = told->so_far = told->all;
        told->where = told->pot = (struct meanings){{0}};
    }
    name_by_line(names, told->cooking, c, named);
    if (says_everything(c))
        ingredient_set_join(&c->named, &told->all);
    c->on = c->verb == SIZE_MAX ? ACTS_ON_IT : object_behind(names->lists, c, named, told);
    if (c->on != ACTS_ON_NAMED && c->on != ACTS_ON_NOTHING && c->verb != SIZE_MAX &&
        subject_before(c, named))
        c->on = ACTS_ON_NAMED;
    if (c->verb == SIZE_MAX && !is_empty(&c->named))
        c->on = ACTS_ON_NAMED;
    c->object = told->object = object_of(c, named, told);
    const struct ingredient_set *before = is_empty(&told->so_far) ? &told->all : &told->so_far;
    if (c->on != ACTS_ON_NOTHING) {
        c->acted = c->wide = c->named;
        if (c->on == ACTS_ON_IT)
            ingredient_set_join(&c->acted, &told->it);
        if (c->on == ACTS_ON_DISH)
            ingredient_set_join(&c->acted, before);
        if (c->on != ACTS_ON_NAMED)
            ingredient_set_join(&c->wide, before);
        if (!is_mixing(c))
            told->it = c->acted;
        else if (is_empty(&told->so_far))
            told->it = c->acted;
        else
            ingredient_set_join(&told->it, &c->acted);
    }
    /* what fills jars, "fill jars with the corn", is in them, however it is called */
    ingredient_set_join(&told->so_far,
                        meanings_meet(&c->means, &told->jar) ? &c->acted : &c->named);
    if (is_empty(&told->so_far) && meanings_meet(&c->means, &told->acts))
        told->so_far = c->acted; /* "Soak overnight.": all of the list */
    mind_the_liquid(c, told);
    mind_the_pot(names, c, told);
    mind_the_place(c, told);
}
