/* The timing of a method: each step's stated durations, attended or not, what runs beside what, and
 * the shortest and longest sum. Only stated durations count; what is unstated is not guessed. Parts
 * run one after another; a step that begins "meanwhile" or "while the X bakes" runs beside the step
 * before it. */
#ifndef RECKON_SCHEDULE_H
#define RECKON_SCHEDULE_H

#include "read/duration.h"
#include "read/heat.h"
#include "read/post.h"
#include "base/span.h"
#include "read/activity.h"
#include "reckon/dish.h"

struct step_marks { /* what was found in the text of one step */
    struct words words;
    struct durations durations;
    enum activity *activities; /* of each duration */
    struct heats heats;
    struct powers powers;
};

struct step_time {
    size_t part, step; /* of the body's method */
    struct step_marks marks;
    struct span attended, unattended; /* s; durations stated, with their times */
    bool stated;                      /* the step states any duration that is spent */
    bool beside;                      /* "meanwhile": runs beside the step before */
    struct span start, end;           /* s from the beginning */
};

struct schedule {
    struct step_time *steps;
    size_t count;
    struct span total;    /* s, shortest to longest, parts one after another */
    double least;         /* s: not even a cook who works on all parts side by side is faster */
    struct span attended; /* s, hands busy or eyes on it */
    struct span resting;  /* s, unattended and not cooking (rest, chill, soak, prove, overnight) */
    struct span cooking;  /* s, unattended cooking: bake, simmer, steam */
    bool stated;          /* any duration is stated at all */
    struct span before;   /* s that a line of the list waits before the first step: "soaked
                             overnight"; the longest of them, 0 where a step says it again */
    struct slice before_said; /* its words in the line */
};

/* cooking: what is only told is not counted ("in my old oven it took an hour"); NULL: all is */
void schedule_read(struct arena *a, const struct body *body, const struct cooking *cooking,
                   struct schedule *out);
/* takes in what the lines of the list say was done before; call once */
void schedule_add_lines(struct arena *a, const struct dish *d, const struct cooking *cooking,
                        struct schedule *s);

#endif
