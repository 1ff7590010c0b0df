#include "write/impact_page.h"

#include <math.h>
#include <stdlib.h>

#include "write/drawing.h"

static const char *const names[] = {"within", "close", "not known", "over"};

static const char head[] =
    "<style>\n"
    ":root { color-scheme: light dark; --ink: #1d1a16; --paper: #fbf9f4; }\n"
    "@media (prefers-color-scheme: dark) { :root { --ink: #e9e4d9; --paper: #191713; } }\n"
    "body { max-width: 60rem; margin: 0 auto; padding: 1.5rem; background: var(--paper); color: "
    "var(--ink); font: 1rem/1.45 Georgia, serif; overflow-wrap: anywhere; }\n"
    "h1 { font-size: 1.8rem; font-weight: 400; }\n"
    "h2 { margin: 0 0 .2rem; font-size: 1.15rem; font-weight: 400; }\n"
    "table { border-collapse: collapse; font-variant-numeric: lining-nums tabular-nums; }\n"
    ":is(th, td) { padding: .3rem 1.2rem .3rem 0; border-bottom: 1px dotted; font-weight: 400; "
    "text-align: left; }\n"
    "caption { padding-bottom: .3rem; text-align: left; font-style: italic; }\n"
    "ol { margin: 2rem 0; padding: 0; list-style: none; }\n"
    "li { padding: .9rem 0; border-top: 1px solid; break-inside: avoid; }\n"
    "p { margin: 0 0 .4rem; }\n"
    ".sides { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 18rem), "
    "1fr)); gap: .3rem 2.5rem; }\n"
    ".bar { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 0 1rem; }\n"
    ".dl-bar { flex: 0 0 100%; display: block; height: .9rem; overflow: visible; }\n"
    ".path { font-size: .86rem; font-style: italic; }\n"
    "@media (max-width: 30rem) { :is(th, td) { padding-right: .3rem; } }\n"
    "@media print { :root { --ink: #000; --paper: #fff; } body { font-size: 10pt; padding: 0; } }\n"
    "</style>\n";

bool
impact_side_of(const struct outcome *o, struct impact_side *out)
{
    const struct phase_stand *p = &o->phases[o->tables->site.phase];
    *out = (struct impact_side){.standing = p->standing, .best = p->best_standing};
    if (!o->post.readable)
        return false;
    if (p->nearest != NULL && p->nearest->worst.mid > 0) {
        const struct share *s = &p->nearest->worst;
        const struct load *chief = s->chief;
        out->nearest_known = true;
        out->nearest = (struct span){distribution_quantile(&s->spread, 0.05), s->mid,
                                     distribution_quantile(&s->spread, 0.95)};
        if (p->nearest->of.column == LACTOSE)
            out->food = SLICE("lactose, all together");
        else if (chief != NULL && slice_trim(chief->helping->written->name).length > 0)
            out->food = slice_trim(chief->helping->written->name);
        else if (chief != NULL && chief->helping->food != NULL)
            out->food = slice_of(chief->helping->food->name);
    }
    out->sitting_known = p->sitting_limited && p->sitting.mid > 0;
    out->sitting = p->sitting_share;
    return true;
}

static bool
stands_alike(const struct impact_row *r)
{
    return r->before.standing == r->after.standing && r->before.best == r->after.best;
}

/* how far a row moves: what a reader is told comes before how much of a limit it is */
static double
move_of(const struct impact_row *r)
{
    const double standing = abs((int)r->after.standing - (int)r->before.standing) +
                            abs((int)r->after.best - (int)r->before.best);
    const double nearest = fabs(r->after.nearest.mid - r->before.nearest.mid),
                 sitting = fabs(r->after.sitting.mid - r->before.sitting.mid);
    return standing * 1e6 + fmin(fmax(nearest, sitting), 1e5);
}

static int
by_move(const void *left, const void *right)
{
    const struct impact_row *a = left, *b = right;
    const double one = move_of(a), other = move_of(b);
    if (one < other || one > other)
        return one > other ? -1 : 1;
    return slice_order(a->path, b->path);
}

static void
add_standing(struct text *t, const struct impact_side *s)
{
    if (s->best != s->standing)
        text_addf(t, "%s or %s, as it is made", names[s->best], names[s->standing]);
    else
        text_add_string(t, names[s->standing]);
}

static void
add_percent(struct text *t, struct span share)
{
    text_add_whole(t, (size_t)round(fmin(share.mid, 1e4) * 100));
    text_add_string(t, "\xc2\xa0%");
    if (share.high > share.mid + 0.01) {
        text_add_string(t, ", at most ");
        text_add_whole(t, (size_t)round(fmin(share.high, 1e4) * 100));
        text_add_string(t, "\xc2\xa0%");
    }
}

static void
add_bar(struct text *t, struct slice name, struct span share, double edge)
{
    text_add_string(t, "<p class=\"bar\"><span>");
    text_add_html(t, name);
    text_add_string(t, "</span> <span>");
    add_percent(t, share);
    text_add_string(t, "</span>");
    drawing_share(t, share, edge);
    text_add_string(t, "</p>\n");
}

static void
add_side(struct text *t, const char *when, const struct impact_side *s, double edge)
{
    text_add_string(t, "<div>\n<p><b>");
    text_add_string(t, when);
    text_add_string(t, "</b>: ");
    add_standing(t, s);
    text_add_string(t, "</p>\n");
    if (s->nearest_known)
        add_bar(t, s->food, s->nearest, edge);
    if (s->sitting_known)
        add_bar(t, SLICE("all in one sitting"), s->sitting, edge);
    text_add_string(t, "</div>\n");
}

static double
most_of(const struct impact_side *s)
{
    return fmax(s->nearest_known ? s->nearest.high : 0, s->sitting_known ? s->sitting.high : 0);
}

static void
add_row(struct text *t, const struct impact_row *r)
{
    const double edge = fmax(most_of(&r->before), most_of(&r->after)) > 1.5 ? 3 : 1.5;
    text_add_string(t, "<li>\n<h2>");
    text_add_html(t, r->title);
    text_add_string(t, "</h2>\n<p class=\"path\">");
    text_add_html(t, r->path);
    text_add_string(t, "</p>\n<div class=\"sides\">\n");
    add_side(t, "Now", &r->before, edge);
    add_side(t, "Then", &r->after, edge);
    text_add_string(t, "</div>\n</li>\n");
}

/* how many posts stand where, before in rows and after in columns */
static void
add_counts(struct text *t, const struct impact_row *rows, size_t count)
{
    size_t counts[4][4] = {{0}};
    for (size_t i = 0; i < count; i++)
        counts[rows[i].before.standing][rows[i].after.standing]++;
    text_add_string(t, "<table>\n<caption>Posts by standing, in the worst way to make each: now "
                       "in rows, then in columns</caption>\n<thead><tr><td></td>");
    for (int k = 0; k < 4; k++)
        text_addf(t, "<th scope=\"col\">then %s</th>", names[k]);
    text_add_string(t, "</tr></thead>\n<tbody>\n");
    for (int i = 0; i < 4; i++) {
        text_addf(t, "<tr><th scope=\"row\">now %s</th>", names[i]);
        for (int k = 0; k < 4; k++)
            text_addf(t, "<td>%zu</td>", counts[i][k]);
        text_add_string(t, "</tr>\n");
    }
    text_add_string(t, "</tbody>\n</table>\n");
}

void
impact_page_write(struct text *t, const struct site *site, struct slice asked,
                  struct impact_row *rows, size_t count)
{
    size_t moved = 0;
    if (count > 1)
        qsort(rows, count, sizeof *rows, by_move);
    for (size_t i = 0; i < count; i++)
        moved += !stands_alike(&rows[i]);
    text_add_string(t, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                       "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                       "<title>What a change of the tables would do</title>\n");
    text_add_string(t, head);
    text_add_string(t, "</head>\n<body>\n<main>\n<h1>What a change of the tables would do</h1>\n"
                       "<p>");
    text_add_html(t, slice_of(site->title));
    text_add_string(t, ". The change: <b>");
    text_add_html(t, asked);
    text_addf(t, "</b>. Of %zu posts %zu would stand otherwise.</p>\n", count, moved);
    text_add_string(t, "<p>One portion of each. The tick on a bar is the limit; the fine line "
                       "ends where 19 in 20 would lie below.</p>\n");
    add_counts(t, rows, count);
    text_add_string(t, "<ol>\n");
    for (size_t i = 0; i < count; i++)
        add_row(t, &rows[i]);
    text_add_string(t, "</ol>\n<p>General information, to be judged by a dietitian or "
                       "doctor.</p>\n</main>\n</body>\n</html>\n");
}
