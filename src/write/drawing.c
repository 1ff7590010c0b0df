#include "write/drawing.h"

#include <math.h>

/* strokes keep their width while the bar is stretched */
#define KEPT " vector-effect=\"non-scaling-stroke\""

enum { BAR_WIDTH = 1000, BAR_HEIGHT = 16, HATCH = 16 };

static size_t
bar_x(double share, double most)
{
    double x = share / most * BAR_WIDTH;
    return x < 0 || isnan(x) ? 0 : x > BAR_WIDTH ? BAR_WIDTH : (size_t)(x + 0.5);
}

static void
add_point(struct text *t, char verb, size_t x, size_t y)
{
    text_addf(t, "%c%zu %zu", verb, x, y);
}

static void
add_box(struct text *t, size_t from, size_t to, size_t top, size_t bottom, const char *how)
{
    text_add_string(t, "<path d=\"");
    add_point(t, 'M', from, top);
    text_add_byte(t, 'H');
    text_add_whole(t, to);
    text_add_byte(t, 'V');
    text_add_whole(t, bottom);
    text_add_byte(t, 'H');
    text_add_whole(t, from);
    text_add_string(t, "z\"");
    text_add_string(t, how);
    text_add_string(t, "/>");
}

/* a number of the bar's, forward: there are many of them */
static char *
put_place(char *at, size_t n)
{
    if (n >= 1000)
        *at++ = (char)('0' + n / 1000);
    if (n >= 100)
        *at++ = (char)('0' + n / 100 % 10);
    if (n >= 10)
        *at++ = (char)('0' + n / 10 % 10);
    *at++ = (char)('0' + n % 10);
    return at;
}

static char *
put_point(char *at, char verb, size_t x, size_t y)
{
    *at++ = verb;
    at = put_place(at, x);
    *at++ = ' ';
    return put_place(at, y);
}

/* slanted strokes from..to, cut at the edges */
static void
add_hatching(struct text *t, size_t from, size_t to)
{
    enum { STROKE = sizeof "M1000 1000L1000 1000" };
    text_add_string(t, "<path d=\"");
    text_widen(t, ((to - from) / HATCH + 3) * STROKE);
    char *at = t->bytes + t->length;
    for (size_t x = from / HATCH * HATCH; x < to + HATCH; x += HATCH) {
        /* the stroke rises from (x - HATCH, bottom) to (x, top) */
        size_t left = x < HATCH ? 0 : x - HATCH, right = x < to ? x : to;
        if (left < from)
            left = from;
        if (left < right) {
            at = put_point(at, 'M', left, x - left);
            at = put_point(at, 'L', right, x - right);
        }
    }
    t->length = (size_t)(at - t->bytes);
    text_add_string(t, "\" fill=\"none\"" KEPT "/>");
}

void
drawing_share(struct text *t, struct span share, double most)
{
    size_t mid = bar_x(share.mid, most), high = bar_x(share.high, most);
    size_t limit = bar_x(1, most), solid = mid < limit ? mid : limit;
    text_add_string(t, "<svg class=\"dl-bar\" aria-hidden=\"true\" focusable=\"false\" "
                       "viewBox=\"0 0 1000 24\" preserveAspectRatio=\"none\" width=\"100%\" "
                       "height=\"18\" fill=\"currentColor\" stroke=\"currentColor\">");
    if (solid > 0)
        add_box(t, 0, solid, 4, 20, " stroke=\"none\"");
    if (mid > limit) {
        text_add_string(t, "<g transform=\"translate(0 4)\">");
        add_hatching(t, limit, mid);
        add_box(t, limit, mid, 0, 16, " fill=\"none\"" KEPT);
        text_add_string(t, "</g>");
    }
    text_add_string(t, "<path class=\"dl-line\" d=\"M0 20H1000");
    if (high > mid + 4) {
        add_point(t, 'M', mid, 12);
        add_point(t, 'L', high, 12);
        /* past the edge the line runs on, without an end */
        if (share.high <= most) {
            add_point(t, 'M', high, 8);
            add_point(t, 'L', high, 16);
        }
    }
    text_add_string(t, "\" fill=\"none\"" KEPT "/><path class=\"dl-tick\" stroke-width=\"3\" d=\"");
    add_point(t, 'M', limit, 0);
    add_point(t, 'L', limit, 24);
    text_add_string(t, "\" fill=\"none\"" KEPT "/></svg>");
}

/* where a step's bars lie when all takes its longest */
struct bar {
    size_t number;
    double start, shortest, longest;
    bool unattended;
};

static size_t
build_bars(const struct fragment_context *s, struct bar *bars, double *end)
{
    const struct schedule *sch = &s->o->schedule;
    size_t count = 0;
    *end = sch->total.high;
    for (size_t i = 0; i < sch->count; i++) {
        const struct step_time *st = &sch->steps[i];
        struct span spent = span_add(st->attended, st->unattended);
        if (!st->stated || spent.high <= 0)
            continue;
        bars[count++] = (struct bar){i + 1, st->start.high, spent.low, spent.high,
                                     st->unattended.mid > st->attended.mid};
        if (st->start.high + spent.high > *end)
            *end = st->start.high + spent.high;
    }
    return count;
}

static void
add_percent(struct text *t, const char *name, double part)
{
    size_t tenths = part <= 0 ? 0 : (size_t)(part * 1000 + 0.5);
    text_add_string(t, name);
    text_add_whole(t, tenths / 10);
    text_add_byte(t, '.');
    text_add_whole(t, tenths % 10);
    text_add_string(t, "%\"");
}

static void
draw_bar(struct text *t, const struct bar *b, size_t top, double end)
{
    static const char *const heights[] = {"\" height=\"10\"", "\" height=\"4\""};
    size_t y = top + (b->unattended ? 25 : 22);
    text_add_string(t, "<text x=\"0\" y=\"");
    text_add_whole(t, top + 14);
    text_add_string(t, "\">Step ");
    text_add_whole(t, b->number);
    text_add_string(t, ": ");
    fragment_range(t, b->shortest, b->longest);
    text_add_string(t, "</text>");
    for (int longest = 0; longest < 2; longest++) {
        double length = longest ? b->longest : b->shortest;
        if (length <= 0 || (longest && b->longest <= b->shortest))
            continue;
        add_percent(t, "<rect x=\"", b->start / end);
        /* a minute beside a night is still to be seen */
        add_percent(t, " width=\"", fmax(length / end, 0.006));
        text_add_string(t, " y=\"");
        text_add_whole(t, y);
        text_add_string(t, heights[b->unattended]);
        text_add_string(t, longest ? " fill=\"none\" stroke=\"currentColor\"/>" : "/>");
    }
}

static void
describe(struct text *t, const struct bar *bars, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        text_add_string(t, i > 0 ? ", step " : "Step ");
        text_add_whole(t, bars[i].number);
        text_add_string(t, ": ");
        fragment_range(t, bars[i].shortest, bars[i].longest);
        if (bars[i].unattended)
            text_add_string(t, " unattended");
    }
    text_add_byte(t, '.');
}

/* one step after another, all by hand, needs no picture */
static bool
is_plain(const struct bar *bars, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (bars[i].unattended ||
            (i > 0 && bars[i].start + 1 < bars[i - 1].start + bars[i - 1].longest))
            return false;
    return true;
}

void
drawing_schedule(struct text *t, const struct fragment_context *s)
{
    const struct outcome *o = s->o;
    struct bar *bars = arena_take_array(s->arena, o->schedule.count, sizeof *bars);
    double end;
    size_t count = build_bars(s, bars, &end), height = count * 44;
    if (count < 2 || !(end > 0) || is_plain(bars, count))
        return;
    fragment_fold(t, "dl-hours", "How the time goes");
    /* XML takes no id that begins with a digit, as a slug may */
    text_add_string(t, "<figure>\n<svg role=\"img\" aria-labelledby=\"time-");
    text_add(t, o->post.slug);
    text_add_string(t, " times-");
    text_add(t, o->post.slug);
    text_add_string(t, "\" width=\"100%\" height=\"");
    text_add_whole(t, height);
    text_add_string(t, "\" fill=\"currentColor\">\n<title id=\"time-");
    text_add(t, o->post.slug);
    text_add_string(t, "\">The stated times, step by step</title>\n<desc id=\"times-");
    text_add(t, o->post.slug);
    text_add_string(t, "\">");
    describe(t, bars, count);
    text_add_string(t, "</desc>\n");
    for (size_t i = 0; i < count; i++)
        draw_bar(t, &bars[i], i * 44, end);
    text_add_string(t, "\n</svg>\n<figcaption>From left to right: ");
    fragment_range(t, o->schedule.total.low, o->schedule.total.high);
    text_add_string(t, " in all");
    text_add_string(t,
                    ", as far as the steps state a time. Solid: the shortest; outlined: the "
                    "longest; thin: nobody need stand by.</figcaption>\n</figure>\n</details>\n");
}
