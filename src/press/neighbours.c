#include "press/neighbours.h"

#include <errno.h>
#include <stdlib.h>

#define XXH_STATIC_LINKING_ONLY /* its state on the stack */
#include <xxhash.h>

#include "press/place.h"
#include "write/fitting.h"

/* how many posts before and behind are looked at */
enum { REACH = 12 };

struct neighbour {
    uint32_t number; /* of the post */
    struct slice published, slug;
    struct fitting fits;           /* without address and title */
    bool eats;                     /* it has a line, and may stand in others' */
    uint64_t names;                /* digest of what its line is to name; 0: no line */
    uint32_t chosen[FITTING_MOST]; /* places in the list */
    uint32_t chosen_count;
};

struct neighbours {
    struct press_state *press;
    struct neighbour *items; /* of published posts, newest first */
    size_t count;
    struct piece_reader reader;
};

/* whether outputs of this folder are pages */
static bool
is_page(enum output_folder folder)
{
    return folder == FOLDER_FRAGMENTS || folder == FOLDER_PREVIEW;
}

/* the page that stands in place, if it is as the ledger says */
static bool
read_page(struct press_state *p, struct arena *a, struct slice slug,
          const struct ledger_output *output, enum output_folder *folder, struct slice *page)
{
    char name[OUTPUT_NAME_MOST];
    return state_output_name(p, slug, output->pattern, name, folder) && is_page(*folder) &&
           atomic_file_read_plain(a, p->session->folders[*folder], name, OUTPUT_BYTES_MOST, page) &&
           slice_digest(*page, 0) == output->digest;
}

/* the line of the page of before with this pattern */
static bool
find_line(struct press_state *p, struct arena *a, const struct ledger_post *before,
          struct slice slug, const char *pattern, struct slice *line)
{
    for (uint32_t i = 0; i < before->output_count; i++) {
        enum output_folder folder;
        struct slice page;
        pthread_mutex_lock(&p->lock);
        const struct ledger_output output = *ledger_output(&p->ledger, before->output + i);
        const bool same =
            slice_is(ledger_string(&p->ledger, p->ledger.head.patterns[output.pattern]), pattern);
        pthread_mutex_unlock(&p->lock);
        if (!same)
            continue;
        if (!read_page(p, a, slug, &output, &folder, &page))
            return false;
        *line = fitting_find(page);
        return line->length > 0;
    }
    return false;
}

uint64_t
neighbours_carry(struct press_state *p, struct arena *a, const struct ledger_post *before,
                 struct slice slug, struct output_text *outputs, uint32_t count)
{
    struct slice lines[OUTPUTS_MOST];
    pthread_mutex_lock(&p->lock);
    const bool same = slice_equal(ledger_string(&p->ledger, before->slug), slug);
    pthread_mutex_unlock(&p->lock);
    if (before->beside == 0 || !same || count == 0)
        return 0;
    for (uint32_t i = 0; i < count; i++) {
        lines[i] = SLICE("");
        if (fitting_takes(outputs[i].bytes) &&
            !find_line(p, a, before, slug, outputs[i].pattern, &lines[i]))
            return 0;
    }
    for (uint32_t i = 0; i < count; i++)
        if (lines[i].length > 0)
            outputs[i].bytes = fitting_put(a, outputs[i].bytes, lines[i]);
    return before->beside;
}

static int
newer(const void *left, const void *right)
{
    const struct neighbour *a = left, *b = right;
    const int order = slice_order(b->published, a->published);
    return order != 0 ? order : slice_order(a->slug, b->slug);
}

/* one digest of all that lines are chosen from, and of what the pages name now */
static uint64_t
digest_of(const struct neighbours *n)
{
    const struct press_state *p = n->press;
    XXH3_state_t state;
    XXH3_64bits_reset(&state);
    for (size_t i = 0; i < n->count; i++) {
        const struct ledger_post *post = &p->posts[n->items[i].number];
        const uint64_t parts[3] = {n->items[i].number, post->pieces[RECORD_FITTING].check,
                                   post->beside};
        XXH3_64bits_update(&state, parts, sizeof parts);
    }
    return XXH3_64bits_digest(&state) | 1;
}

static void
list(struct neighbours *n)
{
    struct press_state *p = n->press;
    n->items = arena_take_array(p->session->arena, p->plan.count + 1, sizeof *n->items);
    for (size_t i = 0; i < p->plan.count; i++)
        if (!p->plan.items[i].gone && state_published(&p->posts[i]))
            n->items[n->count++] =
                (struct neighbour){.number = (uint32_t)i,
                                   .published = ledger_string(&p->ledger, p->posts[i].published),
                                   .slug = ledger_string(&p->ledger, p->posts[i].slug)};
    if (n->count > 1)
        qsort(n->items, n->count, sizeof *n->items, newer);
}

static bool
read_facts(struct neighbours *n, size_t at, struct fitting *out, bool *there, struct failure *f)
{
    const struct ledger_post *post = &n->press->posts[n->items[at].number];
    struct slice facts;
    if (!pieces_read(&n->reader, &post->pieces[RECORD_FITTING], &facts, f))
        return false;
    *there = fitting_read(facts, out);
    return true;
}

static int
by_number(const void *left, const void *right)
{
    const struct neighbour *const *a = left, *const *b = right;
    return (*a)->number < (*b)->number ? -1 : 1;
}

/* in the order in which they lie in the file */
static bool
read_all(struct neighbours *n, struct failure *f)
{
    struct arena *a = n->press->session->arena;
    struct neighbour **order = arena_take_array(a, n->count + 1, sizeof *order);
    for (size_t i = 0; i < n->count; i++)
        order[i] = &n->items[i];
    if (n->count > 1)
        qsort(order, n->count, sizeof *order, by_number);
    for (size_t i = 0; i < n->count; i++) {
        struct fitting *fits = &order[i]->fits;
        if (!read_facts(n, (size_t)(order[i] - n->items), fits, &order[i]->eats, f))
            return false;
        if (!order[i]->eats)
            continue;
        fits->foods = slice_copy(a, fits->foods);
        fits->category = slice_copy(a, fits->category);
        fits->slug = fits->address = fits->title = SLICE("");
    }
    return true;
}

/* whether the dish at `to` may stand in the line of that at `at`: no two of one kind in a line */
static bool
is_fit(const struct neighbours *n, const struct neighbour *host, size_t to)
{
    const struct neighbour *other = &n->items[to];
    if (!other->eats || !fitting_suits(&host->fits, &other->fits))
        return false;
    for (uint32_t i = 0; i < host->chosen_count; i++) {
        const struct slice kind = n->items[host->chosen[i]].fits.category;
        if (kind.length > 0 && slice_equal(kind, other->fits.category))
            return false;
    }
    return true;
}

/* the nearest in time first, of two as near the newer */
static void
choose(struct neighbours *n, size_t at)
{
    struct neighbour *host = &n->items[at];
    XXH3_state_t state;
    if (!host->eats)
        return;
    XXH3_64bits_reset(&state);
    for (size_t step = 1; step <= REACH; step++) {
        const size_t sides[2] = {step <= at ? at - step : SIZE_MAX, at + step};
        for (int k = 0; k < 2 && host->chosen_count < FITTING_MOST; k++) {
            if (sides[k] >= n->count || !is_fit(n, host, sides[k]))
                continue;
            const uint64_t check =
                n->press->posts[n->items[sides[k]].number].pieces[RECORD_FITTING].check;
            host->chosen[host->chosen_count++] = (uint32_t)sides[k];
            XXH3_64bits_update(&state, &check, sizeof check);
        }
    }
    if (host->chosen_count > 0)
        host->names = XXH3_64bits_digest(&state) | 1;
}

/* the line for one of the two kinds of page */
static bool
write_line(struct neighbours *n, struct arena *a, const struct neighbour *host, bool preview,
           struct slice *line, struct failure *f)
{
    struct fitting others[FITTING_MOST];
    bool there;
    *line = SLICE("");
    for (uint32_t i = 0; i < host->chosen_count; i++) {
        if (!read_facts(n, host->chosen[i], &others[i], &there, f))
            return false;
        others[i].slug = slice_copy(a, others[i].slug); /* the next moves the window */
        others[i].address = slice_copy(a, others[i].address);
        others[i].title = slice_copy(a, others[i].title);
    }
    if (host->chosen_count > 0)
        *line = fitting_line(a, others, host->chosen_count, preview);
    return true;
}

/* exchanges the line in one output, where it is a page */
static bool
exchange_one(struct press_state *p, struct arena *a, const struct post_outputs *of, uint32_t i,
             const struct slice lines[2], struct failure *f)
{
    struct ledger_output *output = ledger_output(&p->ledger, p->posts[of->number].output + i);
    struct output_text *text = (struct output_text *)(uintptr_t)&of->items[i];
    enum output_folder folder;
    struct slice page;
    char name[OUTPUT_NAME_MOST];
    if (!state_output_name(p, of->slug, output->pattern, name, &folder) || !is_page(folder))
        return true;
    if (!read_page(p, a, of->slug, output, &folder, &page))
        return failure_say(f, "%s/%s: changed while it was made", output_folders[folder], name);
    if (!fitting_takes(page))
        return true;
    text->pattern =
        slice_string(a, ledger_string(&p->ledger, p->ledger.head.patterns[output->pattern]));
    text->bytes = fitting_put(a, page, lines[folder == FOLDER_PREVIEW]);
    output->digest = slice_digest(text->bytes, 0);
    return place_output(p, &p->workers[0], of, i, f);
}

static bool
exchange(struct neighbours *n, struct arena *a, const struct neighbour *host, struct failure *f)
{
    struct press_state *p = n->press;
    struct ledger_post *post = &p->posts[host->number];
    struct output_text texts[OUTPUTS_MOST];
    const struct post_outputs of = {.number = host->number,
                                    .slug = slice_copy(a, host->slug),
                                    .items = texts,
                                    .count = post->output_count};
    struct slice lines[2];
    for (int preview = 0; preview < 2; preview++)
        if (!write_line(n, a, host, preview, &lines[preview], f))
            return false;
    for (uint32_t i = 0; i < post->output_count && i < OUTPUTS_MOST; i++)
        if (!exchange_one(p, a, &of, i, lines, f))
            return false;
    post->beside = host->names;
    p->dirty = true;
    return true;
}

/* the ledger no longer says how the pages of a post stand: the next press makes it anew */
static void
doubt(struct press_state *p, uint32_t number)
{
    struct ledger_post *post = &p->posts[number];
    post->state = POST_FAILED;
    post->stamp = 0;
}

static bool
exchange_all(struct neighbours *n, size_t *count, struct failure *f)
{
    struct press_state *p = n->press;
    struct arena *a = arena_open((size_t)256 << 10);
    if (a == NULL)
        return failure_say(f, "out of memory");
    struct arena *before = arena_lend(a);
    volatile size_t at = 0;
    bool good = setjmp(*arena_guard(a)) == 0 || failure_say(f, "out of memory");
    for (size_t i = 0; good && i < n->count; i++) {
        at = i;
        const struct neighbour *host = &n->items[i];
        struct planned *planned = &p->plan.items[host->number];
        const struct ledger_post *post = &p->posts[host->number];
        if (post->beside == host->names || post->state != POST_MADE)
            continue;
        good = exchange(n, a, host, f);
        place_much(p, &p->workers[0]);
        arena_reset(a);
        if (planned->why == WHY_NOT) {
            planned->why = WHY_BESIDE;
            ++*count;
        }
    }
    arena_lend(before);
    arena_close(a);
    if (!good && at < n->count)
        doubt(p, n->items[at].number);
    place_waiting(p, false);
    return good;
}

/* whether every page names what it is to name: not those of a post that failed or cannot be read */
static bool
is_whole(const struct neighbours *n)
{
    for (size_t i = 0; i < n->count; i++)
        if (n->press->posts[n->items[i].number].beside != n->items[i].names)
            return false;
    return true;
}

bool
neighbours_remake(struct press_state *p, size_t *count, struct failure *f)
{
    struct neighbours n = {.press = p, .reader = {.pieces = &p->pieces}};
    list(&n);
    if (digest_of(&n) == p->ledger.head.beside)
        return true;
    p->ledger.head.beside = 0;
    bool good = read_all(&n, f);
    for (size_t i = 0; good && i < n.count; i++)
        choose(&n, i);
    good = good && exchange_all(&n, count, f);
    pieces_reader_close(&n.reader);
    if (good && is_whole(&n))
        p->ledger.head.beside = digest_of(&n);
    return good;
}
