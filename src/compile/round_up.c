#include "compile/round_up.h"

#include <string.h>

#include "base/list.h"
#include "compile/recipe.h"
#include "judge/promise.h"
#include "read/time_span.h"
#include "read/post_dishes.h"

struct round_up {
    struct arena *arena;
    const struct tables *tables;
    struct notices *notices;
    struct outcome *out;
};

static struct outcome *
new_outcome(const struct round_up *r)
{
    struct outcome *o = arena_take_array(r->arena, 1, sizeof *o);
    *o = outcome_new(r->arena, r->tables, r->out->reads);
    return o;
}

/* what is told from notice `from` on is told of this dish */
static void
name_dish(struct notices *notices, size_t from, struct slice dish)
{
    for (size_t i = from; i < notices->count; i++)
        if (notices->items[i].dish.length == 0)
            notices->items[i].dish = dish;
}

/* which findings a promise of the round-up may give */
static bool
is_promise(enum rule rule)
{
    return rule == RULE_CLAIM_FALSE || rule == RULE_CLAIM_ON_CHOICE || rule == RULE_CLAIM_LABEL ||
           rule == RULE_CLAIM_TRACE || rule == RULE_CLAIM_UNKNOWN || rule == RULE_TIME_CLAIM ||
           rule == RULE_TIME_TITLE;
}

/* the member's dish under the round-up's title, summary and claims */
static void
hold_promises(const struct round_up *r, const struct outcome *member, struct claims *held)
{
    const struct front_matter *f = &r->out->post.front;
    struct notices found = {.arena = r->arena};
    struct post promised = member->post;
    promised.front.title = f->title;
    promised.front.summary = f->summary;
    promised.front.claims = f->claims;
    promised.title_words = r->out->post.title_words;
    promised.summary_words = r->out->post.summary_words;
    const struct judging j = {r->arena,          &promised,     &member->dish,
                              &member->schedule, r->tables,     &member->names,
                              &member->clauses,  r->out->reads, &found};
    claims_judge(&j, &member->phases[r->tables->site.phase], &member->method_foods, held);
    const struct judging title = {.arena = r->arena,
                                  .post = &promised,
                                  .schedule = &member->schedule,
                                  .tables = r->tables,
                                  .notices = &found};
    promise_judge(&title);
    const size_t from = r->notices->count;
    for (size_t i = 0; i < found.count; i++)
        if (is_promise(found.items[i].rule))
            notice_pass(r->notices, &found.items[i]);
    name_dish(r->notices, from, member->post.front.title.text);
}

/* what any of the dishes carries, the round-up carries; which lines bring it is told of the dish */
static void
join_allergens(const struct round_up *r, const struct claims *held)
{
    struct claims *all = &r->out->claims;
    struct carried_allergen *joined =
        arena_take_array(r->arena, all->allergen_count + held->allergen_count + 1, sizeof *joined);
    memcpy(joined, all->allergens, all->allergen_count * sizeof *joined);
    size_t count = all->allergen_count;
    for (size_t i = 0; i < held->allergen_count; i++) {
        const struct carried_allergen *more = &held->allergens[i];
        size_t same = 0;
        while (same < count && joined[same].allergen != more->allergen)
            same++;
        if (same == count)
            joined[count++] = *more;
        joined[same].on_choice = joined[same].on_choice && more->on_choice;
        joined[same].may_carry = joined[same].may_carry && more->may_carry;
    }
    all->allergens = joined;
    all->allergen_count = count;
}

/* a claim of the round-up stands as it does for the member for which it stands worst */
static void
join_claims(const struct round_up *r, const struct claims *held, bool first)
{
    struct claims *all = &r->out->claims;
    if (all->unknown.length == 0)
        all->unknown = held->unknown;
    if (first) {
        all->count = held->count;
        all->items = arena_take_array(r->arena, held->count + 1, sizeof *all->items);
        memcpy(all->items, held->items, held->count * sizeof *all->items);
        memcpy(all->diets, held->diets, sizeof all->diets);
        all->allergens = held->allergens;
        all->allergen_count = held->allergen_count;
        return;
    }
    for (size_t i = 0; i < all->count && i < held->count; i++)
        if (held->items[i].grounds != GROUNDS_HOLDS &&
            (all->items[i].grounds == GROUNDS_HOLDS || held->items[i].grounds == GROUNDS_FALSE))
            all->items[i] = held->items[i];
    for (int d = 0; d < DIETS; d++)
        all->diets[d] = all->diets[d] && held->diets[d];
    join_allergens(r, held);
}

static void
hold_all(const struct round_up *r)
{
    bool first = true;
    for (size_t i = 0; i < r->out->member_count; i++) {
        struct claims held = {0};
        if (r->out->members[i].outcome == NULL)
            continue;
        hold_promises(r, r->out->members[i].outcome, &held);
        join_claims(r, &held, first);
        first = false;
    }
}

static void
compile_dishes(const struct round_up *r)
{
    struct outcome *out = r->out;
    post_dishes_read(r->arena, r->notices, &out->post);
    out->members = arena_take_array(r->arena, out->post.dish_count + 1, sizeof *out->members);
    for (size_t i = 0; i < out->post.dish_count; i++) {
        struct outcome *dish = new_outcome(r);
        const size_t from = r->notices->count;
        dish->post = out->post.dishes[i];
        dish->part_of = out;
        recipe_compile(r->arena, r->tables, r->notices, dish);
        name_dish(r->notices, from, dish->post.front.title.text);
        dish->publishable = true;
        out->members[out->member_count++] =
            (struct member){dish->post.slug, dish->post.front.title.place, dish};
    }
}

/* the post of a slug, compiled by itself; what is wrong with it is told of it alone. NULL after a
 * notice */
static struct outcome *
compile_member(const struct round_up *r, const struct post_finder *finder,
               const struct front_value *slug)
{
    struct notices own = {.arena = r->arena};
    struct slice why = SLICE("");
    struct outcome *o = new_outcome(r);
    const bool there = post_finder_read(r->arena, finder, slug->text, &own, o);
    if (!there)
        why = SLICE("there is no post of that slug");
    else if (!o->post.readable)
        why = SLICE("that post cannot be read");
    else if (o->post.front.draft)
        why = SLICE("that post is a draft");
    else if (outcome_round_up(o))
        why = SLICE("that post is a round-up itself");
    if (why.length > 0) {
        notice_add(r->notices, RULE_MEMBER, slug->place, slug->text, why);
        return NULL;
    }
    recipe_compile(r->arena, r->tables, &own, o);
    picture_judge(&o->post, NULL, &own, &o->picture);
    findings_make(r->arena, o->post.path, &own, &o->findings);
    o->publishable = true;
    return o;
}

static bool
is_gathered_before(const struct outcome *out, struct slice slug)
{
    for (size_t i = 0; i < out->member_count; i++)
        if (slice_equal(out->members[i].slug, slug))
            return true;
    return false;
}

static void
compile_members(const struct round_up *r, const struct post_finder *finder)
{
    const struct front_list *slugs = &r->out->post.front.gathers;
    r->out->members = arena_take_array(r->arena, slugs->count + 1, sizeof *r->out->members);
    for (size_t i = 0; i < slugs->count; i++) {
        const struct front_value *slug = &slugs->items[i];
        if (is_gathered_before(r->out, slug->text)) {
            notice_add(r->notices, RULE_MEMBER, slug->place, slug->text,
                       SLICE("it is gathered already"));
            continue;
        }
        r->out->members[r->out->member_count++] =
            (struct member){slug->text, slug->place, compile_member(r, finder, slug)};
    }
}

/* what stands worst of all dishes is what the round-up shows in lists */
static void
take_worst(const struct round_up *r)
{
    const int phase = r->tables->site.phase;
    const struct outcome *worst = NULL;
    for (size_t i = 0; i < r->out->member_count; i++) {
        const struct outcome *m = r->out->members[i].outcome;
        if (m != NULL &&
            (worst == NULL || m->phases[phase].standing > worst->phases[phase].standing))
            worst = m;
    }
    if (worst != NULL)
        r->out->phases = worst->phases;
}

size_t
round_up_count(const struct outcome *o)
{
    size_t count = 0;
    for (size_t i = 0; i < o->member_count; i++)
        count += o->members[i].outcome != NULL;
    return count;
}

/* "5 gluten-free lunches": the number that the title begins with is the number of dishes */
static void
check_count(const struct round_up *r)
{
    const struct front_value *title = &r->out->post.front.title;
    const struct words *w = &r->out->post.title_words;
    struct span count;
    const size_t there = round_up_count(r->out), words = time_span_count(w, 0, &count);
    if (words == 0 || words >= w->count || count.low < count.high || count.mid < 2 ||
        count.mid == (double)there)
        return;
    struct time_span time;
    if (time_span_at(w, 0, &time) > 0) /* "20 minute suppers" */
        return;
    notice_add(r->notices, RULE_ROUND_UP_COUNT, title->place, title->text,
               text_formatted(r->arena, "%zu", there));
}

void
round_up_clips(struct arena *a, struct notices *notices, struct outcome *out)
{
    struct clip_dishes dishes = {arena_take_array(a, out->member_count + 1, sizeof *dishes.posts),
                                 out->member_count};
    for (size_t i = 0; i < out->member_count; i++)
        dishes.posts[i] = out->members[i].outcome != NULL ? &out->members[i].outcome->post : NULL;
    clips_judge(&out->post, &dishes, notices, &out->clips);
}

void
round_up_compile(struct arena *a, const struct tables *t, const struct post_finder *finder,
                 struct notices *notices, struct outcome *out)
{
    const struct round_up r = {a, t, notices, out};
    const struct front_matter *f = &out->post.front;
    if (f->dish_count > 0)
        compile_dishes(&r);
    else
        compile_members(&r, finder);
    if (f->part_count > 0 || (f->dish_count > 0 && f->gathers.count > 0))
        notice_add(notices, RULE_ROUND_UP_MIXED, f->title.place, SLICE(""), SLICE(""));
    hold_all(&r);
    check_count(&r);
    take_worst(&r);
}
