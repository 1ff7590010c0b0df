#include "press/impact.h"

#include <math.h>
#include <string.h>

#include "base/list.h"
#include "write/notation.h"
#include "write/recipe_data.h"
#include "press/impact_post.h"

/* shares are compared as they are shown */
enum { SHARE_DECIMALS = 2 };

struct describing {
    struct arena *arena;
    const struct impact_pair *pair;
    struct text text;
    struct notation json;
    bool any;
};

static double
shown_share(double share)
{
    return round(share * 100) / 100;
}

static void
add_line(struct describing *d, const char *what)
{
    text_addf(&d->text, "    %s: ", what);
    d->any = true;
}

static void
add_pair(struct describing *d, const char *key, struct slice before, struct slice after)
{
    notation_member_open(&d->json, key, '{');
    notation_key(&d->json, "before");
    notation_text(&d->json, before);
    notation_key(&d->json, "after");
    notation_text(&d->json, after);
    notation_close(&d->json, '}');
}

static void
add_share_pair(struct describing *d, double before, double after)
{
    notation_key(&d->json, "before");
    notation_number(&d->json, before, SHARE_DECIMALS);
    notation_key(&d->json, "after");
    notation_number(&d->json, after, SHARE_DECIMALS);
}

/* the same phase in the other tables, or NULL */
static const struct phase_stand *
same_phase(const struct outcome *o, const char *id)
{
    int n = limits_phase(&o->tables->limits, slice_of(id));
    return n >= 0 ? &o->phases[n] : NULL;
}

static void
describe_shares(struct describing *d, const struct phase_stand *b, const struct phase_stand *a)
{
    notation_member_open(&d->json, "shares", '[');
    for (int g = 0; g < GROUPS; g++) {
        double before = shown_share(b->groups[g].share.mid),
               after = shown_share(a->groups[g].share.mid);
        if (!(before < after) && !(before > after))
            continue;
        text_addf(&d->text, ", %s %.2f -> %.2f of its limit", group_name((enum group)g), before,
                  after);
        notation_open(&d->json, '{');
        notation_member_string(&d->json, "group", group_word((enum group)g));
        add_share_pair(d, before, after);
        notation_close(&d->json, '}');
    }
    notation_close(&d->json, ']');
}

static bool
phase_changes(const struct phase_stand *b, const struct phase_stand *a)
{
    bool changes = b->standing != a->standing ||
                   fabs(shown_share(b->sitting_share.mid) - shown_share(a->sitting_share.mid)) > 0;
    for (int g = 0; g < GROUPS; g++)
        changes = changes || fabs(shown_share(b->groups[g].share.mid) -
                                  shown_share(a->groups[g].share.mid)) > 0;
    return changes;
}

static void
describe_phase(struct describing *d, const struct phase *phase, const struct phase_stand *b,
               const struct phase_stand *a)
{
    const char *before = standing_word(b->standing), *after = standing_word(a->standing);
    double sitting[2] = {shown_share(b->sitting_share.mid), shown_share(a->sitting_share.mid)};
    add_line(d, phase->id);
    if (b->standing != a->standing)
        text_addf(&d->text, "%s -> %s", before, after);
    else
        text_addf(&d->text, "still %s", after);
    notation_open(&d->json, '{');
    notation_member_string(&d->json, "phase", phase->id);
    add_pair(d, "standing", slice_of(before), slice_of(after));
    describe_shares(d, b, a);
    notation_member_open(&d->json, "sitting", '{');
    add_share_pair(d, sitting[0], sitting[1]);
    notation_close(&d->json, '}');
    notation_close(&d->json, '}');
    if (sitting[0] < sitting[1] || sitting[0] > sitting[1])
        text_addf(&d->text, ", one sitting %.2f -> %.2f", sitting[0], sitting[1]);
    text_add_byte(&d->text, '\n');
}

static void
describe_phases(struct describing *d)
{
    const struct outcome *before = d->pair->before, *after = d->pair->after;
    const struct limits *limits = &after->tables->limits;
    notation_member_open(&d->json, "phases", '[');
    for (size_t i = 0; i < limits->phase_count; i++) {
        const struct phase_stand *b = same_phase(before, limits->phases[i].id);
        if (b != NULL && phase_changes(b, &after->phases[i]))
            describe_phase(d, &limits->phases[i], b, &after->phases[i]);
    }
    notation_close(&d->json, ']');
}

/* all remedies as one text, the best first */
static struct slice
remedy_text(struct arena *a, const struct outcome *o)
{
    struct text t = text_new(a);
    for (size_t i = 0; i < o->remedies.count; i++) {
        if (i > 0)
            text_add_byte(&t, ' ');
        text_add(&t, o->remedies.items[i].sentence);
    }
    return text_slice(&t);
}

static void
describe_remedy(struct describing *d)
{
    struct slice before = remedy_text(d->arena, d->pair->before),
                 after = remedy_text(d->arena, d->pair->after);
    if (slice_equal(before, after))
        return;
    add_line(d, "remedy");
    text_addf(&d->text, "%s%.*s -> %s%.*s\n", before.length == 0 ? "none" : "", SLICE_ARGS(before),
              after.length == 0 ? "none" : "", SLICE_ARGS(after));
    add_pair(d, "remedy", before, after);
}

static bool
fires(const struct outcome *o, const char *id)
{
    for (size_t i = 0; i < o->hazards.count; i++)
        if (strcmp(o->hazards.items[i].caution->id, id) == 0)
            return true;
    return false;
}

/* cautions that one outcome prints and the other does not */
static bool
describe_cautions_of(struct describing *d, const struct outcome *has, const struct outcome *lacks,
                     const char *key, const char *what, bool write)
{
    bool any = false;
    if (write)
        notation_member_open(&d->json, key, '[');
    for (size_t i = 0; i < has->hazards.count; i++) {
        const char *id = has->hazards.items[i].caution->id;
        if (fires(lacks, id))
            continue;
        any = true;
        if (!write)
            continue;
        add_line(d, what);
        text_addf(&d->text, "%s\n", id);
        notation_text(&d->json, slice_of(id));
    }
    if (write)
        notation_close(&d->json, ']');
    return any;
}

static void
describe_cautions(struct describing *d)
{
    const struct outcome *b = d->pair->before, *a = d->pair->after;
    if (!describe_cautions_of(d, a, b, "added", "caution added", false) &&
        !describe_cautions_of(d, b, a, "dropped", "caution dropped", false))
        return;
    notation_member_open(&d->json, "cautions", '{');
    describe_cautions_of(d, a, b, "added", "caution added", true);
    describe_cautions_of(d, b, a, "dropped", "caution dropped", true);
    notation_close(&d->json, '}');
}

static const char *
grounds_word(enum grounds g)
{
    static const char *const words[] = {[GROUNDS_HOLDS] = "holds",
                                        [GROUNDS_FALSE] = "does not hold",
                                        [GROUNDS_ON_CHOICE] = "holds by choice",
                                        [GROUNDS_LABEL] = "depends on a label",
                                        [GROUNDS_UNKNOWN] = "not known"};
    return words[g];
}

/* the claims are the post's own, so they are the same and in the same order */
static void
describe_claims(struct describing *d)
{
    const struct claims *b = &d->pair->before->claims, *a = &d->pair->after->claims;
    size_t count = b->count < a->count ? b->count : a->count, changed = 0;
    for (size_t i = 0; i < count; i++)
        changed += b->items[i].grounds != a->items[i].grounds;
    if (changed == 0)
        return;
    notation_member_open(&d->json, "claims", '[');
    for (size_t i = 0; i < count; i++) {
        if (b->items[i].grounds == a->items[i].grounds)
            continue;
        const char *before = grounds_word(b->items[i].grounds),
                   *after = grounds_word(a->items[i].grounds);
        add_line(d, "claim");
        text_addf(&d->text, "%.*s: %s -> %s\n", SLICE_ARGS(a->items[i].said.text), before, after);
        notation_open(&d->json, '{');
        notation_member(&d->json, "claim", a->items[i].said.text);
        notation_member_string(&d->json, "before", before);
        notation_member_string(&d->json, "after", after);
        notation_close(&d->json, '}');
    }
    notation_close(&d->json, ']');
}

static void
describe_data(struct describing *d)
{
    struct text before = text_new(d->arena), after = text_new(d->arena);
    if (d->pair->before->post.readable)
        recipe_data_write(&before, d->pair->before);
    if (d->pair->after->post.readable)
        recipe_data_write(&after, d->pair->after);
    bool same = slice_equal(text_slice(&before), text_slice(&after));
    notation_key(&d->json, "data");
    notation_truth(&d->json, !same);
    if (same)
        return;
    add_line(d, "data");
    text_add_string(&d->text, "the structured data changes\n");
}

static void
describe_entries(struct describing *d)
{
    add_line(d, "because of");
    notation_member_open(&d->json, "entries", '[');
    for (size_t i = 0; i < d->pair->entry_count; i++) {
        text_addf(&d->text, "%s%.*s", i > 0 ? ", " : "", SLICE_ARGS(d->pair->entries[i]));
        notation_text(&d->json, d->pair->entries[i]);
    }
    text_add_byte(&d->text, '\n');
    notation_close(&d->json, ']');
}

bool
impact_describe(struct arena *a, const struct impact_pair *pair, struct slice *text,
                struct slice *json)
{
    struct text written = text_new(a);
    struct describing d = {
        .arena = a, .pair = pair, .text = text_new(a), .json = notation_new(&written)};
    text_addf(&d.text, "%s%s\n", pair->before->post.path,
              pair->before->publishable || pair->after->publishable ? "" : " (not published)");
    notation_open(&d.json, '{');
    notation_member_string(&d.json, "file", pair->before->post.path);
    notation_member(&d.json, "slug", pair->before->post.slug);
    notation_key(&d.json, "published");
    notation_truth(&d.json, pair->before->publishable || pair->after->publishable);
    describe_phases(&d);
    describe_remedy(&d);
    describe_cautions(&d);
    describe_claims(&d);
    describe_data(&d);
    if (!d.any)
        return false;
    describe_entries(&d);
    notation_close(&d.json, '}');
    *text = text_slice(&d.text);
    *json = text_slice(&written);
    return true;
}
