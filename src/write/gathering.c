#include "write/gathering.h"

bool
gathering_join(const struct gathering *g, enum piece_of_record piece, size_t most,
               const char *between, struct outlet out)
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
gathering_write(const struct gathering *g, struct outlet out, struct slice head,
                enum piece_of_record piece, size_t most, const char *between, const char *tail)
{
    return out.put(out.ctx, head) && gathering_join(g, piece, most, between, out) &&
           out.put(out.ctx, slice_of(tail));
}
