#include "tables/serve_settle.h"

#include <string.h>

#include "tables/food_names.h"
#include "tables/larder.h"

/* whose serves those are whose rows do not say it */
static const char own_serves[] = "the writer's own serves";

/* so many times a limit, by the middle figures, is plainly otherwise than a serve says */
static const double PLAINLY = 2;
/* g that a serve without limit is held to be, for that alone; common practice, no source */
static const double UNLIMITED = 150;

struct settling {
    struct arena *arena;
    const struct serves_asked *asked;
    const struct serve_row *row;
    struct notices notices;
    struct food *food;
    const struct form *form;
};

static bool
wrong(struct settling *s, const char *mend, const char *format, struct slice word)
{
    struct text more = text_new(s->arena);
    text_addf(&more, format, SLICE_ARGS(word));
    notice_add_mended(
        &s->notices, RULE_TABLE_ROW_WRONG, s->row->place, s->row->food, text_slice(&more),
        text_formatted(s->arena, "%s Until then the food's composition holds.", mend));
    return false;
}

/* "rice-cakes" as a cook would write it */
static struct slice
as_words(struct arena *a, struct slice id)
{
    char *words = arena_copy(a, id.at, id.length);
    for (size_t i = 0; i < id.length; i++)
        if (words[i] == '-')
            words[i] = ' ';
    return (struct slice){words, id.length};
}

static struct found
find(const struct settling *s, struct slice words)
{
    const struct sought sought = {.name = words, .region = s->asked->region};
    return food_find(s->asked->larder, s->arena, &sought, NULL);
}

static const struct form *
form_of_name(const struct food *f, struct slice name)
{
    for (size_t i = 0; i < f->form_count; i++) {
        if (slice_is(name, f->forms[i].name))
            return &f->forms[i];
        for (const char **w = f->forms[i].words; w != NULL && *w != NULL; w++)
            if (slice_is(name, *w))
                return &f->forms[i];
    }
    return NULL;
}

static bool
find_food(struct settling *s)
{
    const struct serve_row *row = s->row;
    const struct larder *l = s->asked->larder;
    const struct food *f = larder_by_id(l, row->food);
    struct found found = {.food = NULL};
    if (f == NULL) {
        found = find(s, as_words(s->arena, row->food));
        f = found.corrected ? NULL : found.food; /* a serve is not given on a guess */
    }
    if (f == NULL)
        return wrong(s,
                     found.food != NULL
                         ? text_format(s->arena, "Did you mean %s?", found.food->name)
                     : found.nearest[0] != NULL
                         ? text_format(s->arena, "Did you mean %s?", found.nearest[0])
                         : "Look it up with dariole larder, or add the food to your tables.",
                     "the larder has no “%.*s”", row->food);
    s->food = (struct food *)(uintptr_t)f;
    s->form = found.form_said ? found.form : NULL;
    if (row->form.length == 0)
        return true;
    /* "canned" of pear is a food of its own; "florets" of broccoli a form of the same */
    found = find(s, text_formatted(s->arena, "%.*s %s", SLICE_ARGS(row->form), f->name));
    const struct form *form = form_of_name(f, row->form);
    if (form == NULL && found.food != NULL && found.food != f)
        s->food = (struct food *)(uintptr_t)found.food;
    else if (form != NULL)
        s->form = form;
    else if (found.food != NULL && found.form_said)
        s->form = found.form;
    else
        return wrong(s, "Write a phase, a form of the food as dariole larder shows it, or a food.",
                     "“%.*s” is neither a phase nor a form of the food", row->form);
    return true;
}

static bool
is_piece(struct slice words)
{
    return words.length == 0 || slice_is(words, "piece") || slice_is(words, "pieces");
}

static double
weight_by(const struct form *form, const char *word)
{
    const struct figure *grams = foods_form_piece(form, word, NULL);
    if (!figure_known(grams))
        return 0;
    return grams->span.mid *
           (form->weighed_bought && figure_known(&form->edible) ? form->edible.span.mid : 1);
}

/* g of one piece, edible, by the first of the words that some form has a weight for; 0: by none */
static double
piece_grams(const struct settling *s, const char *word)
{
    const char *const words[] = {word, "each", "medium"};
    const size_t count = strcmp(word, "piece") == 0 || strcmp(word, "each") == 0 ? 3 : 1;
    for (size_t w = 0; w < count; w++)
        for (size_t i = 0; i <= s->food->form_count; i++) {
            const struct form *form = i == 0 ? s->form : &s->food->forms[i - 1];
            const double grams = form != NULL ? weight_by(form, words[w]) : 0;
            if (grams > 0)
                return grams;
        }
    return 0;
}

static double
density_of(const struct settling *s)
{
    for (size_t i = 0; i <= s->food->form_count; i++) {
        const struct form *form = i == 0 ? s->form : &s->food->forms[i - 1];
        if (form != NULL && figure_known(&form->density))
            return form->density.span.mid;
    }
    return 0;
}

static const struct unit *
unit_of(void *ctx, struct slice words)
{
    const struct settling *s = ctx;
    const struct unit_row *row = measures_unit(s->asked->measures, s->asked->region, words, NULL);
    return row != NULL ? &row->unit : NULL;
}

static bool
is_food(void *ctx, struct slice words)
{
    (void)ctx;
    (void)words;
    return false;
}

/* edible g of the amount; 0: it cannot be brought to grams */
static double
grams_of(const struct settling *s)
{
    static const char *const sizes[] = {"each", "small", "medium", "large"};
    struct amount amount;
    const struct slice text = s->row->amount;
    const struct lexicon lexicon = {
        .ctx = (void *)(uintptr_t)s, .unit = unit_of, .food = is_food, .lists = s->asked->words};
    memset(&amount, 0, sizeof amount);
    const size_t read = amount_read(text, 0, &lexicon, &amount);
    const struct slice rest = slice_trim(slice_part(text, read, text.length));
    if (read == 0 || !is_piece(rest) || amount.value.mid <= 0)
        return 0;
    if (amount.unit == NULL)
        return amount.value.mid * piece_grams(s, sizes[amount.size]);
    switch (amount.unit->kind) {
    case UNIT_WEIGHT:
        return amount.value.mid * amount.unit->size.mid;
    case UNIT_VOLUME:
        return amount.value.mid * amount.unit->size.mid * density_of(s);
    default:
        return amount.value.mid * piece_grams(s, amount.unit->id);
    }
}

static bool
is_no_limit(struct slice words)
{
    return slice_is_anycase(words, "no limit") || slice_is_anycase(words, "unlimited");
}

/* the phase of a row; a form that is the name of one was a phase. -2: there is none */
static int
phase_of(struct settling *s, struct serve_row *row)
{
    const struct limits *l = s->asked->limits;
    if (row->phase.length == 0 && row->form.length > 0 && limits_phase(l, row->form) >= 0) {
        row->phase = row->form;
        row->form = SLICE("");
    }
    if (row->phase.length == 0)
        return is_no_limit(row->amount) ? -1 : 0;
    const int phase = limits_phase(l, row->phase);
    if (phase < 0)
        wrong(s, text_format(s->arena, "Write %s.", l->phases[0].id), "there is no phase “%.*s”",
              row->phase);
    return phase < 0 ? -2 : phase;
}

/* what a ledger knows of a food's serves */
static void
digest_serves(struct food *f)
{
    uint64_t d = slice_digest(SLICE("serves"), 0);
    for (const struct given_serve *s = f->serves; s != NULL; s = s->next) {
        d = figure_digest(&s->grams, d + (uint64_t)(s->phase + 2) * 2 + s->no_limit);
        d = slice_digest(slice_of(s->form != NULL ? s->form->name : ""), d);
    }
    f->serve_entry.digest = f->serves != NULL ? d : 0;
}

/* in the place of an earlier one of the same form and phase */
static void
put(struct settling *s, int phase, double grams)
{
    struct given_serve *one = NULL;
    for (const struct given_serve *old = s->food->serves; old != NULL; old = old->next)
        if (old->form == s->form && old->phase == phase)
            one = (struct given_serve *)(uintptr_t)old;
    if (one == NULL) {
        one = arena_take(s->arena, sizeof *one);
        one->next = s->food->serves;
        s->food->serves = one;
    }
    one->form = s->form;
    one->phase = phase;
    one->no_limit = is_no_limit(s->row->amount);
    one->grams = (struct figure){.span = span_exact(grams),
                                 .source = s->row->source != NULL ? s->row->source : own_serves,
                                 .basis = BASIS_PRACTICE};
    if (s->row->changed != NULL && (s->food->serve_entry.changed == NULL ||
                                    strcmp(s->row->changed, s->food->serve_entry.changed) > 0))
        s->food->serve_entry.changed = s->row->changed;
    digest_serves(s->food);
}

/* how many times a limit for one food such a serve holds, by the middle figures: the most of all
 * groups, and which */
static double
times_limit(const struct settling *s, int phase, double grams, enum group *group)
{
    const struct phase *p = &s->asked->limits->phases[phase > 0 ? phase : 0];
    double most = 0;
    for (enum group g = 0; g < GROUPS; g++) {
        const struct figure *limit = limit_for(p, g, s->food->food_class, NULL);
        const struct figure *content = &s->food->contents[g];
        if (limit == NULL || !figure_known(content) || limit->span.mid <= 0)
            continue;
        const struct figure *fresh =
            s->food->fresh && g == EXCESS_FRUCTOSE ? limits_fresh(p, g, NULL) : NULL;
        const double times =
            content->span.mid * grams / 100 / (fresh != NULL ? fresh : limit)->span.mid;
        if (times > most) {
            most = times;
            *group = g;
        }
    }
    return most;
}

/* one note for a file: where composition plainly says otherwise */
struct disagreement {
    struct text foods;
    size_t count;
    const char *path;
    struct place place;
};

static void
note_disagreement(struct settling *s, int phase, double grams, struct disagreement *d)
{
    enum group group = LACTOSE;
    const bool no_limit = is_no_limit(s->row->amount);
    const double times = times_limit(s, phase, no_limit ? UNLIMITED : grams, &group);
    if (times < PLAINLY)
        return;
    if (d->count++ == 0) {
        d->path = s->row->path;
        d->place = s->row->place;
    }
    text_addf(&d->foods, "%s%s (%.*s: %.1f times the limit of %s)", d->count == 1 ? "" : ", ",
              s->food->name, SLICE_ARGS(s->row->amount), times, groups_name(group));
}

void
serves_settle(struct arena *a, const struct serves_asked *asked,
              void (*told)(void *ctx, const char *path, struct notices *notices), void *ctx)
{
    struct disagreement d = {.foods = text_new(a)};
    struct notices notices = {.arena = a};
    for (size_t i = 0; i < asked->serves->rows.count; i++) {
        struct serve_row row = asked->serves->rows.items[i];
        struct settling s = {.arena = a, .asked = asked, .row = &row, .notices = notices};
        const int phase = phase_of(&s, &row);
        double grams = 0;
        if (phase > -2 && find_food(&s)) {
            grams = is_no_limit(row.amount) ? 0 : grams_of(&s);
            if (grams > 0 || is_no_limit(row.amount)) {
                put(&s, phase, grams);
                note_disagreement(&s, phase, grams, &d);
            } else {
                wrong(&s,
                      "Write it in grams, as 40 g, by spoon or cup, in pieces that the larder "
                      "weighs, or no limit.",
                      "“%.*s” cannot be brought to grams", row.amount);
            }
        }
        if (s.notices.count > 0)
            told(ctx, row.path, &s.notices);
    }
    if (d.count == 0)
        return;
    notice_add(&notices, RULE_SERVE_DISAGREES, d.place, text_slice(&d.foods), SLICE(""));
    told(ctx, d.path, &notices);
}

void
serve_set(struct arena *a, struct food *f, int phase, double grams, const char *source)
{
    struct given_serve *one = arena_take(a, sizeof *one);
    one->phase = phase;
    one->grams =
        (struct figure){.span = span_exact(grams), .source = source, .basis = BASIS_PRACTICE};
    for (const struct given_serve *old = f->serves; old != NULL; old = old->next)
        if (old->phase != phase && old->phase >= 0) {
            struct given_serve *kept = arena_take(a, sizeof *kept);
            *kept = *old;
            kept->next = one->next;
            one->next = kept;
        }
    f->serves = one;
    digest_serves(f);
}

const struct given_serve *
serves_of_food(const struct food *f, const struct form *form, int phase, struct reads *reads)
{
    const struct given_serve *best = NULL;
    if (f == NULL)
        return NULL;
    reads_note(reads, &f->serve_entry);
    for (const struct given_serve *s = f->serves; s != NULL; s = s->next) {
        if ((s->phase >= 0 && s->phase != phase) || (s->form != NULL && s->form != form))
            continue;
        if (best == NULL || (s->form != NULL && best->form == NULL) ||
            ((s->form != NULL) == (best->form != NULL) && s->phase >= 0))
            best = s;
    }
    return best;
}
