#include "judge/claims.h"

#include <string.h>

#include "base/list.h"
#include "judge/claim_words.h"
#include "judge/contents.h"
#include "judge/diet_promise.h"
#include "judge/health.h"
#include "judge/least_time.h"
#include "judge/timing.h"
#include "judge/vessels.h"

/* all that claims are held against */
struct claim_context {
    struct arena *arena;
    const struct post *post;
    const struct dish *dish; /* with what the method adds to it */
    const struct schedule *schedule;
    const struct tables *tables;
    const struct phase_stand *stand;
    struct reads *reads;
    struct notices *notices;
};

/* g of lactose in a portion that "lactose-free" still allows */
static const double lactose_free = 0.1;

static struct slice
lines_of(const struct claim_context *c, const struct culprits *list)
{
    enum { NAMED_MOST = 3 };
    struct text t = text_new(c->arena);
    for (size_t i = 0; i < list->count && i < NAMED_MOST; i++) {
        text_add_string(&t, i == 0 ? "“" : ", “");
        text_add(&t, c->dish->ingredients[list->items[i]].line.text);
        text_add_string(&t, "”");
    }
    if (list->count > NAMED_MOST)
        text_addf(&t, " and %zu more", list->count - NAMED_MOST);
    return text_slice(&t);
}

static void
raise(const struct claim_context *c, const struct claim *claim, enum rule rule, struct slice more)
{
    notice_add(c->notices, rule, claim->front_value.place, claim->front_value.text, more);
}

/* what follows from a food that the larder does not have is said where that is said */
static bool
follows_unknown(const struct claim_context *c, const struct claim *claim,
                const struct culprits *unknowing)
{
    struct notice *told = NULL;
    for (size_t k = 0; k < unknowing->count; k++) {
        const struct ingredient_line *line = &c->dish->ingredients[unknowing->items[k]].line;
        const uint32_t at = line->node != NULL ? written_line_place(line, 0, 0).line : 0;
        bool found = false;
        for (size_t i = 0; i < c->notices->count; i++) {
            struct notice *n = &c->notices->items[i];
            if (n->rule != RULE_FOOD_UNKNOWN || n->place.line != at || at == 0)
                continue;
            found = true;
            told = told == NULL ? n : told;
        }
        if (!found)
            return false;
    }
    if (told != NULL)
        told->more = text_formatted(c->arena, "%.*s; the claim “%.*s” cannot be checked",
                                    SLICE_ARGS(told->more), SLICE_ARGS(claim->front_value.text));
    return told != NULL;
}

/* the allergens that a claim rules out */
static uint32_t
ruled_out(const struct claim_meaning *m)
{
    return m->kind == CLAIM_DIET ? groups_diet(m->diet)->rules_out : m->allergens;
}

/* whether the label only says what came near a food, or is in a few of its kind: none of it is in
 * it, or in some as such */
static bool
is_trace(const struct food *f, const struct claim_meaning *m)
{
    const uint32_t out = ruled_out(m);
    if (((f->allergens | f->may_carry) & out) != 0)
        return false;
    if (m->kind != CLAIM_DIET || (f->labelled >> m->diet & 1) == 0 || (f->traces & out) != 0)
        return true;
    return m->diet == DIET_GLUTEN_FREE || m->diet == DIET_DAIRY_FREE;
}

static bool
traces_only(const struct claim_context *c, const struct contents *k, const struct claim_meaning *m)
{
    for (size_t i = 0; i < k->labelling.count; i++) {
        const struct ingredient *in = &c->dish->ingredients[k->labelling.items[i]];
        for (size_t o = 0; o < in->option_count; o++)
            for (size_t n = 0; n < in->options[o].count; n++) {
                const struct food *f = in->options[o].helpings[n].food;
                if (f != NULL && !is_trace(f, m))
                    return false;
            }
    }
    return true;
}

/* grounds from what the ingredients carry; the notice names the lines that decide */
static void
judge_contents(const struct claim_context *c, struct claim *claim, const struct contents *k,
               const struct claim_meaning *m, struct slice because)
{
    if (k->breaks) {
        claim->grounds = GROUNDS_FALSE;
        claim->because = lines_of(c, &k->breaking);
        raise(c, claim, RULE_CLAIM_FALSE, claim->because);
    } else if (k->on_choice) {
        claim->grounds = GROUNDS_ON_CHOICE;
        claim->because =
            text_formatted(c->arena, "not with %.*s", SLICE_ARGS(lines_of(c, &k->choosing)));
        raise(c, claim, RULE_CLAIM_ON_CHOICE, lines_of(c, &k->choosing));
    } else if (k->label) {
        claim->grounds = GROUNDS_LABEL;
        claim->because = text_formatted(c->arena, "if the label says so: %.*s",
                                        SLICE_ARGS(lines_of(c, &k->labelling)));
        raise(c, claim, traces_only(c, k, m) ? RULE_CLAIM_TRACE : RULE_CLAIM_LABEL,
              lines_of(c, &k->labelling));
    } else if (k->unknown) {
        claim->grounds = GROUNDS_UNKNOWN;
        claim->because = text_formatted(c->arena, "not in the larder, or not understood: %.*s",
                                        SLICE_ARGS(lines_of(c, &k->unknowing)));
        if (!follows_unknown(c, claim, &k->unknowing))
            raise(c, claim, RULE_CLAIM_UNKNOWN, claim->because);
    } else {
        claim->grounds = GROUNDS_HOLDS;
        claim->because = because;
    }
}

static void
judge_diet(const struct claim_context *c, struct claim *claim, const struct claim_meaning *m)
{
    struct contents k;
    contents_of_diet(c->arena, c->dish, m->diet, c->reads, &k);
    judge_contents(c, claim, &k, m, slice_of(groups_diet(m->diet)->because));
}

static void
judge_absent(const struct claim_context *c, struct claim *claim, const struct claim_meaning *m)
{
    struct contents k;
    contents_of_allergens(c->arena, c->dish, m->allergens, c->reads, &k);
    judge_contents(c, claim, &k, m,
                   text_formatted(c->arena, "no ingredient carries %s", m->absent));
}

static void
decide(const struct claim_context *c, struct claim *claim, enum grounds grounds, enum rule rule,
       struct slice because)
{
    claim->grounds = grounds;
    claim->because = because;
    if (grounds != GROUNDS_HOLDS)
        raise(c, claim, rule, because);
}

static void
judge_low(const struct claim_context *c, struct claim *claim, const struct claim_meaning *m)
{
    const struct group_stand *g = &c->stand->groups[m->group];
    struct text t = text_new(c->arena);
    if (!limits_hold(&c->tables->limits.phases[c->tables->site.phase], m->group, c->reads)) {
        decide(c, claim, GROUNDS_UNKNOWN, RULE_CLAIM_UNKNOWN,
               text_formatted(c->arena, "there is no limit for %s", groups_name(m->group)));
        return;
    }
    text_addf(&t, "one portion carries ");
    text_add_number(&t, g->load.mid, 2);
    text_addf(&t, " g of %s, %.0f %% of the limit", groups_name(m->group), g->share.mid * 100);
    if (g->share.mid > 1 && g->best_share.mid <= 1)
        decide(c, claim, GROUNDS_ON_CHOICE, RULE_CLAIM_ON_CHOICE, text_slice(&t));
    else if (g->share.mid > 1)
        decide(c, claim, GROUNDS_FALSE, RULE_CLAIM_FALSE, text_slice(&t));
    else if (g->unknown)
        decide(
            c, claim, GROUNDS_UNKNOWN, RULE_CLAIM_UNKNOWN,
            text_formatted(c->arena, "an ingredient has no figure for %s", groups_name(m->group)));
    else if (g->share.high > 1)
        decide(c, claim, GROUNDS_UNKNOWN, RULE_CLAIM_UNKNOWN,
               text_formatted(c->arena, "one portion may exceed the limit of %s",
                              groups_name(m->group)));
    else
        decide(c, claim, GROUNDS_HOLDS, RULE_CLAIM_FALSE, text_slice(&t));
}

static void
judge_none_of(const struct claim_context *c, struct claim *claim, const struct claim_meaning *m)
{
    const struct group_stand *g = &c->stand->groups[m->group];
    struct text t = text_new(c->arena);
    text_add_string(&t, "one portion carries ");
    text_add_number(&t, g->load.mid, 2);
    text_addf(&t, " g of %s", groups_name(m->group));
    if (g->load.low > lactose_free && g->best_load.high <= lactose_free)
        decide(c, claim, GROUNDS_ON_CHOICE, RULE_CLAIM_ON_CHOICE, text_slice(&t));
    else if (g->load.mid > lactose_free)
        decide(c, claim, GROUNDS_FALSE, RULE_CLAIM_FALSE, text_slice(&t));
    else if (g->unknown)
        decide(
            c, claim, GROUNDS_UNKNOWN, RULE_CLAIM_UNKNOWN,
            text_formatted(c->arena, "an ingredient has no figure for %s", groups_name(m->group)));
    else
        decide(c, claim, GROUNDS_HOLDS, RULE_CLAIM_FALSE,
               text_formatted(c->arena, "no ingredient carries %s that counts",
                              groups_name(m->group)));
}

/* sugars and syrups as such: fruit, milk and the like bring their own */
static void
judge_sugar(const struct claim_context *c, struct claim *claim)
{
    struct culprits sugars = {0};
    for (size_t i = 0; i < c->dish->count; i++) {
        const struct ingredient *in = &c->dish->ingredients[i];
        const struct food *f = in->option_count > 0 && in->options[0].count > 0
                                   ? in->options[0].helpings[0].food
                                   : NULL;
        if (f == NULL || f->food_class != CLASS_OTHER)
            continue;
        const struct figure *sugar = food_nutrient(f, SUGARS, c->reads);
        if (figure_known(sugar) && sugar->span.mid >= 60)
            *LIST_GROW(c->arena, &sugars) = i;
    }
    if (sugars.count > 0)
        decide(c, claim, GROUNDS_FALSE, RULE_CLAIM_FALSE, lines_of(c, &sugars));
    else
        decide(c, claim, GROUNDS_HOLDS, RULE_CLAIM_FALSE,
               SLICE("no sugar or syrup is among the ingredients"));
}

static void
judge_time(const struct claim_context *c, struct claim *claim, const struct claim_meaning *m)
{
    const struct schedule *s = c->schedule;
    const struct front_time *total = &c->post->front.total;
    struct text t = text_new(c->arena);
    if (s->stated && s->least > m->seconds + 1) {
        text_add_string(&t, "the steps take ");
        text_add(&t, least_time_words(c->arena, c->post, s));
        decide(c, claim, GROUNDS_FALSE, RULE_TIME_CLAIM, text_slice(&t));
    } else if (total->given && total->seconds.low > m->seconds + 1) {
        text_add_string(&t, "the total declared is ");
        duration_write_words(&t, total->seconds.low);
        decide(c, claim, GROUNDS_FALSE, RULE_TIME_CLAIM, text_slice(&t));
    } else if (total->given) {
        text_add_string(&t, "the total is ");
        duration_write_words(&t, total->seconds.high);
        decide(c, claim, GROUNDS_HOLDS, RULE_TIME_CLAIM, text_slice(&t));
    } else if (s->stated) {
        text_add_string(&t, "the steps state ");
        duration_write_words(&t, s->total.high);
        decide(c, claim, GROUNDS_HOLDS, RULE_TIME_CLAIM, text_slice(&t));
    } else {
        decide(c, claim, GROUNDS_UNKNOWN, RULE_CLAIM_UNKNOWN,
               SLICE("neither the steps nor times: state a time"));
    }
}

static bool
staple(const struct food *f)
{
    static const char *const staples[] = {
        "water", "salt", "black-pepper", "pepper", "sea-salt", "white-pepper", NULL};
    for (size_t i = 0; staples[i] != NULL; i++)
        if (f != NULL && strcmp(f->id, staples[i]) == 0)
            return true;
    return false;
}

/* foods that differ, without the optional ones, water, salt and pepper: what nobody disputes */
static size_t
count_foods(const struct dish *d)
{
    size_t count = 0;
    for (size_t i = 0; i < d->count; i++) {
        const struct ingredient *in = &d->ingredients[i];
        const struct food *f = in->option_count > 0 && in->options[0].count > 0
                                   ? in->options[0].helpings[0].food
                                   : NULL;
        bool again = false;
        for (size_t k = 0; f != NULL && k < i && k < 100 && !again; k++)
            again = d->ingredients[k].option_count > 0 && d->ingredients[k].options[0].count > 0 &&
                    d->ingredients[k].options[0].helpings[0].food == f;
        count += !in->optional && !again && !staple(f);
    }
    return count;
}

static void
judge_count(const struct claim_context *c, struct claim *claim, const struct claim_meaning *m)
{
    size_t count = count_foods(c->dish);
    struct slice more = text_formatted(
        c->arena, "the list has %zu, without water, salt, pepper and what is optional", count);
    if ((double)count > m->count)
        decide(c, claim, GROUNDS_FALSE, RULE_CLAIM_FALSE, more);
    else
        decide(c, claim, GROUNDS_HOLDS, RULE_CLAIM_FALSE, more);
}

static void
judge_one_pot(const struct claim_context *c, struct claim *claim)
{
    struct slice named;
    size_t count = vessels_count(c->arena, c->schedule, &named);
    if (count > 1)
        decide(c, claim, GROUNDS_FALSE, RULE_CLAIM_FALSE,
               text_formatted(c->arena, "the steps name %.*s", SLICE_ARGS(named)));
    else
        decide(c, claim, GROUNDS_HOLDS, RULE_CLAIM_FALSE,
               SLICE("the steps name no second pan, pot or tray"));
}

/* nobody knows it; perhaps it is only mistyped */
static void
raise_unread(const struct claim_context *c, const struct claim *claim)
{
    const char *near = claim_words_nearest(c->arena, c->tables->words, claim->front_value.text);
    struct slice more = SLICE("nothing in the tables speaks of it");
    struct slice mend = SLICE("Leave it out, or write one that is checked: vegan, gluten-free, "
                              "nut-free, low-lactose, under 30 min, 5 ingredients, one-pot.");
    if (near != NULL) {
        more = text_formatted(c->arena, "%.*s; did you mean “%s”?", SLICE_ARGS(more), near);
        mend = text_formatted(c->arena, "Write %s.", near);
    }
    notice_add_mended(c->notices, RULE_CLAIM_UNKNOWN, claim->front_value.place,
                      claim->front_value.text, more, mend);
}

/* the promise of the diet itself */
static void
judge_portion(const struct claim_context *c, struct claim *claim)
{
    static const enum grounds grounds[] = {GROUNDS_HOLDS, GROUNDS_HOLDS, GROUNDS_UNKNOWN,
                                           GROUNDS_FALSE};
    const enum rule rule = diet_promise_rule(c->arena, c->stand, &claim->because);
    claim->grounds = grounds[c->stand->standing];
    if (rule == RULE_CLAIM_ON_CHOICE)
        claim->grounds = GROUNDS_ON_CHOICE;
    if (rule != RULES)
        raise(c, claim, rule, claim->because);
}

static void
judge_claim(const struct claim_context *c, struct claim *claim)
{
    struct claim_meaning m;
    claim_words_read(c->arena, c->tables->words, &c->tables->cooking, claim->front_value.text, &m);
    if (m.kind == CLAIM_UNREAD &&
        diet_promise_claimed(c->arena, c->tables->words, claim->front_value.text)) {
        m.kind = CLAIM_PORTION;
        m.id = "low-fodmap";
    }
    claim->id = m.id;
    claim->diet_url = m.diet_url;
    switch (m.kind) {
    case CLAIM_PORTION:
        judge_portion(c, claim);
        break;
    case CLAIM_DIET:
        judge_diet(c, claim, &m);
        break;
    case CLAIM_ABSENT:
        judge_absent(c, claim, &m);
        break;
    case CLAIM_LOW:
        judge_low(c, claim, &m);
        break;
    case CLAIM_NONE_OF:
        judge_none_of(c, claim, &m);
        break;
    case CLAIM_SUGAR:
        judge_sugar(c, claim);
        break;
    case CLAIM_TIME:
        judge_time(c, claim, &m);
        break;
    case CLAIM_COUNT:
        judge_count(c, claim, &m);
        break;
    case CLAIM_ONE_POT:
        judge_one_pot(c, claim);
        break;
    case CLAIM_MANNER:
        claim->grounds = GROUNDS_UNKNOWN;
        break;
    case CLAIM_UNREAD:
        claim->grounds = GROUNDS_UNKNOWN;
        if (!health_promises(c->arena, c->tables->words, claim->front_value.text))
            raise_unread(c, claim);
        break;
    }
}

/* which ingredients carry the allergen, and whether in every way to make the dish */
static bool
carried(const struct claim_context *c, enum allergen allergen, struct carried_allergen *out)
{
    struct contents k;
    contents_of_allergens(c->arena, c->dish, 1u << allergen, c->reads, &k);
    const struct culprits *lists[] = {&k.breaking, &k.choosing, &k.labelling};
    if (!k.breaks && !k.on_choice && !k.label)
        return false;
    *out = (struct carried_allergen){.allergen = allergen,
                                     .on_choice = !k.breaks && k.on_choice,
                                     .may_carry = !k.breaks && !k.on_choice};
    out->ingredients = arena_take_array(c->arena, c->dish->count + 1, sizeof *out->ingredients);
    for (size_t l = 0; l < (out->may_carry ? 3u : 2u); l++)
        for (size_t i = 0; i < lists[l]->count; i++)
            out->ingredients[out->count++] = lists[l]->items[i];
    return true;
}

void
claims_judge(const struct judging *j, const struct phase_stand *stand,
             const struct method_foods *foods, struct claims *out)
{
    struct arena *a = j->arena;
    const struct dish *d = unlisted_dish(a, j->dish, foods);
    const struct post *post = j->post;
    struct claim_context c = {a, post, d, j->schedule, j->tables, stand, j->reads, j->notices};
    const struct front_list *front_value = &post->front.claims;
    *out = (struct claims){.count = front_value->count};
    out->items = arena_take_array(a, front_value->count + 1, sizeof *out->items);
    for (size_t i = 0; i < front_value->count; i++) {
        out->items[i].front_value = front_value->items[i];
        judge_claim(&c, &out->items[i]);
    }
    out->allergens = arena_take_array(a, ALLERGENS, sizeof *out->allergens);
    struct contents_sum sum;
    contents_sum(d, j->reads, &sum);
    for (int g = 0; g < ALLERGENS; g++)
        if ((sum.allergens & 1u << g) != 0)
            out->allergen_count +=
                carried(&c, (enum allergen)g, &out->allergens[out->allergen_count]);
    if (sum.unknown) {
        struct contents k;
        contents_of_allergens(a, d, ~UINT32_C(0), j->reads, &k);
        out->unknown = lines_of(&c, &k.unknowing);
    }
    for (int diet = 0; diet < DIETS; diet++) {
        struct contents k;
        if ((sum.diets & 1u << diet) == 0 && !sum.unknown) {
            out->diets[diet] = d->count > 0;
            continue;
        }
        contents_of_diet(a, d, (enum diet)diet, j->reads, &k);
        out->diets[diet] = d->count > 0 && !k.breaks && !k.on_choice && !k.label && !k.unknown;
    }
    bool promised = false;
    for (size_t i = 0; i < out->count; i++)
        promised =
            promised || (out->items[i].id != NULL && strcmp(out->items[i].id, "low-fodmap") == 0);
    diet_promise_judge(j, stand, promised);
    health_judge(a, post, j->notices);
}
