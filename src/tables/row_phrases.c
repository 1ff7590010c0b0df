#include "tables/row_phrases.h"

#include "base/list.h"
#include "base/text.h"

enum { PHRASES_MOST = 500 }; /* that one text stands for */

struct phrases {
    const char **items;
    size_t count, room;
};

/* with one space where an empty choice left two, and none at the ends */
static const char *
squeeze(struct arena *a, struct slice phrase)
{
    struct text t = text_new(a);
    phrase = slice_trim(phrase);
    for (size_t i = 0; i < phrase.length; i++)
        if (phrase.at[i] != ' ' || phrase.at[i + 1] != ' ')
            text_add_byte(&t, phrase.at[i]);
    return slice_string(a, text_slice(&t));
}

/* puts in all that a phrase stands for; false: a brace is not closed, or there are too many */
static bool
expand(struct arena *a, struct slice phrase, struct phrases *out, size_t most)
{
    const size_t open = slice_find_byte(phrase, '{', 0);
    if (open == SIZE_MAX) {
        if (out->count < most)
            *LIST_GROW(a, out) = squeeze(a, phrase);
        return out->count < most;
    }
    const size_t close = slice_find_byte(phrase, '}', open);
    for (size_t at = open + 1; close != SIZE_MAX && at <= close;) {
        size_t end = slice_find_byte(phrase, ',', at);
        end = end < close ? end : close;
        struct text t = text_new(a);
        text_addf(&t, "%.*s%.*s%.*s", SLICE_ARGS(slice_part(phrase, 0, open)),
                  SLICE_ARGS(slice_part(phrase, at, end)),
                  SLICE_ARGS(slice_part(phrase, close + 1, phrase.length)));
        if (!expand(a, text_slice(&t), out, most))
            return false;
        at = end + 1;
    }
    return close != SIZE_MAX;
}

const char **
row_phrases(struct row *row, const struct yaml_node *node, const char *part)
{
    const bool list = node->kind == YAML_LIST_NODE;
    struct phrases all = {0};
    for (size_t i = 0; i < (list ? node->count : 1); i++) {
        const struct yaml_node *one = list ? node->items[i] : node;
        if (row_text(row, one, part) &&
            !expand(row->texts, one->text, &all, all.count + PHRASES_MOST))
            row_wrong(row, one, "Close it, or write phrases of their own.",
                      "a phrase of %s has a brace that is not closed, or stands for more than %d",
                      part, PHRASES_MOST);
    }
    *LIST_GROW(row->texts, &all) = NULL;
    return all.items;
}
