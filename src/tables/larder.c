#include "tables/larder.h"

#include <string.h>

#include "tables/food_index.h"
#include "tables/food_kin.h"
#include "tables/food_recipe.h"
#include "tables/food_rows.h"
#include "tables/larder_rows.h"

size_t
larder_count(const struct larder *l)
{
    return l->count;
}

const struct food *
larder_food(const struct larder *l, size_t i)
{
    return &l->items[i]->food;
}

const struct food *
larder_by_id(const struct larder *l, struct slice id)
{
    const struct food_row *row = map_get(&l->by_id, id);
    return row != NULL ? &row->food : NULL;
}

struct larder *
larder_open(struct arena *a, const struct measures *measures, const struct word_lists *words)
{
    struct larder *l = arena_take(a, sizeof *l);
    l->arena = a;
    l->measures = measures;
    l->words = words;
    l->scratch = arena_open((size_t)1 << 18);
    if (l->scratch == NULL)
        longjmp(*arena_guard(a), 1);
    /* memory that runs out in it leaves by the same door */
    memcpy(*arena_guard(l->scratch), *arena_guard(a), sizeof(jmp_buf));
    l->texts = map_new(l->scratch);
    l->by_id = map_new(l->scratch);
    return l;
}

const char *
larder_text(struct larder *l, struct slice text)
{
    char *kept = map_get(&l->texts, text);
    if (kept == NULL) {
        kept = slice_string(l->arena, text);
        map_put(&l->texts, (struct slice){kept, text.length}, kept);
    }
    return kept;
}

void
larder_add(struct larder *l, const struct yaml_node *root, struct notices *notices)
{
    food_rows_take(l, root, notices);
}

void
larder_close(struct larder *l)
{
    food_kin_fit(l);
    food_recipe_settle(l);
    food_index_build(l);
    l->by_id = map_compact(l->arena, &l->by_id);
    arena_close(l->scratch);
    l->scratch = NULL;
    l->texts = map_new(NULL);
}

static uint64_t
ask_food(const struct food *f, struct slice part)
{
    enum group g;
    if (part.length == 0)
        return f->identity.digest;
    if (slice_is(part, "nutrients"))
        return f->nutrients_entry.digest;
    if (slice_is(part, "serve"))
        return f->serve_entry.digest;
    if (groups_read(part, &g))
        return f->contents_entry[g].digest;
    for (size_t i = 0; i < f->form_count; i++)
        if (slice_is(part, f->forms[i].name))
            return f->forms[i].entry.digest;
    return 0;
}

uint64_t
larder_ask(const struct larder *l, struct slice key)
{
    if (slice_begins(key, "kin:"))
        return food_kin_ask(l, key);
    if (!slice_begins(key, "food:"))
        return 0;
    struct slice id = slice_part(key, 5, key.length), part = {"", 0};
    size_t slash = slice_find_byte(id, '/', 0);
    if (slash != SIZE_MAX) {
        part = slice_part(id, slash + 1, id.length);
        id = slice_part(id, 0, slash);
    }
    const struct food *f = larder_by_id(l, id);
    return f != NULL ? ask_food(f, part) : 0;
}

/* "uk", "spoon" or "" behind a name for `dariole larder` */
static const char *
scope_word(const struct food_name *n)
{
    static const char *const by_words[] = {"", "spoon", "cup", "weight", "piece", "bunch"};
    if (n->scope == NAME_REGION)
        return n->region;
    return n->scope == NAME_MEASURED ? by_words[n->by] : "";
}

const char **
larder_names_of(const struct larder *l, struct arena *a, const struct food *f)
{
    const struct food_row *row = map_get(&l->by_id, slice_of(f->id));
    const char **names = arena_take_array(a, row->name_count + 1, sizeof *names);
    size_t count = 0;
    for (size_t i = 0; i < row->name_count; i++) {
        const struct food_name *n = &row->names[i];
        const char *scope = scope_word(n);
        if (n->scope == NAME_ID || n->scope == NAME_OWN)
            continue;
        names[count++] = scope[0] != '\0' ? text_format(a, "%s (%s)", n->text, scope) : n->text;
    }
    return names;
}
