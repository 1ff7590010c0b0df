#include "tables/row.h"

#include <stdarg.h>
#include <string.h>

#include "read/iso_date.h"
#include "read/nearest.h"
#include "read/yaml_value.h"

enum { SAID_MOST = 40, LISTED_MOST = 25, CONTAINED_LEAST = 3 };

static bool
say(struct row *row, const struct yaml_node *node, struct slice more, struct slice mend)
{
    struct text t = text_new(row->arena);
    text_add(&t, mend);
    if (row->until != NULL)
        text_addf(&t, " %s", row->until);
    notice_add_mended(row->notices, RULE_TABLE_ROW_WRONG, node->place,
                      slice_copy(row->arena, row->entry), more, text_slice(&t));
    row->wrong = true;
    return false;
}

bool
row_wrong(struct row *row, const struct yaml_node *node, const char *mend, const char *format, ...)
{
    struct text t = text_new(row->arena);
    va_list args;
    va_start(args, format);
    text_addfv(&t, format, args);
    va_end(args);
    return say(row, node, text_slice(&t), slice_of(mend));
}

/* whole characters of a text that fit a message */
static struct slice
beginning(struct slice s)
{
    size_t end = s.length;
    if (end > SAID_MOST)
        for (end = SAID_MOST; end > 0 && ((unsigned char)s.at[end] & 0xc0) == 0x80;)
            end--;
    return slice_part(s, 0, end);
}

const char *
row_said(struct arena *a, const struct yaml_node *node)
{
    if (node->kind != YAML_SCALAR_NODE)
        return node->kind == YAML_LIST_NODE ? "a list" : "a mapping";
    if (node->text.length == 0)
        return "nothing";
    struct slice s = beginning(node->text);
    return text_format(a, "“%.*s%s”", SLICE_ARGS(s), s.length < node->text.length ? " ..." : "");
}

bool
row_wants(struct row *row, const struct yaml_node *node, const char *part, const char *wanted,
          const char *example)
{
    return row_wrong(row, node, text_format(row->arena, "Write %s.", example),
                     "%s is %s; %s is wanted", part, row_said(row->arena, node), wanted);
}

int
row_word(struct slice word, const char *const *known)
{
    for (int i = 0; known[i] != NULL; i++)
        if (slice_is(word, known[i]))
            return i;
    return -1;
}

const char **
row_words(struct arena *a, const char *(*name)(int), int count)
{
    const char **words = arena_take_array(a, (size_t)count + 1, sizeof *words);
    for (int i = 0; i < count; i++)
        words[i] = name(i);
    return words;
}

/* what other tables call it */
static const char *
habit_word(struct slice word, const char *const *known)
{
    static const char *const habits[][2] = {
        {"gos", "galacto-oligosaccharide"},
        {"fos", "fructan"},
        {"soya", "soybeans"},
        {"dairy", "milk"},
        {"tree-nuts", "nuts"},
        {"fiber", "fibre"},
        {"shellfish", "crustaceans"},
        {"kcal", "energy-kcal"},
        {"aus", "au"},
        {"gb", "uk"},
    };
    for (size_t i = 0; i < sizeof habits / sizeof *habits; i++)
        if (slice_is_anycase(word, habits[i][0]) && row_word(slice_of(habits[i][1]), known) >= 0)
            return habits[i][1];
    return NULL;
}

/* The known word that was meant: by habit, by its letters, or the only one that holds it:
 * "fructose" in "excess-fructose". More than a third of the letters are no slip. */
static const char *
near_word(struct arena *a, struct slice word, const char *const *known)
{
    const char *near = habit_word(word, known);
    if (near == NULL && (near = nearest_word(word, known)) != NULL &&
        3 * nearest_distance(word, slice_of(near), word.length) > word.length)
        near = NULL;
    if (near != NULL || word.length < CONTAINED_LEAST)
        return near;
    const char *sought = slice_string(a, word);
    for (size_t i = 0; known[i] != NULL; i++)
        if (strstr(known[i], sought) != NULL) {
            if (near != NULL)
                return NULL;
            near = known[i];
        }
    return near;
}

/* the sentence that asks after a near word, and the mend that writes it */
static void
add_near(struct text *more, struct text *mend, const char *near, const char *or_else)
{
    if (near == NULL)
        return;
    text_addf(more, "; did you mean “%s”?", near);
    text_addf(mend, "Write %s%s.", near, or_else);
}

static void
list_words(struct text *t, const char *before, const char *const *known)
{
    size_t count = 0;
    text_add_string(t, before);
    while (known[count] != NULL)
        count++;
    for (size_t i = 0; i < count && i < LISTED_MOST; i++)
        text_addf(t, "%s%s", i == 0 ? "" : i + 1 == count ? " or " : ", ", known[i]);
    if (count > LISTED_MOST)
        text_addf(t, " and %zu more", count - LISTED_MOST);
    text_add_byte(t, '.');
}

bool
row_word_unknown(struct row *row, const struct yaml_node *node, const char *part, const char *kind,
                 const char *const *known)
{
    struct text more = text_new(row->arena), mend = text_new(row->arena);
    bool is_word = node->kind == YAML_SCALAR_NODE && node->text.length > 0;
    const char *near = is_word ? near_word(row->arena, node->text, known) : NULL;
    if (is_word)
        text_addf(&more, "%s has %s, which is no %s", part, row_said(row->arena, node), kind);
    else
        text_addf(&more, "%s has %s where a %s is wanted", part, row_said(row->arena, node), kind);
    add_near(&more, &mend, near, "");
    if (near == NULL)
        list_words(&mend, "Write ", known);
    return say(row, node, text_slice(&more), text_slice(&mend));
}

bool
row_key_unknown(struct row *row, const struct yaml_node *key, const char *of,
                const char *const *known)
{
    struct text more = text_new(row->arena), mend = text_new(row->arena);
    const char *near = near_word(row->arena, key->text, known);
    text_addf(&more, "there is no key %s in %s", row_said(row->arena, key), of);
    add_near(&more, &mend, near, ":, or take the key out");
    if (near == NULL)
        list_words(&mend, "Take it out. The keys are ", known);
    return say(row, key, text_slice(&more), text_slice(&mend));
}

bool
row_text(struct row *row, const struct yaml_node *node, const char *part)
{
    return (node->kind == YAML_SCALAR_NODE && node->text.length > 0) ||
           row_wants(row, node, part, "a text", "a few words, in quotes where they hold a colon");
}

bool
row_map(struct row *row, const struct yaml_node *node, const char *part, const char *example)
{
    return node->kind == YAML_MAP_NODE ||
           (node->kind == YAML_SCALAR_NODE && !node->quoted && node->text.length == 0) ||
           row_wants(row, node, part, "a mapping", example);
}

bool
row_truth(struct row *row, const struct yaml_node *node, const char *part, bool *out)
{
    if (yaml_truth(node, out))
        return true;
    return row_wants(row, node, part, "yes or no",
                     node->quoted ? "it without quotes" : "yes or no, without quotes");
}

/* a number as other places write it: "0,5", "'0.5'", "5 g" */
static bool
meant_number(struct arena *a, const struct yaml_node *node, double *out)
{
    if (node->kind != YAML_SCALAR_NODE)
        return false;
    struct yaml_node plain = *node;
    char *text = slice_string(a, slice_trim(node->text));
    text[strspn(text, "+-.,0123456789")] = '\0';
    char *comma = strchr(text, ',');
    /* 1,000 may be one or a thousand */
    if (comma != NULL && strchr(text, '.') == NULL && strlen(comma) != 4)
        *comma = '.';
    plain.text = slice_of(text);
    plain.quoted = false;
    return yaml_number(&plain, out);
}

bool
row_number(struct row *row, const struct yaml_node *node, const char *part, double least,
           double most, double *out)
{
    double number, meant;
    if (!yaml_number(node, &number)) {
        struct text mend = text_new(row->arena);
        text_add_string(&mend, "Write the number alone, with a point and without quotes or unit");
        if (meant_number(row->arena, node, &meant)) {
            text_add_string(&mend, ": ");
            text_add_number(&mend, meant, 9);
        }
        return row_wrong(row, node, text_format(row->arena, "%s.", mend.bytes),
                         "%s is %s%s; a number is wanted", part, row_said(row->arena, node),
                         node->quoted && meant_number(row->arena, node, &meant) ? " in quotes"
                                                                                : "");
    }
    if (number < least || number > most) {
        struct text mend = text_new(row->arena);
        text_add_string(&mend, "Write a number from ");
        text_add_number(&mend, least, 9);
        text_add_string(&mend, " to ");
        text_add_number(&mend, most, 9);
        return row_wrong(row, node, text_format(row->arena, "%s.", mend.bytes),
                         "%s is %s, which is too %s", part, row_said(row->arena, node),
                         number < least ? "small" : "large");
    }
    *out = number;
    return true;
}

bool
row_date(struct row *row, const struct yaml_node *node)
{
    return (node->kind == YAML_SCALAR_NODE && node->text.length == 10 &&
            iso_date_valid(node->text)) ||
           row_wants(row, node, "changed", "a date", "the day of the change as YYYY-MM-DD");
}
