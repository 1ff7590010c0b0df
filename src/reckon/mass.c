#include "reckon/mass.h"

#include <math.h>
#include <string.h>

#include "base/list.h"
#include "reckon/mass_amount.h"

/* Two measures of one kind are often the same one rounded for another system: 250 mL for a cup of
 * 236.6, 25 or 30 g for an ounce of 28.35 (common practice, no source). A written weight stands for
 * all that would be rounded to it. */
static const double rounding_between_systems = 0.14;
static const double rounding_share = 0.01, rounding_grams = 0.5;
/* ounces are written whole or in halves: "1 cup (8 ounces) ricotta" */
static const double rounding_ounces = 0.03;
/* "1 large carrot (180 g)": sizes differ from market to market by a third more or less; common
 * practice, no source */
static const double size_of_pieces = 1.0 / 3;

enum { SPOON_MILLILITRES_MOST = 30 };

static bool
is_any(const char *id, const char *const *words)
{
    for (; *words != NULL; words++)
        if (strcmp(id, *words) == 0)
            return true;
    return false;
}

enum measured_by
mass_measured_by(const struct written_food *written)
{
    static const char *const bunches[] = {"bunch", "sprig", "leaf", "stem", "handful", NULL};
    static const char *const sold_in[] = {"can",    "jar", "packet", "sachet", "carton",
                                          "bottle", "bag", "knob",   NULL};
    const struct amount *first = NULL;
    for (size_t i = 0; i < written->amount_count && first == NULL; i++)
        if (!written->amounts[i].container)
            first = &written->amounts[i];
    if (first == NULL)
        return BY_NOTHING;
    const struct unit *unit = first->unit;
    if (unit == NULL)
        return BY_PIECE;
    if (is_any(unit->id, bunches))
        return BY_BUNCH;
    if (is_any(unit->id, sold_in))
        return BY_WEIGHT;
    switch (unit->kind) {
    case UNIT_WEIGHT:
        return BY_WEIGHT;
    case UNIT_PIECE:
        return BY_PIECE;
    case UNIT_VAGUE:
        return BY_SPOON;
    case UNIT_VOLUME:
        break;
    }
    bool little = strcmp(unit->id, "ml") == 0 && first->value.high <= SPOON_MILLILITRES_MOST;
    return unit->spoon || little ? BY_SPOON : BY_CUP;
}

static void
add_term(struct measured *to, const struct measured *term)
{
    to->known = to->known && term->known;
    to->grams = span_add(to->grams, term->grams);
    to->edible = span_add(to->edible, term->edible);
    to->has_millilitres = to->has_millilitres && term->has_millilitres;
    to->millilitres = span_add(to->millilitres, term->millilitres);
    to->has_pieces = to->has_pieces && term->has_pieces;
    to->pieces = span_add(to->pieces, term->pieces);
    to->to = term->to;
}

/* "3 bananas, mashed (about 1 1/2 cups)": the cups are of what was made of the pieces */
static bool
cut_before(const struct written_food *written, size_t i)
{
    const struct unit *first = written->amounts[0].unit, *unit = written->amounts[i].unit;
    return i > 0 && unit != NULL && unit->kind == UNIT_VOLUME &&
           (first == NULL || first->kind == UNIT_PIECE);
}

/* "8 oz mushrooms, sliced (about 3 cups)": the cups may be of what was weighed or of what was made
 * of it, and say nothing beside the weight but whether they fit it */
static void
cover_cut(const struct scale *s, const struct written_food *written, size_t i, struct measured *out)
{
    const struct unit *first = written->amounts[0].unit, *unit = written->amounts[i].unit;
    if (i == 0 || unit == NULL || unit->kind != UNIT_VOLUME || first == NULL ||
        first->kind != UNIT_WEIGHT || s->found->form_cut == NULL || !out->known)
        return;
    struct found cut = *s->found;
    struct scale after = *s;
    struct measured one;
    cut.form = cut.form_cut;
    after.found = &cut;
    mass_amount(&after, &written->amounts[i], &one);
    if (!one.known)
        return;
    out->grams = span_cover(out->grams, one.grams);
    out->edible = span_cover(out->edible, one.edible);
}

static void
measure_all(const struct scale *s, const struct written_food *written, struct weighing *out)
{
    for (size_t i = 0; i < written->amount_count; i++) {
        const struct amount *amount = &written->amounts[i];
        struct measured one;
        if (amount->container)
            continue;
        struct found cut = *s->found;
        struct scale after = *s;
        if (cut_before(written, i) && cut.form_cut != NULL) {
            cut.form = cut.form_cut;
            after.found = &cut;
        }
        mass_amount(&after, amount, &one);
        cover_cut(s, written, i, &one);
        if (amount->plus && out->count > 0)
            add_term(&out->measured[out->count - 1], &one);
        else
            out->measured[out->count++] = one;
    }
}

static int
rank(const struct measured *m)
{
    if (!m->known)
        return 5;
    switch (m->kind) {
    case UNIT_WEIGHT:
        return 0;
    case UNIT_VOLUME:
        return 1;
    case UNIT_PIECE:
        return m->piece_word != NULL && strcmp(m->piece_word, "inch") == 0 ? 2 : 3;
    case UNIT_VAGUE:
        break;
    }
    return 4;
}

static struct span
rounded_span(struct span s, double share, double grams)
{
    return span_make(fmax(0, s.low * (1 - share) - grams), s.mid, s.high * (1 + share) + grams);
}

/* "19 oz/540 mL" as tins are labelled: the ounces are fluid ones of 28.41 or 29.57 mL, and say of
 * the food what the millilitres say */
static bool
tin_label(const struct measured *weight, const struct measured *volume)
{
    const double least = 28, most = 30; /* mL; either fluid ounce, rounded */
    if (weight->kind != UNIT_WEIGHT || weight->unit == NULL || !volume->has_millilitres ||
        volume->unit == NULL || volume->unit->span.mid != 1 || weight->unit->span.mid < 20 ||
        weight->unit->span.mid > 30)
        return false;
    double ounces = weight->grams.mid / weight->unit->span.mid;
    return volume->millilitres.mid >= least * ounces && volume->millilitres.mid <= most * ounces;
}

/* whether two measures of the same food can both be right; a weight may be of the food as bought or
 * of its edible part */
static bool
agree(const struct measured *used, const struct measured *other)
{
    struct span mine = used->grams;
    struct span theirs = span_cover(other->grams, other->edible);
    double share = rounding_share;
    if (tin_label(used, other))
        return true;
    if (used->kind == other->kind)
        share = rounding_between_systems;
    else if (used->unit != NULL && used->unit->span.mid > 1)
        share = rounding_ounces;
    if (other->kind == UNIT_PIECE)
        theirs = rounded_span(theirs, size_of_pieces, 0);
    return span_overlap(rounded_span(mine, share, rounding_grams), theirs) ||
           (used->drained &&
            span_overlap(rounded_span(used->edible, share, rounding_grams), theirs));
}

/* "1 small piece of ginger (1 cm)": the length says how big the piece is */
static bool
one_piece(const struct measured *used, const struct measured *other)
{
    return used->piece_word != NULL && other->piece_word != NULL &&
           (strcmp(used->piece_word, "inch") == 0) != (strcmp(other->piece_word, "inch") == 0);
}

/* "2 bananas (240 g)" that weigh 240 g only when peeled: the weight is of the edible part */
static void
weigh_peeled(struct measured *weight, const struct measured *other)
{
    struct span mine = rounded_span(weight->grams, rounding_share, rounding_grams);
    if (weight->kind != UNIT_WEIGHT || other->kind == UNIT_WEIGHT || weight->share == NULL ||
        other->share == NULL || span_overlap(mine, other->grams) ||
        !span_overlap(mine, other->edible))
        return;
    weight->edible = weight->grams;
    weight->grams = span_scale(weight->grams, 1 / weight->share->span.mid);
}

static void
add_grams(struct text *t, struct span s)
{
    int decimals = s.mid < 10 ? 1 : 0;
    text_add_number(t, s.low, decimals);
    struct text high = text_new(t->arena), low = text_new(t->arena);
    text_add_number(&low, s.low, decimals);
    text_add_number(&high, s.high, decimals);
    if (!slice_equal(text_slice(&low), text_slice(&high))) {
        text_add_string(t, "\xe2\x80\x93");
        text_add(t, text_slice(&high));
    }
    text_add_string(t, " g");
}

/* as written; a mapping's amounts stand in no line that could be quoted */
static void
add_measure(struct text *more, const struct ingredient_line *line, const struct measured *m,
            const char *unwritten)
{
    if (m->from < m->to)
        text_add(more, slice_part(line->text, m->from, m->to));
    else
        text_add_string(more, unwritten);
}

static void
notice_disagreement(struct arena *a, const struct ingredient_line *line,
                    const struct written_food *written, const struct measured *used,
                    const struct measured *other, struct notices *notices)
{
    struct text more = text_new(a);
    const struct measured *first = used->from < other->from ? used : other;
    const struct measured *second = first == used ? other : used;
    const struct measured *weight = used->kind == UNIT_WEIGHT ? used : other;
    const struct measured *spread = weight == used ? other : used;
    bool weighed = weight->kind == UNIT_WEIGHT && spread->kind != UNIT_WEIGHT;
    add_measure(&more, line, weighed ? spread : first, "one measure");
    text_add_string(&more, " is ");
    add_grams(&more, weighed ? spread->grams : first->grams);
    if (weighed) {
        text_add_string(&more, ", not ");
        add_measure(&more, line, weight, "the weight beside it");
    } else {
        text_add_string(&more, ", ");
        add_measure(&more, line, second, "the other");
        text_add_string(&more, " is ");
        add_grams(&more, second->grams);
    }
    notice_add(notices, RULE_MEASURES_DISAGREE, written_line_place(line, first->from, second->to),
               written->name, text_slice(&more));
}

/* what the larder has weights by, for whoever measured by something else */
static struct slice
known_weights(struct arena *a, const struct food *f)
{
    struct text t = text_new(a);
    for (size_t i = 0; i < f->form_count; i++)
        for (size_t k = 0; k < f->forms[i].piece_count && t.length < 60; k++)
            text_addf(&t, "%s %s", t.length == 0 ? "; weights are known for: 1" : ", 1",
                      f->forms[i].pieces[k].word);
    return text_slice(&t);
}

static void
notice_unknown(struct arena *a, const struct ingredient_line *line,
               const struct written_food *written, const struct food *food,
               const struct measured *m, struct notices *notices)
{
    struct slice amount = slice_part(line->text, m->from, m->to);
    notice_add(notices, RULE_WEIGHT_UNKNOWN, written_line_place(line, m->from, m->to),
               text_formatted(a, "%.*s %.*s", SLICE_ARGS(amount), SLICE_ARGS(written->name)),
               known_weights(a, food));
}

static bool
is_in_tin(const struct written_food *written)
{
    static const char *const tins[] = {"can", "jar", NULL};
    for (size_t i = 0; i < written->amount_count; i++)
        if (written->amounts[i].unit != NULL && is_any(written->amounts[i].unit->id, tins))
            return true;
    return false;
}

/* salt and pepper without an amount are to taste */
static bool
goes_by_taste(const struct food *f)
{
    for (size_t i = 0; f != NULL && f->tags != NULL && f->tags[i] != NULL; i++)
        if (strcmp(f->tags[i], "to-taste") == 0)
            return true;
    return false;
}

/* "to taste" without an amount: from nothing to what the measures table says */
static void
weigh_to_taste(const struct scale *s, struct weighing *out)
{
    const struct unit_row *row = measures_unit_by_id(s->measures, s->region, "to-taste", s->reads);
    if (row == NULL)
        return;
    struct amount amount = {.value = span_exact(1), .unit = &row->unit, .times = span_exact(1)};
    mass_amount(s, &amount, &out->measured[0]);
    out->count = 1;
}

/* the measure that counts, held against the others */
static void
choose_used(struct arena *a, const struct ingredient_line *line, const struct written_food *written,
            struct notices *notices, struct weighing *out)
{
    for (size_t i = 1; i < out->count; i++)
        if (rank(&out->measured[i]) < rank(&out->measured[out->used]))
            out->used = i;
    struct measured *used = &out->measured[out->used];
    for (size_t i = 0; i < out->count && used->known; i++) {
        const struct measured *other = &out->measured[i];
        if (other == used || !other->known || one_piece(used, other))
            continue;
        if (agree(used, other))
            weigh_peeled(used, other);
        else
            notice_disagreement(a, line, written, used, other, notices);
    }
}

void
mass_weigh(struct arena *a, const struct ingredient_line *line, const struct written_food *written,
           const struct found *found, int region, const struct measures *measures,
           struct reads *reads, struct notices *notices, struct weighing *out)
{
    const struct form *tin = is_in_tin(written) ? mass_tin(found->food) : NULL;
    const bool drained =
        tin != NULL && (found->drained || (!found->undrained && !tin->drained_if_said));
    struct scale s = {found, measures, region, tin, drained, reads};
    memset(out, 0, sizeof *out);
    out->measured = arena_take_array(a, written->amount_count + 1, sizeof *out->measured);
    out->unmeasured = written->to_taste || written->extra_unmeasured;
    measure_all(&s, written, out);
    if (out->count == 0) {
        if (written->to_taste ||
            (written->extra == NULL && !written->amount_unread && goes_by_taste(found->food)))
            weigh_to_taste(&s, out);
        else if (written->extra == NULL && !written->amount_unread && written->name.length > 0)
            notice_add(notices, RULE_AMOUNT_MISSING,
                       written_line_place(line, written->name_from, written->name_to),
                       written->name, (struct slice){"", 0});
        out->unmeasured = true;
    }
    if (out->count > 0) {
        choose_used(a, line, written, notices, out);
        const struct measured *used = &out->measured[out->used];
        out->known = used->known;
        out->grams = used->grams;
        out->edible = used->edible;
        out->edible_share = used->share;
        if (!used->known && found->food != NULL && written->amount_count > 0)
            notice_unknown(a, line, written, found->food, used, notices);
    }
    if (written->extra != NULL) {
        struct measured extra;
        mass_amount(&s, written->extra, &extra);
        out->known = extra.known && (out->known || out->count == 0);
        out->grams = span_add(out->grams, extra.grams);
        out->edible = span_add(out->edible, extra.edible);
        if (out->count == 0)
            out->measured[out->count++] = extra;
    }
}
