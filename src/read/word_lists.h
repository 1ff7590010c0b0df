/* The lists of words by which English is read: rows of a table (content/tables/words.yaml), to
 * which a blog adds its own. A list is a row of WORD_LIST_ROWS and an entry of the table; words are
 * in lower case without accents, as words_read folds them. */
#ifndef READ_WORD_LISTS_H
#define READ_WORD_LISTS_H

#include "base/map.h"
#include "base/reads.h"
#include "base/span.h"

#define TIME_EFFECTS                                                                             \
    KINDS("none", "at-least", "at-most", "further", "last", "first", "every", "after", "within", \
          "before", "total", "inside", "nothing")
/* name here, name in the table, the kinds that each of its words is one of: NULL where it is a list
 * and no more, word_lists_text where any text stands behind a word, word_lists_range a number */
/* clang-format off */
#define WORD_LIST_ROWS(X) \
    X(WORDS_DESCRIBING, "describing", NULL) \
    X(WORDS_DIET_PROMISED, "diet-promised", NULL) \
    X(WORDS_DISEASE_PROMISED, "disease-promised", NULL) \
    X(WORDS_PROMISE_ELSE, "promise-of-something-else", NULL) \
    X(WORDS_PROMISE_DENIED, "promise-denied", NULL) \
    X(WORDS_BEHIND_IDLE, "behind-idle", NULL) \
    X(WORDS_BEHIND_SPEECH, "behind-speech", NULL) \
    X(WORDS_BEHIND_ENDS, "behind-ends", NULL) \
    X(WORDS_BEHIND_DEEDS, "behind-deeds", NULL) \
    X(WORDS_BEHIND_NOUNS, "behind-nouns", NULL) \
    X(WORDS_BEHIND_WET, "behind-wet", NULL) \
    X(WORDS_BEHIND_LATER, "behind-later", NULL) \
    X(WORDS_BEHIND_STATES, "behind-states", NULL) \
    X(WORDS_BEHIND_WITHOUT, "behind-without", NULL) \
    X(WORDS_IMITATIONS, "imitations", NULL) \
    X(WORDS_STATES, "states", NULL) \
    X(WORDS_SHORTHANDS, "shorthands", word_lists_text) \
    X(WORDS_ORDINARY, "ordinary", NULL) \
    X(WORDS_FOR_A_DIET, "for-a-diet", NULL) \
    X(WORDS_USE_INSTEAD, "use-instead", NULL) \
    X(WORDS_LEAVE_OUT, "leave-out", NULL) \
    X(WORDS_CLAUSE_SEPARATORS, "clause-separators", NULL) \
    X(WORDS_IRREGULAR_PARTICIPLES, "irregular-participles", NULL) \
    X(WORDS_BEFORE_NOUNS, "before-nouns", NULL) \
    X(WORDS_COPULAS, "copulas", NULL) \
    X(WORDS_VERB_OBJECTS, "verb-objects", NULL) \
    X(WORDS_AUXILIARIES, "auxiliaries", NULL) \
    X(WORDS_CLAUSE_ADVERBS, "clause-adverbs", NULL) \
    X(WORDS_BEHIND_PARTICIPLES, "behind-participles", NULL) \
    X(WORDS_WEAK_VERBS, "weak-verbs", NULL) \
    X(WORDS_BEFORE_GERUNDS, "before-gerunds", NULL) \
    X(WORDS_UNTIL_DONE, "until-done", NULL) \
    X(WORDS_VERB_LEADS, "verb-leads", NULL) \
    X(WORDS_VERB_LINKS, "verb-links", NULL) \
    X(WORDS_MODALS, "modals", NULL) \
    X(WORDS_OBJECT_PREPOSITIONS, "object-prepositions", NULL) \
    X(WORDS_OBJECT_ADVERBS, "object-adverbs", NULL) \
    X(WORDS_OBJECT_PRONOUNS, "object-pronouns", NULL) \
    X(WORDS_VERB_PARTICLES, "verb-particles", NULL) \
    X(WORDS_COOKING_LIQUIDS, "cooking-liquids", NULL) \
    X(WORDS_CLAUSE_ENDS, "clause-ends", NULL) \
    X(WORDS_WARNINGS, "warnings", NULL) \
    X(WORDS_ONE_AFTER_THE_OTHER, "one-after-the-other", NULL) \
    X(WORDS_STRAINED_LIQUIDS, "strained-liquids", NULL) \
    X(WORDS_TRIMMINGS, "trimmings", NULL) \
    X(WORDS_CUTTING, "cutting", NULL) \
    X(WORDS_PIECES, "pieces", NULL) \
    X(WORDS_PIECE_SIZES, "piece-sizes", NULL) \
    X(WORDS_NOT_FOR_SURE, "not-for-sure", NULL) \
    X(WORDS_FOOD_NAME_ENDS, "food-name-ends", NULL) \
    X(WORDS_FOODS_OPEN, "foods-open", NULL) \
    X(WORDS_FOODS_CLOSE, "foods-close", NULL) \
    X(WORDS_TOOL_NOT_NEEDED, "tool-not-needed", NULL) \
    X(WORDS_USED_ANYWHERE, "used-anywhere", NULL) \
    X(WORDS_PARTS_TOGETHER, "parts-together", NULL) \
    X(WORDS_SERVING, "serving", NULL) \
    X(WORDS_TO_SERVE, "to-serve", NULL) \
    X(WORDS_FRYING, "frying", NULL) \
    X(WORDS_REST_OF, "rest-of", NULL) \
    X(WORDS_REST_ENDS, "rest-ends", NULL) \
    X(WORDS_REST_UNNAMED, "rest-unnamed", NULL) \
    X(WORDS_TIME_VERBS, "time-verbs", NULL) \
    X(WORDS_SMALL_BEHIND_TIMES, "small-behind-times", NULL) \
    X(WORDS_CLAIMS_OF_MANNER, "claims-of-manner", NULL) \
    X(WORDS_CLAIMS_OF_OTHER_TIMES, "claims-of-other-times", NULL) \
    X(WORDS_NO_CLAIM_WITH, "no-claim-with", NULL) \
    X(WORDS_NO_CLAIM_BEHIND, "no-claim-behind", NULL) \
    X(WORDS_CLAIM_ENDS, "claim-ends", NULL) \
    X(WORDS_HEALTH_PROMISED, "health-promised", NULL) \
    X(WORDS_HEALTH_OTHER_SENSE, "health-other-sense", NULL) \
    X(WORDS_HEALTH_DENIED, "health-denied", NULL) \
    X(WORDS_HEALTH_PROMISED_BY_CLAIM, "health-promised-by-claim", NULL) \
    X(WORDS_HOTTER_OVENS, "hotter-ovens", NULL) \
    X(WORDS_DONE_COOL, "done-cool", NULL) \
    X(WORDS_SET_ON_THE_OVEN, "set-on-the-oven", NULL) \
    X(WORDS_MICROWAVES, "microwaves", NULL) \
    X(WORDS_OTHER_HEATS, "other-heats", NULL) \
    X(WORDS_POWER_LEVELS, "power-levels", NULL) \
    X(WORDS_MEANWHILE, "meanwhile", NULL) \
    X(WORDS_RESUMING, "resuming", NULL) \
    X(WORDS_LEFT_TO_THE_COOK, "left-to-the-cook", NULL) \
    X(WORDS_THINGS_NOT_ACTS, "things-not-acts", NULL) \
    X(WORDS_PARTS_LAST, "parts-last", NULL) \
    X(WORDS_ACTIVITIES, "activities", KINDS("attended", "cooking", "resting")) \
    X(WORDS_BEFORE_TIMES, "before-times", TIME_EFFECTS) \
    X(WORDS_BEHIND_TIMES, "behind-times", TIME_EFFECTS) \
    X(WORDS_NUMBERS, "numbers", word_lists_range) \
    X(WORDS_COUNTS, "counts", word_lists_range) \
    X(WORDS_AND_PARTS, "and-parts", word_lists_range) \
    X(WORDS_TIME_UNITS, "time-units", word_lists_range) \
    X(WORDS_SINGULAR_TIMES, "singular-times", NULL) \
    X(WORDS_NIGHTS, "nights", word_lists_range) \
    X(WORDS_BEGUN_BEFORE, "begun-before", word_lists_range) \
    X(WORDS_PARTS_AT_A_TIME, "parts-at-a-time", word_lists_range) \
    X(WORDS_THINGS_OF_VERBS, "things-of-verbs", NULL) \
    X(WORDS_BEFORE_NOUN_VERBS, "before-noun-verbs", NULL) \
    X(WORDS_NOUN_VERBS, "noun-verbs", NULL) \
    X(WORDS_BEHIND_DONE, "behind-done", NULL) \
    X(WORDS_SET_BY_ITSELF, "set-by-itself", NULL) \
    X(WORDS_PLAIN_VERBS, "plain-verbs", NULL) \
    X(WORDS_NOW_AND_THEN, "now-and-then", NULL) \
    X(WORDS_NO_WAIT_WITH, "no-wait-with", NULL) \
    X(WORDS_BEHIND_BARE_MINUTES, "behind-bare-minutes", NULL) \
    X(WORDS_ADDING, "adding", NULL) \
    X(WORDS_ON_THE_OTHER_SIDE, "on-the-other-side", NULL) \
    X(WORDS_BESIDE_TIMES, "beside-times", NULL) \
    X(WORDS_TIME_NOUNS, "time-nouns", NULL) \
    X(WORDS_BEHIND_TIME_ADJECTIVES, "behind-time-adjectives", NULL) \
    X(WORDS_BREWING, "brewing", NULL) \
    X(WORDS_KEEPING, "keeping", NULL) \
    X(WORDS_KEEPING_OF_HOURS, "keeping-of-hours", NULL) \
    X(WORDS_COLD_KEEPING, "cold-keeping", NULL) \
    X(WORDS_YOUNG, "young", NULL) \
    X(WORDS_RATES_PER, "rates-per", NULL) \
    X(WORDS_BEFORE_A_DAY, "before-a-day", NULL) \
    X(WORDS_FURTHER_TIMES, "further-times", NULL) \
    X(WORDS_BEFORE_THE_LAST, "before-the-last", NULL) \
    X(WORDS_BEFORE_BRACKETS, "before-brackets", NULL) \
    X(WORDS_BEFORE_OR, "before-or", NULL) \
    X(WORDS_EACH_SIDE, "each-side", NULL) \
    X(WORDS_SAME_AGAIN, "same-again", NULL) \
    X(WORDS_BATCHES, "batches", NULL) \
    X(WORDS_PROMISED_TIMES, "promised-times", word_lists_range) \
    X(WORDS_EACH_EATER, "each-eater", NULL) \
    X(WORDS_LOADS, "loads", NULL) \
    X(WORDS_OVENS_OFF, "ovens-off", NULL) \
    X(WORDS_SAME_PIECES, "same-pieces", NULL) \
    X(WORDS_TIMES_OF, "times-of", NULL) \
    X(WORDS_REPEATING, "repeating", NULL) \
    X(WORDS_BETWEEN_COUNT_AND_UNIT, "between-count-and-unit", NULL) \
    X(WORDS_FURTHER, "further", NULL) \
    X(WORDS_SHORT_HOURS, "short-hours", NULL) \
    X(WORDS_BEHIND_BARE_TIME, "behind-bare-time", NULL) \
    X(WORDS_BEFORE_HOURS_OF_NIGHT, "before-hours-of-night", NULL) \
    X(WORDS_TIME_JOINTS, "time-joints", NULL) \
    X(WORDS_BESIDE_TIME_JOINTS, "beside-time-joints", NULL) \
    X(WORDS_OVEN_VERBS, "oven-verbs", NULL) \
    X(WORDS_BEHIND_FAN, "behind-fan", NULL) \
    X(WORDS_BEFORE_FAN_HEAT, "before-fan-heat", NULL) \
    X(WORDS_BEHIND_BARE_HEAT, "behind-bare-heat", NULL) \
    X(WORDS_BETWEEN_HEATS, "between-heats", NULL) \
    X(WORDS_HEAT_OF_OVEN, "heat-of-oven", NULL) \
    X(WORDS_HEAT_OF_READING, "heat-of-reading", NULL) \
    X(WORDS_HEAT_OF_FOOD, "heat-of-food", NULL) \
    X(WORDS_HEAT_OF_OIL, "heat-of-oil", NULL) \
    X(WORDS_HEAT_OF_SYRUP, "heat-of-syrup", NULL) \
    X(WORDS_HEAT_OF_WATER, "heat-of-water", NULL) \
    X(WORDS_HEAT_OF_ROOM, "heat-of-room", NULL) \
    X(WORDS_LABEL_FUNCTIONS, "label-functions", NULL) \
    X(WORDS_LABEL_SAYINGS, "label-sayings", word_lists_text) \
    X(WORDS_LABEL_VARYING, "label-varying", NULL) \
    X(WORDS_LABEL_NOTES, "label-notes", NULL) \
    X(WORDS_LABEL_KINDS, "label-kinds", NULL) \
    X(WORDS_LABEL_ALIASES, "label-aliases", word_lists_text) \
    X(WORDS_LABEL_GLUCOSE, "label-glucose", NULL) \
    X(WORDS_LABEL_ALLERGENS, "label-allergens", word_lists_text) \
    X(WORDS_LINE_NUMBERS, "line-numbers", word_lists_range) \
    X(WORDS_ABOUT, "about", NULL) \
    X(WORDS_OF_ONE, "of-one", NULL) \
    X(WORDS_FILLS, "fills", KINDS("none", "level", "rounded", "heaped", "scant", "packed", "sifted")) \
    X(WORDS_SIZES, "sizes", KINDS("none", "small", "medium", "large")) \
    X(WORDS_UNIT_ADJECTIVES, "unit-adjectives", NULL) \
    X(WORDS_NO_UNITS, "no-units", NULL) \
    X(WORDS_UNIT_SPELLINGS, "unit-spellings", NULL) \
    X(WORDS_SMALL_UNITS, "small-units", NULL) \
    X(WORDS_CONTAINERS, "containers", NULL) \
    X(WORDS_IDLE_BESIDE_AMOUNTS, "idle-beside-amounts", NULL) \
    X(WORDS_PIECES_OF_LENGTH, "pieces-of-length", NULL) \
    X(WORDS_OTHERS, "others", NULL) \
    X(WORDS_MIXED, "mixed", NULL) \
    X(WORDS_MIXED_WITH, "mixed-with", NULL) \
    X(WORDS_MADE_OF_FOODS, "made-of-foods", NULL) \
    X(WORDS_PACKS, "packs", NULL) \
    X(WORDS_SHAPES, "shapes", NULL) \
    X(WORDS_PER_EATER, "per-eater", NULL) \
    X(WORDS_HOW_OF_IT, "how-of-it", NULL) \
    X(WORDS_OF_IT, "of-it", KINDS("whole", "juice", "zest", "juice-and-zest")) \
    X(WORDS_OPTIONAL, "optional", NULL) \
    X(WORDS_PURPOSES, "purposes", NULL) \
    X(WORDS_MANNERS, "manners", NULL) \
    X(WORDS_NO_ALTERNATIVES, "no-alternatives", NULL) \
    X(WORDS_UNMEASURED, "unmeasured", NULL) \
    X(WORDS_PARTS_OF, "parts-of", NULL) \
    X(WORDS_IDLE_BEFORE_FOODS, "idle-before-foods", NULL) \
    X(WORDS_COUNTS_OF_WHOLES, "counts-of-wholes", NULL) \
    X(WORDS_TO_TASTE, "to-taste", NULL) \
    X(WORDS_PACKED_IN, "packed-in", NULL) \
    X(WORDS_LITTLE, "little", NULL) \
    X(WORDS_METHOD_HEADINGS, "method-headings", NULL) \
    X(WORDS_PART_HEADINGS, "part-headings", NULL) \
    X(WORDS_NOTES_HEADINGS, "notes-headings", NULL) \
    X(WORDS_KEYS_FROM_HABIT, "keys-from-habit", word_lists_text) \
    X(WORDS_EATERS, "eaters", NULL) \
    X(WORDS_YIELD_EATERS, "yield-eaters", NULL) \
    X(WORDS_YIELD_SERVES, "yield-serves", NULL) \
    X(WORDS_YIELD_LITTLE, "yield-little", NULL) \
    X(WORDS_FOOD_WORDS, "food-words", KINDS("name", "glue", "stop", "noise", "cut", "how", "state", "soft", "nut", "diet")) \
    X(WORDS_FOOD_STEMS, "food-stems", word_lists_text) \
    X(WORDS_BEHIND_THEIR_NOUN, "behind-their-noun", NULL) \
    X(WORDS_NOUN_LAST, "noun-last", NULL) \
    X(WORDS_PARTS_OF_FOODS, "parts-of-foods", NULL) \
    X(WORDS_LESS_SALT, "less-salt", NULL) \
    X(WORDS_COME_BY, "come-by", NULL) \
    X(WORDS_STYLES, "styles", NULL) \
    X(WORDS_MILLING, "milling", NULL) \
    X(WORDS_COVERINGS, "coverings", NULL) \
    X(WORDS_COLOUR_PARTS, "colour-parts", NULL) \
    X(WORDS_PACKING_LIQUIDS, "packing-liquids", NULL) \
    X(WORDS_PACKING_KINDS, "packing-kinds", NULL) \
    X(WORDS_EATEN_BEHIND, "eaten-behind", NULL) \
    X(WORDS_BESIDE_COOKED, "beside-cooked", NULL) \
    X(WORDS_RAW, "raw", NULL) \
    X(WORDS_UNDRAINED, "undrained", NULL) \
    X(WORDS_TELLING, "telling", NULL) \
    X(WORDS_TOOLS, "tools", word_lists_text) \
    X(WORDS_VESSELS, "vessels", word_lists_text) \
    X(WORDS_FRACTIONS, "fractions", word_lists_range) \
    X(WORDS_GRANTED, "granted", NULL) \
    X(WORDS_GENERAL_NOUNS, "general-nouns", KINDS("grain", "legume", "nut", "seed", "vegetable", "fruit", "dairy", "other")) \
    X(WORDS_DIET_LABELS, "diet-labels", word_lists_text) \
    X(WORDS_CLAIMS, "claims", word_lists_text)
/* clang-format on */

#define WORD_LIST_NUMBER(number, name, kinds) number,
enum word_list_number { WORD_LIST_ROWS(WORD_LIST_NUMBER) WORD_LISTS };
#undef WORD_LIST_NUMBER

struct word_value {
    const char *text;  /* as it stands in the table */
    int kind;          /* of the kinds of its list; -1 in a list of others */
    struct span range; /* "2", "2 to 5", in a list of numbers */
};

struct word_list {
    const char **words; /* NULL-terminated, in the order of the table; never NULL once loaded */
    struct word_value *values; /* what stands behind each; NULL: nothing */
    size_t count, room;
    struct map numbers; /* word -> number + 1 */
};

struct word_lists {
    struct entry entry; /* "words": all of them */
    struct word_list lists[WORD_LISTS];
};

extern const char *const word_lists_text[], *const word_lists_range[];
/* the name of a list, and the kinds of its words, as in WORD_LIST_ROWS */
const char *word_lists_name(int list);
const char *const *word_lists_kinds(int list);

/* Without lists (NULL) nothing is in any: dishes made by hand in tests. */

/* the list itself */
const struct word_list *word_lists_get(const struct word_lists *w, enum word_list_number list);

/* the phrases of a list, for words_any and word_among */
const char *const *word_lists_all(const struct word_lists *w, enum word_list_number list);
/* whether the word is one of the list */
bool word_lists_have(const struct word_lists *w, enum word_list_number list, struct slice word);
/* what stands behind the word in the table, or NULL where it is not in the list */
const struct word_value *word_lists_value(const struct word_lists *w, enum word_list_number list,
                                          struct slice word);

#endif
