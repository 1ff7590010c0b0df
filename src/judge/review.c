#include "judge/review.h"

#include <string.h>

enum { VERDICT_DIGITS = 8, LIMITS_DIGITS = 8, HALF_DIGITS = 4 };
enum { HEAD = sizeof "1-" - 1, LINE_DIGITS = 2 * HALF_DIGITS, NAMED_MOST = 3 };

static uint64_t
add_number(uint64_t digest, double value)
{
    return slice_digest((struct slice){(const char *)&value, sizeof value}, digest);
}

static uint64_t
add_span(uint64_t digest, struct span s)
{
    return add_number(add_number(add_number(digest, s.low), s.mid), s.high);
}

static uint64_t
add_entry(uint64_t digest, const struct entry *e)
{
    return slice_digest((struct slice){(const char *)&e->digest, sizeof e->digest}, digest);
}

/* how the portion stands in each phase, and of how many portions it is one */
static uint64_t
verdict_digest(const struct reviewed_portion *p)
{
    uint64_t digest = add_span(0, p->dish->portions);
    for (size_t i = 0; i < p->tables->limits.phase_count; i++) {
        digest = add_number(digest, p->phases[i].standing);
        digest = add_number(digest, p->phases[i].best_standing);
    }
    return digest;
}

static uint64_t
limits_digest(const struct limits *l)
{
    uint64_t digest = figure_digest(&l->over_at, figure_digest(&l->close_at, 0));
    for (size_t i = 0; i < l->phase_count; i++) {
        for (enum group g = 0; g < GROUPS; g++)
            digest = add_entry(digest, &l->phases[i].groups[g].entry);
        digest = add_entry(digest, &l->phases[i].sitting_entry);
    }
    return digest;
}

/* the amounts of an ingredient's foods and all that is known of them */
static uint64_t
foods_digest(const struct ingredient *in)
{
    uint64_t digest = 0;
    for (size_t o = 0; o < in->option_count; o++) {
        for (size_t h = 0; h < in->options[o].count; h++) {
            const struct helping *helping = &in->options[o].helpings[h];
            digest = add_span(digest, helping->eaten);
            if (helping->food == NULL)
                continue;
            digest = add_entry(digest, &helping->food->identity);
            digest = add_entry(digest, &helping->food->nutrients_entry);
            for (enum group g = 0; g < GROUPS; g++)
                digest = add_entry(digest, &helping->food->contents_entry[g]);
        }
    }
    return digest;
}

static void
add_hex(struct text *t, uint64_t digest, int digits)
{
    text_addf(t, "%0*llx", digits, (unsigned long long)(digest >> (64 - 4 * digits)));
}

struct slice
review_digest(struct arena *a, const struct reviewed_portion *p)
{
    struct text t = text_new(a);
    text_add_string(&t, "1-");
    add_hex(&t, verdict_digest(p), VERDICT_DIGITS);
    text_add_byte(&t, '-');
    add_hex(&t, limits_digest(&p->tables->limits), LIMITS_DIGITS);
    for (size_t i = 0; i < p->dish->count; i++) {
        const struct ingredient *in = &p->dish->ingredients[i];
        text_add_byte(&t, '-');
        add_hex(&t, slice_digest(in->line.text, 0), HALF_DIGITS);
        add_hex(&t, foods_digest(in), HALF_DIGITS);
    }
    return text_slice(&t);
}

struct changes {
    struct text words;
    size_t count;
};

static void
add_change(struct changes *c, const char *before, struct slice what, const char *behind)
{
    if (c->count++ < NAMED_MOST)
        text_addf(&c->words, "%s%s%.*s%s", c->count > 1 ? ", " : "", before, SLICE_ARGS(what),
                  behind);
}

/* the part of a digest of ingredient i, or empty */
static struct slice
line_part(struct slice digest, size_t i)
{
    const size_t from = HEAD + VERDICT_DIGITS + 1 + LIMITS_DIGITS + 1 + i * (LINE_DIGITS + 1);
    return slice_part(digest, from < digest.length ? from : digest.length, from + LINE_DIGITS);
}

/* which ingredient lines are others than were signed, and which foods */
static void
compare_lines(const struct dish *d, struct slice now, struct slice then, struct changes *c)
{
    size_t i = 0;
    for (; i < d->count; i++) {
        const struct slice new = line_part(now, i), old = line_part(then, i);
        const struct slice text = d->ingredients[i].line.text;
        if (!slice_equal(slice_part(new, 0, HALF_DIGITS), slice_part(old, 0, HALF_DIGITS)))
            add_change(c, "the line “", text, "”");
        else if (!slice_equal(new, old))
            add_change(c, "what the tables say of “", text, "”");
    }
    if (line_part(then, i).length > 0)
        add_change(c, "a line was taken out", SLICE(""), "");
}

static struct slice
changes_words(struct arena *a, const struct reviewed_portion *p, struct slice now,
              struct slice then)
{
    struct changes c = {text_new(a), 0};
    const size_t limits = HEAD + VERDICT_DIGITS + 1;
    if (!slice_begins(then, "1-") || then.length < limits + LIMITS_DIGITS)
        return SLICE("the digest is none that worksheet --review printed");
    if (!slice_equal(slice_part(now, limits, limits + LIMITS_DIGITS),
                     slice_part(then, limits, limits + LIMITS_DIGITS)))
        add_change(&c, "the limits", SLICE(""), "");
    compare_lines(p->dish, now, then, &c);
    if (c.count == 0)
        add_change(&c, "how one portion stands, or of how many it is one", SLICE(""), "");
    if (c.count > NAMED_MOST)
        text_addf(&c.words, " and %zu more", c.count - NAMED_MOST);
    return text_formatted(a, "changed since: %.*s", SLICE_ARGS(text_slice(&c.words)));
}

bool
review_judge(struct arena *a, const struct reviewed_portion *p, struct notices *notices)
{
    const struct review *r = &p->post->front.reviewed;
    if (r->by.text.length == 0)
        return false;
    const struct slice now = review_digest(a, p);
    if (slice_equal(now, r->digest.text))
        return true;
    notice_add(notices, RULE_REVIEW_LAPSED, r->by.place, r->by.text,
               r->digest.text.length == 0 ? SLICE("no digest says what was signed")
                                          : changes_words(a, p, now, r->digest.text));
    return false;
}
