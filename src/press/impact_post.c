#include "press/impact_post.h"

#include <math.h>
#include <string.h>

#include "base/list.h"
#include "write/json_writer.h"

/* shares are compared as they are shown: on pages, and in the catalogue */
enum { PAGE_DECIMALS = 2, CATALOGUE_DECIMALS = 3, FOOD_ENTRIES_SHOWN = 3 };

struct describing {
    struct arena *arena;
    const struct impact_pair *pair;
    struct text text;
    struct json_writer json;
    bool any;
};

static double
shown_share(double share, int decimals)
{
    const double scale = decimals == PAGE_DECIMALS ? 100 : 1000;
    return round(share * scale) / scale;
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
    json_member_open(&d->json, key, '{');
    json_key(&d->json, "before");
    json_text(&d->json, before);
    json_key(&d->json, "after");
    json_text(&d->json, after);
    json_close(&d->json, '}');
}

static void
add_share(struct json_writer *n, const char *key, double share)
{
    json_key(n, key);
    json_number(n, shown_share(share, CATALOGUE_DECIMALS), CATALOGUE_DECIMALS);
}

static void
add_share_pair(struct describing *d, struct span before, struct span after)
{
    add_share(&d->json, "before", before.mid);
    add_share(&d->json, "after", after.mid);
    add_share(&d->json, "high-before", before.high);
    add_share(&d->json, "high-after", after.high);
}

/* the same phase in the other tables, or NULL */
static const struct phase_stand *
same_phase(const struct outcome *o, const char *id)
{
    int n = limits_phase(&o->tables->limits, slice_of(id));
    return n >= 0 ? &o->phases[n] : NULL;
}

/* by what is shown, or where the high end passes the limit; the catalogue shows no high end */
static bool
share_changes(struct span before, struct span after, int decimals)
{
    return fabs(shown_share(before.mid, decimals) - shown_share(after.mid, decimals)) > 0 ||
           fabs(shown_share(before.high, PAGE_DECIMALS) - shown_share(after.high, PAGE_DECIMALS)) >
               0 ||
           (before.high > 1) != (after.high > 1);
}

/* "0.20 (up to 0.66)" */
static void
add_span(struct describing *d, struct span share)
{
    const double mid = shown_share(share.mid, PAGE_DECIMALS),
                 high = shown_share(share.high, PAGE_DECIMALS);
    text_addf(&d->text, "%.2f", mid);
    if (high > mid)
        text_addf(&d->text, " (up to %.2f)", high);
}

static void
say_share(struct describing *d, const char *what, struct span before, struct span after)
{
    text_addf(&d->text, ", %s ", what);
    add_span(d, before);
    text_add_string(&d->text, " -> ");
    add_span(d, after);
}

/* of the writer's serves the nearest to its limit; NULL: none is held against one */
static const struct limit_stand *
nearest_serve(const struct phase_stand *p)
{
    for (size_t i = 0; i < p->limit_count; i++)
        if (p->limits[i].of.column == SERVED)
            return &p->limits[i];
    return NULL;
}

static struct span
serve_share(const struct phase_stand *p)
{
    const struct limit_stand *l = nearest_serve(p);
    return l == NULL ? span_exact(0) : group_stand_span(&l->worst);
}

/* ", the serve of blueberries 0.80 -> 1.33" */
static void
say_serve(struct describing *d, const struct phase_stand *b, const struct phase_stand *a)
{
    const struct limit_stand *l = nearest_serve(a) != NULL ? nearest_serve(a) : nearest_serve(b);
    if (l == NULL || !share_changes(serve_share(b), serve_share(a), PAGE_DECIMALS))
        return;
    const struct load *chief = l->worst.chief;
    const char *food = chief != NULL ? chief->helping->food->name : "a food";
    const struct slice what = text_formatted(d->arena, "the serve of %s", food);
    say_share(d, slice_string(d->arena, what), serve_share(b), serve_share(a));
}

static void
describe_shares(struct describing *d, const struct phase_stand *b, const struct phase_stand *a)
{
    json_member_open(&d->json, "shares", '[');
    for (int g = 0; g < GROUPS; g++) {
        const struct span before = b->groups[g].share, after = a->groups[g].share;
        if (!share_changes(before, after, CATALOGUE_DECIMALS))
            continue;
        json_open(&d->json, '{');
        json_member_string(&d->json, "group", groups_word((enum group)g));
        add_share_pair(d, before, after);
        json_close(&d->json, '}');
    }
    if (share_changes(serve_share(b), serve_share(a), CATALOGUE_DECIMALS)) {
        json_open(&d->json, '{');
        json_member_string(&d->json, "group", "serve");
        add_share_pair(d, serve_share(b), serve_share(a));
        json_close(&d->json, '}');
    }
    json_close(&d->json, ']');
}

/* what of a phase is shown differently, with so many decimals */
static bool
phase_changes(const struct phase_stand *b, const struct phase_stand *a, int decimals)
{
    bool changes = b->standing != a->standing ||
                   share_changes(b->sitting_share, a->sitting_share, decimals) ||
                   share_changes(serve_share(b), serve_share(a), decimals);
    for (int g = 0; g < GROUPS; g++)
        changes = changes || share_changes(b->groups[g].share, a->groups[g].share, decimals);
    return changes;
}

static void
say_phase(struct describing *d, const char *id, const struct phase_stand *b,
          const struct phase_stand *a)
{
    const char *before = standing_word(b->standing), *after = standing_word(a->standing);
    add_line(d, id);
    if (b->standing != a->standing)
        text_addf(&d->text, "%s -> %s", before, after);
    else
        text_addf(&d->text, "still %s", after);
    for (int g = 0; g < GROUPS; g++) {
        const struct span was = b->groups[g].share, is = a->groups[g].share;
        if (!share_changes(was, is, PAGE_DECIMALS))
            continue;
        say_share(d, groups_name((enum group)g), was, is);
        text_add_string(&d->text, " of its limit");
    }
    if (share_changes(b->sitting_share, a->sitting_share, PAGE_DECIMALS))
        say_share(d, "one sitting", b->sitting_share, a->sitting_share);
    say_serve(d, b, a);
    text_add_byte(&d->text, '\n');
}

static void
describe_phase(struct describing *d, const char *id, const struct phase_stand *b,
               const struct phase_stand *a)
{
    json_open(&d->json, '{');
    json_member_string(&d->json, "phase", id);
    add_pair(d, "standing", slice_of(standing_word(b->standing)),
             slice_of(standing_word(a->standing)));
    describe_shares(d, b, a);
    json_member_open(&d->json, "sitting", '{');
    add_share_pair(d, b->sitting_share, a->sitting_share);
    json_close(&d->json, '}');
    json_close(&d->json, '}');
    if (phase_changes(b, a, PAGE_DECIMALS))
        say_phase(d, id, b, a);
}

static void
describe_phases(struct describing *d)
{
    const struct outcome *before = d->pair->before, *after = d->pair->after;
    const struct limits *limits = &after->tables->limits;
    json_member_open(&d->json, "phases", '[');
    for (size_t i = 0; i < limits->phase_count; i++) {
        const struct phase_stand *b = same_phase(before, limits->phases[i].id);
        if (b != NULL && phase_changes(b, &after->phases[i], CATALOGUE_DECIMALS))
            describe_phase(d, limits->phases[i].id, b, &after->phases[i]);
    }
    json_close(&d->json, ']');
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
    text_add(&t, o->remedies.refusal);
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

/* the caution of that id that an outcome prints, or NULL */
static const struct caution *
fired(const struct outcome *o, const char *id)
{
    for (size_t i = 0; i < o->hazards.count; i++)
        if (strcmp(o->hazards.items[i].caution->id, id) == 0)
            return o->hazards.items[i].caution;
    return NULL;
}

static bool
caution_differs(const struct caution *one, const struct caution *other, bool reworded)
{
    if (!reworded)
        return other == NULL;
    return other != NULL && strcmp(one->words, other->words) != 0;
}

/* cautions that one outcome prints and the other does not, or in other words */
static bool
describe_cautions_of(struct describing *d, const struct outcome *has, const struct outcome *other,
                     const char *key, bool write)
{
    const bool reworded = strcmp(key, "reworded") == 0;
    bool any = false;
    if (write)
        json_member_open(&d->json, key, '[');
    for (size_t i = 0; i < has->hazards.count; i++) {
        const struct caution *one = has->hazards.items[i].caution;
        /* one caution can be set off at several places */
        if ((i > 0 && has->hazards.items[i - 1].caution == one) ||
            !caution_differs(one, fired(other, one->id), reworded))
            continue;
        any = true;
        if (!write)
            continue;
        text_addf(&d->text, "    caution %s: %s\n", key, one->id);
        d->any = true;
        json_text(&d->json, slice_of(one->id));
    }
    if (write)
        json_close(&d->json, ']');
    return any;
}

static void
describe_cautions(struct describing *d)
{
    const struct outcome *b = d->pair->before, *a = d->pair->after;
    if (!describe_cautions_of(d, a, b, "added", false) &&
        !describe_cautions_of(d, b, a, "dropped", false) &&
        !describe_cautions_of(d, a, b, "reworded", false))
        return;
    json_member_open(&d->json, "cautions", '{');
    describe_cautions_of(d, a, b, "added", true);
    describe_cautions_of(d, b, a, "dropped", true);
    describe_cautions_of(d, a, b, "reworded", true);
    json_close(&d->json, '}');
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
    json_member_open(&d->json, "claims", '[');
    for (size_t i = 0; i < count; i++) {
        if (b->items[i].grounds == a->items[i].grounds)
            continue;
        const char *before = grounds_word(b->items[i].grounds),
                   *after = grounds_word(a->items[i].grounds);
        add_line(d, "claim");
        text_addf(&d->text, "%.*s: %s -> %s\n", SLICE_ARGS(a->items[i].front_value.text), before,
                  after);
        json_open(&d->json, '{');
        json_member(&d->json, "claim", a->items[i].front_value.text);
        json_member_string(&d->json, "before", before);
        json_member_string(&d->json, "after", after);
        json_close(&d->json, '}');
    }
    json_close(&d->json, ']');
}

static void
describe_outputs(struct describing *d, const struct outputs_changed *changed)
{
    json_key(&d->json, "data");
    json_truth(&d->json, changed->data);
    json_key(&d->json, "page");
    json_truth(&d->json, changed->page);
    if (!changed->data)
        return;
    add_line(d, "data");
    text_add_string(&d->text, "the structured data changes\n");
}

/* the food of "food:carrot/fructan": what stands before the slash */
static struct slice
food_of(struct slice key)
{
    size_t slash = slice_find_byte(key, '/', 0);
    return slice_begins(key, "food:") && slash != SIZE_MAX ? slice_part(key, 0, slash) : key;
}

/* In the text a food is named once, and a search that now finds something by the name it found. */
static void
describe_entries(struct describing *d)
{
    const struct slice *keys = d->pair->entries;
    const size_t count = d->pair->entry_count;
    size_t front_value = 0;
    add_line(d, "because of");
    json_member_open(&d->json, "entries", '[');
    for (size_t i = 0; i < count; i++)
        json_text(&d->json, keys[i]);
    json_close(&d->json, ']');
    for (size_t i = 0; i < count; i++) {
        size_t same = 0;
        bool first = true;
        if (slice_begins(keys[i], "find:"))
            continue;
        for (size_t k = 0; k < count; k++) {
            const bool one = slice_equal(food_of(keys[k]), food_of(keys[i]));
            first = first && !(one && k < i);
            same += one;
        }
        if (!first && same > FOOD_ENTRIES_SHOWN)
            continue;
        const struct slice shown = same > FOOD_ENTRIES_SHOWN ? food_of(keys[i]) : keys[i];
        text_addf(&d->text, "%s%.*s", front_value++ > 0 ? ", " : "", SLICE_ARGS(shown));
        if (same > FOOD_ENTRIES_SHOWN)
            text_addf(&d->text, " (%zu entries)", same);
    }
    for (size_t i = 0; front_value == 0 && i < count; i++)
        text_addf(&d->text, "%s%.*s", i > 0 ? ", " : "", SLICE_ARGS(keys[i]));
    text_add_byte(&d->text, '\n');
}

bool
impact_describe(struct arena *a, const struct impact_pair *pair, struct slice *text,
                struct slice *json)
{
    struct text written = text_new(a);
    struct describing d = {
        .arena = a, .pair = pair, .text = text_new(a), .json = json_new(&written)};
    text_addf(&d.text, "%s%s\n", pair->before->post.path,
              pair->before->publishable || pair->after->publishable ? "" : " (not published)");
    json_open(&d.json, '{');
    json_member_string(&d.json, "file", pair->before->post.path);
    json_member(&d.json, "slug", pair->before->post.slug);
    json_key(&d.json, "published");
    json_truth(&d.json, pair->before->publishable || pair->after->publishable);
    describe_phases(&d);
    describe_remedy(&d);
    describe_cautions(&d);
    describe_claims(&d);
    const struct outputs_changed changed = impact_outputs(a, pair);
    describe_outputs(&d, &changed);
    if (!d.any && !changed.any)
        return false;
    const bool told = d.any;
    describe_entries(&d);
    json_close(&d.json, '}');
    *text = told ? text_slice(&d.text) : SLICE("");
    *json = text_slice(&written);
    return true;
}
