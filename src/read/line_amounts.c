#include "read/line_amounts.h"

#include <string.h>

#include "base/list.h"
#include "read/number.h"
#include "read/phrase.h"

static struct slice
upto(const struct line_reader *r, size_t end)
{
    return (struct slice){r->clean->bytes, end};
}

static void
add(struct line_reader *r, struct amount_list *out, struct amount amount)
{
    r->last_from = amount.from;
    r->last_to = amount.to;
    line_origin(r->clean, amount.from, amount.to, &amount.from, &amount.to);
    *LIST_GROW(r->arena, out) = amount;
}

/* units that say how a food is sold; a weight beside one is that of each */
static bool
is_container(const struct line_reader *r, const struct unit *unit)
{
    return unit != NULL && word_lists_have(r->lexicon->lists, WORDS_CONTAINERS, slice_of(unit->id));
}

static bool
is_measured(const struct amount *amount)
{
    return amount->unit != NULL &&
           (amount->unit->kind == UNIT_WEIGHT || amount->unit->kind == UNIT_VOLUME);
}

static double
total(const struct amount *amount)
{
    return amount->value.mid * amount->unit->size.mid;
}

/* whether a second measure right behind the first adds to it ("1 lb 4 oz") or says it again ("1 cup
 * 240 ml"): it adds when it is less than one of the first's unit and not about the same */
static bool
adds_to(const struct amount *first, const struct amount *second)
{
    if (!is_measured(first) || !is_measured(second) || first->unit->kind != second->unit->kind)
        return false;
    double ratio = total(second) / total(first);
    return total(second) < first->unit->size.mid && (ratio < 0.8 || ratio > 1.25);
}

/* "each" behind an amount: the number of pieces is what came before it */
static void
of_each(const struct line_reader *r, struct amount_list *out, size_t first)
{
    for (size_t i = first; i < out->count && first > 0; i++) {
        if (out->items[i].each)
            continue;
        out->items[i].each = true;
        out->items[i].times = out->items[first - 1].value;
        if (is_container(r, out->items[first - 1].unit))
            out->items[first - 1].container = true;
    }
}

/* bytes of a sign or word that joins two amounts, with the spaces about it; 0 when there is none */
static size_t
joint_at(struct slice s, size_t at, bool *plus, bool *weak)
{
    static const struct {
        const char *mark;
        bool plus, weak; /* weak: only before a weight or volume */
    } joints[] = {
        {"+", true, false},  {"minus", true, false}, {"less", true, false}, {"plus", true, false},
        {"and", true, true}, {"&", true, true},      {"/", false, false},   {"=", false, false},
        {"|", false, false}, {"or", false, false},   {",", false, true},    {";", false, true},
        {"–", false, true},  {"— ", false, true},    {"- ", false, true},
    };
    size_t from = phrase_skip(s, at);
    for (size_t i = 0; i < sizeof joints / sizeof *joints; i++) {
        if (!phrase_stands_at(s, from, joints[i].mark))
            continue;
        *plus = joints[i].plus;
        *weak = joints[i].weak;
        return phrase_skip(s, from + strlen(joints[i].mark)) - at;
    }
    return 0;
}

/* a further amount behind a joint: bytes, 0 when it is none */
static size_t
joined(struct line_reader *r, size_t at, size_t end, struct amount_list *out)
{
    bool plus, weak;
    struct amount amount;
    const struct amount *last = &out->items[out->count - 1];
    size_t gap = joint_at(upto(r, end), at, &plus, &weak);
    size_t n = gap > 0 ? amount_read(upto(r, end), at + gap, r->lexicon, &amount) : 0;
    if (n == 0 || (weak && !is_measured(&amount)) ||
        (amount.unit == NULL && (amount.size == SIZE_NONE || plus)))
        return 0;
    if (weak && plus && !(is_measured(last) && last->unit->kind == amount.unit->kind))
        return 0;
    amount.plus = plus;
    if (last->each && !plus && !amount.each) { /* "2 x 400 g/14 oz tins" */
        amount.each = true;
        amount.times = last->times;
    }
    size_t sign = phrase_skip(upto(r, end), at);
    if (phrase_stands_at(upto(r, end), sign, "minus") ||
        phrase_stands_at(upto(r, end), sign, "less"))
        amount.value = span_make(-amount.value.high, -amount.value.mid, -amount.value.low);
    add(r, out, amount);
    return gap + n;
}

/* a further amount right behind: "1 lb 4 oz" */
static size_t
beside(struct line_reader *r, size_t at, size_t end, struct amount_list *out)
{
    size_t from = phrase_skip(upto(r, end), at);
    if (from >= end || out->items[out->count - 1].unit == NULL ||
        !((r->clean->bytes[from] >= '0' && r->clean->bytes[from] <= '9') ||
          (unsigned char)r->clean->bytes[from] >= 0x80))
        return 0;
    struct amount amount;
    size_t n = amount_read(upto(r, end), from, r->lexicon, &amount);
    if (n == 0 || !is_measured(&amount))
        return 0;
    amount.plus = adds_to(&out->items[out->count - 1], &amount);
    add(r, out, amount);
    return from + n - at;
}

/* "200 g cake flour", "300 g bottle gourd": the word is of the food's name */
static bool
begins_name(const struct line_reader *r, const struct unit *unit, size_t from, size_t end)
{
    struct slice s = upto(r, end), name = slice_part(s, from, end);
    for (size_t i = 0; i < name.length; i++)
        if (strchr(",;([", name.at[i]) != NULL)
            name.length = i;
    const size_t word = slice_find_byte(name, ' ', 0);
    if (word == SIZE_MAX || !r->lexicon->food(r->lexicon->ctx, slice_trim(name)))
        return false;
    struct slice rest = slice_trim(slice_part(name, word, name.length));
    if (r->lexicon->exactly != NULL && r->lexicon->exactly(r->lexicon->ctx, slice_trim(name)))
        return true;
    return strcmp(unit->id, "cake") == 0 || !r->lexicon->food(r->lexicon->ctx, rest);
}

/* the tin of "400 g tin", also of "tin/can", the piece of "1.5 kg piece of brisket": bytes, 0 when
 * there is none */
static size_t
container(struct line_reader *r, size_t at, size_t end, struct amount_list *out)
{
    const struct amount *last = &out->items[out->count - 1];
    size_t from = phrase_skip(upto(r, end), at);
    const struct unit *unit;
    if (from < end && from == at && r->clean->bytes[from] == '-')
        from++;
    size_t n = from < end ? amount_unit(upto(r, end), from, r->lexicon, &unit) : 0;
    bool piece = n > 0 && strcmp(unit->id, "piece") == 0 && !last->each;
    if (n == 0 || !(piece || is_container(r, unit)) || !is_measured(last) || last->plus ||
        begins_name(r, unit, from, end))
        return 0;
    struct amount amount = {.unit = unit, .container = true, .from = from, .to = from + n};
    amount.times = span_exact(1);
    amount.value = last->each ? last->times : span_exact(1);
    add(r, out, amount);
    return from + n - at;
}

/* "tin/can": another word for the unit just read */
static size_t
same_unit(struct line_reader *r, size_t at, size_t end, const struct amount *last)
{
    const struct unit *unit;
    if (at >= end || r->clean->bytes[at] != '/' || last->unit == NULL)
        return 0;
    size_t n = amount_unit(upto(r, end), at + 1, r->lexicon, &unit);
    return n > 0 && unit == last->unit ? n + 1 : 0;
}

/* a word behind the amount that is of it: "packed", "each"; bytes or 0 */
static size_t
trailer(struct line_reader *r, size_t at, size_t end, struct amount_list *out, size_t first)
{
    struct slice s = upto(r, end);
    size_t from = phrase_skip(s, at);
    struct amount *last = &out->items[out->count - 1];
    enum fill fill;
    if (from == at && from < end && s.at[from] != '(')
        return 0;
    const bool filled = last->unit != NULL && last->unit->kind != UNIT_WEIGHT;
    size_t n =
        filled ? amount_fill(r->lexicon->lists, s, from, &fill) : 0; /* "20 g flat mushrooms" */
    if (n > 0) {
        if (fill != FILL_NONE)
            last->fill = fill;
        return from + n - at;
    }
    if (phrase_stands_at(s, from, "or so"))
        return from + strlen("or so") - at;
    if (phrase_stands_at(s, from, "each")) {
        r->each_said = true;
        of_each(r, out, out->count > 1 && first < out->count - 1 ? out->count - 1 : first);
        return from + strlen("each") - at;
    }
    return 0;
}

size_t
line_bracket_end(const struct clean_line *line, size_t at, size_t end)
{
    char open = line->bytes[at], close = open == '(' ? ')' : ']';
    int depth = 0;
    for (size_t i = at; i < end; i++) {
        depth += (line->bytes[i] == open) - (line->bytes[i] == close);
        if (depth == 0)
            return i + 1;
    }
    return end;
}

static bool
says_total(struct slice words)
{
    return slice_find(words, "total", 0) != SIZE_MAX ||
           slice_find(words, "altogether", 0) != SIZE_MAX;
}

/* "½ block firm tofu (150 g)" says what goes in; a weight of a whole tin is that of the tin */
static bool
is_part(const struct amount *container, const struct amount *weight)
{
    const double whole_tin = 300; /* g or mL; common practice, no source */
    const char *id = container->unit->id;
    bool tin = strcmp(id, "can") == 0 || strcmp(id, "jar") == 0 || strcmp(id, "bottle") == 0;
    return container->value.mid < 1 && !(tin && total(weight) >= whole_tin);
}

bool
line_measure(struct line_reader *r, size_t from, size_t to, struct amount_list *out)
{
    struct amount_list found = {0};
    size_t saved_from = r->last_from, saved_to = r->last_to;
    size_t behind = line_amounts(r, from, to, &found);
    r->last_from = saved_from;
    r->last_to = saved_to;
    struct slice rest = slice_part(upto(r, to), behind, to),
                 all = slice_part(upto(r, to), from, to);
    const struct amount *head = found.items;
    if (found.count == 0 ||
        (slice_trim(rest).length > 0 &&
         !phrase_is(r->lexicon->lists, WORDS_IDLE_BESIDE_AMOUNTS, rest)) ||
        (head->unit == NULL && head->size == SIZE_NONE))
        return false;
    size_t first = out->count;
    for (size_t i = 0; i < found.count; i++)
        *LIST_GROW(r->arena, out) = found.items[i];
    struct amount *before = first > 0 ? &out->items[first - 1] : NULL;
    bool pieces =
        before != NULL && is_container(r, before->unit) && is_measured(head) && !head->each;
    if (pieces)
        before->container = true;
    if ((pieces && !says_total(all) && !is_part(before, head)) ||
        slice_find(all, "each", 0) != SIZE_MAX)
        of_each(r, out, first);
    return true;
}

size_t
line_bracket(struct line_reader *r, size_t at, size_t end, struct amount_list *out)
{
    size_t close = line_bracket_end(r->clean, at, end), inner = close;
    if (close > at + 1 && strchr(")]", r->clean->bytes[close - 1]) != NULL)
        inner--;
    enum fill fill;
    size_t from = phrase_skip(upto(r, inner), at + 1),
           n = amount_fill(r->lexicon->lists, upto(r, inner), from, &fill);
    if (n > 0 && from + n == inner && out->count > 0) { /* "(packed)" */
        out->items[out->count - 1].fill = fill;
        return close - at;
    }
    return line_measure(r, from, inner, out) ? close - at : 0;
}

/* the word behind a length in brackets: "1 (2-inch) piece" */
static size_t
piece_of_length(const struct line_reader *r, struct slice s, size_t at, const struct unit *unit)
{
    if (unit == NULL || (strcmp(unit->id, "cm") != 0 && strcmp(unit->id, "inch") != 0))
        return 0;
    const size_t n = phrase_at(r->lexicon->lists, WORDS_PIECES_OF_LENGTH, s, at, NULL);
    return n > 0 ? phrase_skip(s, at + n) - at : 0;
}

size_t
line_amounts(struct line_reader *r, size_t at, size_t end, struct amount_list *out)
{
    struct amount amount;
    size_t first = out->count, n = amount_read(upto(r, end), at, r->lexicon, &amount);
    if (n == 0)
        return at;
    add(r, out, amount);
    for (at += n; n > 0; at += n) {
        size_t next = phrase_skip(upto(r, end), at);
        n = trailer(r, at, end, out, first);
        if (n == 0 && next < end && strchr("([", r->clean->bytes[next]) != NULL) {
            n = line_bracket(r, next, end, out);
            n += n > 0 ? next - at : 0;
        }
        if (n == 0)
            n = same_unit(r, at, end, &out->items[out->count - 1]);
        if (n == 0)
            n = joined(r, at, end, out);
        if (n == 0)
            n = beside(r, at, end, out);
        if (n == 0)
            n = container(r, at, end, out);
    }
    at = phrase_skip(upto(r, end), at);
    at += piece_of_length(r, upto(r, end), at, out->items[out->count - 1].unit);
    if (phrase_stands_at(upto(r, end), at, "of"))
        at = phrase_skip(upto(r, end), at + strlen("of"));
    if (phrase_stands_at(upto(r, end), at, "each") && (r->each_said = true))
        at = phrase_skip(upto(r, end), at + strlen("each"));
    return at;
}
