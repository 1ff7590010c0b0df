/* The larder: foods with names, forms, contents, allergens, diets, nutrients; and the finding of a
 * food by a cook's words. */
#ifndef TABLES_FOODS_H
#define TABLES_FOODS_H

#include "tables/figure.h"
#include "tables/groups.h"
#include "tables/measures.h"

enum nutrient {
    ENERGY_KCAL,
    PROTEIN,
    FAT,
    SATURATED_FAT,
    CARBOHYDRATE,
    SUGARS,
    FIBRE,
    SODIUM_MG,
    NUTRIENTS
};

/* "energy-kcal": as tables and data have it */
const char *foods_nutrient_word(enum nutrient n);

struct piece {
    const char *word; /* each, small, medium, large, clove, stalk, bunch, can ... */
    struct figure grams;
};

/* the stems of a phrase, as food_words.h makes them */
struct stems {
    struct slice *items;
    size_t count;
};

struct form {
    struct entry entry;      /* "food:banana/mashed": density, pieces, edible share */
    const char *name;        /* whole, chopped, mashed ... */
    const char **words;      /* further words that choose it; NULL-terminated */
    struct stems *chosen_by; /* of the name and of each of the words */
    size_t chosen_by_count;
    struct figure density; /* g per mL */
    struct piece *pieces;
    size_t piece_count;
    bool weighed_bought;  /* density and pieces weigh the food as bought, else the edible part */
    bool drained_if_said; /* of a tin: all of it is eaten unless the line says that it is drained */
    struct figure
        edible; /* edible part of the food as bought in this form; not known: taken as 1 */
};

struct given_serve;
struct usual_recipe;
struct label; /* label.h */

struct food {
    const char *id;
    const char *name;                /* to show where no regional name fits */
    const char *shown[REGIONS_MOST]; /* by region, NULL: name */
    struct entry identity;           /* "food:banana": name, class, fresh, allergens, diets, tags */
    struct entry contents_entry[GROUPS]; /* "food:banana/fructan" */
    struct entry nutrients_entry;        /* "food:banana/nutrients" */
    struct entry serve_entry;            /* "food:banana/serve" */
    enum food_class food_class;
    bool fresh;                /* raw produce: the larger allowance of fructose may hold */
    bool seasoning;            /* a dried herb or spice, taken by the pinch */
    bool kinless;              /* no family or class tells what it may hold */
    const char *counts_with;   /* id of the entry that it is one food with; NULL: itself alone */
    const char *family, *part; /* botanical: "Rosaceae", "fruit"; NULL: none is said */
    uint32_t allergens, may_carry; /* bits 1 << enum allergen */
    uint32_t traces;               /* what comes near it, or is in a few of the kind */
    uint32_t breaks, labelled;     /* bits 1 << enum diet */
    struct figure grounds;         /* source and basis of the five above */
    const char **tags;             /* for cautions; NULL-terminated */
    const char *ph;                /* "acid", "low-acid" or NULL */
    struct form *forms;            /* at least one; the first holds when nothing else is said */
    size_t form_count;
    struct figure
        contents[GROUPS]; /* g per 100 g edible; sums only where a source gives just these */
    uint32_t reckoned;    /* contents that come from the usual recipe: bits 1 << enum group */
    const struct usual_recipe *usual;   /* food_recipe.h; NULL: none is stated */
    struct figure bounds[GROUPS];       /* span.high: g per 100 g that nothing passes */
    const struct given_serve *serves;   /* the writer's own: serve_settle.h; NULL: none */
    struct figure nutrients[NUTRIENTS]; /* per 100 g edible */
    struct label *label;                /* what its packet says; NULL: nothing */
};

struct larder; /* opaque: foods, names, word tables */

enum measured_by { BY_NOTHING, BY_SPOON, BY_CUP, BY_WEIGHT, BY_PIECE, BY_BUNCH };

struct sought {
    struct slice name;    /* the words before the comma */
    struct slice after;   /* the words behind it, or empty */
    struct slice bracket; /* those of them that stood in a bracket and may be a name, or empty */
    bool shared;          /* the words behind are said of another food, and of this one too */
    int region;
    enum measured_by by;
    const char *part; /* "juice" or "zest" of the food that is named; NULL: the food itself */
    bool tinned;      /* the amount is that of a tin or jar */
};

struct found {
    const struct food *food;     /* NULL: not known */
    const struct form *form;     /* the form the amount was measured in */
    const struct form *form_cut; /* what words behind the comma make of it; NULL: nothing */
    bool form_said;              /* the line chose the form */
    const struct food *rival;    /* the words fit this one as well: ambiguous */
    const char *nearest[3];      /* when not known: names that are near, best first */
    size_t name_from, name_to;   /* bytes of `name` that name the food */
    const char *piece_word;      /* a piece of the food among the words: "garlic cloves"; or NULL */
    bool prepared;               /* words before the comma say that it is measured peeled or cut */
    bool drained;                /* words say that it is drained */
    bool corrected;              /* the name was misspelt; it is read as the one that is near */
    uint32_t doubt_allergens, doubt_diets; /* those that what was not understood could hold */
    struct slice passed; /* words behind the comma that nobody understood, or empty */
    bool undrained;      /* words say that its liquid is taken as well */
};

/* figures, noted in reads; a figure with BASIS_NONE is not known */
static inline const struct figure *
food_content(const struct food *f, enum group g, struct reads *reads)
{
    reads_note(reads, &f->contents_entry[g]);
    return &f->contents[g];
}
/* what the content is at most; not known where no bound is published */
static inline const struct figure *
food_bound(const struct food *f, enum group g, struct reads *reads)
{
    reads_note(reads, &f->contents_entry[g]);
    return &f->bounds[g];
}
/* the id that all entries of one food share: of the lead that it counts with, or its own */
static inline const char *
food_lead(const struct food *f)
{
    return f->counts_with != NULL ? f->counts_with : f->id;
}
static inline const struct figure *
food_nutrient(const struct food *f, enum nutrient n, struct reads *reads)
{
    reads_note(reads, &f->nutrients_entry);
    return &f->nutrients[n];
}
const struct figure *foods_form_density(const struct form *f, struct reads *reads);
/* the weight of one piece by its word ("clove", "medium"), or NULL */
const struct figure *foods_form_piece(const struct form *f, const char *word, struct reads *reads);
const struct figure *foods_form_edible(const struct form *f, struct reads *reads);
/* name to show in a region */
const char *foods_shown(const struct food *f, int region, struct reads *reads);

#endif
