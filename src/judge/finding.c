#include "judge/finding.h"

#include <stdlib.h>

#include "judge/rules.h"

static const char *const level_words[] = {"none", "note", "warning", "error"};

const char *
finding_level_word(enum level l)
{
    return level_words[l];
}

bool
finding_level_read(struct slice word, enum level *out)
{
    for (int i = LEVEL_NOTE; i <= LEVEL_ERROR; i++)
        if (slice_is(word, level_words[i])) {
            *out = (enum level)i;
            return true;
        }
    return false;
}

/* the template with {what} and {more} filled in */
static struct slice
fill(struct arena *a, const char *template, const struct notice *n)
{
    struct slice rest = slice_of(template);
    struct text t = text_new(a);
    text_add_bytes(&t, "", 0);
    for (size_t at; (at = slice_find_byte(rest, '{', 0)) != SIZE_MAX;) {
        struct slice from = slice_part(rest, at, rest.length);
        text_add(&t, slice_part(rest, 0, at));
        if (slice_begins(from, "{what}"))
            text_add(&t, n->what);
        else if (slice_begins(from, "{more}"))
            text_add(&t, n->more);
        bool filled = slice_begins(from, "{what}") || slice_begins(from, "{more}");
        text_add_string(&t, filled ? "" : "{");
        rest = slice_part(from, filled ? sizeof "{what}" - 1 : 1, from.length);
    }
    text_add(&t, rest);
    return text_slice(&t);
}

/* of a round-up's dish, its name before the sentence */
static struct slice
message(struct arena *a, const char *template, const struct notice *n)
{
    struct slice sentence = fill(a, template, n);
    if (n->dish.length == 0)
        return sentence;
    return text_formatted(a, "%.*s: %.*s", SLICE_ARGS(n->dish), SLICE_ARGS(sentence));
}

/* what an editor looks at first, among findings of one level: what may hurt, what the portion
 * holds, what is promised; what search engines want comes last */
static int
weight(enum rule r)
{
    if (r == RULE_DATA_RECOMMENDED || r == RULE_IMAGE_MISSING || r == RULE_NUTRITION_PARTIAL)
        return 4;
    if (r >= RULE_SAFETY_PRACTICE && r <= RULE_SAFETY_NOTE)
        return 0;
    if (r >= RULE_PORTION_OVER && r < RULE_NUTRITION_PARTIAL)
        return 1;
    return r >= RULE_CLAIM_FALSE && r <= RULE_CLAIM_HEALTH ? 2 : 3;
}

static int
by_matter(const void *left, const void *right)
{
    const struct finding *a = left, *b = right;
    if (a->answered != b->answered)
        return a->answered ? 1 : -1;
    if (a->level != b->level)
        return a->level > b->level ? -1 : 1;
    if (weight(a->rule) != weight(b->rule))
        return weight(a->rule) < weight(b->rule) ? -1 : 1;
    /* of what the portion holds the nearest limit, which says what mends all of it */
    if (weight(a->rule) == 1 && (a->mend.length > 0) != (b->mend.length > 0))
        return a->mend.length > 0 ? -1 : 1;
    if (a->place.line != b->place.line)
        return a->place.line < b->place.line ? -1 : 1;
    if (a->place.column != b->place.column)
        return a->place.column < b->place.column ? -1 : 1;
    if (a->rule != b->rule)
        return a->rule < b->rule ? -1 : 1;
    return slice_order(a->message, b->message);
}

static bool
same(const struct finding *a, const struct finding *b)
{
    return a->rule == b->rule && a->place.line == b->place.line &&
           a->place.column == b->place.column && slice_equal(a->message, b->message);
}

/* says how many are not told: the first ones are mended first, and they matter most */
static struct finding
rest_of(struct arena *a, const char *path, size_t count)
{
    const struct rule_row *row = rules_row(RULE_FINDINGS_MANY);
    const struct notice n = {.what = text_formatted(a, "%zu", count), .more = SLICE("")};
    return (struct finding){.rule = RULE_FINDINGS_MANY,
                            .level = row->level,
                            .path = path,
                            .place = {1, 1, 0},
                            .message = fill(a, row->message, &n),
                            .mend = fill(a, row->mend, &n)};
}

void
findings_make(struct arena *a, const char *path, const struct notices *notices,
              struct findings *out)
{
    struct finding *all = arena_take_array(a, notices->count + 1, sizeof *all);
    for (size_t i = 0; i < notices->count; i++) {
        const struct notice *n = &notices->items[i];
        const struct rule_row *row = rules_row(n->rule);
        all[i] = (struct finding){.rule = n->rule,
                                  .level = row->level,
                                  .path = path,
                                  .place = n->place,
                                  .message = message(a, row->message, n)};
        if (n->mend.length > 0)
            all[i].mend = n->mend;
        else if (row->mend != NULL)
            all[i].mend = fill(a, row->mend, n);
    }
    if (notices->count > 1)
        qsort(all, notices->count, sizeof *all, by_matter);
    size_t kept = 0;
    for (size_t i = 0; i < notices->count; i++)
        if (kept == 0 || !same(&all[kept - 1], &all[i]))
            all[kept++] = all[i];
    if (kept > FINDINGS_MOST) {
        all[FINDINGS_MOST] = rest_of(a, path, kept - FINDINGS_MOST);
        kept = FINDINGS_MOST + 1;
    }
    *out = (struct findings){.items = all, .count = kept};
    findings_count(out);
}

void
findings_count(struct findings *f)
{
    f->worst = LEVEL_NONE;
    f->answered = 0;
    for (int i = 0; i <= LEVEL_ERROR; i++)
        f->count_by_level[i] = 0;
    for (size_t i = 0; i < f->count; i++) {
        if (f->items[i].answered) {
            f->answered++;
            continue;
        }
        f->count_by_level[f->items[i].level]++;
        if (f->items[i].level > f->worst)
            f->worst = f->items[i].level;
    }
}

/* an answer may name the rule alone, or the rule and words of the message: "food-untested amaranth"
 */
static bool
answers(const struct answer *answer, const struct finding *f)
{
    struct slice answered = slice_trim(answer->rule.text);
    const char *id = rules_row(f->rule)->id;
    if (!slice_begins(answered, id))
        return false;
    struct slice words = slice_part(answered, slice_of(id).length, answered.length);
    if (words.length == 0)
        return true;
    if (words.at[0] != ' ')
        return false;
    words = slice_trim(words);
    for (size_t i = 0; i + words.length <= f->message.length; i++)
        if (slice_equal(slice_part(f->message, i, i + words.length), words))
            return true;
    return false;
}

/* what could not be read is mended, not answered; a portion over its limit may be answered, and the
 * page still says that it is over */
static bool
answerable(const struct finding *f)
{
    return f->rule != RULE_ANSWER_UNUSED && f->rule != RULE_FINDINGS_MANY &&
           f->rule > RULE_METHOD_MISSING && f->rule != RULE_SLUG_TWICE;
}

void
findings_answer(struct arena *a, const char *path, const struct answer *given, size_t count,
                struct findings *f)
{
    struct notices unused = {.arena = a};
    for (size_t i = 0; i < count; i++) {
        bool used = false;
        for (size_t j = 0; j < f->count; j++) {
            if (!answers(&given[i], &f->items[j]) || !answerable(&f->items[j]))
                continue;
            f->items[j].answered = true;
            f->items[j].reason = given[i].reason.text;
            used = true;
        }
        if (!used)
            notice_add(&unused, RULE_ANSWER_UNUSED, given[i].rule.place, given[i].rule.text,
                       SLICE(""));
    }
    struct findings more;
    findings_make(a, path, &unused, &more);
    if (more.count > 0) {
        struct finding *all = arena_take_array(a, f->count + more.count, sizeof *all);
        for (size_t i = 0; i < f->count; i++)
            all[i] = f->items[i];
        for (size_t i = 0; i < more.count; i++)
            all[f->count + i] = more.items[i];
        f->items = all;
        f->count += more.count;
    }
    if (f->count > 1)
        qsort(f->items, f->count, sizeof *f->items, by_matter);
    findings_count(f);
}
