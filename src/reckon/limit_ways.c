#include "reckon/limit_ways.h"

#include <math.h>
#include <string.h>

/* what one ingredient brings: in each of its ways, and at least and at most */
struct row_part {
    struct share_sums *ways, least, most;
    size_t row, count, stride; /* ingredient; its ways; how far apart these are numbered */
    double wide;               /* how much it can change */
};

struct resolving {
    const struct shares *shares;
    struct row_part *parts; /* what changes most first */
    size_t count;
    struct share_sums *least, *most; /* by part: of it and all after it */
    struct limit_ways *out;
};

bool
limit_ways_twice(const struct shares *s, const struct limit_case *c)
{
    const struct sheet *sheet = s->sheet;
    for (size_t i = 0; i < sheet->load_count; i++) {
        const struct load *one = &sheet->loads[i];
        if (sheet->rows[one->ingredient].count < 2 || !shares_concern(s, c, one))
            continue;
        for (const struct load *l = sheet->entries[one->entry].first; l != NULL; l = l->next)
            if (l->ingredient != one->ingredient)
                return true;
    }
    return false;
}

static void
reckon_part(struct arena *a, const struct shares *s, const struct limit_case *c,
            struct row_part *out)
{
    uint8_t *ways = arena_take_raw(a, s->sheet->count + 1);
    memset(ways, WAY_NONE, s->sheet->count);
    out->count = s->sheet->rows[out->row].count;
    out->ways = arena_take_array(a, out->count, sizeof *out->ways);
    for (size_t w = 0; w < out->count; w++) {
        ways[out->row] = (uint8_t)w;
        share_spread_way(s, c, ways, out->row, &out->ways[w]);
        struct share_sums one = out->ways[w];
        share_sums_empty(&one);
        if (w == 0)
            out->least = out->most = one;
        share_sums_envelope(&out->most, &one, 1);
        share_sums_envelope(&out->least, &one, -1);
    }
    out->wide = out->most.known.points[NORMAL_MEDIAN] - out->least.known.points[NORMAL_MEDIAN] +
                out->most.absent.points[NORMAL_MEDIAN] - out->least.absent.points[NORMAL_MEDIAN];
}

static void
sort_parts(struct row_part *parts, size_t count)
{
    for (size_t i = 1; i < count; i++)
        for (size_t k = i; k > 0 && parts[k].wide > parts[k - 1].wide; k--) {
            const struct row_part part = parts[k];
            parts[k] = parts[k - 1];
            parts[k - 1] = part;
        }
}

/* what lies between two bounds stands alike at both */
static bool
stands_alike(const struct shares *s, const struct share_sums *least, const struct share_sums *most,
             struct share *out)
{
    struct share other;
    share_stand(s, most, out);
    share_stand(s, least, &other);
    return out->standing == other.standing && out->larger_standing == other.larger_standing;
}

/* the standing of all ways below a node that are open */
static void
fill(const struct resolving *r, size_t depth, size_t at, const struct share *share)
{
    if (depth < r->count) {
        for (size_t w = 0; w < r->parts[depth].count; w++)
            fill(r, depth + 1, at + w * r->parts[depth].stride, share);
        return;
    }
    enum standing *resolved = &r->out->resolved[2 * at];
    if (resolved[0] != LIMIT_WAYS_OPEN)
        return;
    resolved[0] = share->standing;
    resolved[1] = share->larger_standing;
}

/* whether some way below a node is open */
static bool
is_open(const struct resolving *r, size_t depth, size_t at)
{
    if (depth == r->count)
        return r->out->resolved[2 * at] == LIMIT_WAYS_OPEN;
    for (size_t w = 0; w < r->parts[depth].count; w++)
        if (is_open(r, depth + 1, at + w * r->parts[depth].stride))
            return true;
    return false;
}

/* the ways that begin as it was settled down to here, with what these bring */
static void
resolve(const struct resolving *r, size_t depth, size_t at, const struct share_sums *so_far)
{
    struct share_sums least = *so_far, most;
    struct share share;
    if (!is_open(r, depth, at))
        return;
    share_sums_empty(&least);
    most = least;
    share_sums_add(&least, &r->least[depth]);
    share_sums_add(&most, &r->most[depth]);
    if (depth == r->count || stands_alike(r->shares, &least, &most, &share)) {
        if (depth == r->count)
            share_stand(r->shares, &most, &share);
        fill(r, depth, at, &share);
        return;
    }
    for (size_t w = 0; w < r->parts[depth].count; w++) {
        struct share_sums next = *so_far;
        share_sums_add(&next, &r->parts[depth].ways[w]);
        resolve(r, depth + 1, at + w * r->parts[depth].stride, &next);
    }
}

void
limit_ways_resolve(struct arena *a, const struct shares *s, const struct limit_case *c,
                   struct limit_ways *ways)
{
    struct resolving r = {.shares = s, .count = ways->row_count, .out = ways};
    size_t stride = 1;
    r.parts = arena_take_array(a, r.count + 1, sizeof *r.parts);
    r.least = arena_take_array(a, r.count + 1, sizeof *r.least);
    r.most = arena_take_array(a, r.count + 1, sizeof *r.most);
    for (size_t k = r.count; k-- > 0;) {
        r.parts[k] = (struct row_part){.row = ways->rows[k], .stride = stride};
        reckon_part(a, s, c, &r.parts[k]);
        stride *= r.parts[k].count;
    }
    sort_parts(r.parts, r.count);
    for (size_t k = r.count; k-- > 0;) {
        r.least[k] = r.least[k + 1];
        r.most[k] = r.most[k + 1];
        share_sums_add(&r.least[k], &r.parts[k].least);
        share_sums_add(&r.most[k], &r.parts[k].most);
    }
    resolve(&r, 0, 0, ways->fixed);
}
