#include "reckon/dish_build.h"

#include <string.h>

#include "reckon/ingredient_names.h"
#include "reckon/yield.h"
#include "read/language_tag.h"
#include "read/ingredient_map.h"
#include "tables/food_names.h"
#include "tables/table_ask.h"

static int
dish_region(struct arena *a, const struct front_matter *front, const struct tables *tables,
            struct notices *notices)
{
    if (front->measures.text.length == 0)
        return tables->site.measures;
    int region = measures_region(&tables->measures, front->measures.text);
    if (region >= 0)
        return region;
    struct text known = text_new(a);
    text_add_string(&known, "a region; there are");
    for (size_t i = 0; i < tables->measures.region_count; i++)
        text_addf(&known, "%s %s", i == 0 ? "" : ",", tables->measures.regions[i].id);
    notice_add(notices, RULE_VALUE_UNREADABLE, front->measures.place, front->measures.text,
               text_slice(&known));
    return tables->site.measures;
}

static void
notice_food(struct arena *a, const struct ingredient_line *line, const struct written_food *written,
            const struct found *found, struct notices *notices)
{
    struct place place = written_line_place(line, written->name_from, written->name_to);
    struct text more = text_new(a);
    if (found->food == NULL) {
        for (size_t i = 0; i < 3 && found->nearest[i] != NULL; i++)
            text_addf(&more, "%s%s", i == 0 ? "; near it: " : ", ", found->nearest[i]);
        notice_add(notices, RULE_FOOD_UNKNOWN, place, written->name, text_slice(&more));
    } else if (found->rival != NULL) {
        text_addf(&more, "%s or %s", found->food->name, found->rival->name);
        notice_add(notices, RULE_FOOD_AMBIGUOUS, place, written->name, text_slice(&more));
    }
    if (found->food != NULL && found->corrected)
        notice_add(notices, RULE_FOOD_CORRECTED, place, written->name, slice_of(found->food->name));
    if (found->food != NULL && found->passed.length > 0)
        notice_add(notices, RULE_WORDS_PASSED, place, found->passed, SLICE(""));
}

static bool
is_tinned(const struct written_food *written)
{
    static const char *const tins[] = {"tin", "can", "jar"};
    for (size_t i = 0; i < written->amount_count; i++)
        for (size_t k = 0; written->amounts[i].unit != NULL && k < 3; k++)
            if (strcmp(written->amounts[i].unit->id, tins[k]) == 0)
                return true;
    return false;
}

static struct found
find_food(struct arena *a, const struct written_food *written, const struct tables *tables,
          int region, struct reads *reads)
{
    struct sought sought = {.name = written->name,
                            .after = written->after,
                            .bracket = written->bracket,
                            .shared = written->after_shared,
                            .region = region,
                            .by = mass_measured_by(written),
                            .tinned = is_tinned(written)};
    if (written->of_it == OF_JUICE)
        sought.part = "juice";
    else if (written->of_it == OF_ZEST)
        sought.part = "zest";
    return food_find(tables->larder, a, &sought, reads);
}

static void
build_helping(struct arena *a, const struct ingredient_line *line,
              const struct written_food *written, const struct tables *tables, struct reads *reads,
              struct notices *notices, int region, struct helping *out)
{
    struct found found;
    memset(&found, 0, sizeof found);
    if (written->name.length > 0) {
        found = find_food(a, written, tables, region, reads);
        notice_food(a, line, written, &found, notices);
    }
    out->written = written;
    out->food = found.food;
    out->form = found.form;
    out->doubt_allergens = found.doubt_allergens;
    out->doubt_diets = found.doubt_diets;
    out->passed = found.passed;
    mass_weigh(a, line, written, &found, region, &tables->measures, reads, notices, &out->weighing);
    out->eaten =
        line->has_stays ? span_times(out->weighing.edible, line->stays) : out->weighing.edible;
}

/* "zest and juice of 1 lemon" is two foods */
static size_t
helpings_of(const struct written_food *written)
{
    return written->of_it == OF_JUICE_AND_ZEST ? 2 : 1;
}

static void
build_option(struct arena *a, const struct ingredient_line *line,
             const struct written_option *option, const struct tables *tables, struct reads *reads,
             struct notices *notices, int region, struct dish_option *out)
{
    size_t count = 0;
    for (size_t i = 0; i < option->count; i++)
        count += helpings_of(&option->foods[i]);
    out->helpings = arena_take_array(a, count, sizeof *out->helpings);
    for (size_t i = 0; i < option->count; i++) {
        const struct written_food *written = &option->foods[i];
        if (written->of_it != OF_JUICE_AND_ZEST) {
            build_helping(a, line, written, tables, reads, notices, region,
                          &out->helpings[out->count++]);
            continue;
        }
        for (enum of_it of = OF_JUICE; of <= OF_ZEST; of++) {
            struct written_food *half = arena_take(a, sizeof *half);
            *half = *written;
            half->of_it = of;
            build_helping(a, line, half, tables, reads, notices, region,
                          &out->helpings[out->count++]);
        }
    }
}

/* whether two ways to take a line come to the same food and the same amount: "fresh or frozen
 * blackberries", "white or yellow miso" */
static bool
is_same(const struct dish_option *one, const struct dish_option *other)
{
    if (one->count != other->count)
        return false;
    for (size_t i = 0; i < one->count; i++) {
        const struct helping *a = &one->helpings[i], *b = &other->helpings[i];
        const struct span mine = a->weighing.grams, theirs = b->weighing.grams;
        if (a->food == NULL || a->food != b->food || a->form != b->form || !a->weighing.known ||
            !b->weighing.known || mine.low != theirs.low || mine.mid != theirs.mid ||
            mine.high != theirs.high)
            return false;
    }
    return true;
}

/* no recipe has more; what is reckoned of them grows with the square of their number */
enum { LINES_MOST = 300 };

/* a line that could not be read is an ingredient without figures, not one that is not there */
static void
build_unread(struct arena *a, struct ingredient *out)
{
    struct written_food *none = arena_take(a, sizeof *none);
    none->name = out->line.text;
    none->name_to = out->line.text.length;
    out->options[0].helpings = arena_take(a, sizeof *out->options[0].helpings);
    out->options[0].helpings[0].written = none;
    out->options[0].count = 1;
    out->option_count = 1;
}

void
dish_build_line(struct arena *a, const struct ingredient_line *line, int region,
                const struct tables *tables, struct reads *reads, struct notices *notices,
                struct ingredient *out)
{
    out->line = *line;
    struct words *words = arena_take(a, sizeof *words);
    words_read(a, tables->words, line->text, words);
    out->words = words;
    out->optional = line->optional;
    out->options = arena_take_array(a, line->option_count + 1, sizeof *out->options);
    out->option_count = 0;
    for (size_t i = 0; i < line->option_count; i++) {
        if (line->options[i].count == 0)
            continue;
        struct dish_option *option = &out->options[out->option_count];
        option->count = 0; /* the one before may have been as the first, and left here */
        build_option(a, &out->line, &line->options[i], tables, reads, notices, region, option);
        if (out->option_count == 0 || !is_same(&out->options[0], option))
            out->option_count++;
    }
    if (out->option_count == 0)
        build_unread(a, out);
    out->ingredient_names = ingredient_names_read(a, tables->words, out);
}

static void
build_ingredient(struct arena *a, const struct yaml_node *node, const struct lexicon *lexicon,
                 int region, const struct tables *tables, struct reads *reads,
                 struct notices *notices, struct ingredient *out)
{
    struct ingredient_line line;
    memset(&line, 0, sizeof line);
    if (node->kind == YAML_MAP_NODE)
        ingredient_line_read_map(a, node, lexicon, notices, &line);
    else
        ingredient_line_read(a, node->text, node, lexicon, notices, &line);
    dish_build_line(a, &line, region, tables, reads, notices, out);
}

/* what a line gives for one eater, for all of them; it is still written out as that of one */
static void
take_for_all(struct ingredient *in, double portions)
{
    const struct span all = span_exact(portions);
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            struct helping *h = &in->options[o].helpings[k];
            h->eaten = span_times(h->eaten, all);
        }
}

/* the lines that are too many, as one that could not be read: what they hold is not known */
static void
build_rest(struct arena *a, const struct yaml_node *node, const struct tables *tables,
           struct notices *notices, struct ingredient *out)
{
    struct ingredient_line line;
    memset(&line, 0, sizeof line);
    line.text = SLICE("further lines");
    line.node = node;
    notice_add(notices, RULE_LINE_UNREADABLE, node->place,
               SLICE("there are more than 300 lines; this one and those behind it are left out"),
               SLICE(""));
    dish_build_line(a, &line, 0, tables, NULL, notices, out);
}

void
dish_build(struct arena *a, const struct post *post, const struct tables *tables,
           struct reads *reads, struct notices *notices, struct dish *out)
{
    const struct front_matter *front = &post->front;
    memset(out, 0, sizeof *out);
    out->region = dish_region(a, front, tables, notices);
    struct lexicon lexicon = tables_lexicon(tables, a, out->region, reads);
    if (front->language.text.length > 0)
        lexicon.decimal_comma = language_tag_decimal_comma(front->language.text);
    size_t count = 0;
    for (size_t p = 0; p < front->part_count; p++)
        count += front->parts[p].count;
    count = count < LINES_MOST ? count : LINES_MOST;
    out->ingredients = arena_take_array(a, count + 2, sizeof *out->ingredients);
    for (size_t p = 0; p < front->part_count && out->count <= LINES_MOST; p++)
        for (size_t i = 0; i < front->parts[p].count && out->count <= LINES_MOST; i++) {
            struct ingredient *ingredient = &out->ingredients[out->count];
            const struct yaml_node *node = front->parts[p].lines[i];
            if (out->count == LINES_MOST)
                build_rest(a, node, tables, notices, ingredient);
            else
                build_ingredient(a, node, &lexicon, out->region, tables, reads, notices,
                                 ingredient);
            ingredient->part = p;
            out->count += !ingredient->line.struck;
        }
    yield_read(a, front, &lexicon, notices, out);
    for (size_t i = 0; i < out->count; i++)
        if (out->ingredients[i].line.per_portion)
            take_for_all(&out->ingredients[i], dish_divisor(out));
}
