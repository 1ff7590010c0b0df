#include "judge/names.h"

#include <string.h>

#include "base/list.h"
#include "read/stem.h"
#include "reckon/ingredient_names.h"
#include "tables/larder.h"

static void
know_words(struct names *n, const struct words *w)
{
    for (size_t i = 0; i < w->count; i++)
        if (w->items[i].kind == WORD_LETTERS)
            *LIST_GROW(n->arena, &n->known) = stem_of(n->arena, w->items[i].folded);
}

static void
know(struct names *n, struct slice text)
{
    struct words w;
    words_read(n->arena, n->lists, text, &w);
    know_words(n, &w);
}

/* the names of parts in the body are mostly those of the list */
static bool
heads_list(const struct front_matter *front, struct slice part)
{
    for (size_t i = 0; i < front->part_count; i++)
        if (slice_equal(front->parts[i].name.text, part))
            return true;
    return false;
}

/* stems to names; the last link first, so that those of one stem stay in order */
static void
link_names(struct names *n)
{
    const struct dish *d = n->dish;
    size_t count = 0, at = 0;
    for (size_t i = 0; i < d->count; i++)
        count += d->ingredients[i].ingredient_names->stem_count;
    for (n->slot_count = 16; n->slot_count < count * 4;)
        n->slot_count *= 2;
    n->slots = arena_take_array(n->arena, n->slot_count, sizeof *n->slots);
    n->links = arena_take_array(n->arena, count + 1, sizeof *n->links);
    for (size_t i = d->count; i > 0; i--) {
        const struct ingredient_names *ingredient_names = d->ingredients[i - 1].ingredient_names;
        for (size_t k = ingredient_names->name_count; k > 0; k--) {
            const struct name *name = &ingredient_names->names[k - 1];
            for (size_t s = 0; s < name->count; s++) {
                uint32_t *slot = &n->slots[name->stems[s].code & (n->slot_count - 1)];
                n->links[at] = (struct names_link){name, &name->stems[s], i - 1, *slot};
                *slot = (uint32_t)++at;
            }
        }
    }
}

void
names_read(struct arena *a, const struct post *post, const struct dish *d,
           const struct word_lists *lists, struct names *out)
{
    *out = (struct names){.arena = a, .dish = d, .lists = lists};
    know_words(out, &post->title_words);
    know_words(out, &post->summary_words);
    know(out, post->front.yield.text);
    for (size_t i = 0; i < post->front.part_count; i++)
        know(out, post->front.parts[i].name.text);
    for (size_t i = 0; i < post->body.part_count; i++)
        if (!heads_list(&post->front, post->body.parts[i].name))
            know(out, post->body.parts[i].name);
    link_names(out);
}

bool
names_know(const struct names *n, const struct stem *s)
{
    for (size_t i = 0; i < n->known.count; i++)
        if (stem_equal(&n->known.items[i], s))
            return true;
    for (size_t i = 0; i < n->dish->count; i++) {
        const struct ingredient_names *ingredient_names = n->dish->ingredients[i].ingredient_names;
        if ((ingredient_names->marks & stem_mark(s)) == 0)
            continue;
        for (size_t k = 0; k < ingredient_names->known.count; k++)
            if (stem_equal(&ingredient_names->known.items[k], s))
                return true;
    }
    return false;
}

/* how many stems of a name stand in the words that end at i, without a gap but describing words;
 * *from is moved to the first of them */
static size_t
run_of(const struct names *n, const struct name *name, const struct words *w, size_t i,
       size_t *from)
{
    size_t count = 1, misses = 0;
    *from = i;
    for (size_t k = i; k > 0 && misses < 2; k--) {
        const struct word *word = &w->items[k - 1];
        if (word_is(word, "-"))
            continue;
        if (word->kind != WORD_LETTERS)
            break;
        const struct stem stem = stem_of(n->arena, word->folded);
        bool of_it = false;
        for (size_t s = 0; s < name->count && !of_it; s++)
            of_it = stem_equal(&stem, &name->stems[s]);
        if (of_it) {
            count++;
            *from = k - 1;
        } else if (stem.text.length > 3 && stem_describes(n->lists, &stem)) {
            misses++;
        } else {
            break;
        }
    }
    return count;
}

/* the ingredient that the word at i, of this stem, ends the name of: the longest run, a head before
 * other words; next: the first link in the slot of the stem */
static bool
best_at(const struct names *n, const struct words *w, size_t i, struct stem stem, uint32_t next,
        size_t part, struct named *out)
{
    enum { NAMES_MOST = 64 }; /* of one stem */
    size_t best = 0, tried = 0;
    bool sure = true, found = false, best_here = false;
    for (const struct names_link *link; next != 0 && tried < NAMES_MOST; next = link->next) {
        size_t from;
        link = &n->links[next - 1];
        if (!stem_equal(link->stem, &stem))
            continue;
        tried++;
        const struct name *name = link->name;
        size_t score =
            run_of(n, name, w, i, &from) * 2 + stem_equal(&stem, &name->stems[name->count - 1]);
        bool here = n->dish->ingredients[link->ingredient].part == part;
        if (found && link->ingredient == out->ingredient)
            continue;
        if (score == best && here == best_here)
            sure = false;
        if (score > best || (score == best && here && !best_here)) {
            sure = score > best || here != best_here;
            best = score;
            best_here = here;
            found = true;
            out->from = from;
            out->end = i + 1;
            out->ingredient = link->ingredient;
        }
    }
    out->sure = sure;
    return found;
}

void
names_find_in(const struct names *n, const struct words *w, size_t part, size_t step,
              struct named_list *out)
{
    for (size_t i = 0; i < w->count; i++) {
        if (w->items[i].kind != WORD_LETTERS)
            continue;
        const struct stem stem = stem_of(n->arena, w->items[i].folded);
        const uint32_t next = n->slots[stem.code & (n->slot_count - 1)];
        struct named here = {.step = step};
        if (next == 0 || !best_at(n, w, i, stem, next, part, &here))
            continue;
        struct named *last = out->count > 0 ? &out->items[out->count - 1] : NULL;
        if (last != NULL && last->step == step && here.from < last->end)
            *last = here; /* "tomato paste" after "tomato" */
        else
            *LIST_GROW(n->arena, out) = here;
    }
}

size_t
names_behind(const struct named_list *named, size_t i)
{
    size_t low = 0, high = named->count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (named->items[middle].end <= i)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

void
names_find(const struct names *n, const struct schedule *s, struct named_list *out)
{
    *out = (struct named_list){0};
    for (size_t k = 0; k < s->count; k++)
        names_find_in(n, &s->steps[k].marks.words, s->steps[k].part, k, out);
}

size_t
names_other(const struct names *n, struct slice word)
{
    const struct stem stem = stem_of(n->arena, word);
    if (stem_describes(n->lists, &stem))
        return SIZE_MAX;
    for (size_t i = 0; i < n->dish->count; i++) {
        const struct ingredient_names *own = n->dish->ingredients[i].ingredient_names;
        if ((own->marks & stem_mark(&stem)) == 0)
            continue;
        for (size_t k = 0; k < own->known.count; k++)
            if (stem_equal(&own->known.items[k], &stem))
                return i;
    }
    return SIZE_MAX;
}

static bool
steps_have(const struct schedule *s, const char *const *phrases)
{
    for (size_t i = 0; i < s->count; i++) {
        const struct words *w = &s->steps[i].marks.words;
        if (words_any(w, phrases, 0, w->count, NULL) != NULL)
            return true;
    }
    return false;
}

/* whether a word of a step is the stem, or begins with it where it is no short one */
static bool
steps_have_stem(const struct names *n, const struct schedule *s, struct slice stem)
{
    const char *phrase =
        text_format(n->arena, "%.*s%s", SLICE_ARGS(stem), stem.length > 3 ? "*" : "");
    for (size_t i = 0; i < s->count; i++)
        if (words_find(&s->steps[i].marks.words, phrase, 0, SIZE_MAX) != SIZE_MAX)
            return true;
    return false;
}

/* the line itself says where it goes: "to serve", "oil for frying" where a step fries */
static bool
says_its_use(const struct words *line, const struct schedule *s)
{
    static const char *const taste[] = {"to taste", NULL};
    static const char *const to_fry[] = {"to fry", "frying", "for the pan", NULL};
    return words_any(line, words_list(line, WORDS_TO_SERVE), 0, line->count, NULL) != NULL ||
           (words_any(line, taste, 0, line->count, NULL) != NULL &&
            steps_have(s, words_list(line, WORDS_SERVING))) ||
           (words_any(line, to_fry, 0, line->count, NULL) != NULL &&
            steps_have(s, words_list(line, WORDS_FRYING)));
}

bool
names_of_kind(const struct ingredient *in, const struct food_kind *k)
{
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t i = 0; i < in->options[o].count; i++)
            if (food_kind_has(k, in->options[o].helpings[i].food, in->words))
                return true;
    return in->option_count == 0 && food_kind_has(k, NULL, in->words);
}

/* "the vegetables", "season": a kind of food that this one is of */
static bool
used_by_kind(const struct ingredient *in, const struct schedule *s, const struct cooking *c)
{
    for (size_t k = 0; k < c->kinds.count; k++)
        if (steps_have(s, (const char *const *)c->kinds.items[k].words) &&
            names_of_kind(in, &c->kinds.items[k]))
            return true;
    return says_its_use(in->words, s);
}

/* "the florets": what the line says is cut of it */
static bool
used_by_shape(const struct names *n, const struct ingredient *in, const struct schedule *s)
{
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            struct words w;
            words_read(n->arena, n->lists, in->options[o].helpings[k].written->after, &w);
            for (size_t i = 0; i < w.count; i++) {
                const struct stem stem = stem_of(n->arena, w.items[i].folded);
                if (w.items[i].kind == WORD_LETTERS && stem.text.length > 3 &&
                    !slice_ends(stem.text, "ed") && !slice_ends(stem.text, "ly") &&
                    !stem_describes(n->lists, &stem) && steps_have_stem(n, s, stem.text))
                    return true;
            }
        }
    return false;
}

/* by another name of the food: "zucchini" for the courgettes of the list */
static bool
used_by_another_name(const struct names *n, const struct ingredient *in, const struct schedule *s,
                     const struct larder *larder)
{
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            const struct food *f = in->options[o].helpings[k].food;
            const char **all = f != NULL ? larder_names_of(larder, n->arena, f) : NULL;
            for (; all != NULL && *all != NULL; all++) {
                struct words w;
                words_read(n->arena, n->lists, slice_of(*all), &w);
                size_t end = 0;
                while (end < w.count && w.items[end].kind == WORD_LETTERS)
                    end++;
                if (end == 0)
                    continue;
                const struct stem head = stem_of(n->arena, w.items[end - 1].folded);
                if (!stem_describes(n->lists, &head) && steps_have_stem(n, s, head.text))
                    return true;
            }
        }
    return false;
}

/* any word of the name at all, also within a longer word ("bicarb", "chillies") */
static bool
used_by_a_word(const struct names *n, const struct ingredient *in, const struct schedule *s)
{
    enum { BEGINNING = 6 };
    for (size_t i = 0; i < in->ingredient_names->name_count; i++) {
        const struct name *name = &in->ingredient_names->names[i];
        for (size_t k = 0; k < name->count; k++)
            if (steps_have_stem(n, s, slice_part(name->stems[k].text, 0, BEGINNING)))
                return true;
    }
    return false;
}

/* by the last word of its name, describing or not: "the leaf" for the Chinese leaf of the list */
static bool
used_by_last_word(const struct names *n, const struct ingredient *in, const struct schedule *s)
{
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            struct words w;
            words_read(n->arena, n->lists, in->options[o].helpings[k].written->name, &w);
            if (w.count == 0 || w.items[w.count - 1].kind != WORD_LETTERS)
                continue;
            if (steps_have_stem(n, s, stem_of(n->arena, w.items[w.count - 1].folded).text))
                return true;
        }
    return false;
}

/* "Roast for 45 minutes" under the heading of a part: steps that name nothing of their part, or of
 * the whole dish, take all of it */
static void
use_unnamed(const struct dish *d, const struct schedule *s, const struct named_list *found,
            size_t part, bool whole, bool *out)
{
    bool steps = false, named = false;
    for (size_t k = 0; k < s->count; k++)
        steps = steps || whole || s->steps[k].part == part;
    for (size_t i = 0; i < found->count && !named; i++)
        named = whole || (s->steps[found->items[i].step].part == part &&
                          d->ingredients[found->items[i].ingredient].part == part);
    for (size_t i = 0; i < d->count && steps && !named; i++)
        out[i] = out[i] || whole || d->ingredients[i].part == part;
}

void
names_used(const struct judging *j, const struct named_list *found, bool *out)
{
    const struct names *n = j->names;
    const struct dish *d = n->dish;
    const struct schedule *s = j->schedule;
    bool all = steps_have(s, cooking_phrases(&j->tables->cooking, "everything"));
    for (size_t i = 0; i < d->count; i++)
        out[i] = all;
    for (size_t i = 0; i < found->count; i++)
        out[found->items[i].ingredient] = true;
    use_unnamed(d, s, found, 0, true, out);
    size_t parts = d->count > 0 ? d->ingredients[d->count - 1].part + 1 : 0;
    for (size_t p = 0; p < parts && parts > 1; p++)
        use_unnamed(d, s, found, p, false, out);
    for (size_t i = 0; i < d->count; i++)
        if (!out[i])
            out[i] = used_by_a_word(n, &d->ingredients[i], s) ||
                     used_by_last_word(n, &d->ingredients[i], s) ||
                     used_by_shape(n, &d->ingredients[i], s) ||
                     used_by_kind(&d->ingredients[i], s, &j->tables->cooking) ||
                     used_by_another_name(n, &d->ingredients[i], s, j->tables->larder);
}
