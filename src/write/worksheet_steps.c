#include "write/worksheet_steps.h"

#include "write/json_writer.h"

/* what the kinds of signs are called, in both forms */
static const char *const sign_kinds[] = {
    [COOKING_ACTION] = "does", [COOKING_PLACE] = "place", [COOKING_STATE] = "state",
    [COOKING_WHO] = "for",     [COOKING_TOOL] = "tool",   [COOKING_DISH] = "dish",
    [COOKING_TURN] = "turn"};

static struct slice
words_of(const struct clause *c)
{
    const struct words *w = c->passage->words;
    return c->end > c->from
               ? slice_part(c->passage->text, w->items[c->from].from, w->items[c->end - 1].to)
               : SLICE("");
}

/* whether a sign stands in the clause and is of the kind; of actions what is done alone */
static bool
is_told(const struct clause *c, const struct sign *s, int kind)
{
    return (int)s->row->kind == kind && s->from >= c->from && s->from < c->end &&
           (kind != COOKING_ACTION || s->done);
}

static void
add_words(struct text *t, const struct clause *c)
{
    if (c->end > c->from)
        text_addf(t, "  “%.*s”\n", SLICE_ARGS(words_of(c)));
}

static void
add_signs(struct text *t, const struct clause *c)
{
    for (int kind = COOKING_ACTION; kind <= COOKING_TURN; kind++) {
        size_t count = 0;
        for (size_t k = 0; k < c->sign_count; k++) {
            const struct sign *s = &c->first_sign[k];
            if (!is_told(c, s, kind))
                continue;
            if (count++ == 0)
                text_addf(t, "     %-6s  ", sign_kinds[kind]);
            text_addf(t, "%s%s", count > 1 ? ", " : "", s->row->id);
        }
        if (count > 0)
            text_add_byte(t, '\n');
    }
}

static void
add_objects(struct text *t, const struct outcome *o, const struct clause *c)
{
    static const char *const how[] = {[ACTS_ON_NAMED] = "named",
                                      [ACTS_ON_IT] = "as before",
                                      [ACTS_ON_DISH] = "all so far",
                                      [ACTS_ON_NOTHING] = "a tool"};
    if (c->verb == SIZE_MAX && c->on != ACTS_ON_NAMED)
        return;
    text_addf(t, "     on      (%s)", how[c->on]);
    for (size_t i = 0, n = 0; i < o->dish.count; i++)
        if (ingredient_set_has(&c->acted, i))
            text_addf(t, "%s%.*s", n++ > 0 ? ", " : " ",
                      SLICE_ARGS(ingredient_called(&o->dish.ingredients[i])));
    text_add_byte(t, '\n');
}

static void
add_figures(struct text *t, const struct clause *c)
{
    const struct durations *d = passages_durations(c->passage);
    const struct heats *h = passages_heats(c->passage);
    for (size_t i = 0; i < d->count; i++) {
        if (!clauses_hold(c, d->items[i].core_from))
            continue;
        text_add_string(t, "     time    ");
        duration_write_words(t, d->items[i].seconds.low);
        if (d->items[i].seconds.high > d->items[i].seconds.low) {
            text_add_string(t, " to ");
            duration_write_words(t, d->items[i].seconds.high);
        }
        text_add_byte(t, '\n');
    }
    for (size_t i = 0; i < h->count; i++)
        if (clauses_hold(c, h->items[i].from))
            text_addf(t, "     heat    %.0f °C\n", h->items[i].celsius.mid);
}

void
worksheet_steps(struct text *t, const struct outcome *o)
{
    static const char *const kinds[] = {
        [PASSAGE_STEP] = "Step", [PASSAGE_NOTE] = "Note", [PASSAGE_PROSE] = "Prose"};
    const struct passage *last = NULL;
    size_t number = 0;
    for (size_t i = 0; i < o->clauses.count; i++) {
        const struct clause *c = &o->clauses.items[i];
        if (c->passage != last) {
            number = last != NULL && last->kind == c->passage->kind ? number + 1 : 1;
            text_addf(t, "%s%s %zu\n", last != NULL ? "\n" : "", kinds[c->passage->kind], number);
            last = c->passage;
        }
        add_words(t, c);
        add_signs(t, c);
        add_objects(t, o, c);
        add_figures(t, c);
        if (c->negated || c->conditional || c->remark)
            text_addf(t, "     said    %s%s%s\n", c->negated ? "not done " : "",
                      c->conditional ? "on a condition " : "", c->remark ? "only told" : "");
    }
}

static void
json_signs(struct json_writer *n, const struct clause *c)
{
    for (int kind = COOKING_ACTION; kind <= COOKING_TURN; kind++) {
        json_member_open(n, sign_kinds[kind], '[');
        for (size_t k = 0; k < c->sign_count; k++)
            if (is_told(c, &c->first_sign[k], kind))
                json_word(n, c->first_sign[k].row->id);
        json_close(n, ']');
    }
}

static void
json_objects(struct json_writer *n, const struct outcome *o, const struct clause *c)
{
    static const char *const how[] = {[ACTS_ON_NAMED] = "named",
                                      [ACTS_ON_IT] = "as-before",
                                      [ACTS_ON_DISH] = "all-so-far",
                                      [ACTS_ON_NOTHING] = "a-tool"};
    json_member_word(n, "acts", how[c->on]);
    json_member_open(n, "on", '[');
    for (size_t i = 0; i < o->dish.count; i++)
        if (ingredient_set_has(&c->acted, i))
            json_text(n, ingredient_called(&o->dish.ingredients[i]));
    json_close(n, ']');
}

static void
json_figures(struct json_writer *n, const struct clause *c)
{
    const struct durations *d = passages_durations(c->passage);
    const struct heats *h = passages_heats(c->passage);
    json_member_open(n, "seconds", '[');
    for (size_t i = 0; i < d->count; i++) {
        if (!clauses_hold(c, d->items[i].core_from))
            continue;
        json_open(n, '{');
        json_key(n, "low");
        json_number(n, d->items[i].seconds.low, 0);
        json_key(n, "high");
        json_number(n, d->items[i].seconds.high, 0);
        json_key(n, "times");
        json_number(n, d->items[i].times, 1);
        json_close(n, '}');
    }
    json_close(n, ']');
    json_member_open(n, "celsius", '[');
    for (size_t i = 0; i < h->count; i++)
        if (clauses_hold(c, h->items[i].from))
            json_number(n, h->items[i].celsius.mid, 0);
    json_close(n, ']');
}

static void
json_clause(struct json_writer *n, const struct outcome *o, const struct clause *c)
{
    json_open(n, '{');
    json_key(n, "words");
    json_text(n, words_of(c));
    json_signs(n, c);
    json_objects(n, o, c);
    json_figures(n, c);
    json_key(n, "denied");
    json_truth(n, c->negated);
    json_key(n, "conditional");
    json_truth(n, c->conditional);
    json_key(n, "remark");
    json_truth(n, c->remark);
    json_close(n, '}');
}

void
worksheet_steps_json(struct text *t, const struct outcome *o)
{
    static const char *const kinds[] = {
        [PASSAGE_STEP] = "step", [PASSAGE_NOTE] = "note", [PASSAGE_PROSE] = "prose"};
    struct json_writer n = json_new(t);
    const struct passage *last = NULL;
    json_open(&n, '{');
    json_member_open(&n, "passages", '[');
    for (size_t i = 0; i < o->clauses.count; i++) {
        const struct clause *c = &o->clauses.items[i];
        if (c->passage != last) {
            if (last != NULL) {
                json_close(&n, ']');
                json_close(&n, '}');
            }
            last = c->passage;
            json_open(&n, '{');
            json_member_word(&n, "kind", kinds[last->kind]);
            json_member_open(&n, "clauses", '[');
        }
        json_clause(&n, o, c);
    }
    if (last != NULL) {
        json_close(&n, ']');
        json_close(&n, '}');
    }
    json_close(&n, ']');
    json_close(&n, '}');
    text_add_byte(t, '\n');
}
