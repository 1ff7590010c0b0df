/* What a room has to say about the author's text or tables: which rule, where, and the words that
 * fill the rule's message. Levels, messages and mends stand in judge/rules.c, one row a rule. */
#ifndef BASE_NOTICE_H
#define BASE_NOTICE_H

#include "base/text.h"

struct place {
    uint32_t line;   /* from 1; 0: the file as a whole */
    uint32_t column; /* from 1, in characters (code points); 0: the whole line */
    uint32_t length; /* in characters; 0: not known */
};

enum rule {
    /* reading */
    RULE_FILE_EMPTY,
    RULE_FILE_TOO_LARGE,
    RULE_NOT_UTF8,
    RULE_FRONT_MATTER_MISSING,
    RULE_FRONT_MATTER_UNCLOSED,
    RULE_YAML_BROKEN,
    RULE_YAML_TOO_DEEP,
    RULE_YAML_TOO_MANY_ALIASES,
    RULE_KEY_UNKNOWN,
    RULE_KEY_TWICE,
    RULE_VALUE_WRONG_TYPE,
    RULE_VALUE_UNREADABLE,
    RULE_TITLE_MISSING,
    RULE_YIELD_MISSING,
    RULE_INGREDIENTS_MISSING,
    RULE_METHOD_MISSING,
    RULE_SLUG_TWICE,
    RULE_NAME_RESERVED,
    RULE_CHARACTER_HIDDEN, /* bidi controls and the like */
    RULE_HTML_DROPPED,     /* raw HTML or an unsafe link in the body is not published */
    RULE_TABLE_PLAIN,      /* a table drawn with bars and dashes, which CommonMark has not */
    RULE_BODY_TOO_DEEP,    /* lists and quotes nested past all bounds: the body is not read */
    /* lines and tables */
    RULE_LINE_RUNS_ON,
    RULE_LINE_UNREADABLE,
    RULE_LINE_STRUCK, /* struck text is not on the list */
    RULE_AMOUNT_MISSING,
    RULE_UNIT_UNKNOWN,
    RULE_UNIT_AMBIGUOUS,
    RULE_FOOD_UNKNOWN,
    RULE_FOOD_AMBIGUOUS,
    RULE_FOOD_CORRECTED, /* a misspelt name, read as the one that is near */
    RULE_WORDS_PASSED,   /* words of a line that were neither used nor known as preparation */
    RULE_WEIGHT_UNKNOWN, /* the food has no density or piece weight for this measure */
    RULE_MEASURES_DISAGREE,
    RULE_TABLE_ROW_WRONG,
    RULE_SERVE_DISAGREES,
    RULE_LABEL_OPEN,        /* an ingredient of a packet is not in the larder */
    RULE_LABEL_CONTRADICTS, /* nothing keeps to all that a packet says */
    /* portion */
    RULE_PORTION_OVER,
    RULE_PORTION_CHOICE, /* over in some ways to make it; a choice keeps it from that */
    RULE_PORTION_CLOSE,
    RULE_PORTION_UNKNOWN,
    RULE_YIELD_MISFIT,
    RULE_NUTRITION_PARTIAL,
    /* method and list */
    RULE_INGREDIENT_UNUSED,
    RULE_FOOD_UNLISTED,
    RULE_FOOD_BESIDE,
    RULE_STRAINED_OUT,
    RULE_INGREDIENT_ORDER,
    RULE_STEP_AMOUNTS,
    RULE_PART_UNKNOWN,
    RULE_TOOL_UNLISTED,
    /* time, heat */
    RULE_TIME_TOTAL,
    RULE_TIME_DECLARED,
    RULE_TIME_ABOVE,
    RULE_HEAT_IMPLAUSIBLE,
    RULE_MICROWAVE_PAIR,
    RULE_PIECES_MISFIT,
    RULE_TIME_CLAIM,
    RULE_TIME_TITLE,
    RULE_HEAT_PAIR,
    RULE_HEAT_UNITLESS,
    RULE_MICROWAVE_POWER,
    /* claims and allergens */
    RULE_CLAIM_FALSE,
    RULE_CLAIM_ON_CHOICE,
    RULE_CLAIM_LABEL,
    RULE_CLAIM_TRACE,
    RULE_CLAIM_UNKNOWN,
    RULE_CLAIM_CLOSE, /* the promise of the diet, of a portion that is close to a limit */
    RULE_CLAIM_HEALTH,
    /* safety */
    RULE_SAFETY_PRACTICE, /* the caution's row gives the words; RULE_SAFETY_DANGER where its level
                             is error, RULE_SAFETY_NOTE where it is note */
    RULE_SAFETY_DANGER,
    RULE_SAFETY_NOTE,
    /* data */
    RULE_DATA_RECOMMENDED,
    RULE_IMAGE_MISSING,
    RULE_IMAGE_FILE,     /* the picture that a post names cannot be published */
    RULE_LINK_DEAD,      /* a link to another post's file that leads to no post */
    RULE_IMAGE_LEFT,     /* a picture in the prose, or of the video, is not copied */
    RULE_DISH_HEADING,   /* a dish of a round-up has no heading of its name in the body */
    RULE_MEMBER,         /* a post that a round-up gathers is not there, or cannot be gathered */
    RULE_ROUND_UP_COUNT, /* the title promises another number of dishes */
    RULE_ROUND_UP_MIXED, /* ingredients, dishes and gathers exclude each other */
    RULE_MENU_OVER,      /* what is eaten at one sitting is over together */
    RULE_MENU_CLOSE,     /* ... close, unknown, or over by a choice */
    RULE_REVIEW_LAPSED,  /* what a review was of has changed since */
    RULE_VIDEO_CLIPS,    /* a clip cannot lie in the video as its post says */
    RULE_ANSWER_UNUSED,
    RULE_FINDINGS_MANY, /* more findings than are told */
    RULES
};

struct notice {
    enum rule rule;
    struct place place;
    struct slice what; /* fills {what}: the author's words, exactly */
    struct slice more; /* fills {more}: figures, nearest names */
    struct slice mend; /* takes the place of the rule's mend, or empty */
    struct slice dish; /* of a round-up: of which dish it is told; else empty */
};

struct notices {
    struct arena *arena;
    struct notice *items; /* in the order they were raised */
    size_t count, room;
};

/* what and more must live as long as the arena */
void notice_add(struct notices *list, enum rule rule, struct place place, struct slice what,
                struct slice more);
/* the same with a mend of its own */
void notice_add_mended(struct notices *list, enum rule rule, struct place place, struct slice what,
                       struct slice more, struct slice mend);
/* adds a notice of another list; its words are not copied */
void notice_pass(struct notices *list, const struct notice *n);

#endif
