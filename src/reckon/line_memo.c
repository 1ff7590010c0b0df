#include "reckon/line_memo.h"

enum { BLOCK = 64 << 10, DIVISORS_MOST = 12 };

/* one line as one region reads it */
struct known_line {
    bool told;     /* it raises notices, which have places: it is read each time */
    size_t marked; /* lists of the book that its words are marked with */
    struct ingredient ingredient;
    struct noted noted;
};

/* whether words name a food */
struct known_name {
    bool named;
    struct noted noted;
};

/* an ingredient's row in the sheet of one phase */
struct kept_row {
    bool sought; /* it was asked for before: the second time it is kept */
    bool laid;
    struct sheet_row row;
    struct noted noted;
};

/* its rows by what their loads are divided by: four portions are as usual as "1 tsp salt" */
struct kept_rows {
    struct line_memo *memo;
    const struct ingredient *of;
    size_t count;
    double divisors[DIVISORS_MOST];
    struct kept_row *rows[DIVISORS_MOST]; /* by phase */
};

struct kept_household {
    struct household front_value;
    struct noted noted;
};

/* a helping in the words of each region's kitchens, each made when it is first asked for */
struct kept_words {
    struct line_memo *memo;
    int region;                                          /* of the line */
    struct kept_household *front_value[REGIONS_MOST][2]; /* to the nearest, rounded down */
};

struct line_memo {
    struct arena *arena;     /* first: it owns it */
    size_t most;             /* bytes of it */
    struct phrasebook *book; /* NULL: none */
    const struct tables *tables;
    struct map lines[REGIONS_MOST]; /* text -> known_line */
    struct map names;               /* words -> known_name */
    struct reads reads;             /* of what is learnt */
};

static void
forget(struct line_memo *m)
{
    arena_reset(m->arena);
    for (size_t i = 0; i < REGIONS_MOST; i++)
        m->lines[i] = map_new(m->arena);
    m->names = map_new(m->arena);
    m->reads = reads_apart(m->arena, m->arena);
}

struct line_memo *
line_memo_open(unsigned sharers)
{
    const size_t all = (size_t)32 << 20, least = (size_t)1 << 20, most = (size_t)16 << 20;
    const size_t part = all / (sharers > 0 ? sharers : 1);
    struct line_memo *m = arena_owner_open(sizeof *m, BLOCK);
    if (m == NULL)
        return NULL;
    m->most = part > most ? most : part < least ? least : part;
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
    if (m->tables != tables || arena_size(m->arena) > m->most)
        forget(m);
    if (m->tables != tables)
        phrasebook_forget(m->book);
    m->tables = tables;
}

/* room for what will be laid of the ingredient, and written of each helping */
static void
keep_more(struct line_memo *m, int region, struct ingredient *in)
{
    in->kept = arena_take(m->arena, sizeof *in->kept);
    in->kept->memo = m;
    in->kept->of = in;
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
    known->noted = reads_keep(&m->reads, m->arena);
    keep_more(m, region, &known->ingredient);
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
mark_again(struct line_memo *m, struct known_line *known)
{
    if (setjmp(*arena_guard(m->arena)) != 0)
        return;
    phrasebook_mark(m->book, m->arena, known->ingredient.words);
    known->marked = phrasebook_lists(m->book);
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
    if (known->marked < phrasebook_lists(m->book))
        mark_again(m, known);
    *out = known->ingredient;
    out->line.node = node;
    reads_note_kept(reads, &known->noted);
    return true;
}

static void
write_anew(const struct helping *h, int region, const struct tables *t, bool round_down,
           struct kept_household **out)
{
    struct line_memo *m = h->kept->memo;
    struct kept_household *front_value = arena_take(m->arena, sizeof *front_value);
    reads_forget(&m->reads);
    household_write_anew(m->arena, h, region, h->kept->region, t, round_down, &m->reads,
                         &front_value->front_value);
    front_value->noted = reads_keep(&m->reads, m->arena);
    *out = front_value;
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
    struct kept_household **front_value = &h->kept->front_value[region][round_down];
    if (*front_value == NULL && !write_guarded(h, region, t, round_down, front_value))
        return false;
    *out = (*front_value)->front_value;
    reads_note_kept(reads, &(*front_value)->noted);
    return true;
}

/* a function of its own for the same reason as learn_guarded */
static bool
ask_guarded(struct line_memo *m, const struct larder *larder, struct slice words,
            struct known_name **out)
{
    if (setjmp(*arena_guard(m->arena)) != 0) {
        m->reads = reads_apart(m->arena, m->arena);
        return false;
    }
    struct known_name *known = arena_take(m->arena, sizeof *known);
    reads_forget(&m->reads);
    known->named = larder_names(larder, m->arena, words, &m->reads);
    known->noted = reads_keep(&m->reads, m->arena);
    map_put(&m->names, slice_copy(m->arena, words), known);
    *out = known;
    return true;
}

bool
line_memo_names(struct line_memo *m, struct arena *a, const struct larder *larder,
                struct slice words, struct reads *reads)
{
    if (m == NULL || m->tables == NULL || m->tables->larder != larder)
        return larder_names(larder, a, words, reads);
    struct known_name *known = map_get(&m->names, words);
    if (known == NULL && !ask_guarded(m, larder, words, &known))
        return larder_names(larder, a, words, reads);
    reads_note_kept(reads, &known->noted);
    return known->named;
}

/* whether someone made a copy of the ingredient another */
static bool
is_changed(const struct ingredient *in)
{
    const struct ingredient *of = in->kept->of;
    return in->options != of->options || in->option_count != of->option_count ||
           in->optional != of->optional;
}

/* the number of a divisor, or the count of them */
static size_t
divisor_at(const struct kept_rows *kept, double divisor)
{
    size_t i = 0;
    while (i < kept->count && kept->divisors[i] != divisor)
        i++;
    return i;
}

/* the same look-ups as for the first divisor are told by the same list */
static struct noted
keep_row_noted(struct line_memo *m, const struct noted *first)
{
    bool same = first->count == m->reads.count;
    for (size_t i = 0; same && i < first->count; i++)
        same = first->items[i] == m->reads.items[i];
    return same ? *first : reads_keep(&m->reads, m->arena);
}

static void
row_keep(const struct ingredient *in, size_t at, const struct tables *t,
         const struct limit_scope *limit_scope)
{
    struct line_memo *m = in->kept->memo;
    const size_t phase = (size_t)(limit_scope->phase - t->limits.phases);
    struct kept_row *row = &in->kept->rows[at][phase];
    const struct limit_scope own = {limit_scope->phase, limit_scope->published, &m->reads};
    reads_forget(&m->reads);
    sheet_row_lay(m->arena, in, in->kept->divisors[at], t, &own, &row->row);
    row->noted = keep_row_noted(m, &in->kept->rows[0][phase].noted);
    row->laid = true;
}

/* heeds that a row was sought: at first it is only remembered that it was */
static void
row_seek(const struct ingredient *in, double divisor, const struct tables *t,
         const struct limit_scope *limit_scope)
{
    struct kept_rows *kept = in->kept;
    const size_t at = divisor_at(kept, divisor);
    if (at == DIVISORS_MOST)
        return;
    if (at == kept->count) {
        kept->rows[at] =
            arena_take_array(kept->memo->arena, t->limits.phase_count, sizeof *kept->rows[at]);
        kept->divisors[at] = divisor;
        kept->count++;
    }
    struct kept_row *row = &kept->rows[at][limit_scope->phase - t->limits.phases];
    if (row->sought)
        row_keep(in, at, t, limit_scope);
    row->sought = true;
}

/* a function of its own for the same reason as learn_guarded */
static void
row_seek_guarded(const struct ingredient *in, double divisor, const struct tables *t,
                 const struct limit_scope *limit_scope)
{
    struct line_memo *m = in->kept->memo;
    if (setjmp(*arena_guard(m->arena)) != 0) {
        m->reads = reads_apart(m->arena, m->arena);
        return;
    }
    row_seek(in, divisor, t, limit_scope);
}

static const struct kept_row *
row_laid(const struct kept_rows *kept, double divisor, const struct tables *t,
         const struct phase *phase)
{
    const size_t at = divisor_at(kept, divisor);
    if (at == kept->count)
        return NULL;
    const struct kept_row *row = &kept->rows[at][phase - t->limits.phases];
    return row->laid ? row : NULL;
}

bool
line_memo_row(const struct ingredient *in, double divisor, const struct tables *t,
              const struct limit_scope *limit_scope, struct sheet_row *out)
{
    struct kept_rows *kept = in->kept;
    if (kept == NULL || kept->memo->tables != t || is_changed(in))
        return false;
    const struct kept_row *row = row_laid(kept, divisor, t, limit_scope->phase);
    if (row == NULL && limit_scope->reads != NULL) { /* what is tried for a remedy is of one post */
        row_seek_guarded(in, divisor, t, limit_scope);
        row = row_laid(kept, divisor, t, limit_scope->phase);
    }
    if (row == NULL)
        return false;
    *out = row->row;
    reads_note_kept(limit_scope->reads, &row->noted);
    return true;
}
