#include "tables/food_index.h"

#include <string.h>

#include "tables/food_head.h"
#include "tables/food_stems.h"
#include "tables/food_words.h"

static void
index_name(struct larder *l, struct arena *scratch, struct food_name *name)
{
    struct food_word words[FOOD_WORDS_MOST];
    struct slice stems[FOOD_WORDS_MOST];
    size_t count = 0, all = food_words_split(scratch, l->words, slice_of(name->text), words);
    for (size_t i = 0; i < all; i++)
        if (words[i].part != WORD_GLUE)
            stems[count++] = words[i].stem;
    if (count == 0)
        return;
    const struct slice head = food_head(words, all);
    name->head = (struct slice){larder_text(l, head), head.length};
    const struct slice order = food_stems_spaced(scratch, stems, count);
    name->order = (struct slice){larder_text(l, order), order.length};
    for (size_t i = 0; i < count; i++)
        if (map_get(&l->stems, stems[i]) == NULL)
            map_put(&l->stems, (struct slice){larder_text(l, stems[i]), stems[i].length}, name);
    struct slice joined = food_stems_joined(scratch, stems, count);
    struct slice key = food_stems_key(scratch, stems, count);
    struct food_name *first = map_get(&l->names, key);
    if (first == NULL && count > 1 && map_get(&l->joined, joined) == NULL)
        map_put(&l->joined, (struct slice){larder_text(l, joined), joined.length}, name);
    for (struct food_name *n = first; n != NULL; n = n->next)
        if (n->row == name->row && slice_equal(n->order, name->order) && n->scope == name->scope &&
            n->by == name->by && slice_equal(slice_of(n->region), slice_of(name->region)))
            return;
    name->next = NULL;
    if (first == NULL) {
        map_put(&l->names, (struct slice){larder_text(l, key), key.length}, name);
        return;
    }
    while (first->next != NULL)
        first = first->next;
    first->next = name;
}

static struct stems
stems_of(struct larder *l, struct arena *scratch, const char *text)
{
    struct food_word words[FOOD_WORDS_MOST];
    struct stems out = {NULL, food_words_split(scratch, l->words, slice_of(text), words)};
    out.items = arena_take_array(l->arena, out.count, sizeof *out.items);
    for (size_t i = 0; i < out.count; i++)
        out.items[i] = (struct slice){larder_text(l, words[i].stem), words[i].stem.length};
    return out;
}

/* splits what chooses a form, so that no search has to */
static void
build_form(struct larder *l, struct arena *scratch, struct form *form)
{
    size_t count = 1;
    for (const char **w = form->words; *w != NULL; w++)
        count++;
    form->chosen_by = arena_take_array(l->arena, count, sizeof *form->chosen_by);
    form->chosen_by[form->chosen_by_count++] = stems_of(l, scratch, form->name);
    for (const char **w = form->words; *w != NULL; w++)
        form->chosen_by[form->chosen_by_count++] = stems_of(l, scratch, *w);
}

void
food_index_build(struct larder *l)
{
    struct arena *words = arena_open((size_t)1 << 16);
    if (words == NULL)
        longjmp(*arena_guard(l->arena), 1);
    memcpy(*arena_guard(words), *arena_guard(l->arena), sizeof(jmp_buf));
    l->names = map_new(l->scratch);
    l->joined = map_new(l->scratch);
    l->stems = map_new(l->scratch);
    for (size_t i = 0; i < l->count; i++) {
        struct food_row *row = l->items[i];
        for (size_t k = 0; k < row->food.form_count; k++)
            build_form(l, words, &row->food.forms[k]);
        for (size_t k = 0; k < row->name_count; k++) {
            index_name(l, words, &row->names[k]);
            arena_reset(words);
        }
    }
    arena_close(words);
    l->names = map_compact(l->arena, &l->names);
    l->joined = map_compact(l->arena, &l->joined);
    l->stems = map_compact(l->arena, &l->stems);
}
