#include "judge/unlisted.h"

#include "judge/names.h"
#include "base/map.h"
#include "read/initials.h"

/* verbs that put a food in; what follows is asked of the larder */
static const char *const putting[] = {
    "add",          "adding",        "stir in",       "fold in",
    "whisk in",     "pour in",       "tip in",        "mix in",
    "beat in",      "sprinkle in",   "crumble in",    "drizzle over",
    "drizzle with", "sprinkle with", "sprinkle over", "scatter with",
    "scatter over", "top with",      "dust with",     "brush with",
    "toss with",    "mix with",      "serve with",    "garnish with",
    "season with",  "stir through",  "finish with",   "throw in",
    "drop in",      "melt",          "with the",      NULL};
static const char *const leads[INITIALS][6] = {
    ['a' - 'a'] = {"a", "an", "all"},
    ['b' - 'a'] = {"bit"},
    ['c' - 'a'] = {"chopped"},
    ['d' - 'a'] = {"drizzle"},
    ['e' - 'a'] = {"extra"},
    ['f' - 'a'] = {"fresh", "freshly", "finely", "few"},
    ['g' - 'a'] = {"grated"},
    ['h' - 'a'] = {"handful"},
    ['i' - 'a'] = {"in"},
    ['l' - 'a'] = {"little"},
    ['m' - 'a'] = {"more"},
    ['o' - 'a'] = {"of"},
    ['p' - 'a'] = {"plenty", "pinch"},
    ['r' - 'a'] = {"remaining", "rest"},
    ['s' - 'a'] = {"some", "splash", "squeeze", "sprinkling", "sliced"},
    ['t' - 'a'] = {"the", "then"},
    ['y' - 'a'] = {"your"},
};
/* taken for granted, or named for what was made of the list */
static const char *const granted[INITIALS][20] = {
    ['b' - 'a'] = {"batter", "base", "bean", "broth", "bread", "berry", "bowl"},
    ['c' - 'a'] = {"cheese", "cube", "cream", "caramel", "crumb", "chunk", "crust", "custard",
                   "compote", "curry", "chocolate", "chutney", "crouton"},
    ['d' - 'a'] = {"dressing", "dough", "dry", "dal"},
    ['e' - 'a'] = {"egg"},
    ['f' - 'a'] = {"filling", "fish", "fruit", "flour", "floret", "fat", "flake"},
    ['g' - 'a'] = {"green", "garnish", "glaze", "greens", "gravy", "granola", "guacamole"},
    ['h' - 'a'] = {"herb", "half", "heat"},
    ['i' - 'a'] = {"ice", "icing"},
    ['j' - 'a'] = {"juice", "jam"},
    ['l' - 'a'] = {"liquid", "leaf", "lid"},
    ['m' - 'a'] = {"mixture", "marinade", "mix", "meat", "mash", "meringue"},
    ['n' - 'a'] = {"nut", "noodle"},
    ['o' - 'a'] = {"oil"},
    ['p' - 'a'] = {"pepper", "paste", "pasta", "puree", "piece", "pan", "powder", "pickle",
                   "pesto"},
    ['r' - 'a'] = {"relish", "rest", "ribbon", "rice", "rub"},
    ['s' - 'a'] = {"salt", "sauce", "syrup", "seed", "spice", "stock", "sprinkle", "soup", "salad",
                   "salsa", "stalk", "side", "slice", "strip", "steam", "stuffing", "slaw",
                   "spread"},
    ['t' - 'a'] = {"topping", "tin"},
    ['v' - 'a'] = {"vegetable", "veg"},
    ['w' - 'a'] = {"water", "wet", "white"},
    ['y' - 'a'] = {"yolk"},
    ['z' - 'a'] = {"zest"},
};
static const char *const loose[] = {"if you like", "optional",    "optionally", "instead",
                                    "if using",    "if you have", "whatever",   "any",
                                    "such as",     "if you wish", "perhaps",    "or",
                                    "could",       "also good",   "try",        NULL};

enum {
    WORDS_MOST = 3,
    ITEMS_MOST = 8,      /* of one list in a step */
    ITEM_WORDS_MOST = 5, /* of one item, with what is said of it */
    ASKED_MOST = 200     /* questions of one post */
};

/* words first..end that may name a food: letters alone, none of them known from the list */
static size_t
new_words(const struct names *n, const struct words *w, size_t first)
{
    static const char *const ends[] = {
        "and", "to", "with", "in", "over", "then", "on",    "into", "until", "for",  "but", "so",
        "at",  "by", "off",  "a",  "the",  "if",   "while", "when", "from",  "just", "or",  NULL};
    size_t end = first;
    while (end < w->count && end < first + WORDS_MOST && w->items[end].kind == WORD_LETTERS &&
           !word_among(&w->items[end], ends)) {
        const struct stem stem = stem_of(n->arena, w->items[end].folded);
        if (names_know(n, &stem))
            return 0; /* part of something listed: "the tomato mixture" */
        end++;
    }
    return end - first;
}

/* the questions of one post */
struct asking {
    const struct names *names;
    const struct post *post;
    const struct schedule *schedule;
    const struct larder *larder;
    struct reads *reads;
    struct notices *notices;
    struct map front_value; /* heads of names that were told */
    size_t asked;
};

/* the food that begins at word `first` by the longest words that the larder knows; 0: none */
static size_t
food_at(const struct asking *q, struct slice text, const struct words *w, size_t first)
{
    const struct names *n = q->names;
    for (size_t length = new_words(n, w, first); length > 0; length--) {
        const struct stem head = stem_of(n->arena, w->items[first + length - 1].folded);
        if (head.text.length < 3 || INITIALS_HAVE(granted, head.text) ||
            stem_describes(n->lists, &head))
            continue;
        struct slice words =
            slice_part(text, w->items[first].from, w->items[first + length - 1].to);
        if (larder_names(q->larder, n->arena, words, q->reads))
            return length;
    }
    return 0;
}

/* tells the food at word `at` of a step when the list has none of its words */
static void
ask(struct asking *q, size_t k, size_t at, size_t to)
{
    const struct names *n = q->names;
    const struct step_time *st = &q->schedule->steps[k];
    const struct words *w = &st->marks.words;
    const struct step *step = &q->post->body.parts[st->part].steps[st->step];
    while (at < to && INITIALS_HAVE(leads, w->items[at].folded))
        at++;
    if (at >= to || q->asked++ >= ASKED_MOST)
        return;
    size_t length = food_at(q, step->text, w, at);
    if (length == 0)
        return;
    struct slice head = stem_of(n->arena, w->items[at + length - 1].folded).text;
    size_t first = w->items[at].from, end = w->items[at + length - 1].to;
    if (map_put(&q->front_value, head, q))
        notice_add(q->notices, RULE_FOOD_UNLISTED, step_place(step, first, end),
                   slice_part(step->text, first, end), SLICE(""));
}

/* "the tamari, ginger and rice": the word behind the next comma or "and" of the list; `to` when
 * it ends */
static size_t
next_item(const struct words *w, size_t at, size_t to)
{
    for (size_t i = at; i < to && i < at + ITEM_WORDS_MOST; i++) {
        bool comma = word_is(&w->items[i], ",");
        if (comma && i + 1 < to && word_is(&w->items[i + 1], "and"))
            i++;
        if (comma || word_is(&w->items[i], "and"))
            return i + 1;
        if (w->items[i].kind != WORD_LETTERS)
            break;
    }
    return to;
}

void
unlisted_judge(const struct judging *j)
{
    const struct schedule *s = j->schedule;
    struct asking q = {j->names,   j->post,           s, j->tables->larder, j->reads,
                       j->notices, map_new(j->arena), 0};
    for (size_t k = 0; k < s->count; k++) {
        const struct words *w = &s->steps[k].marks.words;
        size_t i = 0;
        for (const char *verb; (verb = words_next(w, putting, i, &i)) != NULL; i++) {
            size_t from = words_sentence_from(w, i), to = words_sentence_to(w, i);
            if (words_any(w, loose, from, to, NULL) != NULL)
                continue;
            size_t at = i + words_at(w, i, verb);
            for (size_t item = 0; item < ITEMS_MOST && at < to; item++) {
                ask(&q, k, at, to);
                at = next_item(w, at, to);
            }
        }
    }
}
