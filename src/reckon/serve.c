#include "reckon/serve.h"

#include <math.h>
#include <string.h>

#include "reckon/household.h"

/* halvings of the span of grams: to a hundredth of a gram */
enum { HALVINGS = 17 };

/* a portion of one food alone */
static void
stand_alone(struct arena *a, const struct food *f, const struct tables *t, int phase, double grams,
            struct phase_stand *out)
{
    struct written_food written = {.name = slice_of(f->name)};
    struct helping helping = {.written = &written, .food = f, .form = &f->forms[0]};
    struct dish_option option = {.helpings = &helping, .count = 1};
    struct ingredient ingredient = {.options = &option, .option_count = 1};
    struct dish dish = {
        .ingredients = &ingredient, .count = 1, .portions = span_exact(1), .portions_known = true};
    helping.weighing.known = true;
    helping.weighing.grams = helping.weighing.edible = helping.eaten = span_exact(grams);
    portion_stand(a, &dish, t, phase, NULL, out);
}

static void
note_end(const struct phase_stand *beyond, struct serve *out)
{
    const struct limit_stand *l = beyond->limit_count > 0 ? &beyond->limits[0] : NULL;
    out->beyond = beyond->standing;
    if (l == NULL)
        return;
    out->column = l->of.column;
    out->fresh = l->worst.fresh;
    if (beyond->standing != STANDING_UNKNOWN)
        return;
    out->allows = l->worst.lack.allows;
    if (l->worst.lack.load != NULL)
        out->column = l->worst.lack.group;
}

struct serve
serve_most(struct arena *a, const struct food *f, const struct tables *t, int phase)
{
    struct serve out = {.grams = SERVE_GRAMS_MOST, .column = COLUMNS};
    struct phase_stand stand;
    double low = 0, high = SERVE_GRAMS_MOST;
    stand_alone(a, f, t, phase, high, &stand);
    if (stand.standing == STANDING_WITHIN)
        return out;
    for (int i = 0; i < HALVINGS; i++) {
        const double grams = (low + high) / 2;
        stand_alone(a, f, t, phase, grams, &stand);
        if (stand.standing == STANDING_WITHIN)
            low = grams;
        else
            high = grams;
    }
    stand_alone(a, f, t, phase, high * 1.01, &stand);
    note_end(&stand, &out);
    out.grams = household_grams(low, true);
    if (out.beyond == STANDING_UNKNOWN && out.column < GROUPS) {
        struct composition c;
        composition_reckon(f, t, NULL, &c);
        out.evidence = c.groups[out.column].evidence;
    }
    return out;
}

/* grams of a form as it is measured: as bought, where that is what its figures weigh */
static double
measured_grams(const struct form *form, double edible)
{
    const struct figure *share = foods_form_edible(form, NULL);
    return form->weighed_bought && figure_known(share) && share->span.mid > 0
               ? edible / share->span.mid
               : edible;
}

/* half a piece makes sense of a whole thing only */
static bool
is_whole(const char *word)
{
    static const char *const whole[] = {"each", "small", "medium", "large"};
    for (size_t i = 0; i < sizeof whole / sizeof *whole; i++)
        if (strcmp(word, whole[i]) == 0)
            return true;
    return false;
}

static struct slice
piece_words(struct arena *a, const struct food *f, double grams)
{
    for (size_t i = 0; i < f->form_count; i++)
        for (size_t k = 0; k < f->forms[i].piece_count; k++) {
            const struct piece *p = &f->forms[i].pieces[k];
            const double one = p->grams.span.mid, in = measured_grams(&f->forms[i], grams);
            const double count = one > 0 ? floor(in / one * 2) / 2 : 0;
            if (count < (is_whole(p->word) ? 0.5 : 1) || count > 24)
                continue;
            struct text t = text_new(a);
            if (count >= 1)
                text_add_number(&t, floor(count), 0);
            text_add_string(&t, count > floor(count) ? "½" : "");
            text_addf(&t, " %s", strcmp(p->word, "each") == 0 ? "of them" : p->word);
            return text_slice(&t);
        }
    return SLICE("");
}

struct slice
serve_measure(struct arena *a, const struct food *f, double grams, int region,
              const struct tables *t)
{
    struct text words = text_new(a);
    for (size_t i = 0; i < f->form_count && words.length == 0; i++) {
        const struct figure *density = foods_form_density(&f->forms[i], NULL);
        double rounded;
        if (!figure_known(density) || density->span.mid <= 0)
            continue;
        const double ml = measured_grams(&f->forms[i], grams) / density->span.mid;
        const struct slice volume = household_volume(a, ml, region, t, true, NULL, &rounded);
        if (volume.length > 0)
            text_addf(&words, "%.*s%s%s", SLICE_ARGS(volume), i > 0 ? " " : "",
                      i > 0 ? f->forms[i].name : "");
    }
    const struct slice pieces = piece_words(a, f, grams);
    if (pieces.length > 0)
        text_addf(&words, "%s%.*s", words.length > 0 ? "; " : "", SLICE_ARGS(pieces));
    return text_slice(&words);
}
