/* The lists of words by which English is read: rows of a table (content/tables/words.yaml), to
 * which a blog adds its own. A list is a row of WORD_LIST_ROWS and an entry of the table; words are
 * in lower case without accents, as words_read folds them. */
#ifndef READ_WORD_LISTS_H
#define READ_WORD_LISTS_H

#include "base/map.h"
#include "base/reads.h"

/* name here, name in the table, the kinds that each of its words is one of: NULL where it is a list
 * and no more, word_lists_text where any text stands behind a word */
#define WORD_LIST_ROWS(X)                                               \
    X(WORDS_DESCRIBING, "describing", NULL)                             \
    X(WORDS_DIET_PROMISED, "diet-promised", NULL)                       \
    X(WORDS_DISEASE_PROMISED, "disease-promised", NULL)                 \
    X(WORDS_PROMISE_ELSE, "promise-of-something-else", NULL)            \
    X(WORDS_PROMISE_DENIED, "promise-denied", NULL)                     \
    X(WORDS_BEHIND_IDLE, "behind-idle", NULL)                           \
    X(WORDS_BEHIND_SPEECH, "behind-speech", NULL)                       \
    X(WORDS_BEHIND_ENDS, "behind-ends", NULL)                           \
    X(WORDS_BEHIND_DEEDS, "behind-deeds", NULL)                         \
    X(WORDS_BEHIND_NOUNS, "behind-nouns", NULL)                         \
    X(WORDS_BEHIND_WET, "behind-wet", NULL)                             \
    X(WORDS_BEHIND_LATER, "behind-later", NULL)                         \
    X(WORDS_BEHIND_STATES, "behind-states", NULL)                       \
    X(WORDS_BEHIND_WITHOUT, "behind-without", NULL)                     \
    X(WORDS_IMITATIONS, "imitations", NULL)                             \
    X(WORDS_ORDINARY, "ordinary", NULL)                                 \
    X(WORDS_FOR_A_DIET, "for-a-diet", NULL)                             \
    X(WORDS_USE_INSTEAD, "use-instead", NULL)                           \
    X(WORDS_LEAVE_OUT, "leave-out", NULL)                               \
    X(WORDS_CLAUSE_SEPARATORS, "clause-separators", NULL)               \
    X(WORDS_IRREGULAR_PARTICIPLES, "irregular-participles", NULL)       \
    X(WORDS_BEFORE_NOUNS, "before-nouns", NULL)                         \
    X(WORDS_VERB_OBJECTS, "verb-objects", NULL)                         \
    X(WORDS_AUXILIARIES, "auxiliaries", NULL)                           \
    X(WORDS_CLAUSE_ADVERBS, "clause-adverbs", NULL)                     \
    X(WORDS_BEHIND_PARTICIPLES, "behind-participles", NULL)             \
    X(WORDS_WEAK_VERBS, "weak-verbs", NULL)                             \
    X(WORDS_BEFORE_GERUNDS, "before-gerunds", NULL)                     \
    X(WORDS_UNTIL_DONE, "until-done", NULL)                             \
    X(WORDS_VERB_LEADS, "verb-leads", NULL)                             \
    X(WORDS_VERB_LINKS, "verb-links", NULL)                             \
    X(WORDS_MODALS, "modals", NULL)                                     \
    X(WORDS_OBJECT_PREPOSITIONS, "object-prepositions", NULL)           \
    X(WORDS_OBJECT_ADVERBS, "object-adverbs", NULL)                     \
    X(WORDS_OBJECT_PRONOUNS, "object-pronouns", NULL)                   \
    X(WORDS_VERB_PARTICLES, "verb-particles", NULL)                     \
    X(WORDS_COOKING_LIQUIDS, "cooking-liquids", NULL)                   \
    X(WORDS_CLAUSE_ENDS, "clause-ends", NULL)                           \
    X(WORDS_WARNINGS, "warnings", NULL)                                 \
    X(WORDS_ONE_AFTER_THE_OTHER, "one-after-the-other", NULL)           \
    X(WORDS_STRAINED_LIQUIDS, "strained-liquids", NULL)                 \
    X(WORDS_TRIMMINGS, "trimmings", NULL)                               \
    X(WORDS_STRAINS, "strains", NULL)                                   \
    X(WORDS_CUTTING, "cutting", NULL)                                   \
    X(WORDS_PIECES, "pieces", NULL)                                     \
    X(WORDS_PIECE_SIZES, "piece-sizes", NULL)                           \
    X(WORDS_NOT_FOR_SURE, "not-for-sure", NULL)                         \
    X(WORDS_FOOD_NAME_ENDS, "food-name-ends", NULL)                     \
    X(WORDS_FOODS_OPEN, "foods-open", NULL)                             \
    X(WORDS_FOODS_CLOSE, "foods-close", NULL)                           \
    X(WORDS_TOOL_NOT_NEEDED, "tool-not-needed", NULL)                   \
    X(WORDS_USED_ANYWHERE, "used-anywhere", NULL)                       \
    X(WORDS_PARTS_TOGETHER, "parts-together", NULL)                     \
    X(WORDS_SERVING, "serving", NULL)                                   \
    X(WORDS_TO_SERVE, "to-serve", NULL)                                 \
    X(WORDS_FRYING, "frying", NULL)                                     \
    X(WORDS_REST_OF, "rest-of", NULL)                                   \
    X(WORDS_REST_ENDS, "rest-ends", NULL)                               \
    X(WORDS_REST_UNNAMED, "rest-unnamed", NULL)                         \
    X(WORDS_TIME_VERBS, "time-verbs", NULL)                             \
    X(WORDS_BEHIND_TIMES, "behind-times", NULL)                         \
    X(WORDS_CLAIMS_OF_MANNER, "claims-of-manner", NULL)                 \
    X(WORDS_CLAIMS_OF_OTHER_TIMES, "claims-of-other-times", NULL)       \
    X(WORDS_NO_CLAIM_WITH, "no-claim-with", NULL)                       \
    X(WORDS_NO_CLAIM_BEHIND, "no-claim-behind", NULL)                   \
    X(WORDS_CLAIM_ENDS, "claim-ends", NULL)                             \
    X(WORDS_HEALTH_PROMISED, "health-promised", NULL)                   \
    X(WORDS_HEALTH_OTHER_SENSE, "health-other-sense", NULL)             \
    X(WORDS_HEALTH_DENIED, "health-denied", NULL)                       \
    X(WORDS_HEALTH_PROMISED_BY_CLAIM, "health-promised-by-claim", NULL) \
    X(WORDS_HOTTER_OVENS, "hotter-ovens", NULL)                         \
    X(WORDS_DONE_COOL, "done-cool", NULL)                               \
    X(WORDS_SET_ON_THE_OVEN, "set-on-the-oven", NULL)                   \
    X(WORDS_MICROWAVES, "microwaves", NULL)                             \
    X(WORDS_OTHER_HEATS, "other-heats", NULL)                           \
    X(WORDS_POWER_LEVELS, "power-levels", NULL)                         \
    X(WORDS_MEANWHILE, "meanwhile", NULL)                               \
    X(WORDS_RESUMING, "resuming", NULL)                                 \
    X(WORDS_LEFT_TO_THE_COOK, "left-to-the-cook", NULL)                 \
    X(WORDS_THINGS_NOT_ACTS, "things-not-acts", NULL)                   \
    X(WORDS_PARTS_LAST, "parts-last", NULL)

#define WORD_LIST_NUMBER(number, name, kinds) number,
enum word_list_number { WORD_LIST_ROWS(WORD_LIST_NUMBER) WORD_LISTS };
#undef WORD_LIST_NUMBER

struct word_list {
    const char **words;  /* NULL-terminated, in the order of the table; never NULL once loaded */
    const char **values; /* what stands behind each: a kind or a text; NULL: nothing */
    int *kinds;          /* the number of each kind; NULL: there are none */
    size_t count, room;
    struct map places; /* word -> number + 1 */
};

struct word_lists {
    struct entry entry; /* "words": all of them */
    struct word_list lists[WORD_LISTS];
};

extern const char *const word_lists_text[];
/* the name of a list, and the kinds of its words, as in WORD_LIST_ROWS */
const char *word_lists_name(int list);
const char *const *word_lists_kinds(int list);

/* Without lists (NULL) nothing is in any: dishes made by hand in tests. */

/* the phrases of a list, for words_any and word_among */
const char *const *word_lists_all(const struct word_lists *w, enum word_list_number list);
/* whether the word is one of the list */
bool word_lists_have(const struct word_lists *w, enum word_list_number list, struct slice word);
/* what stands behind the word in the table, or NULL where it is not in the list */
const char *word_lists_value(const struct word_lists *w, enum word_list_number list,
                             struct slice word);
/* the number of the word's kind, or -1 */
int word_lists_kind(const struct word_lists *w, enum word_list_number list, struct slice word);

#endif
