/* Cautions: what sets one off, its wording, its source, whom to defer to. Rows of a table; how a
 * trigger is tried against a post is judge/hazards. */
#ifndef TABLES_CAUTIONS_H
#define TABLES_CAUTIONS_H

#include "base/reads.h"
#include "tables/cooking.h"
#include "tables/figure.h"
#include "tables/foods.h"

enum caution_kind {
    CAUTION_HAZARD,  /* presence of the hazard: the caution is printed */
    CAUTION_PRACTICE /* a wrong practice stated in the post: a finding, and the caution */
};

/* all that are given must hold; lists are of alternatives (any one). Phrases are lower case without
 * accents, hyphens as spaces; a word that ends in `*` stands for all that begin so. */
struct caution_trigger {
    const char **tags;         /* a food of the post carries one of these tags */
    const char **food_words;   /* an ingredient line contains one of these phrases */
    const char **food_lacks;   /* ... none of the lines that tags and food_words name has these */
    bool same_foods;           /* ... and they are those of the trigger before it */
    const char **step_words;   /* one clause contains one of these phrases */
    const char **also_words;   /* ... and its sentence one of these */
    const char **unless_words; /* ... and none of these in its step (note, paragraph) */
    const char **post_lacks;   /* ... and the whole method and notes contain none of these */
    const char **title_words;  /* the title or summary contains one of these */
    const char **title_lacks;  /* ... and none of these */
    uint32_t classes;          /* bits 1 << enum food_class: foods of them, besides those of tags */
    const char **with;         /* lines with these words weigh with_grams.low g together, or more */
    struct span with_grams;
    bool each;                 /* with_grams is of one portion */
    const char **unless_foods; /* a clause that acts on a line with these words is exempt */
    const char **unless_tags;  /* and one that acts on a food with one of these tags */
    /* of one clause (judge/clauses.h), by the meanings of cooking.yaml, the words above and the
     * figures below */
    bool clause;              /* the trigger asks of a clause; else of the post as a whole */
    struct meanings *happens; /* each is a list of alternatives: the clause has one of each */
    size_t happens_count;
    struct meanings happens_not; /* and none of these, nor has its sentence */
    struct meanings after;       /* and an earlier clause did one of these to the same food */
    struct meanings not_after;   /* and none did one of these */
    bool has_after;
    struct meanings never; /* and no clause of the post does one of these to the food; alone,
                              it is asked of the post as a whole */
    bool only;             /* the clause acts on nothing but tags and food_words name */
    bool anything;         /* the clause may act on other foods than tags and food_words name */
    bool has_celsius;      /* a temperature of `heat_of` kind stated in the step lies in the span */
    struct span celsius;
    const char *heat_of; /* oven, food, oil, syrup, any */
    bool has_seconds;    /* a duration stated in the step lies in the span */
    struct span seconds;
    const char *duration_part; /* spent, storage, any */
};

struct caution {
    struct entry trigger_entry; /* "caution:hot-sugar/trigger" */
    struct entry words_entry;   /* "caution:hot-sugar/words" */
    const char *id;
    enum caution_kind kind;
    const char *level;   /* of the finding, for a practice: error, warning, note */
    const char *words;   /* printed to readers */
    const char *finding; /* message to the writer, for a practice */
    const char *mend;
    const char *source, *defer; /* defer: "local food-safety rules", "a doctor" ... */
    const char *
        *instead_of; /* ids of cautions that say less of the same thing: not printed beside it */
    enum basis basis;
    struct caution_trigger *triggers; /* any one sets it off */
    size_t trigger_count;
};

struct cautions {
    struct caution *items;
    size_t count;
};

/* cooking: whose meanings triggers name */
bool cautions_load(struct arena *a, const struct yaml_node *root, const struct cooking *cooking,
                   struct notices *notices, struct cautions *out);

#endif
