#include "write/catalogue.h"

#include <math.h>

#include "write/json_writer.h"
#include "write/recipe_name.h"

static void
add_shares(struct json_writer *n, const struct phase_stand *stand)
{
    json_member_open(n, "shares", '{');
    for (int g = 0; g < GROUPS; g++) {
        const struct group_stand *gs = &stand->groups[g];
        if (!gs->limited || (!gs->carried && !gs->unknown))
            continue;
        json_key(n, groups_word((enum group)g));
        if (gs->unknown && !gs->carried) {
            json_raw(n, SLICE("null"));
            continue;
        }
        json_number(n, gs->share.mid, 3);
    }
    json_close(n, '}');
}

/* what a sitting has left beside one portion, as a part of its limit: what the load is below with
 * all but the chance that makes a portion close */
static double
sitting_room(const struct phase_stand *stand, double close_at)
{
    if (stand->whole == NULL)
        return 1;
    return fmax(0, 1 - distribution_quantile(&stand->whole->worst.spread, 1 - close_at));
}

/* worst and best variant in every phase, so that a site can filter */
static void
add_phases(struct json_writer *n, const struct outcome *o)
{
    const struct limits *l = &o->tables->limits;
    json_member_open(n, "phases", '{');
    for (size_t i = 0; i < l->phase_count; i++) {
        const struct phase_stand *stand = &o->phases[i];
        json_member_open(n, l->phases[i].id, '{');
        json_member_word(n, "standing", standing_word(stand->standing));
        json_member_word(n, "best-standing", standing_word(stand->best_standing));
        if (stand->tightest >= 0) {
            json_member_word(n, "tightest", groups_word((enum group)stand->tightest));
            json_key(n, "share");
            json_number(n, stand->groups[stand->tightest].share.mid, 3);
            json_key(n, "share-upper"); /* that 19 in 20 would lie below */
            json_number(n, stand->groups[stand->tightest].share.high, 3);
        }
        add_shares(n, stand);
        if (stand->sitting_limited) {
            json_key(n, "sitting");
            json_number(n, stand->sitting_share.mid, 3);
            json_key(n, "sitting-upper");
            json_number(n, stand->sitting_share.high, 3);
            json_key(n, "room");
            json_number(n, sitting_room(stand, l->close_at.span.mid), 3);
        }
        json_close(n, '}');
    }
    json_close(n, '}');
}

static void
add_allergens(struct json_writer *n, const struct claims *c, const char *key, bool may)
{
    json_member_open(n, key, '[');
    for (size_t i = 0; i < c->allergen_count; i++)
        if (c->allergens[i].may_carry == may)
            json_word(n, groups_allergen_word(c->allergens[i].allergen));
    json_close(n, ']');
}

static void
add_claims(struct json_writer *n, const struct claims *c)
{
    json_member_open(n, "diets", '[');
    for (int d = 0; d < DIETS; d++)
        if (c->diets[d])
            json_word(n, groups_diet_word((enum diet)d));
    json_close(n, ']');
    json_member_open(n, "claims", '[');
    for (size_t i = 0; i < c->count; i++)
        if (c->items[i].grounds == GROUNDS_HOLDS)
            json_text(n, c->items[i].front_value.text);
    json_close(n, ']');
}

static void
add_seconds(struct json_writer *n, const char *key, double seconds)
{
    if (!(seconds > 0))
        return;
    json_key(n, key);
    json_number(n, seconds, 0);
}

static void
add_times(struct json_writer *n, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    json_member_open(n, "seconds", '{');
    add_seconds(n, "prep", f->prep.given ? f->prep.seconds.high : 0);
    add_seconds(n, "cook", f->cook.given ? f->cook.seconds.high : 0);
    add_seconds(n, "rest", f->rest.given ? f->rest.seconds.high : 0);
    add_seconds(n, "total", recipe_total_seconds(o));
    json_close(n, '}');
}

static void
add_strings(struct json_writer *n, const char *key, const struct front_list *list)
{
    json_member_open(n, key, '[');
    for (size_t i = 0; i < list->count; i++)
        json_text(n, list->items[i].text);
    json_close(n, ']');
}

/* how many portions, and the calories of one, where they are known */
static void
add_portions(struct json_writer *n, const struct outcome *o)
{
    if (o->dish.portions_known) {
        json_key(n, "portions");
        json_number(n, o->dish.portions.low, 2);
    }
    if (o->nutrition.given && o->nutrition.known[ENERGY_KCAL]) {
        json_key(n, "kcal");
        json_number(n, o->nutrition.energy_kcal, 0);
    }
}

/* foods by id, each once, so that a search finds "courgette" whatever the post calls it */
static void
add_foods(struct json_writer *n, struct arena *a, const struct dish *d)
{
    struct map seen = map_new(a);
    json_member_open(n, "foods", '[');
    for (size_t i = 0; i < d->count; i++)
        for (size_t k = 0; k < d->ingredients[i].option_count; k++)
            for (size_t j = 0; j < d->ingredients[i].options[k].count; j++) {
                const struct food *f = d->ingredients[i].options[k].helpings[j].food;
                if (f != NULL && map_put(&seen, slice_of(f->id), (void *)(uintptr_t)f))
                    json_text(n, slice_of(f->id));
            }
    json_close(n, ']');
}

struct slice
catalogue_line(struct arena *a, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    struct text t = text_new(a);
    struct json_writer n = json_new(&t);
    struct slice url = recipe_url(a, o);
    json_open(&n, '{');
    json_member(&n, "slug", o->post.slug);
    json_member(&n, "id", recipe_tag(a, o));
    json_member(&n, "title", f->title.text);
    json_member(&n, "url", url.length > 0 ? url : recipe_path(a, o));
    json_member(&n, "summary", f->summary.text);
    json_member(&n, "published", f->published.text);
    json_member(&n, "changed", recipe_changed(a, o));
    json_member(&n, "category", f->category.text);
    json_member(&n, "cuisine", f->cuisine.text);
    add_strings(&n, "keywords", &f->keywords);
    json_member(&n, "yield", f->yield.text);
    json_member(&n, "portion", recipe_portion(a, o));
    add_portions(&n, o);
    json_member(&n, "image", recipe_image(a, o));
    add_phases(&n, o);
    add_allergens(&n, &o->claims, "allergens", false);
    add_allergens(&n, &o->claims, "may_carry", true);
    json_key(&n, "allergens_known");
    json_truth(&n, o->claims.unknown.length == 0);
    add_claims(&n, &o->claims);
    add_times(&n, o);
    add_foods(&n, a, &o->dish);
    json_close(&n, '}');
    return text_slice(&t);
}

bool
catalogue_write(const struct gathering *g, struct outlet out)
{
    return gathering_write(
        g, out, &(struct gathered_file){SLICE("[\n"), RECORD_CATALOGUE, g->count, ",\n", "\n]\n"});
}
