#include "reckon/line_memo.h"

#include <stdlib.h>

#include "reckon/dish.h"

enum { HELD_MOST = 4 << 20, BLOCK = 64 << 10 };

/* one line as one region reads it */
struct known_line {
    bool told; /* it raises notices, which have places: it is read each time */
    struct ingredient ingredient;
    const struct entry **reads; /* in the order in which they were noted */
    size_t read_count;
};

struct line_memo {
    struct arena *arena;
    struct phrasebook *book; /* NULL: none */
    const struct tables *tables;
    struct map lines[REGIONS_MOST]; /* text -> known_line */
    struct reads reads;             /* of the line that is learnt */
};

static void
forget(struct line_memo *m)
{
    arena_reset(m->arena);
    for (size_t i = 0; i < REGIONS_MOST; i++)
        m->lines[i] = map_new(m->arena);
    m->reads = reads_apart(m->arena, m->arena);
}

struct line_memo *
line_memo_open(void)
{
    struct line_memo *m = calloc(1, sizeof *m);
    if (m == NULL)
        return NULL;
    m->arena = arena_open(BLOCK);
    if (m->arena == NULL) {
        free(m);
        return NULL;
    }
    m->book = phrasebook_open();
    forget(m);
    return m;
}

void
line_memo_close(struct line_memo *m)
{
    if (m == NULL)
        return;
    phrasebook_close(m->book);
    arena_close(m->arena);
    free(m);
}

struct phrasebook *
line_memo_book(const struct line_memo *m)
{
    return m != NULL ? m->book : NULL;
}

void
line_memo_begin(struct line_memo *m)
{
    if (m != NULL && arena_size(m->arena) > HELD_MOST)
        forget(m);
}

static void
learn(struct line_memo *m, struct arena *a, const struct yaml_node *node, int region,
      struct known_line **out)
{
    struct known_line *known = arena_take(m->arena, sizeof *known);
    reads_forget(&m->reads);
    struct notices notices = {.arena = a};
    struct lexicon lexicon = tables_lexicon(m->tables, m->arena, region, &m->reads);
    const struct slice text = slice_copy(m->arena, node->text);
    struct ingredient_line line;
    ingredient_line_read(m->arena, text, node, &lexicon, &notices, &line);
    dish_lay_line(m->arena, &line, region, m->tables, &m->reads, &notices, &known->ingredient);
    known->told = notices.count > 0;
    known->ingredient.line.node = NULL; /* it dies with its post */
    known->read_count = m->reads.count;
    known->reads = arena_take_array(m->arena, known->read_count + 1, sizeof *known->reads);
    for (size_t i = 0; i < known->read_count; i++)
        known->reads[i] = m->reads.items[i];
    map_put(&m->lines[region], text, known);
    *out = known;
}

/* a function of its own, so that nothing is kept in registers where the guard returns to */
static bool
learn_guarded(struct line_memo *m, struct arena *a, const struct yaml_node *node, int region,
              struct known_line **out)
{
    if (setjmp(*arena_guard(m->arena)) != 0) {
        m->reads = reads_apart(m->arena, m->arena); /* what it held may be half noted */
        return false;
    }
    learn(m, a, node, region, out);
    return true;
}

/* marks a line's words with what the book has learnt since */
static void
mark_again(struct line_memo *m, struct words *words)
{
    if (setjmp(*arena_guard(m->arena)) == 0)
        phrasebook_mark(m->book, m->arena, words);
}

bool
line_memo_lay(struct line_memo *m, struct arena *a, const struct yaml_node *node, int region,
              const struct tables *tables, struct reads *reads, struct ingredient *out)
{
    if (m->tables != tables) {
        forget(m);
        phrasebook_forget(m->book);
        m->tables = tables;
    }
    struct known_line *known = map_get(&m->lines[region], node->text);
    if (known == NULL && !learn_guarded(m, a, node, region, &known))
        return false;
    if (known->told)
        return false;
    if (phrasebook_news(m->book, known->ingredient.words))
        mark_again(m, known->ingredient.words);
    *out = known->ingredient;
    out->line.node = node;
    for (size_t i = 0; i < known->read_count; i++)
        reads_note(reads, known->reads[i]);
    return true;
}
