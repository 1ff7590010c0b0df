#include "write/label_page.h"

#include "reckon/serve.h"
#include "tables/label.h"

/* "2 to 2.5 g" */
static void
add_grams(struct text *t, const struct label_part *p)
{
    if (p->grams_least > 0) {
        text_add_number(t, p->grams_least, 2);
        text_add_string(t, " to ");
    } else {
        text_add_string(t, "at most ");
    }
    text_add_number(t, p->grams_most, 2);
    text_add_string(t, " g");
}

void
label_page_parts(struct text *t, const struct food *f)
{
    const struct label *l = f->label;
    if (l == NULL)
        return;
    text_addf(t, "\n  ingredients of 100 g, by its label (%s)\n", l->source);
    for (size_t i = 0; i < l->part_count; i++) {
        const struct label_part *p = &l->parts[i];
        if (p->passed)
            continue;
        text_addf(t, "    %s%-*.*s ", p->parent > 0 ? "  " : "", p->parent > 0 ? 22 : 24,
                  SLICE_ARGS(p->name));
        add_grams(t, p);
        if (!p->counted)
            text_add_string(t, ", as in its bracket");
        else if (p->food == NULL)
            text_add_string(t, "; not in the larder");
        else
            text_addf(t, "; %s", p->food->name);
        text_add_byte(t, '\n');
    }
}

void
label_page_json(struct json_writer *n, const struct food *f)
{
    const struct label *l = f->label;
    if (l == NULL) {
        json_key(n, "label");
        json_raw(n, SLICE("null"));
        return;
    }
    json_member_open(n, "label", '[');
    for (size_t i = 0; i < l->part_count; i++) {
        const struct label_part *p = &l->parts[i];
        if (p->passed)
            continue;
        json_open(n, '{');
        json_member(n, "ingredient", p->name);
        json_key(n, "food");
        if (p->food != NULL && p->counted)
            json_text(n, slice_of(p->food->id));
        else
            json_raw(n, SLICE("null"));
        json_key(n, "within");
        if (p->parent > 0)
            json_text(n, l->parts[p->parent - 1].name);
        else
            json_raw(n, SLICE("null"));
        json_key(n, "least");
        json_number(n, p->grams_least, 4);
        json_key(n, "most");
        json_number(n, p->grams_most, 4);
        json_close(n, '}');
    }
    json_close(n, ']');
}

/* a text in double quotes, as YAML and JSON have it */
static void
add_quoted(struct text *t, struct slice s)
{
    struct json_writer n = json_new(t);
    json_text(&n, s);
}

static void
add_bits(struct text *t, const char *key, uint32_t bits, const char *(*word)(int), int count)
{
    const char *between = "";
    text_addf(t, "    %s: [", key);
    for (int i = 0; i < count; i++)
        if ((bits >> i & 1) != 0) {
            text_addf(t, "%s%s", between, word(i));
            between = ", ";
        }
    text_add_string(t, "]\n");
}

static void
add_number(struct text *t, const char *key, double value)
{
    text_addf(t, "%s: ", key);
    text_add_number(t, value, 4);
    text_add_string(t, ", ");
}

static void
add_figure(struct text *t, const char *key, const struct figure *f)
{
    text_addf(t, "      %s: {", key);
    if (f->kind == FIGURE_NONE) {
        text_add_string(t, "kind: none, ");
    } else if (f->kind == FIGURE_BELOW) {
        add_number(t, "high", f->span.high);
    } else {
        text_add_string(t, "kind: range, ");
        add_number(t, "low", f->span.low);
        add_number(t, "mid", f->span.mid);
        add_number(t, "high", f->span.high);
    }
    text_add_string(t, "source: ");
    add_quoted(t, slice_of(f->source));
    text_addf(t, ", basis: %s}\n", figure_basis_word(f->basis));
}

static void
add_figures(struct text *t, const char *key, const struct figure figures[GROUPS])
{
    bool first = true;
    for (int g = 0; g < GROUPS; g++) {
        if (!figure_known(&figures[g]))
            continue;
        if (first)
            text_addf(t, "    %s:\n", key);
        first = false;
        add_figure(t, groups_word((enum group)g), &figures[g]);
    }
}

static void
add_nutrients(struct text *t, const struct food *f)
{
    bool first = true;
    for (int n = 0; n < NUTRIENTS; n++) {
        const struct figure *figure = &f->nutrients[n];
        if (!figure_known(figure))
            continue;
        if (first) {
            text_add_string(t, "    nutrients: {source: ");
            add_quoted(t, slice_of(figure->source));
            text_addf(t, ", basis: %s", figure_basis_word(figure->basis));
        }
        first = false;
        text_addf(t, ", %s: ", foods_nutrient_word((enum nutrient)n));
        text_add_number(t, figure->span.mid, 4);
    }
    text_add_string(t, first ? "" : "}\n");
}

/* g in 100 g: less is not worth a line */
static const double TOLD_LEAST = 0.01;

/* what nobody can say by the packet */
static void
add_open(struct text *t, const struct food *f)
{
    const struct label *l = f->label;
    for (size_t i = 0; i < l->part_count; i++)
        if (l->parts[i].counted && l->parts[i].food == NULL) {
            text_addf(t, "    # open: the larder has no %.*s; it is ",
                      SLICE_ARGS(l->parts[i].name));
            add_grams(t, &l->parts[i]);
            text_add_string(t, " of 100 g\n");
        }
    for (int g = 0; g < GROUPS; g++)
        if (!figure_known(&f->contents[g]) && figure_known(&f->bounds[g]) &&
            f->bounds[g].span.high >= TOLD_LEAST) {
            text_addf(t, "    # open: %s, from nothing up to ", groups_name((enum group)g));
            text_add_number(t, f->bounds[g].span.high, 3);
            text_add_string(t, " g in 100 g\n");
        }
}

static void
add_most(struct text *t, const struct food *f, const struct tables *tables)
{
    for (size_t p = 0; p < tables->limits.phase_count; p++) {
        const struct serve s = serve_most(t->arena, f, tables, (int)p);
        text_addf(t, "    # the most of a serve, %s: ", tables->limits.phases[p].id);
        if (s.grams >= SERVE_GRAMS_MOST) {
            text_add_string(t, "as much as anyone eats\n");
            continue;
        }
        text_add_number(t, s.grams, s.grams < 2 ? 1 : 0);
        text_addf(t, " g; more is %s by %s\n",
                  s.beyond == STANDING_UNKNOWN ? "not known" : "close to the limit, or over it,",
                  column_name(s.column));
    }
}

void
label_page_block(struct text *t, const struct food *f, const struct tables *tables)
{
    text_addf(t, "  %s:\n    name: ", f->id);
    add_quoted(t, slice_of(f->name));
    text_addf(t, "\n    class: %s\n    kin: no\n", groups_class_word(f->food_class));
    add_bits(t, "allergens", f->allergens, groups_allergen_at, ALLERGENS);
    add_bits(t, "may-carry", f->may_carry, groups_allergen_at, ALLERGENS);
    add_bits(t, "traces", f->traces, groups_allergen_at, ALLERGENS);
    add_bits(t, "breaks", f->breaks, groups_diet_at, DIETS);
    add_bits(t, "labelled", f->labelled, groups_diet_at, DIETS);
    if (figure_known(&f->grounds)) {
        text_add_string(t, "    grounds: {source: ");
        add_quoted(t, slice_of(f->grounds.source));
        text_addf(t, ", basis: %s}\n", figure_basis_word(f->grounds.basis));
    }
    text_add_string(t, "    forms: {whole: {}} # and what you know of its weights\n");
    add_figures(t, "per-100-g", f->contents);
    add_figures(t, "bounds", f->bounds);
    add_nutrients(t, f);
    add_open(t, f);
    add_most(t, f, tables);
}
