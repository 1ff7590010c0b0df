#include "read/label_list.h"

#include <math.h>
#include <string.h>

#include "base/list.h"

/* the words of a text while it is cut up */
struct reading {
    struct arena *arena;
    struct slice text;
    struct words words;
    const struct word_lists *lists;
    struct label_list *out;
    double small; /* of the items that follow */
};

static const char *const openers[] = {"(", "[", "{", NULL};
static const char *const closers[] = {")", "]", "}", NULL};

static bool
is_mark(const struct reading *r, size_t i, const char *mark)
{
    return r->words.items[i].kind == WORD_MARK && word_is(&r->words.items[i], mark);
}

/* the word behind the bracket that word i opens, or `to` where it is not closed */
static size_t
bracket_end(const struct reading *r, size_t i, size_t to)
{
    size_t depth = 0;
    for (; i < to; i++) {
        depth += words_among(&r->words.items[i], openers);
        if (words_among(&r->words.items[i], closers) && --depth == 0)
            return i + 1;
    }
    return to;
}

/* words from..to as they stand */
static struct slice
standing(const struct reading *r, size_t from, size_t to)
{
    if (from >= to)
        return SLICE("");
    return slice_trim(slice_part(r->text, r->words.items[from].from, r->words.items[to - 1].to));
}

/* whether one of a list of phrases stands at word i */
static bool
begins_with(const struct reading *r, size_t i, enum word_list_number list)
{
    return words_any(&r->words, word_lists_all(r->lists, list), i, i + 1, NULL) != NULL;
}

static bool
is_percent(const struct reading *r, size_t i, size_t to)
{
    return i + 1 < to && r->words.items[i].kind == WORD_NUMBER &&
           (is_mark(r, i + 1, "%") || word_is(&r->words.items[i + 1], "percent"));
}

/* half a unit of the last digit of a number as it is written */
static double
half_unit(struct slice number)
{
    double half = 0.5;
    size_t at = 0;
    while (at < number.length && number.at[at] != '.' && number.at[at] != ',')
        at++;
    for (at++; at < number.length && number.at[at] >= '0' && number.at[at] <= '9'; at++)
        half /= 10;
    return half;
}

/* takes the percentage at word i with what is said before it; returns its first word */
static size_t
take_percent(const struct reading *r, size_t from, size_t i, struct label_item *item)
{
    static const char *const least[] = {"min", "minimum", "least", NULL};
    static const char *const most[] = {"max", "maximum", "than", "to", "<", NULL};
    const struct word *number = &r->words.items[i];
    const double half = half_unit(slice_part(r->text, number->from, number->to));
    bool at_least = false, at_most = false;
    for (; i > from; i--) {
        const struct word *w = &r->words.items[i - 1];
        static const char *const beside[] = {".", "at", "less", "up", "of", NULL};
        if (words_among(w, least))
            at_least = true;
        else if (words_among(w, most))
            at_most = true;
        else if (!words_among(w, beside) || (!at_least && !at_most && !is_mark(r, i - 1, ".")))
            break;
    }
    item->least = at_most ? 0 : fmax(number->value - half, 0);
    item->most = at_least ? 100 : at_most ? number->value : number->value + half;
    return i;
}

/* "2 % or less of", "contains less than 2 % of the following" at the head of an item: the word
 * behind it, or `from` */
static size_t
read_small(struct reading *r, size_t from, size_t to)
{
    static const char *const phrases[] = {
        "or less of", "or less", "of each of the following", "of the following", "of each",
        "of",         NULL};
    size_t i = from, at;
    bool less = false;
    for (; i < to && !is_percent(r, i, to); i++) {
        static const char *const before[] = {"contains", "contain", "each", "less", "than", NULL};
        if (!words_among(&r->words.items[i], before))
            return from;
        less = less || word_is(&r->words.items[i], "less");
    }
    if (i + 2 >= to)
        return from;
    const double value = r->words.items[i].value;
    for (i += 2; words_any(&r->words, phrases, i, i + 1, &at) != NULL;) {
        const char *phrase = words_any(&r->words, phrases, i, i + 1, &at);
        less = less || slice_begins(slice_of(phrase), "or less");
        i += words_phrase(&r->words, i, phrase);
    }
    if (!less || i >= to)
        return from;
    r->small = value;
    return is_mark(r, i, ":") ? i + 1 : i;
}

/* the word behind "emulsifier:" and behind a heading such as "Dough:" */
static size_t
behind_function(const struct reading *r, size_t from, size_t to)
{
    for (size_t i = from; i < to && !words_among(&r->words.items[i], openers); i++)
        if (is_mark(r, i, ":"))
            from = i + 1;
    size_t end = from; /* behind the longest one */
    const char *const *all = word_lists_all(r->lists, WORDS_LABEL_FUNCTIONS);
    for (size_t k = 0; all[k] != NULL; k++) {
        const size_t count = words_at(&r->words, from, all[k]);
        end = from + count > end ? from + count : end;
    }
    return end;
}

static void read_items(struct reading *r, size_t from, size_t to, size_t parent, size_t depth);

/* what stands in a bracket: a percentage, a note, or ingredients */
static void
read_bracket(struct reading *r, size_t from, size_t to, size_t item, size_t depth)
{
    struct label_item *it = &r->out->items.items[item];
    size_t i = from;
    while (i < to && !is_percent(r, i, to))
        i++;
    if (i + 2 == to && take_percent(r, from, i, it) == from)
        return;
    if (begins_with(r, from, WORDS_LABEL_NOTES))
        return; /* what it names is found in `all` */
    read_items(r, from, to, item + 1, depth + 1);
}

/* the name of an item, without brackets and percentage: the longest run of words of it */
static void
read_item(struct reading *r, size_t from, size_t to, size_t parent, size_t depth)
{
    if (r->out->items.count == LABEL_ITEMS_MOST || depth > LABEL_DEPTH_MOST) {
        r->out->too_many = true;
        return;
    }
    if (begins_with(r, from, WORDS_LABEL_VARYING)) {
        if (parent > 0)
            r->out->items.items[parent - 1].any_order = true;
        return;
    }
    const size_t item = r->out->items.count, first = from;
    *LIST_GROW(r->arena, &r->out->items) = (struct label_item){
        .all = standing(r, first, to), .parent = parent, .most = 100, .small = r->small};
    from = behind_function(r, from, to);
    size_t run = from;
    struct slice name = SLICE("");
    for (size_t i = from; i <= to; i++) {
        size_t next = i, end = i;
        if (i < to && words_among(&r->words.items[i], openers))
            next = bracket_end(r, i, to);
        else if (i < to && is_percent(r, i, to)) {
            end = take_percent(r, run, i, &r->out->items.items[item]);
            next = i + 2;
        } else if (i < to)
            continue;
        const struct slice words = standing(r, run, end);
        name = words.length > name.length ? words : name;
        if (i < to && next > i && words_among(&r->words.items[i], openers))
            read_bracket(r, i + 1, next - words_among(&r->words.items[next - 1], closers), item,
                         depth);
        run = next;
        i = next > i ? next - 1 : i;
    }
    r->out->items.items[item].name = name;
}

/* whether a full stop at word i ends a sentence: not that of "min. 30 %" and "incl. milk" */
static bool
ends_sentence(const struct reading *r, size_t i, size_t to)
{
    static const char *const short_words[] = {"min", "max", "incl", "approx", "vit", "e", NULL};
    if (!is_mark(r, i, ".") && !is_mark(r, i, "!"))
        return false;
    return i + 1 >= to || i == 0 || !words_among(&r->words.items[i - 1], short_words);
}

/* the next word that parts items: a comma, a semicolon, a sentence's end */
static size_t
next_break(const struct reading *r, size_t i, size_t to)
{
    while (i < to && !is_mark(r, i, ",") && !is_mark(r, i, ";") && !ends_sentence(r, i, to))
        i = words_among(&r->words.items[i], openers) ? bracket_end(r, i, to) : i + 1;
    return i;
}

static void
read_items(struct reading *r, size_t from, size_t to, size_t parent, size_t depth)
{
    const double outer = r->small;
    r->small = depth > 0 ? 0 : outer;
    while (from < to) {
        const size_t end = next_break(r, from, to), begin = read_small(r, from, end);
        if (standing(r, begin, end).length > 0)
            read_item(r, begin, end, parent, depth);
        from = end + 1;
    }
    if (depth > 0)
        r->small = outer;
}

static enum label_saying
saying_of(const char *word)
{
    return strcmp(word, "contains") == 0      ? LABEL_CONTAINS
           : strcmp(word, "may-contain") == 0 ? LABEL_MAY_CONTAIN
                                              : LABEL_IDLE;
}

/* a sentence that names no ingredients; the first one of a text does unless it says otherwise */
static bool
read_statement(struct reading *r, size_t from, size_t to, bool first)
{
    const char *const *all = word_lists_all(r->lists, WORDS_LABEL_SAYINGS), *best = NULL;
    size_t longest = 0;
    for (size_t k = 0; all[k] != NULL; k++) {
        const size_t count = words_at(&r->words, from, all[k]);
        if (count > longest) {
            longest = count;
            best = all[k];
        }
    }
    const double small = r->small;
    if (read_small(r, from, next_break(r, from, to)) != from) {
        r->small = small;
        return false;
    }
    if (best == NULL && (first || small > 0))
        return false;
    *LIST_GROW(r->arena, &r->out->statements) = (struct label_statement){
        best == NULL
            ? LABEL_UNREAD
            : saying_of(word_lists_value(r->lists, WORDS_LABEL_SAYINGS, slice_of(best))->text),
        standing(r, best == NULL ? from : from + longest, to)};
    return true;
}

void
label_list_read(struct arena *a, struct slice text, const struct word_lists *lists,
                struct label_list *out)
{
    struct reading r = {.arena = a, .text = text, .lists = lists, .out = out};
    memset(out, 0, sizeof *out);
    words_read(a, lists, text, &r.words);
    size_t from = 0;
    if (r.words.count > 1 && word_is(&r.words.items[0], "ingredients") && is_mark(&r, 1, ":"))
        from = 2;
    for (bool first = true; from < r.words.count; first = false) {
        size_t end = from;
        while (end < r.words.count && !ends_sentence(&r, end, r.words.count))
            end = words_among(&r.words.items[end], openers) ? bracket_end(&r, end, r.words.count)
                                                            : end + 1;
        if (end > from && !read_statement(&r, from, end, first))
            read_items(&r, from, end, 0, 0);
        from = end + 1;
    }
}
