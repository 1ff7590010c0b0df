#include "write/sitting_page.h"

#include <math.h>

#include "judge/standing.h"

enum { LIMITS_SHOWN = 5 };

static struct slice
title_of(const struct together *g, size_t part)
{
    return g->parts[part].outcome->post.front.title.text;
}

static const struct tables *
tables_of(const struct together *g)
{
    return g->parts[0].outcome->tables;
}

static struct reads *
reads_of(const struct together *g)
{
    return g->parts[0].outcome->reads;
}

/* "1 portion", "2 portions", "two thirds of a portion" */
static void
add_portions(struct text *t, double portions)
{
    if (fabs(portions - 1.0 / 3) < 1e-9)
        text_add_string(t, "a third of a portion");
    else if (fabs(portions - 2.0 / 3) < 1e-9)
        text_add_string(t, "two thirds of a portion");
    else if (fabs(portions - 0.5) < 1e-9)
        text_add_string(t, "half a portion");
    else {
        text_add_number(t, portions, 2);
        text_add_string(t, portions == 1 ? " portion" : " portions");
    }
}

static const char *
what_of(const struct limit_stand *l)
{
    return column_name(l->of.column);
}

/* 5th and 95th percentile about the middle */
static struct span
share_span(const struct share *s)
{
    return span_make(fmin(distribution_quantile(&s->spread, 0.05), s->mid), s->mid,
                     fmax(distribution_quantile(&s->spread, 0.95), s->mid));
}

/* "  142 %, at most 190 %  fructan: onion (Tuscan bean stew)" */
static void
add_limit(struct text *t, const struct together *g, const struct limit_stand *l)
{
    const struct span share = share_span(&l->worst);
    text_add_string(t, "  ");
    text_add_number(t, l->worst.mid * 100, 0);
    text_add_string(t, " % of its limit");
    if (share.high > l->worst.mid) {
        text_add_string(t, ", at most ");
        text_add_number(t, share.high * 100, 0);
        text_add_string(t, " %");
    }
    text_addf(t, ": %s", what_of(l));
    if (l->worst.chief != NULL)
        text_addf(t, ", chiefly the %.*s of %.*s",
                  SLICE_ARGS(standing_name(&g->sheet, l->worst.chief, reads_of(g))),
                  SLICE_ARGS(together_of(g, l->worst.chief)->post.front.title.text));
    text_add_byte(t, '\n');
}

static void
add_smaller(struct text *t, const struct together *g)
{
    if (g->stand.standing == STANDING_WITHIN)
        return;
    if (g->smaller == SIZE_MAX) {
        text_add_string(t, "No one dish can be made small enough to bring them within.\n");
        return;
    }
    text_add_string(t, g->smaller_to > 0 ? "Within with " : "Within without ");
    if (g->smaller_to > 0) {
        add_portions(t, g->smaller_to);
        text_add_string(t, " of ");
    }
    text_addf(t, "%.*s.\n", SLICE_ARGS(title_of(g, g->smaller)));
}

void
sitting_page_write(struct text *t, const struct together *g, struct slice name)
{
    const struct tables *tables = tables_of(g);
    const int phase = tables->site.phase;
    if (name.length > 0)
        text_addf(t, "%.*s\n", SLICE_ARGS(name));
    for (size_t i = 0; i < g->count; i++) {
        text_add_string(t, "  ");
        add_portions(t, g->parts[i].portions);
        text_addf(t, " of %.*s: %s by itself\n", SLICE_ARGS(title_of(g, i)),
                  standing_word(g->parts[i].outcome->phases[phase].standing));
    }
    text_addf(t, "Eaten together (%s): %s", tables->limits.phases[phase].name,
              standing_word(g->stand.standing));
    if (g->stand.best_standing != g->stand.standing)
        text_addf(t, "; at best %s", standing_word(g->stand.best_standing));
    text_add_string(t, ".\n");
    for (size_t i = 0; i < g->stand.limit_count && i < LIMITS_SHOWN; i++)
        add_limit(t, g, &g->stand.limits[i]);
    add_smaller(t, g);
}

static void
add_number(struct json_writer *n, const char *key, double value, int decimals)
{
    json_key(n, key);
    json_number(n, value, decimals);
}

static void
add_limit_json(struct json_writer *n, const struct together *g, const struct limit_stand *l)
{
    const struct span share = share_span(&l->worst);
    json_open(n, '{');
    json_member_string(n, "of", column_word(l->of.column));
    json_member_string(n, "scope", l->of.serve == SIZE_MAX ? "portion" : "food");
    json_member_string(n, "standing", standing_word(l->standing));
    add_number(n, "share", l->worst.mid, 3);
    add_number(n, "low", share.low, 3);
    add_number(n, "high", share.high, 3);
    add_number(n, "chance", l->worst.chance, 3);
    if (l->worst.chief != NULL) {
        json_member(n, "food", standing_name(&g->sheet, l->worst.chief, reads_of(g)));
        json_member(n, "post", together_of(g, l->worst.chief)->post.slug);
    }
    json_close(n, '}');
}

void
sitting_page_json(struct json_writer *n, const struct together *g, struct slice name)
{
    const int phase = tables_of(g)->site.phase;
    json_open(n, '{');
    json_member(n, "name", name);
    json_member_open(n, "portions", '[');
    for (size_t i = 0; i < g->count; i++) {
        json_open(n, '{');
        json_member(n, "post", g->parts[i].outcome->post.slug);
        add_number(n, "portions", g->parts[i].portions, 3);
        json_member_string(n, "standing",
                           standing_word(g->parts[i].outcome->phases[phase].standing));
        json_close(n, '}');
    }
    json_close(n, ']');
    json_member_string(n, "phase", tables_of(g)->limits.phases[phase].id);
    json_member_string(n, "standing", standing_word(g->stand.standing));
    json_member_string(n, "best-standing", standing_word(g->stand.best_standing));
    json_member_open(n, "limits", '[');
    for (size_t i = 0; i < g->stand.limit_count; i++)
        add_limit_json(n, g, &g->stand.limits[i]);
    json_close(n, ']');
    if (g->smaller != SIZE_MAX) {
        json_member_open(n, "smaller", '{');
        json_member(n, "post", g->parts[g->smaller].outcome->post.slug);
        add_number(n, "portions", g->smaller_to, 3);
        json_close(n, '}');
    }
    json_close(n, '}');
}
