#include "compile/together.h"

#include "compile/recipe.h"
#include "judge/standing.h"

/* what a cook would serve less of: two thirds, a half, a third, or the dish at another sitting */
static const double parts_left[] = {2.0 / 3, 0.5, 1.0 / 3, 0};

/* how the parts stand when `portions` of part `at` are eaten; 0 leaves it out */
static enum standing
stand_with(struct arena *a, const struct together *g, const struct tables *t, size_t at,
           double portions, struct reads *reads)
{
    struct sitting_part *parts = arena_take_array(a, g->count + 1, sizeof *parts);
    struct sitting sitting;
    struct phase_stand stand;
    size_t count = 0;
    for (size_t i = 0; i < g->count; i++) {
        const double eaten = i == at ? portions : g->parts[i].portions;
        if (eaten > 0)
            parts[count++] = (struct sitting_part){&g->parts[i].outcome->dish, eaten};
    }
    sitting_join(a, parts, count, &sitting);
    portion_stand(a, &sitting.dish, t, t->site.phase, reads, &stand);
    return stand.standing;
}

/* the smallest change of one part that brings all within; else none */
static void
find_smaller(struct arena *a, const struct tables *t, struct reads *reads, struct together *g)
{
    g->smaller = SIZE_MAX;
    if (g->stand.standing == STANDING_WITHIN)
        return;
    for (size_t f = 0; f < sizeof parts_left / sizeof *parts_left; f++) {
        for (size_t i = 0; i < g->count; i++) {
            const double to = g->parts[i].portions * parts_left[f];
            if (stand_with(a, g, t, i, to, reads) != STANDING_WITHIN)
                continue;
            g->smaller = i;
            g->smaller_to = to;
            return;
        }
    }
}

void
together_reckon(struct arena *a, const struct tables *t, const struct together_part *parts,
                size_t count, struct reads *reads, struct together *out)
{
    struct sitting_part *eaten = arena_take_array(a, count + 1, sizeof *eaten);
    *out = (struct together){.parts = parts, .count = count};
    for (size_t i = 0; i < count; i++)
        eaten[i] = (struct sitting_part){&parts[i].outcome->dish, parts[i].portions};
    sitting_join(a, eaten, count, &out->sitting);
    sheet_build(a, &out->sitting.dish, t, reads, &out->sheet);
    sheet_stand(a, &out->sheet, t->site.phase, reads, &out->stand);
    find_smaller(a, t, reads, out);
}

const struct outcome *
together_of(const struct together *g, const struct load *l)
{
    return g->parts[g->sitting.parts[l->ingredient]].outcome;
}

bool
together_can(const struct outcome *o, struct slice *why)
{
    *why = SLICE("");
    if (!o->post.readable)
        *why = SLICE("that post cannot be read");
    else if (outcome_round_up(o))
        *why = SLICE("that post is a round-up; name one of its posts");
    else if (!o->dish.portions_known)
        *why = SLICE("that post does not say how many portions it makes");
    return why->length == 0;
}

/* the recipe of a slug, by itself; NULL after a notice */
static const struct outcome *
compile_companion(struct arena *a, const struct tables *t, const struct post_finder *finder,
                  const struct front_value *slug, struct notices *notices,
                  const struct outcome *out)
{
    struct outcome *o = arena_take_array(a, 1, sizeof *o);
    struct notices own = {.arena = a};
    struct slice why;
    *o = outcome_new(a, t, out->reads);
    if (!post_finder_read(a, finder, slug->text, &own, o)) {
        notice_add(notices, RULE_MEMBER, slug->place, slug->text,
                   SLICE("there is no post of that slug"));
        return NULL;
    }
    if (o->post.readable && !outcome_round_up(o))
        recipe_compile(a, t, &own, o);
    if (together_can(o, &why))
        return o;
    notice_add(notices, RULE_MEMBER, slug->place, slug->text, why);
    return NULL;
}

/* "chiefly from the onion of “Tuscan bean stew”": of the limit that stands worst */
static struct slice
chief_words(struct arena *a, const struct together *g, struct reads *reads)
{
    const struct load *chief = g->stand.limit_count > 0 ? g->stand.limits[0].worst.chief : NULL;
    if (chief == NULL)
        return SLICE("");
    return text_formatted(a, ", chiefly from the %.*s of “%.*s”",
                          SLICE_ARGS(standing_name(&g->sheet, chief, reads)),
                          SLICE_ARGS(together_of(g, chief)->post.front.title.text));
}

/* what the writer is told of how the menu stands */
static void
tell(struct arena *a, const struct together *g, struct place place, struct reads *reads,
     struct notices *notices)
{
    static const char *const words[] = {
        [STANDING_CLOSE] = "close to a limit",
        [STANDING_UNKNOWN] = "not known, for want of a figure",
        [STANDING_OVER] = "over in some ways to make them",
    };
    const struct slice chief = chief_words(a, g, reads);
    if (g->stand.standing == STANDING_WITHIN)
        return;
    if (g->stand.best_standing == STANDING_OVER)
        notice_add(notices, RULE_MENU_OVER, place, SLICE(""), chief);
    else
        notice_add(notices, RULE_MENU_CLOSE, place, slice_of(words[g->stand.standing]), chief);
}

void
together_judge(struct arena *a, const struct tables *t, const struct post_finder *finder,
               struct notices *notices, struct outcome *out)
{
    const struct front_list *menu = &out->post.front.eaten_with;
    struct slice why;
    if (menu->count == 0)
        return;
    struct together_part *parts = arena_take_array(a, menu->count + 1, sizeof *parts);
    size_t count = 0;
    if (!together_can(out, &why)) {
        notice_add(notices, RULE_MEMBER, menu->items[0].place, out->post.slug, why);
        return;
    }
    parts[count++] = (struct together_part){out, 1};
    for (size_t i = 0; i < menu->count; i++) {
        const struct outcome *o = compile_companion(a, t, finder, &menu->items[i], notices, out);
        if (o != NULL)
            parts[count++] = (struct together_part){o, 1};
    }
    struct together *g = arena_take(a, sizeof *g);
    together_reckon(a, t, parts, count, out->reads, g);
    if (count > 1)
        tell(a, g, menu->items[0].place, out->reads, notices);
}
