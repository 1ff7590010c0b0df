#include "reckon/mass_amount.h"

#include <string.h>

/* words for one and the same piece; the first that the food has a weight for is taken */
static const char *const piece_kin[][8] = {
    {"stalk", "rib", "stick", "stem", "spear", NULL},
    {"can", "tin", "jar", NULL},
    {"head", "bulb", NULL},
    {"rasher", "slice", "strip", NULL},
    {"packet", "package", "pack", "sachet", "pouch", NULL},
    {"carton", "tub", "pot", NULL},
    {"ear", "cob", NULL},
    {"block", "package", "packet", "cake", "pack", NULL},
    {"cake", "block", NULL},
    {"square", "piece", NULL},
    {"inch", "thumb", "knob", NULL},
    {"thumb", "knob", "inch", NULL},
    {"leaf", "leaves", NULL},
    {"sprig", "stem", NULL},
    {"punnet", "carton", "pack", NULL},
};

/* a form's figure for a piece, and the form it stands in */
struct piece_found {
    const struct form *form;
    const struct figure *grams;
    const char *word;
};

static bool
piece_by_word(const struct scale *s, const char *word, struct piece_found *out)
{
    const struct food *f = s->found->food;
    const struct form *own = s->found->form;
    for (size_t i = 0; i <= f->form_count; i++) {
        const struct form *form = i == 0 ? own : &f->forms[i - 1];
        const struct figure *grams = form != NULL ? foods_form_piece(form, word, s->reads) : NULL;
        if (figure_known(grams)) {
            *out = (struct piece_found){form, grams, word};
            return true;
        }
    }
    return false;
}

static bool
piece_by_kin(const struct scale *s, const char *word, struct piece_found *out)
{
    if (piece_by_word(s, word, out))
        return true;
    for (size_t k = 0; k < sizeof piece_kin / sizeof *piece_kin; k++) {
        bool kin = false;
        for (size_t i = 0; piece_kin[k][i] != NULL; i++)
            kin = kin || strcmp(piece_kin[k][i], word) == 0;
        for (size_t i = 0; kin && piece_kin[k][i] != NULL; i++)
            if (piece_by_word(s, piece_kin[k][i], out))
                return true;
    }
    return false;
}

/* words that are one whole piece of some foods: "2 chicken breast fillets" are two of them */
static bool
means_each(const char *word)
{
    static const char *const words[] = {"piece", "fillet", "ear", "head", "bulb", "cob", "count"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strcmp(word, words[i]) == 0)
            return true;
    return false;
}

/* whether the name has the whole word in it: a tea bag is a bag, a bay leaf a leaf; canned peaches
 * are no can, and a stick of carrot is no carrot */
static bool
names_piece(const char *name, const char *word)
{
    const size_t length = strlen(word);
    for (const char *at = strstr(name, word); at != NULL; at = strstr(at + 1, word)) {
        const char end = at[length] == 's' ? at[length + 1] : at[length];
        if ((at == name || at[-1] == ' ') && (end == '\0' || end == ' '))
            return true;
    }
    return false;
}

static const char *
size_word(enum piece_size size)
{
    static const char *const words[] = {
        [SIZE_NONE] = NULL,
        [SIZE_SMALL] = "small",
        [SIZE_MEDIUM] = "medium",
        [SIZE_LARGE] = "large",
    };
    return words[size];
}

/* without a figure of its own, a small piece lies in the lower half of what one weighs */
static struct span
of_size(struct span s, enum piece_size size)
{
    if (size == SIZE_SMALL)
        return span_between(s.low, s.mid);
    return size == SIZE_LARGE ? span_between(s.mid, s.high) : s;
}

/* Grams of the food as the form weighs it, to grams as bought and edible. */
static void
resolve(const struct scale *s, const struct form *form, struct span grams, struct measured *out)
{
    /* of a tin with its liquid all is eaten */
    const bool whole_tin = form != NULL && s->found->undrained && form == mass_tin(s->found->food);
    const struct figure *share =
        form != NULL && !whole_tin ? foods_form_edible(form, s->reads) : NULL;
    out->share = figure_known(share) ? share : NULL;
    out->grams = out->edible = grams;
    if (out->share != NULL && form->weighed_bought)
        out->edible = span_times(grams, share->span);
    else if (out->share != NULL)
        out->grams = span_scale(grams, 1 / share->span.mid);
    out->known = true;
}

static const struct form *
form_named(const struct food *f, const char *name)
{
    for (size_t i = 0; i < f->form_count; i++)
        if (strcmp(f->forms[i].name, name) == 0)
            return &f->forms[i];
    return NULL;
}

const struct form *
mass_tin(const struct food *f)
{
    return f != NULL ? form_named(f, "tin") : NULL;
}

/* grams of a tin's contents, drained or not */
static void
resolve_tin(const struct scale *s, struct span grams, struct measured *out)
{
    const struct figure *share = s->tin_drained ? foods_form_edible(s->tin, s->reads) : NULL;
    out->grams = out->edible = grams;
    out->known = true;
    out->drained = figure_known(share);
    if (out->drained) {
        out->share = share;
        out->edible = span_times(grams, share->span);
    }
}

/* a weight is of the food as bought, in the form it was weighed in; cut or peeled before, all of it
 * is edible */
static void
by_weight(const struct scale *s, struct span grams, struct measured *out)
{
    const struct form *form = s->found->form;
    out->grams = out->edible = grams;
    out->known = true;
    if (s->found->food == NULL)
        return;
    if (s->tin != NULL) {
        resolve_tin(s, grams, out);
        return;
    }
    if (s->found->prepared && !s->found->form_said)
        return;
    else if (!s->found->form_said && form_named(s->found->food, "whole") != NULL)
        form = form_named(s->found->food, "whole");
    const struct figure *share = foods_form_edible(form, s->reads);
    if (figure_known(share)) {
        out->share = share;
        out->edible = span_times(grams, share->span);
    }
}

/* the form whose density holds for what was measured: a form of its own for packed and sifted, the
 * one said, or the first with a density */
static const struct form *
form_measured(const struct scale *s, enum fill fill, bool *filled)
{
    const struct food *f = s->found->food;
    const struct form *special = NULL;
    *filled = false;
    if (fill == FILL_PACKED || fill == FILL_SIFTED)
        special = form_named(f, fill == FILL_PACKED ? "packed" : "sifted");
    if (special != NULL && figure_known(foods_form_density(special, s->reads))) {
        *filled = true;
        return special;
    }
    if (figure_known(foods_form_density(s->found->form, s->reads)))
        return s->found->form;
    for (size_t i = 0; i < f->form_count; i++)
        if (figure_known(foods_form_density(&f->forms[i], s->reads)))
            return &f->forms[i];
    return NULL;
}

/* the table's fills are of spoons; a cup is deeper, and the heap on its rim a quarter as much
 * beside what is below: common practice, no source */
static struct span
fill_of(const struct unit *unit, struct span fill)
{
    const double share = unit->spoon ? 1 : 0.25;
    return fill.mid <= 1 ? fill
                         : span_make(1 + (fill.low - 1) * share, 1 + (fill.mid - 1) * share,
                                     1 + (fill.high - 1) * share);
}

/* "1 can (540 mL)": what a tin holds; cups and spoons are of what came out of it */
static bool
by_tin(const struct scale *s, const struct unit *unit, struct span millilitres,
       struct measured *out)
{
    if (s->tin == NULL || unit->spoon || strcmp(unit->id, "cup") == 0)
        return false;
    const struct figure *density = foods_form_density(s->tin, s->reads);
    if (!figure_known(density))
        return false;
    out->density = density;
    out->millilitres = millilitres;
    resolve_tin(s, span_times(millilitres, density->span), out);
    return true;
}

static void
by_volume(const struct scale *s, const struct unit *unit, struct span count, enum fill fill,
          struct measured *out)
{
    const struct span millilitres = span_times(count, unit->size);
    bool filled = false;
    const struct form *form = NULL;
    out->has_millilitres = true;
    if (by_tin(s, unit, millilitres, out))
        return;
    if (s->found->food != NULL)
        form = form_measured(s, fill, &filled);
    const struct figure *factor = filled ? NULL : measures_fill(s->measures, fill, s->reads);
    out->millilitres =
        factor != NULL ? span_times(millilitres, fill_of(unit, factor->span)) : millilitres;
    if (form == NULL)
        return;
    out->density = foods_form_density(form, s->reads);
    resolve(s, form, span_times(out->millilitres, out->density->span), out);
}

/* "1 small head cauliflower", "2 large cloves": where the piece is what `each` weighs, the weights
 * by size are its own, too */
static bool
sized_each(const struct scale *s, const char *size, struct piece_found *p)
{
    struct piece_found each, one;
    if (p->grams == NULL || !piece_by_word(s, "each", &each) ||
        each.grams->span.mid != p->grams->span.mid || !piece_by_word(s, size, &one))
        return false;
    *p = one;
    return true;
}

/* a piece of watermelon is none that anybody has weighed */
static bool
is_cut_from(const struct food *f, const struct piece_found *p)
{
    enum { WHOLE_FROM = 250 };
    return f->fresh && p->grams != NULL && strcmp(p->word, "each") == 0 &&
           p->grams->span.mid >= WHOLE_FROM;
}

static void
by_piece(const struct scale *s, const struct amount *amount, struct span count, const char *word,
         struct measured *out)
{
    const char *size = size_word(amount->size);
    struct piece_found p = {NULL, NULL, NULL};
    out->has_pieces = true;
    out->pieces = count;
    out->piece_word = word != NULL ? word : size != NULL ? size : "each";
    if (s->found->food == NULL)
        return;
    bool sized = false;
    if (word != NULL && s->tin != NULL && !s->tin_drained &&
        figure_known(foods_form_piece(s->tin, word, s->reads))) {
        p = (struct piece_found){s->tin, foods_form_piece(s->tin, word, s->reads), word};
        out->piece = p.grams;
        resolve_tin(s, span_times(count, p.grams->span), out);
        return;
    }
    if (word != NULL) {
        piece_by_kin(s, word, &p);
        /* a tea bag is one piece of tea bags */
        if (p.grams == NULL && (means_each(word) || names_piece(s->found->food->name, word)))
            piece_by_word(s, "each", &p);
        if (strcmp(word, "piece") == 0 && is_cut_from(s->found->food, &p))
            p.grams = NULL;
        sized = size != NULL && sized_each(s, size, &p);
    } else if (size != NULL) {
        sized = piece_by_word(s, size, &p);
        if (!sized)
            piece_by_word(s, "each", &p);
    } else if (!piece_by_word(s, "each", &p) && !piece_by_word(s, "medium", &p) &&
               !piece_by_word(s, "head", &p)) {
        const struct form *form = s->found->form;
        for (size_t i = 0; i < s->found->food->form_count && form->piece_count == 0; i++)
            form = &s->found->food->forms[i];
        if (form->piece_count > 0)
            piece_by_word(s, form->pieces[0].word, &p);
    }
    if (p.grams == NULL)
        return;
    out->piece = p.grams;
    out->piece_word = p.word;
    struct span one = sized ? p.grams->span : of_size(p.grams->span, amount->size);
    resolve(s, p.form, span_times(count, one), out);
}

/* a stick is butter's, or that of any fat that is sold in sticks */
static bool
by_region_piece(const struct scale *s, const struct unit *unit, struct span count,
                struct measured *out)
{
    enum { FAT_FROM = 40 };
    if (unit->size.mid <= 0 || s->found->food == NULL)
        return false;
    const struct figure *fat = food_nutrient(s->found->food, FAT, s->reads);
    if (!figure_known(fat) || fat->span.mid < FAT_FROM)
        return false;
    by_weight(s, span_times(count, unit->size), out);
    return true;
}

static void
by_length(const struct scale *s, const struct amount *amount, struct span count,
          struct measured *out)
{
    const double inch = 2.54;
    bool metric = strcmp(amount->unit->id, "cm") == 0;
    by_piece(s, amount, metric ? span_scale(count, 1 / inch) : count, "inch", out);
    if (!out->known && amount->each) /* "1 x 5 cm cinnamon stick": the length only describes it */
        by_piece(s, amount, amount->times, s->found->piece_word, out);
}

static void
by_vague_word(const struct scale *s, const struct amount *amount, struct span count,
              struct measured *out)
{
    const struct unit *unit = amount->unit;
    struct piece_found p;
    if (s->found->food != NULL && piece_by_word(s, unit->id, &p)) {
        by_piece(s, amount, count, unit->id, out);
        return;
    }
    if (unit->vague_grams)
        by_weight(s, span_times(count, unit->size), out);
    else
        by_volume(s, unit, count, FILL_NONE, out);
}

void
mass_amount(const struct scale *s, const struct amount *amount, struct measured *out)
{
    const struct unit *unit = amount->unit;
    struct span count = amount->value;
    memset(out, 0, sizeof *out);
    out->kind = unit != NULL ? unit->kind : UNIT_PIECE;
    out->from = amount->from;
    out->to = amount->to;
    if (amount->each && amount->times.mid > 0)
        count = span_times(count, amount->times);
    if (unit == NULL) {
        by_piece(s, amount, count, s->found->piece_word, out);
        return;
    }
    const struct unit_row *row = measures_unit_by_id(s->measures, s->region, unit->id, s->reads);
    out->unit = row != NULL ? &row->size : NULL;
    switch (unit->kind) {
    case UNIT_WEIGHT:
        by_weight(s, span_times(count, unit->size), out);
        break;
    case UNIT_VOLUME:
        by_volume(s, unit, count, amount->fill, out);
        break;
    case UNIT_VAGUE:
        by_vague_word(s, amount, count, out);
        break;
    case UNIT_PIECE:
        if (strcmp(unit->id, "cm") == 0 || strcmp(unit->id, "inch") == 0) {
            by_length(s, amount, count, out);
            break;
        }
        by_piece(s, amount, count, unit->id, out);
        if (!out->known)
            by_region_piece(s, unit, count, out);
        break;
    }
}
