#include "tables/food_recipe.h"

#include <math.h>

#include "read/yaml_value.h"
#include "tables/food_entries.h"
#include "tables/food_kin.h"
#include "tables/food_most.h"

/* a recipe of a recipe of a recipe, and no circle */
enum { DEEP_MOST = 4 };

/* recipes of one dish differ by half, common practice */
static const double LEAST = 0.5, MOST = 1.5;

/* g per 100 g that parts without a figure may bring unasked: a fourth of a limit in a serve of 100
 * g */
static const double OPEN_MOST = 0.05;

static const double GRAMS_MOST = 100000;

static bool
take_parts(struct page *page, const struct yaml_node *map, struct usual_recipe *recipe)
{
    const struct yaml_node *of = yaml_get(map, "of");
    if (of == NULL || of->kind != YAML_MAP_NODE || of->count == 0)
        return row_wants(&page->row, of != NULL ? of : map, "usual-recipe",
                         "a mapping of foods and grams", "of: {onion: 40, vinegar: 60}");
    recipe->parts = arena_take_array(page->larder->arena, of->count, sizeof *recipe->parts);
    for (size_t i = 0; i < of->count; i++) {
        struct recipe_part *part = &recipe->parts[recipe->count];
        if (!row_number(&page->row, yaml_value(of, i), "usual-recipe", 0, GRAMS_MOST, &part->grams))
            return false;
        part->id = larder_text(page->larder, yaml_key(of, i)->text);
        recipe->makes += part->grams;
        recipe->count++;
    }
    return true;
}

void
food_recipe_take(struct page *page, const struct yaml_node *map, struct food *f)
{
    static const char *const keys[] = {"of", "makes", NULL};
    struct usual_recipe *recipe = arena_take(page->larder->arena, sizeof *recipe);
    const struct yaml_node *makes = yaml_get(map, "makes");
    if (!row_map(&page->row, map, "usual-recipe", "usual-recipe: {of: {onion: 40, vinegar: 60}}"))
        return;
    for (size_t i = 0; i < map->count; i++)
        if (row_word(yaml_key(map, i)->text, keys) < 0)
            row_key_unknown(&page->row, yaml_key(map, i), "usual-recipe", keys);
    if (!take_parts(page, map, recipe) ||
        (makes != NULL &&
         !row_number(&page->row, makes, "makes of usual-recipe", 0, GRAMS_MOST, &recipe->makes)))
        return;
    if (recipe->makes > 0)
        f->usual = recipe;
}

/* "a usual recipe: chilli 85 %, vinegar 8 %, salt 7 %" */
static const char *
source_of(struct larder *l, const struct usual_recipe *recipe)
{
    struct text t = text_new(l->scratch);
    double all = 0;
    for (size_t i = 0; i < recipe->count; i++)
        all += recipe->parts[i].grams;
    text_add_string(&t, "a usual recipe: ");
    for (size_t i = 0; i < recipe->count; i++) {
        const struct food_row *part = map_get(&l->by_id, slice_of(recipe->parts[i].id));
        text_addf(&t, "%s%s ", i > 0 ? ", " : "",
                  part != NULL ? part->food.name : recipe->parts[i].id);
        text_add_number(&t, recipe->parts[i].grams / all * 100, 0);
        text_add_string(&t, " %");
    }
    text_add_string(&t, "; recipes differ by half");
    return larder_text(l, text_slice(&t));
}

/* what the parts bring */
struct sum {
    struct span held; /* by their figures */
    double open;      /* at the most, by those that have none */
    bool found;       /* one of them was found to hold some */
};

/* what a part without a figure holds at the most; NAN: nobody knows */
static double
most_of(const struct larder *l, const struct food *f, enum group g)
{
    const struct kin *kin = food_kin(l, f, g, NULL);
    const double own = food_own_bound(f, g, NULL);
    return kin != NULL ? fmin(kin->bound, own) : own; /* fmin passes over NAN */
}

/* false: a part is no food of the larder, or nobody knows what it holds at the most */
static bool
sum_parts(const struct larder *l, const struct usual_recipe *recipe, enum group g, struct sum *out)
{
    *out = (struct sum){span_exact(0), 0, false};
    for (size_t i = 0; i < recipe->count; i++) {
        const struct food_row *part = map_get(&l->by_id, slice_of(recipe->parts[i].id));
        if (part == NULL)
            return false;
        const struct figure *holds = &part->food.contents[g];
        const double share = recipe->parts[i].grams / recipe->makes;
        if (!figure_known(holds)) {
            out->open += share * most_of(l, &part->food, g);
            continue;
        }
        out->found = out->found || (holds->kind != FIGURE_NONE && holds->kind != FIGURE_BELOW);
        out->held = (struct span){out->held.low + share * holds->span.low,
                                  out->held.mid + share * holds->span.mid,
                                  out->held.high + share * holds->span.high};
    }
    return !isnan(out->open);
}

/* where none of the parts was found to hold any, nothing is found in the whole */
static void
set_figure(const struct sum *sum, struct figure *out)
{
    const double high = sum->held.high + sum->open;
    if (sum->found) {
        out->kind = FIGURE_RANGE;
        out->span = (struct span){figure_rounded(LEAST * sum->held.low),
                                  figure_rounded(sum->held.mid + sum->open / 2),
                                  fmin(figure_rounded(MOST * high), 100)};
    } else {
        out->kind = high > 0 ? FIGURE_BELOW : FIGURE_NONE;
        out->span = (struct span){0, figure_rounded(high / 2), figure_rounded(high)};
    }
}

static void
reckon(struct larder *l, struct food *f, enum group g, const char *source)
{
    const struct figure reckoned = {.source = source, .basis = BASIS_CALCULATED};
    struct sum sum;
    if (groups_is_sum(g) || figure_known(&f->contents[g]) || !sum_parts(l, f->usual, g, &sum))
        return;
    const double most = figure_rounded(MOST * (sum.held.high + sum.open));
    if (sum.open <= OPEN_MOST) {
        f->contents[g] = reckoned;
        set_figure(&sum, &f->contents[g]);
    } else if (!figure_known(&f->bounds[g]) && most < 100) {
        f->bounds[g] = reckoned;
        f->bounds[g].kind = FIGURE_BELOW;
        f->bounds[g].span.high = most;
    }
    f->reckoned |= 1u << g;
    food_entries_renew(f, g);
}

static void
settle(struct larder *l, struct food *f, int deep)
{
    if (f->usual == NULL || f->reckoned != 0 || deep > DEEP_MOST)
        return;
    for (size_t i = 0; i < f->usual->count; i++) {
        struct food_row *part = map_get(&l->by_id, slice_of(f->usual->parts[i].id));
        if (part != NULL)
            settle(l, &part->food, deep + 1);
    }
    const char *source = source_of(l, f->usual);
    for (enum group g = 0; g < GROUPS; g++)
        reckon(l, f, g, source);
}

void
food_recipe_settle(struct larder *l)
{
    for (size_t i = 0; i < l->count; i++)
        settle(l, &l->items[i]->food, 0);
}
