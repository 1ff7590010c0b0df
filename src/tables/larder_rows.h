/* How the larder is kept, for the rooms that build and search it alone: larder.c, food_rows.c,
 * food_names.c. All others see larder.h. */
#ifndef TABLES_LARDER_ROWS_H
#define TABLES_LARDER_ROWS_H

#include "base/list.h"
#include "base/map.h"
#include "base/notice.h"
#include "read/word_lists.h"
#include "tables/foods.h"

/* where a name holds: everywhere, in a region's speech, or for what is measured in a way */
enum name_scope { NAME_OWN, NAME_ANY, NAME_ID, NAME_REGION, NAME_MEASURED };

struct food_name {
    const struct food_row *row;
    const char *text;   /* as the table writes it */
    struct slice head;  /* the stem of the noun that says what it is */
    struct slice order; /* its stems as written, with a space between them */
    enum name_scope scope;
    const char *region;     /* NAME_REGION: us, au, nz, uk, ca */
    enum measured_by by;    /* NAME_MEASURED */
    struct food_name *next; /* of the same words in another food or scope */
};

struct food_row {
    struct food food;
    struct place counts_place; /* of its `counts-with` */
    const char *path;          /* of its file */
    struct food_name *names;
    size_t name_count;
};

struct kin; /* food_kin.h */

struct larder {
    struct arena *arena;
    struct arena *scratch; /* while it is built */
    struct map texts;      /* while it is built: each text is kept once */
    const struct measures *measures;
    const struct word_lists *words; /* of English, for what stands behind a comma */
    struct food_row **items;        /* in the order of the tables */
    size_t count, room;
    struct map by_id;                    /* id -> struct food_row * */
    LIST_OF(struct food_row *) labelled; /* those that come with a packet, as they were read */
    const char *path;                    /* while it is built: of the file that is read */
    struct kin *kin;                     /* food_kin.h */
    size_t kin_count;
    struct map names;  /* sorted stems, "cheese cream" -> struct food_name * */
    struct map stems;  /* each stem of a name -> a name that has it */
    struct map joined; /* stems written as one, "cornflour" -> struct food_name * */
};

/* a text kept in the larder, once however often it stands in the tables */
const char *larder_text(struct larder *l, struct slice text);

#endif
