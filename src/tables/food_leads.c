#include "tables/food_leads.h"

#include "read/nearest.h"
#include "tables/larder_rows.h"

/* the id that is a slip or two away; NULL: none */
static const char *
near_id(const struct larder *l, struct slice id)
{
    enum { SLIPS = 2 };
    const char *best = NULL;
    size_t least = SLIPS + 1;
    for (size_t i = 0; i < l->count; i++) {
        const size_t far = nearest_distance(slice_of(l->items[i]->food.id), id, SLIPS);
        if (far < least) {
            least = far;
            best = l->items[i]->food.id;
        }
    }
    return best;
}

void
food_leads_settle(const struct larder *l, label_told *told, void *ctx)
{
    for (size_t i = 0; i < l->count; i++) {
        const struct food_row *row = l->items[i];
        const char *lead = row->food.counts_with;
        if (lead == NULL || map_get(&l->by_id, slice_of(lead)) != NULL)
            continue;
        struct notices notices = {.arena = l->arena};
        const char *near = near_id(l, slice_of(lead));
        notice_add_mended(
            &notices, RULE_TABLE_ROW_WRONG, row->counts_place, slice_of(row->food.id),
            text_formatted(l->arena,
                           "counts-with is “%s”, and the larder has no food of "
                           "that id",
                           lead),
            near != NULL ? text_formatted(l->arena,
                                          "Write %s. Until then it counts with no "
                                          "other food.",
                                          near)
                         : SLICE("Look the food up with dariole larder, and write its id. Until "
                                 "then it counts with no other food."));
        told(ctx, row->path, &notices);
    }
}
