/* One weighed line with its working: as text for people, as JSON for programs. */
#ifndef WRITE_WEIGHING_H
#define WRITE_WEIGHING_H

#include "judge/finding.h"
#include "reckon/dish.h"
#include "write/json_writer.h"

/* one food of a line, weighed */
struct weighed_food {
    const struct written_food *written;
    const struct food *food; /* NULL: not known */
    const struct form *form;
    const struct weighing *weighing;
    struct slice passed; /* words that nobody understood, or empty */
    size_t option;       /* 0: the way written first; else an alternative */
};

struct weighed_line {
    struct slice written; /* the line as given */
    struct slice line;    /* the same, as it was read */
    bool optional;
    struct weighed_food *foods; /* of the first option first */
    size_t count, room;
    struct findings *findings; /* beside each food */
};

/* adds a food of a dish to the line; `findings` is the caller's */
void weighing_add(struct arena *a, struct weighed_line *line, const struct helping *h,
                  size_t option);
/* all foods with unit, millilitres, density, pieces, share, each with source and basis */
void weighing_text(struct text *t, const struct weighed_line *line, const struct tables *tables);
/* one object a food of the way written first, each on a line of its own */
void weighing_json(struct text *t, const struct weighed_line *line);

/* "80.9 to 90.6 g" */
void weighing_span(struct text *t, struct span s, const char *unit);

#endif
