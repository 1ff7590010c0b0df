#include "write/worksheet_json.h"

#include <math.h>

#include "judge/verdict.h"
#include "tables/table_ask.h"
#include "write/json_writer.h"

static void
null(struct json_writer *n, const char *key)
{
    json_key(n, key);
    json_raw(n, SLICE("null"));
}

static void
text_or_null(struct json_writer *n, const char *key, const char *s)
{
    if (s == NULL)
        null(n, key);
    else
        json_member_string(n, key, s);
}

static void
number(struct json_writer *n, const char *key, double value)
{
    json_key(n, key);
    json_number(n, value, 9);
}

static void
truth(struct json_writer *n, const char *key, bool value)
{
    json_key(n, key);
    json_truth(n, value);
}

static void
ends(struct json_writer *n, struct span s)
{
    number(n, "low", s.low);
    number(n, "mid", s.mid);
    number(n, "high", s.high);
}

static void
span_or_null(struct json_writer *n, const char *key, bool known, struct span s)
{
    if (!known) {
        null(n, key);
        return;
    }
    json_member_open(n, key, '{');
    ends(n, s);
    json_close(n, '}');
}

static void
figure_or_null(struct json_writer *n, const char *key, const struct figure *f,
               const struct outcome *o)
{
    if (f == NULL || f->basis == BASIS_NONE) {
        null(n, key);
        return;
    }
    json_member_open(n, key, '{');
    ends(n, f->span);
    json_member_string(n, "source", tables_source(o->tables, n->text->arena, f->source));
    json_member_string(n, "basis", figure_basis_word(f->basis));
    json_close(n, '}');
}

static void
measured(struct json_writer *n, const struct ingredient *in, const struct measured *m, bool used,
         const struct outcome *o)
{
    json_open(n, '{');
    json_key(n, "written");
    json_text(n, slice_part(in->line.text, m->from, m->to));
    truth(n, "used", used);
    span_or_null(n, "millilitres", m->has_millilitres, m->millilitres);
    span_or_null(n, "pieces", m->has_pieces, m->pieces);
    text_or_null(n, "piece", m->has_pieces ? m->piece_word : NULL);
    figure_or_null(n, "unit", m->unit, o);
    figure_or_null(n, "density", m->density, o);
    figure_or_null(n, "piece-weight", m->piece, o);
    span_or_null(n, "grams", m->known, m->grams);
    json_close(n, '}');
}

static void
content_or_null(struct json_writer *n, const struct content *c, const struct outcome *o)
{
    if (c->figure == NULL) {
        null(n, "content");
        return;
    }
    figure_or_null(n, "content", c->figure, o);
}

static void
helping_groups(struct json_writer *n, const struct sheet *s, const struct load *load,
               const struct outcome *o)
{
    static const char *const words[] = {"figure", "own-figures", "kin", "absent"};
    json_member_open(n, "groups", '{');
    for (enum group g = 0; g < GROUPS; g++) {
        const struct content *c = &s->entries[load->entry].composition->groups[g];
        json_member_open(n, groups_word(g), '{');
        content_or_null(n, c, o);
        text_or_null(n, "kind", c->figure == NULL ? NULL : figure_kind_word(c->figure->kind));
        json_member_string(n, "evidence", words[c->evidence]);
        if (c->over != NULL)
            figure_or_null(n, "bound", c->over, o);
        number(n, "can-add", c->bound);
        span_or_null(n, "load", load->helping->weighing.known, load_brings(s, load, g));
        json_close(n, '}');
    }
    json_close(n, '}');
}

static void
helping(struct json_writer *n, const struct ingredient *in, const struct sheet *s,
        const struct load *load, const struct outcome *o)
{
    const struct helping *h = load->helping;
    const struct weighing *w = &h->weighing;
    json_open(n, '{');
    json_key(n, "name");
    json_text(n, h->written->name);
    text_or_null(n, "food", h->food == NULL ? NULL : h->food->id);
    text_or_null(n, "form", h->form == NULL ? NULL : h->form->name);
    text_or_null(n, "class", h->food == NULL ? NULL : groups_class_word(h->food->food_class));
    json_member_open(n, "measured", '[');
    for (size_t i = 0; i < w->count; i++)
        measured(n, in, &w->measured[i], i == w->used, o);
    json_close(n, ']');
    figure_or_null(n, "edible-share", w->edible_share, o);
    span_or_null(n, "bought", w->known, w->grams);
    span_or_null(n, "edible", w->known, w->edible);
    span_or_null(n, "eaten", w->known, h->eaten);
    span_or_null(n, "portion", w->known, load_grams(load));
    truth(n, "unmeasured", w->unmeasured);
    helping_groups(n, s, load, o);
    json_close(n, '}');
}

static void
lines(struct json_writer *n, const struct outcome *o, const struct sheet *sheet)
{
    const struct load *load = sheet->loads;
    json_member_open(n, "lines", '[');
    for (size_t i = 0; i < o->dish.count; i++) {
        const struct ingredient *in = &o->dish.ingredients[i];
        json_open(n, '{');
        json_key(n, "line");
        json_text(n, in->line.text);
        json_key(n, "part");
        json_text(n, o->post.front.parts[in->part].name.text);
        truth(n, "optional", in->optional);
        span_or_null(n, "stays", in->line.has_stays, in->line.stays);
        json_member_open(n, "options", '[');
        for (size_t k = 0; k < in->option_count; k++) {
            json_open(n, '[');
            for (size_t j = 0; j < in->options[k].count; j++)
                helping(n, in, sheet, load++, o);
            json_close(n, ']');
        }
        json_close(n, ']');
        json_close(n, '}');
    }
    json_close(n, ']');
}

static void
ingredient_or_null(struct json_writer *n, const char *key, size_t ingredient)
{
    if (ingredient == SIZE_MAX)
        null(n, key);
    else
        number(n, key, (double)ingredient);
}

/* which foods a limit is for: one food's entries, or all */
static void
serve_of(struct json_writer *n, const struct sheet *s, const struct limit_stand *l)
{
    json_member_string(n, "scope",
                       l->of.column == SITTING   ? "sitting"
                       : l->of.serve == SIZE_MAX ? "portion"
                                                 : "food");
    json_member_open(n, "foods", '[');
    for (size_t i = 0; i < s->entry_count && l->of.serve != SIZE_MAX; i++)
        if (s->entries[i].serve == l->of.serve && s->entries[i].food != NULL)
            json_word(n, s->entries[i].food->id);
    json_close(n, ']');
}

static void
limit(struct json_writer *n, const struct sheet *s, const struct limit_stand *l)
{
    const struct share *w = &l->worst;
    json_open(n, '{');
    serve_of(n, s, l);
    text_or_null(n, "group", l->of.column == SITTING ? NULL : column_word(l->of.column));
    number(n, "limit", w->limit);
    truth(n, "fresh-allowance", w->fresh);
    number(n, "load", w->load);
    number(n, "share", w->mid);
    number(n, "best-share", l->best.mid);
    number(n, "chance", w->chance);
    number(n, "chance-at-most", w->most_chance);
    number(n, "by-memory", w->memory);
    number(n, "can-add", fmin(w->lack.adds, 1e6));
    ingredient_or_null(n, "chief", w->chief == NULL ? SIZE_MAX : w->chief->ingredient);
    ingredient_or_null(n, "lacks", w->lack.load == NULL ? SIZE_MAX : w->lack.load->ingredient);
    json_member_string(n, "standing", standing_word(l->standing));
    json_member_string(n, "best-standing", standing_word(l->best_standing));
    json_close(n, '}');
}

static void
phase(struct json_writer *n, const struct outcome *o, const struct sheet *sheet, size_t i)
{
    const struct phase_stand *s = &o->phases[i];
    json_open(n, '{');
    json_member_string(n, "id", o->tables->limits.phases[i].id);
    json_member_string(n, "name", o->tables->limits.phases[i].name);
    json_member_string(n, "standing", standing_word(s->standing));
    json_member_string(n, "best-standing", standing_word(s->best_standing));
    text_or_null(n, "tightest", s->tightest < 0 ? NULL : groups_word((enum group)s->tightest));
    span_or_null(n, "sitting", s->sitting_limited, s->sitting);
    span_or_null(n, "sitting-share", s->sitting_limited, s->sitting_share);
    json_member_string(n, "sitting-standing", standing_word(s->sitting_standing));
    json_member_open(n, "limits", '[');
    for (size_t k = 0; k < s->limit_count; k++)
        limit(n, sheet, &s->limits[k]);
    json_close(n, ']');
    json_member_open(n, "groups", '{');
    for (enum group g = 0; g < GROUPS; g++) {
        const struct group_stand *k = &s->groups[g];
        json_member_open(n, groups_word(g), '{');
        truth(n, "limited", k->limited);
        json_key(n, "limit");
        if (k->limited)
            json_number(n, k->limit, 9);
        else
            json_raw(n, SLICE("null"));
        truth(n, "fresh-allowance", k->fresh_allowance);
        span_or_null(n, "load", true, k->load);
        span_or_null(n, "best-load", true, k->best_load);
        span_or_null(n, "share", k->limited, k->share);
        span_or_null(n, "best-share", k->limited, k->best_share);
        json_member_string(n, "standing", standing_word(k->standing));
        json_member_string(n, "best-standing", standing_word(k->best_standing));
        truth(n, "unknown", k->unknown);
        number(n, "chance", k->chance);
        number(n, "can-add", fmin(k->trace_share, 1e6));
        ingredient_or_null(n, "chief", k->chief);
        number(n, "chief-share", k->chief_share);
        json_close(n, '}');
    }
    json_close(n, '}');
    json_close(n, '}');
}

/* in the words of the site's phase and the post's region */
static void
verdict(struct json_writer *n, const struct outcome *o)
{
    const int site_phase = o->tables->site.phase;
    const struct verdict_asked asked = {
        &o->dish, o->tables, site_phase, &o->phases[site_phase], &o->choices, o->dish.region};
    struct verdict v;
    verdict_words(n->text->arena, &asked, o->reads, &v);
    json_member(n, "verdict", verdict_sentences(n->text->arena, &v));
}

static void
remedies(struct json_writer *n, const struct remedies *r)
{
    static const char *const kinds[] = {"option", "leave-out", "swap", "cut", "portion"};
    json_member_open(n, "remedies", '[');
    for (size_t i = 0; i < r->count; i++) {
        json_open(n, '{');
        json_member_open(n, "changes", '[');
        for (size_t k = 0; k < r->items[i].count; k++)
            json_text(n, slice_of(kinds[r->items[i].changes[k].kind]));
        json_close(n, ']');
        json_member(n, "sentence", r->items[i].sentence);
        json_close(n, '}');
    }
    json_close(n, ']');
    if (r->refusal.length > 0)
        json_member(n, "refusal", r->refusal);
}

static void
nutrition(struct json_writer *n, const struct nutrition *r)
{
    static const char *const names[NUTRIENTS] = {"energy-kcal",   "protein",      "fat",
                                                 "saturated-fat", "carbohydrate", "sugars",
                                                 "fibre",         "sodium-mg"};
    json_member_open(n, "nutrition", '{');
    truth(n, "given", r->given);
    number(n, "coverage", r->coverage);
    number(n, "energy-kj-by-factors", r->energy_kj);
    number(n, "energy-kcal-by-factors", r->energy_kcal);
    for (enum nutrient k = 0; k < NUTRIENTS; k++) {
        json_key(n, names[k]);
        if (r->known[k])
            json_number(n, r->amount[k], 6);
        else
            json_raw(n, SLICE("null"));
    }
    json_close(n, '}');
}

void
worksheet_json(struct text *t, const struct outcome *o)
{
    struct sheet sheet;
    const int site_phase = o->tables->site.phase;
    sheet_build(t->arena, &o->dish, o->tables, o->reads, &sheet);
    struct json_writer n = json_new(t);
    json_open(&n, '{');
    json_key(&n, "title");
    json_text(&n, o->post.front.title.text);
    json_member_string(&n, "path", o->post.path);
    json_member_string(&n, "measures", o->tables->measures.regions[o->dish.region].id);
    json_member(&n, "yield", o->post.front.yield.text);
    json_member(&n, "portion", o->post.front.portion.text);
    span_or_null(&n, "portions", o->dish.portions_known, o->dish.portions);
    number(&n, "divided-by", dish_divisor(&o->dish));
    json_member_string(&n, "phase", o->tables->limits.phases[site_phase].id);
    lines(&n, o, &sheet);
    json_member_open(&n, "phases", '[');
    for (size_t i = 0; i < o->tables->limits.phase_count; i++)
        phase(&n, o, &sheet, i);
    json_close(&n, ']');
    verdict(&n, o);
    remedies(&n, &o->remedies);
    nutrition(&n, &o->nutrition);
    json_close(&n, '}');
    text_add_byte(t, '\n');
}
