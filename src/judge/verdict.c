#include "judge/verdict.h"

#include <math.h>

/* parts that are worth a word */
static const double MEMORY_TOLD = 0.1, CHANCE_TOLD = 0.05, LACK_TOLD = 0.1;

struct wording {
    struct arena *arena;
    const struct verdict_asked *asked;
    struct reads *reads;
};

static struct slice
name_of(const struct wording *w, const struct helping *h)
{
    return h->food != NULL ? slice_of(foods_shown(h->food, w->asked->region, w->reads))
                           : slice_trim(h->written->name);
}

/* a percentage that never rounds across the limit; from twice the limit on, times */
static void
add_share(struct text *t, double share)
{
    double percent = round(share * 100);
    if (share >= 2) {
        text_add_number(t, share, share < 10 ? 1 : 0);
        text_add_string(t, " times");
        return;
    }
    if (share <= 1 && percent > 99 && share < 1)
        percent = 99;
    if (share > 1 && percent <= 100)
        percent = 101;
    text_add_number(t, percent, 0);
    text_add_string(t, " % of");
}

static void
add_limits(const struct wording *w, struct text *t)
{
    text_addf(t, "the limits for short-chain carbohydrates (%s phase)",
              w->asked->tables->limits.phases[w->asked->phase].name);
}

/* the nearest limit that is not known, for what it lacks */
static const struct limit_stand *
limit_lacking(const struct phase_stand *s)
{
    for (size_t i = 0; i < s->limit_count; i++)
        if (s->limits[i].standing == STANDING_UNKNOWN && s->limits[i].worst.lack.load != NULL)
            return &s->limits[i];
    return NULL;
}

static void
add_unknown(const struct wording *w, struct text *t)
{
    const struct limit_stand *l = limit_lacking(w->asked->stand);
    text_add_string(t, "How one portion stands to ");
    add_limits(w, t);
    text_add_string(t, " is not known");
    if (l == NULL) {
        text_add_byte(t, '.');
        return;
    }
    const struct lack *lack = &l->worst.lack;
    const struct slice name = name_of(w, lack->load->helping);
    if (lack->load->helping->food == NULL)
        text_addf(t, ": nothing is known of %.*s.", SLICE_ARGS(name));
    else if (lack->amount)
        text_addf(t, ": no amount is given of %.*s.", SLICE_ARGS(name));
    else
        text_addf(t, ": nobody has a figure for the %s of %.*s.", groups_name(lack->group),
                  SLICE_ARGS(name));
}

static struct slice
standing_words(const struct wording *w)
{
    struct text t = text_new(w->arena);
    const struct phase_stand *s = w->asked->stand;
    if (!w->asked->dish->portions_known)
        return SLICE("The recipe does not say how many portions it makes, so nothing is said of "
                     "one portion.");
    if (s->standing == STANDING_UNKNOWN) {
        add_unknown(w, &t);
        return text_slice(&t);
    }
    text_add_string(&t, "One portion ");
    if (s->standing == STANDING_OVER && s->best_standing <= STANDING_CLOSE)
        text_add_string(&t, "is within or over, by what is chosen, ");
    else
        text_add_string(&t, s->standing == STANDING_OVER ? "is over " : "stays within ");
    add_limits(w, &t);
    text_add_string(&t, s->standing == STANDING_CLOSE ? ", but comes close to one of them." : ".");
    return text_slice(&t);
}

/* the largest share among the foods' limits and lactose, and how near the sitting is */
static struct slice
nearest_words(const struct wording *w)
{
    struct text t = text_new(w->arena);
    const struct phase_stand *s = w->asked->stand;
    const struct limit_stand *near = NULL;
    if (!w->asked->dish->portions_known)
        return SLICE("");
    for (size_t i = 0; i < s->limit_count; i++)
        if (s->limits[i].of.column != SITTING && s->limits[i].worst.chief != NULL &&
            (near == NULL || s->limits[i].worst.mid > near->worst.mid))
            near = &s->limits[i];
    if (near == NULL)
        return SLICE("");
    const struct slice name = name_of(w, near->worst.chief->helping);
    const bool over = near->worst.mid > 1;
    text_addf(&t, over ? "Most: " : "Nearest: ");
    if (near->of.serve == SIZE_MAX)
        text_addf(&t, "%s, chiefly from %.*s, at ", column_name(near->of.column), SLICE_ARGS(name));
    else
        text_addf(&t, "%.*s, at ", SLICE_ARGS(name));
    add_share(&t, near->worst.mid);
    if (near->of.column == SERVED)
        text_add_string(&t, " its serve");
    else
        text_addf(&t, " the limit for %s",
                  near->of.serve == SIZE_MAX ? "a portion" : column_name(near->of.column));
    if (s->whole != NULL && s->whole->worst.mid > 0) {
        text_add_string(&t, "; all that counts together ");
        add_share(&t, s->whole->worst.mid);
        text_add_string(&t, " the total for one sitting");
    }
    text_add_byte(&t, '.');
    return text_slice(&t);
}

static void
add_pick(const struct wording *w, struct text *t, size_t row, size_t pick)
{
    const struct ingredient *in = &w->asked->dish->ingredients[row];
    const struct dish_option *option = &in->options[pick == 0 ? 0 : pick - 1];
    text_add_string(t, pick == 0 ? "without the " : "with the ");
    for (size_t i = 0; i < option->count; i++)
        text_addf(t, "%s%.*s", i == 0 ? "" : " and ", SLICE_ARGS(name_of(w, &option->helpings[i])));
}

static struct slice
choice_words(const struct wording *w)
{
    static const char *const resolved[] = {"Within ", "Close to a limit ", "Not known ", "Over "};
    static const char *const else_words[] = {"within", "close to a limit", "not known", "over"};
    struct text t = text_new(w->arena);
    const struct choices *c = w->asked->choices;
    const struct phase_stand *s = w->asked->stand;
    if (c == NULL || c->resolve_count == 0 || c->resolved >= s->standing)
        return SLICE("");
    text_add_string(&t, resolved[c->resolved]);
    for (size_t k = 0; k < c->resolve_count; k++) {
        text_add_string(&t, k == 0 ? "" : k + 1 == c->resolve_count ? " and " : ", ");
        add_pick(w, &t, c->resolve[2 * k], c->resolve[2 * k + 1]);
    }
    text_addf(&t, "; %s otherwise.", else_words[s->standing]);
    return text_slice(&t);
}

static void
add_chance(const struct wording *w, struct text *t)
{
    double chance = 0;
    const struct phase_stand *s = w->asked->stand;
    for (size_t i = 0; i < s->limit_count; i++)
        chance = fmax(chance, s->limits[i].worst.chance);
    if (s->standing == STANDING_UNKNOWN || chance < CHANCE_TOLD || chance > 1 - CHANCE_TOLD)
        return;
    text_addf(t, "By the spread of figures and amounts, the chance of being over is %.0f %%.",
              chance * 100);
}

/* what the nearest limit, or the sitting, rests on */
static void
add_grounds(const struct wording *w, struct text *t)
{
    const struct phase_stand *s = w->asked->stand;
    const struct limit_stand *l = s->nearest;
    if (l == NULL || s->standing == STANDING_UNKNOWN)
        return;
    if (l->worst.memory >= MEMORY_TOLD) {
        text_add_string(t, t->length > 0 ? " " : "");
        if (l->worst.memory > 0.95)
            text_add_string(t, "The nearest share rests on figures from memory.");
        else
            text_addf(t, "Of the nearest share %.0f %% rests on figures from memory.",
                      l->worst.memory * 100);
    }
    const struct lack *lack = s->whole != NULL ? &s->whole->worst.lack : &l->worst.lack;
    if (lack->load != NULL && !lack->amount && lack->adds >= LACK_TOLD)
        text_addf(t, "%sNobody has a figure for the %s of %.*s; it is estimated.",
                  t->length > 0 ? " " : "", groups_name(lack->group),
                  SLICE_ARGS(name_of(w, lack->load->helping)));
}

void
verdict_words(struct arena *a, const struct verdict_asked *asked, struct reads *reads,
              struct verdict *out)
{
    const struct wording w = {a, asked, reads};
    struct text sureness = text_new(a);
    *out = (struct verdict){
        .standing = standing_words(&w), .nearest = nearest_words(&w), .choice = choice_words(&w)};
    if (asked->dish->portions_known) {
        add_chance(&w, &sureness);
        add_grounds(&w, &sureness);
    }
    out->sureness = text_slice(&sureness);
}

struct slice
verdict_sentences(struct arena *a, const struct verdict *v)
{
    struct text t = text_new(a);
    const struct slice parts[] = {v->standing, v->nearest, v->choice, v->sureness};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        if (parts[i].length == 0)
            continue;
        text_add_string(&t, t.length == 0 ? "" : " ");
        text_add(&t, parts[i]);
    }
    return text_slice(&t);
}
