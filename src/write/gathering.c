#include "write/gathering.h"

/* all pieces of a kind with `between` between them, empty ones left out; at most `most` */
static bool
join(const struct gathering *g, enum piece_of_record piece, size_t most, const char *between,
     struct outlet out)
{
    size_t written = 0;
    for (size_t i = 0; i < g->count && written < most; i++) {
        struct slice s = g->piece(g->ctx, i, piece);
        if (s.length == 0)
            continue;
        if (written++ > 0 && between[0] != '\0' && !out.put(out.ctx, slice_of(between)))
            return false;
        if (!out.put(out.ctx, s))
            return false;
    }
    return true;
}

bool
gathering_write(const struct gathering *g, struct outlet out, const struct gathered_file *file)
{
    return out.put(out.ctx, file->head) && join(g, file->piece, file->most, file->between, out) &&
           out.put(out.ctx, slice_of(file->tail));
}
