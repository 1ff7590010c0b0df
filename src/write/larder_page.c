#include "write/larder_page.h"

#include "reckon/serve.h"

#include <string.h>

#include "tables/larder.h"
#include "tables/serve_settle.h"
#include "tables/table_ask.h"
#include "write/label_page.h"
#include "write/weighing.h"

static const char *const spoons[] = {"tsp", "tbsp", "cup"};

enum { SPOONS = sizeof spoons / sizeof *spoons };

static void
figure_text(struct text *t, const char *label, const struct figure *f, const char *unit,
            const struct tables *tables)
{
    text_addf(t, "    %-24s ", label);
    weighing_span(t, f->span, unit);
    text_addf(t, "\n      %s: %s\n", figure_basis_word(f->basis),
              tables_source(tables, t->arena, f->source));
}

/* grams of a spoon or cup of the region, or false */
static bool
spoon_grams(const struct tables *tables, int region, const char *spoon,
            const struct figure *density, struct span *grams)
{
    const struct unit_row *row = measures_unit_by_id(&tables->measures, region, spoon, NULL);
    if (row == NULL || !figure_known(density))
        return false;
    *grams = span_times(row->size.span, density->span);
    return true;
}

static void
spoons_text(struct text *t, const struct figure *density, const struct tables *tables)
{
    for (size_t r = 0; r < tables->measures.region_count; r++) {
        text_addf(t, "    %-24s ", tables->measures.regions[r].id);
        for (int s = 0; s < SPOONS; s++) {
            struct span grams;
            if (!spoon_grams(tables, (int)r, spoons[s], density, &grams))
                continue;
            text_addf(t, "%s1 %s ", s > 0 ? ", " : "", spoons[s]);
            weighing_span(t, grams, "g");
        }
        text_add_byte(t, '\n');
    }
}

/* "at most 0.3 g" */
static void
bound_text(struct text *t, enum group g, const struct figure *bound, const struct tables *tables)
{
    text_addf(t, "    %-24s at most ", groups_word(g));
    text_add_number(t, bound->span.high, 3);
    text_addf(t, " g\n      %s: %s\n", figure_basis_word(bound->basis),
              tables_source(tables, t->arena, bound->source));
}

static void
form_text(struct text *t, const struct form *form, const struct tables *tables)
{
    text_addf(t, "\n  %s", form->name);
    for (const char **w = form->words; *w != NULL; w++)
        text_addf(t, "%s%s", w == form->words ? "; also: " : ", ", *w);
    text_addf(t, "%s\n", form->weighed_bought ? "; weighed as bought" : "");
    if (form->drained_if_said)
        text_add_string(t, "    drained only where the line says so\n");
    if (figure_known(&form->density)) {
        figure_text(t, "density", &form->density, "g/mL", tables);
        spoons_text(t, &form->density, tables);
    }
    for (size_t i = 0; i < form->piece_count; i++)
        figure_text(t, text_format(t->arena, "1 %s", form->pieces[i].word), &form->pieces[i].grams,
                    "g", tables);
    if (figure_known(&form->edible))
        figure_text(t, "edible part", &form->edible, "of it", tables);
}

static void
bits_text(struct text *t, const char *label, uint32_t bits, const char *(*word)(int), int count)
{
    if (bits == 0)
        return;
    text_addf(t, "  %-14s", label);
    const char *between = "";
    for (int i = 0; i < count; i++)
        if ((bits >> i & 1) != 0) {
            text_addf(t, "%s%s", between, word(i));
            between = ", ";
        }
    text_add_byte(t, '\n');
}

/* where allergens and diets come from */
static void
grounds_text(struct text *t, const struct food *f, const struct tables *tables)
{
    text_addf(t, "  %-14s", "so says");
    if (figure_known(&f->grounds))
        text_addf(t, "%s: %s\n", figure_basis_word(f->grounds.basis),
                  tables_source(tables, t->arena, f->grounds.source));
    else
        text_add_string(t, "no source is given\n");
}

/* "fructan", "all that counts in one sitting" */
static const char *
ends_by(const struct serve *s)
{
    return s->column == SITTING ? column_name(s->column) : column_word(s->column);
}

static void
serve_end_text(struct text *t, const struct serve *s)
{
    if (s->grams >= SERVE_GRAMS_MOST) {
        text_add_string(t, "as much as anyone eats\n");
        return;
    }
    text_add_number(t, s->grams, s->grams < 2 ? 1 : 0);
    text_addf(t, " g; more is %s by %s%s\n",
              s->beyond == STANDING_UNKNOWN ? "not known" : "close to the limit, or over it,",
              ends_by(s), s->fresh ? ", by the allowance for fresh produce" : "");
}

/* the most that a serve may be, in grams and each region's measures, by phase */
static void
serves_text(struct text *t, const struct food *f, const struct tables *tables)
{
    text_add_string(t, "\n  the most that a portion may hold of it, alone\n");
    for (size_t p = 0; p < tables->limits.phase_count; p++) {
        const struct serve s = serve_most(t->arena, f, tables, (int)p);
        struct slice before = SLICE("");
        text_addf(t, "    %-24s ", tables->limits.phases[p].id);
        serve_end_text(t, &s);
        for (size_t r = 0; s.grams < SERVE_GRAMS_MOST && r < tables->measures.region_count; r++) {
            const struct slice words = serve_measure(t->arena, f, s.grams, (int)r, tables);
            if (words.length == 0)
                continue;
            if (slice_equal(words, before)) {
                text_addf(t, ", %s", tables->measures.regions[r].id);
                continue;
            }
            text_addf(t, "%s      %.*s: %s", before.length > 0 ? "\n" : "", SLICE_ARGS(words),
                      tables->measures.regions[r].id);
            before = words;
        }
        text_add_string(t, before.length > 0 ? "\n" : "");
    }
}

static void
serves_json(struct json_writer *n, const struct food *f, const struct tables *tables)
{
    json_member_open(n, "most", '{');
    for (size_t p = 0; p < tables->limits.phase_count; p++) {
        const struct serve s = serve_most(n->text->arena, f, tables, (int)p);
        const bool endless = s.grams >= SERVE_GRAMS_MOST;
        json_member_open(n, tables->limits.phases[p].id, '{');
        json_key(n, "grams");
        if (endless)
            json_raw(n, SLICE("null"));
        else
            json_number(n, s.grams, 1);
        if (!endless) {
            json_member_string(n, "ends-by", s.column == SITTING ? "sitting" : ends_by(&s));
            json_member_string(n, "beyond", standing_word(s.beyond));
            json_member_open(n, "measures", '{');
            for (size_t r = 0; r < tables->measures.region_count; r++)
                json_member(n, tables->measures.regions[r].id,
                            serve_measure(n->text->arena, f, s.grams, (int)r, tables));
            json_close(n, '}');
        }
        json_close(n, '}');
    }
    json_close(n, '}');
}

static const char *
given_phase(const struct given_serve *s, const struct tables *tables)
{
    return s->phase < 0 ? "all phases" : tables->limits.phases[s->phase].id;
}

/* "serve, strict            at most 40 g" */
static void
given_text(struct text *t, const struct given_serve *s, const struct tables *tables)
{
    const char *head =
        text_format(t->arena, "serve, %s%s%s", given_phase(s, tables), s->form != NULL ? ", " : "",
                    s->form != NULL ? s->form->name : "");
    text_addf(t, "    %-24s ", head);
    if (s->no_limit)
        text_add_string(t, "no limit");
    else
        text_addf(t, "at most %g g", s->grams.span.mid);
    text_addf(t, "\n      %s\n", s->grams.source);
}

static void
givens_json(struct json_writer *n, const struct food *f, const struct tables *tables)
{
    json_member_open(n, "given-serves", '[');
    for (const struct given_serve *s = f->serves; s != NULL; s = s->next) {
        json_open(n, '{');
        json_member_string(n, "phase", given_phase(s, tables));
        json_key(n, "form");
        if (s->form != NULL)
            json_text(n, slice_of(s->form->name));
        else
            json_raw(n, SLICE("null"));
        json_key(n, "grams");
        if (s->no_limit)
            json_raw(n, SLICE("null"));
        else
            json_number(n, s->grams.span.mid, 3);
        json_member_string(n, "source", s->grams.source);
        json_close(n, '}');
    }
    json_close(n, ']');
}

void
larder_page_text(struct text *t, const struct food *f, const struct tables *tables)
{
    text_addf(t, "%s [%s]\n  %-14s%s%s\n", f->name, f->id, "class",
              groups_class_word(f->food_class), f->fresh ? ", fresh" : "");
    const char **names = larder_names_of(tables->larder, t->arena, f);
    for (const char **n = names; *n != NULL; n++)
        text_addf(t, "%s%s", n == names ? "  names         " : ", ", *n);
    if (names[0] != NULL)
        text_add_byte(t, '\n');
    bits_text(t, "allergens", f->allergens, groups_allergen_at, ALLERGENS);
    bits_text(t, "may carry", f->may_carry, groups_allergen_at, ALLERGENS);
    bits_text(t, "traces", f->traces, groups_allergen_at, ALLERGENS);
    bits_text(t, "breaks", f->breaks, groups_diet_at, DIETS);
    bits_text(t, "by its label", f->labelled, groups_diet_at, DIETS);
    grounds_text(t, f, tables);
    for (size_t i = 0; i < f->form_count; i++)
        form_text(t, &f->forms[i], tables);
    label_page_parts(t, f);
    text_add_string(t, "\n  in 100 g of the edible part\n");
    for (int g = 0; g < GROUPS; g++)
        if (figure_known(&f->contents[g]))
            figure_text(t, groups_word((enum group)g), &f->contents[g], "g", tables);
        else if (!groups_is_sum((enum group)g) && !figure_known(&f->bounds[g]))
            text_addf(t, "    %-24s not known\n", groups_word((enum group)g));
    for (int g = 0; g < GROUPS; g++)
        if (figure_known(&f->bounds[g]))
            bound_text(t, (enum group)g, &f->bounds[g], tables);
    serves_text(t, f, tables);
    for (const struct given_serve *s = f->serves; s != NULL; s = s->next)
        given_text(t, s, tables);
    bool first = true;
    for (int n = 0; n < NUTRIENTS; n++)
        if (figure_known(&f->nutrients[n])) {
            text_addf(t, "%s%s ", first ? "    " : ", ", foods_nutrient_word((enum nutrient)n));
            text_add_number(t, f->nutrients[n].span.mid, 3);
            first = false;
        }
    for (int n = 0; n < NUTRIENTS && !first; n++)
        if (figure_known(&f->nutrients[n])) {
            text_addf(t, "\n      %s: %s\n", figure_basis_word(f->nutrients[n].basis),
                      tables_source(tables, t->arena, f->nutrients[n].source));
            break;
        }
}

static void
span_members(struct json_writer *n, struct span s)
{
    json_key(n, "low");
    json_number(n, s.low, 6);
    json_key(n, "mid");
    json_number(n, s.mid, 6);
    json_key(n, "high");
    json_number(n, s.high, 6);
}

static void
figure_json(struct json_writer *n, const char *key, const struct figure *f)
{
    if (!figure_known(f))
        return;
    json_member_open(n, key, '{');
    span_members(n, f->span);
    json_member_string(n, "source", f->source);
    json_member_string(n, "basis", figure_basis_word(f->basis));
    json_close(n, '}');
}

static void
texts_json(struct json_writer *n, const char *key, const char *const *texts)
{
    json_member_open(n, key, '[');
    for (; *texts != NULL; texts++)
        json_text(n, slice_of(*texts));
    json_close(n, ']');
}

static void
bits_json(struct json_writer *n, const char *key, uint32_t bits, const char *(*word)(int),
          int count)
{
    json_member_open(n, key, '[');
    for (int i = 0; i < count; i++)
        if ((bits >> i & 1) != 0)
            json_text(n, slice_of(word(i)));
    json_close(n, ']');
}

static void
form_json(struct json_writer *n, const struct form *form, const struct tables *tables)
{
    json_open(n, '{');
    json_member_string(n, "form", form->name);
    texts_json(n, "words", form->words);
    json_member_string(n, "weighed", form->weighed_bought ? "bought" : "edible");
    figure_json(n, "density", &form->density);
    json_member_open(n, "grams", '{');
    for (size_t r = 0; r < tables->measures.region_count && figure_known(&form->density); r++) {
        json_member_open(n, tables->measures.regions[r].id, '{');
        for (int s = 0; s < SPOONS; s++) {
            struct span grams;
            if (!spoon_grams(tables, (int)r, spoons[s], &form->density, &grams))
                continue;
            json_member_open(n, spoons[s], '{');
            span_members(n, grams);
            json_close(n, '}');
        }
        json_close(n, '}');
    }
    json_close(n, '}');
    json_member_open(n, "pieces", '{');
    for (size_t i = 0; i < form->piece_count; i++)
        figure_json(n, form->pieces[i].word, &form->pieces[i].grams);
    json_close(n, '}');
    figure_json(n, "edible", &form->edible);
    json_close(n, '}');
}

void
larder_page_json(struct text *t, const struct food *f, const struct tables *tables)
{
    struct json_writer n = json_new(t);
    json_open(&n, '{');
    json_member_string(&n, "food", f->id);
    json_member_string(&n, "name", f->name);
    texts_json(&n, "names", larder_names_of(tables->larder, t->arena, f));
    json_member_string(&n, "class", groups_class_word(f->food_class));
    json_key(&n, "fresh");
    json_truth(&n, f->fresh);
    bits_json(&n, "allergens", f->allergens, groups_allergen_at, ALLERGENS);
    bits_json(&n, "may-carry", f->may_carry, groups_allergen_at, ALLERGENS);
    bits_json(&n, "traces", f->traces, groups_allergen_at, ALLERGENS);
    bits_json(&n, "breaks", f->breaks, groups_diet_at, DIETS);
    bits_json(&n, "labelled", f->labelled, groups_diet_at, DIETS);
    if (figure_known(&f->grounds)) {
        json_member_open(&n, "grounds", '{');
        json_member_string(&n, "source", f->grounds.source);
        json_member_string(&n, "basis", figure_basis_word(f->grounds.basis));
        json_close(&n, '}');
    }
    json_member_open(&n, "forms", '[');
    for (size_t i = 0; i < f->form_count; i++)
        form_json(&n, &f->forms[i], tables);
    json_close(&n, ']');
    json_member_open(&n, "per-100-g", '{');
    for (int g = 0; g < GROUPS; g++)
        figure_json(&n, groups_word((enum group)g), &f->contents[g]);
    json_close(&n, '}');
    json_member_open(&n, "bounds", '{');
    for (int g = 0; g < GROUPS; g++)
        figure_json(&n, groups_word((enum group)g), &f->bounds[g]);
    json_close(&n, '}');
    label_page_json(&n, f);
    serves_json(&n, f, tables);
    givens_json(&n, f, tables);
    json_member_open(&n, "nutrients", '{');
    for (int i = 0; i < NUTRIENTS; i++)
        figure_json(&n, foods_nutrient_word((enum nutrient)i), &f->nutrients[i]);
    json_close(&n, '}');
    json_close(&n, '}');
    text_add_byte(t, '\n');
}
