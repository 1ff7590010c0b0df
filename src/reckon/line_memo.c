#include "reckon/line_memo.h"

enum { HELD_MOST = 8 << 20, BLOCK = 64 << 10 };

/* what something depended on, in the order in which it was noted */
struct noted {
    const struct entry **items;
    uint32_t *numbers; /* theirs: most were noted before, and need not be looked at */
    size_t count;
};

/* one line as one region reads it */
struct known_line {
    bool told; /* it raises notices, which have places: it is read each time */
    struct ingredient ingredient;
    struct noted noted;
};

struct kept_household {
    struct household said;
    struct noted noted;
};

/* a helping in the words of each region's kitchens, each made when it is first asked for */
struct kept_words {
    struct line_memo *memo;
    int region;                                   /* of the line */
    struct kept_household *said[REGIONS_MOST][2]; /* to the nearest, rounded down */
};

struct line_memo {
    struct arena *arena;     /* first: it owns it */
    struct phrasebook *book; /* NULL: none */
    const struct tables *tables;
    struct map lines[REGIONS_MOST]; /* text -> known_line */
    struct reads reads;             /* of what is learnt */
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
    struct line_memo *m = arena_owner_open(sizeof *m, BLOCK);
    if (m == NULL)
        return NULL;
    m->book = phrasebook_open();
    forget(m);
    return m;
}

void
line_memo_close(struct line_memo *m)
{
    if (m != NULL)
        phrasebook_close(m->book);
    arena_owner_close(m);
}

struct phrasebook *
line_memo_book(const struct line_memo *m)
{
    return m != NULL ? m->book : NULL;
}

void
line_memo_begin(struct line_memo *m, const struct tables *tables)
{
    if (m == NULL)
        return;
    if (m->tables != tables || arena_size(m->arena) > HELD_MOST)
        forget(m);
    if (m->tables != tables)
        phrasebook_forget(m->book);
    m->tables = tables;
}

static struct noted
keep_noted(struct line_memo *m)
{
    const size_t count = m->reads.count;
    struct noted noted = {arena_take_array(m->arena, count + 1, sizeof *noted.items),
                          arena_take_array(m->arena, count + 1, sizeof *noted.numbers), count};
    for (size_t i = 0; i < count; i++) {
        noted.items[i] = m->reads.items[i];
        noted.numbers[i] = m->reads.items[i]->number;
    }
    return noted;
}

static void
note_again(const struct noted *noted, struct reads *reads)
{
    for (size_t i = 0; reads != NULL && i < noted->count; i++)
        if (!reads_have(reads, noted->numbers[i]))
            reads_note_new(reads, noted->items[i]);
}

/* room for what will be written of each helping */
static void
keep_words(struct line_memo *m, int region, struct ingredient *in)
{
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            struct kept_words *kept = arena_take(m->arena, sizeof *kept);
            kept->memo = m;
            kept->region = region;
            in->options[o].helpings[k].kept = kept;
        }
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
    known->noted = keep_noted(m);
    keep_words(m, region, &known->ingredient);
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
    if (m->tables != tables)
        return false;
    struct known_line *known = map_get(&m->lines[region], node->text);
    if (known == NULL && !learn_guarded(m, a, node, region, &known))
        return false;
    if (known->told)
        return false;
    if (phrasebook_news(m->book, known->ingredient.words))
        mark_again(m, known->ingredient.words);
    *out = known->ingredient;
    out->line.node = node;
    note_again(&known->noted, reads);
    return true;
}

static void
write_anew(const struct helping *h, int region, const struct tables *t, bool round_down,
           struct kept_household **out)
{
    struct line_memo *m = h->kept->memo;
    struct kept_household *said = arena_take(m->arena, sizeof *said);
    reads_forget(&m->reads);
    household_write_anew(m->arena, h, region, h->kept->region, t, round_down, &m->reads,
                         &said->said);
    said->noted = keep_noted(m);
    *out = said;
}

/* a function of its own for the same reason as learn_guarded */
static bool
write_guarded(const struct helping *h, int region, const struct tables *t, bool round_down,
              struct kept_household **out)
{
    struct line_memo *m = h->kept->memo;
    if (setjmp(*arena_guard(m->arena)) != 0) {
        m->reads = reads_apart(m->arena, m->arena);
        return false;
    }
    write_anew(h, region, t, round_down, out);
    return true;
}

bool
line_memo_household(const struct helping *h, int region, int post_region, const struct tables *t,
                    bool round_down, struct reads *reads, struct household *out)
{
    if (h->kept == NULL || h->kept->region != post_region || region < 0 ||
        h->kept->memo->tables != t)
        return false;
    struct kept_household **said = &h->kept->said[region][round_down];
    if (*said == NULL && !write_guarded(h, region, t, round_down, said))
        return false;
    *out = (*said)->said;
    note_again(&(*said)->noted, reads);
    return true;
}
