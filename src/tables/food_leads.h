/* Whether the entries that foods count with are there. */
#ifndef TABLES_FOOD_LEADS_H
#define TABLES_FOOD_LEADS_H

#include "tables/label_settle.h"

/* tells of each that is not, once the larder has all files: such a food would be one of its own */
void food_leads_settle(const struct larder *l, label_told *told, void *ctx);

#endif
