/* A label while it is settled, for the rooms that do it alone. */
#ifndef TABLES_LABEL_WORK_H
#define TABLES_LABEL_WORK_H

#include "tables/label.h"
#include "tables/larder_rows.h"

struct label_work {
    struct larder *larder;
    struct arena *scratch; /* forgotten behind each label */
    struct food *food;     /* it has a label */
    struct notices *notices;
};

#endif
