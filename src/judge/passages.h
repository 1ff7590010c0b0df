/* The texts of a post that say what is done: steps, then notes with the storage line, then the
 * prose block by block, each taken apart with its durations and temperatures. */
#ifndef JUDGE_PASSAGES_H
#define JUDGE_PASSAGES_H

#include "reckon/schedule.h"

enum passage_kind { PASSAGE_STEP, PASSAGE_NOTE, PASSAGE_PROSE };

struct passage {
    enum passage_kind kind;
    struct slice text;
    size_t part, number;     /* of a step; SIZE_MAX else */
    const struct step *step; /* NULL for others */
    struct place place;
    const struct words *words;
    struct arena *arena;               /* of what is found when it is asked for */
    const struct durations *durations; /* NULL: not looked for yet; see passage_durations */
    const struct heats *heats;
};

struct passages {
    struct passage *items;
    size_t count, room;
    struct arena *arena;
    const struct post *post;
};

void passages_read(struct arena *a, const struct post *post, const struct schedule *s,
                   struct passages *out);
/* the durations and temperatures of a passage, looked for at the first time of asking */
const struct durations *passages_durations(struct passage *p);
const struct heats *passages_heats(struct passage *p);
/* the place of bytes from..to of a passage: exact in a step, else its line */
struct place passages_place(const struct passage *p, size_t from, size_t to);

#endif
