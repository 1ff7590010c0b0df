#include "judge/standing.h"

#include <math.h>
#include <string.h>

/* foods that one message names, and the part of a sum from which one is named */
enum { NAMED_MOST = 6 };
static const double NAMED_PART = 0.2;
/* a sum is told by its part where the part makes so much of it */
static const double PART_TELLS = 0.9;

struct standing_context {
    struct arena *arena;
    const struct portion_reckoned *p;
    struct reads *reads;
    struct notices *notices;
};

struct slice
standing_name(const struct sheet *s, const struct load *l, struct reads *reads)
{
    const struct helping *h = l->helping;
    const struct slice written = slice_trim(h->written->name);
    return written.length > 0 || h->food == NULL
               ? written
               : slice_of(foods_shown(h->food, s->dish->region, reads));
}

static struct place
place_of(const struct standing_context *c, const struct load *l)
{
    if (l == NULL)
        return c->p->post->front.yield.text.length > 0 ? c->p->post->front.yield.place
                                                       : c->p->post->front.portions.place;
    const struct ingredient *in = &c->p->sheet->dish->ingredients[l->ingredient];
    return written_line_place(&in->line, l->helping->written->name_from,
                              l->helping->written->name_to);
}

static void
add_grams(struct text *text, double grams)
{
    text_add_number(text, grams, grams < 0.1 ? 3 : 2);
    text_add_string(text, " g");
}

/* "2.4 g of fructan, 12 times the limit of 0.2 g", "0.18 g of sorbitol, 90 % of the limit ..." */
static void
add_share(struct text *text, const struct limit_stand *l)
{
    add_grams(text, l->worst.load);
    if (l->of.column == SERVED)
        text_add_string(text, ", ");
    else
        text_addf(text, " of %s, ", column_name(l->of.column));
    if (l->worst.mid >= 2) {
        text_add_number(text, l->worst.mid, l->worst.mid < 10 ? 1 : 0);
        text_add_string(text, " times");
    } else {
        text_add_number(text, l->worst.mid * 100, 0);
        text_add_string(text, " % of");
    }
    text_add_string(text, l->of.column == SITTING  ? " its total of "
                          : l->of.column == SERVED ? " the serve of "
                                                   : " the limit of ");
    add_grams(text, l->worst.limit);
    if (l->worst.fresh)
        text_add_string(text, " for fresh produce");
}

static bool
is_part(size_t part, size_t sum)
{
    return part < GROUPS && sum < GROUPS && groups_is_part((enum group)part, (enum group)sum);
}

/* the limit to tell a cause by: the nearest; of a sum that one part makes, that part */
static const struct limit_stand *
telling(const struct phase_stand *s, const struct limit_stand *nearest)
{
    for (size_t i = 0; i < s->limit_count; i++) {
        const struct limit_stand *l = &s->limits[i];
        if (l->of.serve == nearest->of.serve && is_part(l->of.column, nearest->of.column) &&
            l->standing == nearest->standing && l->worst.load >= PART_TELLS * nearest->worst.load)
            return l;
    }
    return nearest;
}

static bool
is_taken_worst(const struct load *l, const struct limit_stand *limit)
{
    return limit->of.serve == SIZE_MAX || limit->worst.chief == l;
}

/* the foods that make a sum over the portion, the most first; or the one food of a serve */
static struct slice
culprits(const struct standing_context *c, const struct limit_stand *limit)
{
    struct text names = text_new(c->arena);
    const struct sheet *s = c->p->sheet;
    if (limit->worst.chief != NULL)
        text_add(&names, standing_name(s, limit->worst.chief, c->reads));
    if (limit->of.serve != SIZE_MAX || limit->worst.load <= 0)
        return text_slice(&names);
    size_t named = 1;
    for (size_t i = 0; i < s->load_count && named < NAMED_MOST; i++) {
        const struct load *l = &s->loads[i];
        const struct content *groups = s->entries[l->entry].composition->groups;
        double content = 0;
        for (enum group g = 0; g < GROUPS; g++)
            if (limit->of.column == SITTING ? groups_in_sitting(g) : g == limit->of.column)
                content += groups[g].mid;
        if (l == limit->worst.chief || l->option > 0 || !is_taken_worst(l, limit) ||
            l->grams * content / 100 < NAMED_PART * limit->worst.load)
            continue;
        text_addf(&names, ", %.*s", SLICE_ARGS(standing_name(s, l, c->reads)));
        named++;
    }
    return text_slice(&names);
}

/* "; so is it in sorbitol and in the total of one sitting" */
static void
add_consequences(const struct standing_context *c, struct text *text,
                 const struct limit_stand *told)
{
    const struct phase_stand *s = c->p->stand;
    size_t count = 0;
    for (size_t i = 0; i < s->limit_count; i++) {
        const struct limit_stand *l = &s->limits[i];
        const bool same = l->of.serve != SIZE_MAX && l->of.serve == told->of.serve &&
                          l->of.column != told->of.column;
        const bool sum = same && (is_part(told->of.column, l->of.column) ||
                                  is_part(l->of.column, told->of.column));
        const bool sitting = l->of.column == SITTING && told->of.column < GROUPS &&
                             groups_in_sitting(group_sum((enum group)told->of.column));
        if (l->standing != STANDING_OVER || !(same || sitting) || sum)
            continue;
        text_addf(text, "%s%s", count++ == 0 ? "; over as well in " : ", ",
                  sitting ? "the total of one sitting" : column_name(l->of.column));
    }
}

struct slice
standing_choice_words(struct arena *a, const struct sheet *s, const struct choices *c,
                      struct reads *reads)
{
    struct text t = text_new(a);
    for (size_t k = 0; k < c->resolve_count; k++) {
        const size_t row = c->resolve[2 * k], pick = c->resolve[2 * k + 1];
        const size_t option = pick == 0 ? 0 : pick - 1;
        text_addf(&t, "%s%s", k == 0 ? "" : " and ", pick == 0 ? "without the " : "with the ");
        for (size_t j = 0; j < s->dish->ingredients[row].options[option].count; j++) {
            const struct load *l = sheet_load(s, row, option, j);
            text_addf(&t, "%s%.*s", j == 0 ? "" : " and ", SLICE_ARGS(standing_name(s, l, reads)));
        }
    }
    return text_slice(&t);
}

/* ". Within with the lactose-free yoghurt" */
static void
add_choice(const struct standing_context *c, struct text *text)
{
    const struct choices *choices = c->p->choices;
    struct slice words = standing_choice_words(c->arena, c->p->sheet, choices, c->reads);
    static const char *const stands[] = {"Within", "Close to a limit", "Not known to be over"};
    if (words.length == 0 || choices->resolved >= STANDING_OVER)
        return;
    text_addf(text, ". %s %.*s", stands[choices->resolved], SLICE_ARGS(words));
}

static struct slice
mend_of(const struct standing_context *c)
{
    const struct remedies *r = c->p->remedies;
    if (r == NULL)
        return SLICE("");
    return r->count > 0 ? r->items[0].sentence : r->refusal;
}

/* whether a nearer limit of the same cause was told already; a sitting is no cause where a food is
 * over by itself */
static bool
is_told(const struct phase_stand *s, size_t at)
{
    const struct limit_stand *l = &s->limits[at];
    for (size_t i = 0; i < s->limit_count; i++) {
        const struct limit_stand *other = &s->limits[i];
        if (i == at || other->standing != l->standing)
            continue;
        if (l->of.column == SITTING && other->of.column < GROUPS &&
            groups_in_sitting(group_sum((enum group)other->of.column)))
            return true;
        if (i < at && other->of.serve == l->of.serve && l->of.serve != SIZE_MAX)
            return true;
    }
    return false;
}

/* an error is what no choice keeps from over; where one does, or another cause stays whatever is
 * chosen, it is a warning */
static enum rule
over_rule(const struct phase_stand *s, const struct limit_stand *l)
{
    bool whatever = false;
    for (size_t i = 0; i < s->limit_count; i++)
        whatever = whatever || s->limits[i].best_standing == STANDING_OVER;
    if (l->best_standing == STANDING_OVER)
        return RULE_PORTION_OVER;
    return s->best_standing == STANDING_OVER && !whatever ? RULE_PORTION_OVER : RULE_PORTION_CHOICE;
}

static void
judge_limits(const struct standing_context *c, enum standing standing)
{
    const struct phase_stand *s = c->p->stand;
    size_t told = 0; /* the first says what mends the portion, which is told once */
    for (size_t i = 0; i < s->limit_count; i++) {
        if (s->limits[i].standing != standing || is_told(s, i))
            continue;
        const struct limit_stand *l = telling(s, &s->limits[i]);
        struct text more = text_new(c->arena);
        enum rule rule = standing == STANDING_OVER ? over_rule(s, l) : RULE_PORTION_CLOSE;
        add_share(&more, l);
        if (standing == STANDING_OVER)
            add_consequences(c, &more, l);
        else
            text_addf(&more, "; a chance of %.0f %% to be over", l->worst.chance * 100);
        add_choice(c, &more);
        notice_add_mended(c->notices, rule, place_of(c, l->worst.chief), culprits(c, l),
                          text_slice(&more),
                          standing == s->standing && told++ == 0 ? mend_of(c) : SLICE(""));
    }
}

/* what follows from a food that the larder does not have is said where that is said */
static bool
follows_unknown(const struct standing_context *c, const struct load *l)
{
    const struct place place = place_of(c, l);
    for (size_t i = 0; i < c->notices->count; i++) {
        struct notice *n = &c->notices->items[i];
        if (n->rule != RULE_FOOD_UNKNOWN || n->place.line != place.line ||
            n->place.column != place.column)
            continue;
        if (slice_find(n->more, "how one portion stands", 0) == SIZE_MAX)
            n->more = text_formatted(c->arena, "%.*s; how one portion stands is not known",
                                     SLICE_ARGS(n->more));
        return true;
    }
    return false;
}

static void
add_lack(const struct standing_context *c, struct text *text, const struct limit_stand *l)
{
    const struct lack *lack = &l->worst.lack;
    const struct content *content =
        &c->p->sheet->entries[lack->load->entry].composition->groups[lack->group];
    if (lack->amount) {
        text_add_string(text, lack->load->helping->written->extra_unmeasured
                                  ? "no amount is given for the extra"
                                  : "no amount is given");
        return;
    }
    text_addf(text, content->figure != NULL ? "only the least is known of %s" : "no figure for %s",
              groups_name(lack->group));
    if (content->over != NULL) {
        text_add_string(text, ", of which it holds at most ");
        text_add_number(text, content->over->span.high, 2);
        text_add_string(text, " g in 100 g");
    } else if (content->evidence == EVIDENCE_KIN) {
        text_addf(text, ", of which foods of its kind hold up to ");
        text_add_number(text, content->bound, 2);
        text_add_string(text, " g in 100 g");
    }
    if (lack->allows > 0) {
        text_add_string(text, "; the portion is within up to ");
        text_add_number(text, lack->allows, 2);
        text_add_string(text, " g in 100 g");
    }
}

static void
judge_unknown(const struct standing_context *c)
{
    const struct phase_stand *s = c->p->stand;
    const struct load *told[NAMED_MOST];
    size_t count = 0;
    if (s->standing != STANDING_UNKNOWN)
        return;
    if (!c->p->sheet->dish->portions_known) {
        notice_add(c->notices, RULE_PORTION_UNKNOWN, place_of(c, NULL), SLICE("the whole dish"),
                   SLICE("the number of portions is not known"));
        return;
    }
    for (size_t i = 0; i < s->limit_count && count < NAMED_MOST; i++) {
        const struct limit_stand *l = &s->limits[i];
        const struct load *load = l->worst.lack.load;
        bool again = l->standing != STANDING_UNKNOWN || load == NULL;
        for (size_t k = 0; k < count; k++)
            again = again || told[k] == load;
        if (again)
            continue;
        told[count++] = load;
        if (load->helping->food == NULL && follows_unknown(c, load))
            continue;
        struct text more = text_new(c->arena);
        add_lack(c, &more, l);
        add_choice(c, &more);
        notice_add(c->notices, RULE_PORTION_UNKNOWN, place_of(c, load),
                   standing_name(c->p->sheet, load, c->reads), text_slice(&more));
    }
}

/* whether each food that has no figure is one that the larder does not have, which is told */
static bool
is_unknown_alone(const struct standing_context *c, const struct nutrition *n)
{
    for (size_t k = 0; k < n->missing_count; k++) {
        const struct ingredient *in = &c->p->sheet->dish->ingredients[n->missing[k]];
        for (size_t i = 0; in->option_count > 0 && i < in->options[0].count; i++)
            if (in->options[0].helpings[i].food != NULL)
                return false;
    }
    return n->missing_count > 0;
}

static void
judge_nutrition(const struct standing_context *c)
{
    const struct nutrition *n = c->p->nutrition;
    const struct dish *d = c->p->sheet->dish;
    if (n == NULL || n->given || d->count == 0 || is_unknown_alone(c, n))
        return;
    struct text what = text_new(c->arena), more = text_new(c->arena);
    text_add_number(&what, fmin(floor(n->coverage * 100), 99), 0);
    text_add_string(&what, " % of the weight");
    for (size_t k = 0; k < n->missing_count && k < NAMED_MOST; k++) {
        const struct ingredient *in = &d->ingredients[n->missing[k]];
        text_add_string(&more, k == 0 ? "; without figures: " : ", ");
        for (size_t i = 0; in->option_count > 0 && i < in->options[0].count; i++) {
            const struct load *l = sheet_load(c->p->sheet, n->missing[k], 0, i);
            text_addf(&more, "%s%.*s", i == 0 ? "" : " and ",
                      SLICE_ARGS(standing_name(c->p->sheet, l, c->reads)));
        }
    }
    if (n->missing_count > NAMED_MOST)
        text_addf(&more, " and %zu more", n->missing_count - NAMED_MOST);
    if (!d->portions_known)
        text_add_string(&more, "; the number of portions is not known");
    notice_add(c->notices, RULE_NUTRITION_PARTIAL, (struct place){0, 0, 0}, text_slice(&what),
               text_slice(&more));
}

void
standing_judge(struct arena *a, const struct portion_reckoned *p, struct reads *reads,
               struct notices *notices)
{
    const struct standing_context c = {a, p, reads, notices};
    if (p->sheet->dish->count > 0) {
        judge_limits(&c, STANDING_OVER);
        if (p->stand->standing == STANDING_CLOSE)
            judge_limits(&c, STANDING_CLOSE);
        judge_unknown(&c);
    }
    judge_nutrition(&c);
}
