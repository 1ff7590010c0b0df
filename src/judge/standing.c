#include "judge/standing.h"

#include <math.h>
#include <string.h>

#include "reckon/remedy_words.h"

/* foods that one message names */
enum { NAMED_MOST = 6 };

/* a helping with its place among the dish's */
struct contributor {
    const struct ingredient *ingredient;
    const struct helping *helping;
    const struct helping_load *load;
};

struct standing_context {
    struct arena *arena;
    const struct post *post;
    const struct dish *dish;
    const struct tables *tables;
    const struct phase_stand *stand;
    const struct remedies *remedies;
    struct reads *reads;
    struct notices *notices;
    const struct sheet *sheet;
    struct contributor *contributors; /* all helpings, in the order of the sheet */
};

static const struct sum_of {
    enum group part, sum;
} sums[] = {{FRUCTAN, OLIGOSACCHARIDES},
            {GALACTO_OLIGOSACCHARIDE, OLIGOSACCHARIDES},
            {SORBITOL, POLYOLS},
            {MANNITOL, POLYOLS}};

static void
lay_seats(struct standing_context *h)
{
    struct contributor *contributor =
        arena_take_raw(h->arena, (h->sheet->helping_count + 1) * sizeof *contributor);
    h->contributors = contributor;
    for (size_t i = 0; i < h->dish->count; i++) {
        const struct ingredient *in = &h->dish->ingredients[i];
        const struct helping_load *load = h->sheet->rows[i].loads;
        for (size_t o = 0; o < in->option_count; o++)
            for (size_t k = 0; k < in->options[o].count; k++)
                *contributor++ = (struct contributor){in, &in->options[o].helpings[k], load++};
    }
}

#define EACH_SEAT(standing_context, one)                                                  \
    for (const struct contributor *one = (standing_context)->contributors,                \
                                  *end_ = one + (standing_context)->sheet->helping_count; \
         one < end_; one++)

/* the groups whose content is not known and that may bring something: bits 1 << group */
static unsigned
untold(const struct contributor *s)
{
    return load_groups(s->load) & ~(unsigned)s->load->told;
}

static struct place
contributor_place(const struct contributor *s)
{
    return ingredient_line_place(&s->ingredient->line, s->helping->written->name_from,
                                 s->helping->written->name_to);
}

static void
add_name(const struct standing_context *h, struct text *text, const struct helping *helping)
{
    if (helping->food != NULL)
        text_add_string(text, food_shown(helping->food, h->dish->region, NULL));
    else
        text_add(text, helping->written->name);
}

/* the helping that carries most of a column in its worst way; false when none does */
static bool
chief_seat(const struct standing_context *h, size_t column, struct contributor *out)
{
    double most = 0;
    EACH_SEAT(h, s)
    {
        const struct span *share =
            column == SITTING ? &s->load->columns[SITTING].load : &s->load->columns[column].share;
        const double brings = share->mid + share->high * 1e-6;
        if (brings > most) {
            most = brings;
            *out = *s;
        }
    }
    return most > 0;
}

static struct place
column_place(const struct standing_context *h, size_t column)
{
    struct contributor chief;
    if (chief_seat(h, column, &chief))
        return contributor_place(&chief);
    return h->post->front.yield.text.length > 0 ? h->post->front.yield.place
                                                : h->post->front.portions.place;
}

static void
add_grams(struct text *text, double grams)
{
    text_add_number(text, grams, grams < 0.1 ? 3 : 2);
    text_add_string(text, " g");
}

/* the least and the most limit of what carries a column: they differ by kind of food */
static void
limits_carried(const struct standing_context *h, size_t column, double *least, double *most)
{
    EACH_SEAT(h, s)
    {
        if (column == SITTING || s->load->columns[column].limit == NULL ||
            s->load->columns[column].load.high <= 0)
            continue;
        const double limit = s->load->columns[column].limit->span.mid;
        *least = *least == 0 || limit < *least ? limit : *least;
        *most = limit > *most ? limit : *most;
    }
}

/* "1.34 times the limit (0.27 g against 0.20 g), chiefly from the honey" */
static void
add_figures(const struct standing_context *h, struct text *text, size_t column, struct span share,
            struct span load, double limit, enum standing standing)
{
    struct contributor chief;
    const bool high = standing == STANDING_MAY_EXCEED;
    if (high)
        text_add_string(text, "up to ");
    const double times = high ? share.high : share.mid;
    text_addf(text, "%.2f", times);
    text_add_string(text, times > 1 ? " times the limit (" : " of the limit (");
    add_grams(text, high ? load.high : load.mid);
    double least = 0, most = 0;
    limits_carried(h, column, &least, &most);
    if (least < most) {
        text_add_string(text, " against limits of ");
        text_add_number(text, least, 2);
        text_add_string(text, " to ");
        add_grams(text, most);
        text_add_string(text, " by kind of food");
    } else {
        text_add_string(text, " against ");
        add_grams(text, limit);
    }
    text_add_byte(text, ')');
    if (chief_seat(h, column, &chief)) {
        text_add_string(text, ", chiefly from the ");
        add_name(h, text, chief.helping);
    }
    if (h->stand->best_standing < h->stand->standing && h->stand->best_standing <= STANDING_CLOSE)
        text_add_string(text, ", in the way to make it that carries most");
}

static void
add_remedy(const struct standing_context *h, struct text *text)
{
    if (h->remedies == NULL || h->remedies->count == 0)
        return;
    const struct remedy *r = &h->remedies->items[0];
    struct slice sentence =
        remedy_words(h->arena, h->dish, h->tables, h->reads, h->dish->region, r);
    text_add_string(text, ". ");
    text_add(text,
             slice_ends(sentence, ".") ? slice_part(sentence, 0, sentence.length - 1) : sentence);
}

static bool
rule_for(enum standing standing, enum rule *rule)
{
    switch (standing) {
    case STANDING_OVER:
        *rule = RULE_PORTION_OVER;
        return true;
    case STANDING_MAY_EXCEED:
        *rule = RULE_PORTION_MAY_EXCEED;
        return true;
    case STANDING_CLOSE:
        *rule = RULE_PORTION_CLOSE;
        return true;
    default:
        return false;
    }
}

/* a part says nothing more where the sum it is in stands as badly */
static bool
told_by_sum(const struct standing_context *h, enum group g)
{
    for (size_t i = 0; i < sizeof sums / sizeof *sums; i++)
        if (sums[i].part == g &&
            h->stand->groups[sums[i].sum].standing >= h->stand->groups[g].standing)
            return true;
    return false;
}

static void
judge_groups(const struct standing_context *h)
{
    for (enum group g = 0; g < GROUPS; g++) {
        const struct group_stand *group = &h->stand->groups[g];
        enum rule rule;
        if (!group->limited || !rule_for(group->standing, &rule) || told_by_sum(h, g))
            continue;
        struct text more = text_new(h->arena);
        add_figures(h, &more, g, group->share, group->load, group->limit, group->standing);
        if ((int)g == h->stand->tightest ||
            (h->stand->tightest >= 0 && told_by_sum(h, (enum group)h->stand->tightest)))
            add_remedy(h, &more);
        notice_add(h->notices, rule, column_place(h, g), slice_of(group_name(g)),
                   text_slice(&more));
    }
}

static void
judge_sitting(const struct standing_context *h)
{
    enum rule rule;
    if (!h->stand->sitting_limited || !rule_for(h->stand->sitting_standing, &rule))
        return;
    struct text figures = text_new(h->arena), mend = text_new(h->arena);
    add_figures(h, &figures, SITTING, h->stand->sitting_share, h->stand->sitting,
                h->sheet->sitting_limit, h->stand->sitting_standing);
    if (h->stand->sitting_standing != STANDING_OVER) {
        notice_add(h->notices, rule, column_place(h, SITTING), SLICE("one sitting"),
                   text_slice(&figures));
        return;
    }
    if (h->remedies != NULL && h->remedies->count > 0)
        text_add(&mend, remedy_words(h->arena, h->dish, h->tables, h->reads, h->dish->region,
                                     h->remedies->items));
    else
        text_add_string(&mend, "Make the portion smaller, or say that nothing else that carries "
                               "these goes with it.");
    notice_add(h->notices, RULE_SITTING_OVER, column_place(h, SITTING), text_slice(&figures),
               text_slice(&mend));
}

static void
add_listed(struct text *text, size_t *count, const char *name)
{
    text_addf(text, "%s%s", (*count)++ == 0 ? "" : ", ", name);
}

/* " and 3 more", of a list that names NAMED_MOST of `count` */
static void
add_rest(struct text *text, size_t count)
{
    if (count > NAMED_MOST)
        text_addf(text, " and %zu more", count - NAMED_MOST);
}

static void
judge_unknown(const struct standing_context *h)
{
    struct text groups = text_new(h->arena), why = text_new(h->arena);
    size_t count = 0, reasons = 0;
    for (enum group g = 0; g < GROUPS; g++)
        if (h->stand->groups[g].unknown)
            add_listed(&groups, &count, group_name(g));
    if (count == 0 || h->dish->count == 0)
        return;
    struct place place = {0, 0, 0};
    bool untraced = false;
    EACH_SEAT(h, s)
    {
        for (enum group g = 0; load_groups(s->load) >> g != 0; g++)
            untraced = untraced || (s->load->columns[g].bound > 0 && !s->load->trace[g]);
    }
    EACH_SEAT(h, s)
    {
        bool no_figure = false, no_amount = false;
        for (enum group g = 0; g < GROUPS; g++) {
            if (!h->stand->groups[g].unknown || s->load->columns[g].bound <= 0 ||
                (untraced && s->load->trace[g]))
                continue;
            no_figure = no_figure || (untold(s) >> g & 1) != 0;
            no_amount = no_amount || (untold(s) >> g & 1) == 0;
        }
        if (!no_figure && !no_amount)
            continue;
        if (reasons == 0)
            place = contributor_place(s);
        if (reasons++ >= NAMED_MOST)
            continue;
        text_add_string(&why, reasons == 1 ? "" : ", ");
        bool more = s->helping->written->extra_unmeasured; /* "150 g, plus extra to dust" */
        text_add_string(&why, no_figure ? "no figure for "
                              : more    ? "no amount for the extra "
                                        : "no amount for ");
        add_name(h, &why, s->helping);
    }
    add_rest(&why, reasons);
    if (!h->dish->portions_known) {
        text_add_string(&why, reasons == 0 ? "" : ", ");
        text_add_string(&why, "the number of portions is not known");
    }
    notice_add(h->notices, RULE_PORTION_UNKNOWN, place,
               count == GROUPS ? SLICE("every group") : text_slice(&groups), text_slice(&why));
}

static void
judge_untested(const struct standing_context *h)
{
    EACH_SEAT(h, s)
    {
        if (s->helping->food == NULL)
            continue;
        struct text groups = text_new(h->arena);
        size_t count = 0;
        for (enum group g = 0; untold(s) >> g != 0; g++)
            if ((untold(s) >> g & 1) != 0 && !s->load->known[g] && s->load->columns[g].bound > 0 &&
                !s->load->trace[g])
                add_listed(&groups, &count, group_name(g));
        if (count > 0)
            notice_add(h->notices, RULE_FOOD_UNTESTED, contributor_place(s),
                       s->helping->written->name, text_slice(&groups));
    }
}

static void
judge_traces(const struct standing_context *h)
{
    struct text foods = text_new(h->arena), more = text_new(h->arena);
    struct place place = {0, 0, 0};
    double most = 0;
    size_t count = 0;
    EACH_SEAT(h, s)
    {
        double brings = 0;
        bool without = false;
        for (enum group g = 0; untold(s) >> g != 0; g++)
            if ((untold(s) >> g & 1) != 0 && s->load->columns[g].bound > 0 &&
                h->stand->groups[g].standing != STANDING_UNKNOWN) {
                without = without || !s->load->trace[g];
                brings = fmax(brings, s->load->columns[g].bound);
            }
        /* a food that was tested as a whole is not one without figures */
        if (brings <= 0 || without || s->load->serve_used)
            continue;
        if (count++ == 0)
            place = contributor_place(s);
        else
            text_add_string(&foods, ", ");
        add_name(h, &foods, s->helping);
        most = fmax(most, brings);
    }
    if (count == 0)
        return;
    text_add_string(&more, "at most ");
    text_add_number(&more, fmax(most, 0.01), 2);
    text_add_string(&more, count == 1 ? " of any limit" : " of any limit each");
    notice_add(h->notices, RULE_TRACE_IGNORED, place, text_slice(&foods), text_slice(&more));
}

static void
judge_serves(const struct standing_context *h)
{
    EACH_SEAT(h, s)
    {
        if (!s->load->serve_disagrees)
            continue;
        const struct figure *serve = food_tested_serve(s->helping->food, NULL);
        struct text more = text_new(h->arena);
        text_add_string(&more, "by its composition a serve of ");
        text_add_number(&more, serve->span.mid, 0);
        text_add_string(&more, " g carries ");
        text_add_number(&more, s->load->serve_share.low, 2);
        if (s->load->serve_share.high - s->load->serve_share.low > 0.005) {
            text_add_string(&more, " to ");
            text_add_number(&more, s->load->serve_share.high, 2);
        }
        text_addf(&more, " of the limit of %s", group_name(s->helping->food->serve_group));
        notice_add(h->notices, RULE_SERVE_DISAGREES, contributor_place(s),
                   s->helping->written->name, text_slice(&more));
    }
}

static void
judge_nutrition(const struct standing_context *h, const struct nutrition *n)
{
    if (n == NULL || n->given || h->dish->count == 0)
        return;
    struct text what = text_new(h->arena), more = text_new(h->arena);
    text_add_number(&what, fmin(floor(n->coverage * 100), 99), 0);
    text_add_string(&what, " % of the weight");
    for (size_t k = 0; k < n->missing_count; k++) {
        const struct ingredient *in = &h->dish->ingredients[n->missing[k]];
        if (k >= NAMED_MOST)
            break;
        text_add_string(&more, k == 0 ? "; without figures: " : ", ");
        for (size_t i = 0; in->option_count > 0 && i < in->options[0].count; i++) {
            text_add_string(&more, i == 0 ? "" : " and ");
            add_name(h, &more, &in->options[0].helpings[i]);
        }
    }
    add_rest(&more, n->missing_count);
    if (!h->dish->portions_known)
        text_add_string(&more, "; the number of portions is not known");
    notice_add(h->notices, RULE_NUTRITION_PARTIAL, (struct place){0, 0, 0}, text_slice(&what),
               text_slice(&more));
}

void
standing_judge(struct arena *a, const struct post *post, const struct dish *d,
               const struct tables *t, const struct sheet *sheet, const struct phase_stand *stand,
               const struct remedies *remedies, const struct nutrition *nutrition,
               struct reads *reads, struct notices *notices)
{
    struct standing_context h = {.arena = a,
                                 .post = post,
                                 .dish = d,
                                 .tables = t,
                                 .sheet = sheet,
                                 .stand = stand,
                                 .remedies = remedies,
                                 .reads = reads,
                                 .notices = notices};
    lay_seats(&h);
    judge_groups(&h);
    judge_sitting(&h);
    judge_unknown(&h);
    judge_untested(&h);
    judge_traces(&h);
    judge_serves(&h);
    judge_nutrition(&h, nutrition);
}
