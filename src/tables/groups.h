/* The rows by which foods are told apart: groups of carbohydrates, classes, allergens, diets. Each
 * is one list: a row added here is known to the tables, the reckoning and every output. Words stand
 * in tables and data, names are for readers. */
#ifndef TABLES_GROUPS_H
#define TABLES_GROUPS_H

#include "base/text.h"

/* group, word, name, the sum that it is a part of (itself: of none), whether it counts in a sitting
 * (a part counts within its sum) */
#define GROUP_ROWS(X)                                                                             \
    X(LACTOSE, "lactose", "lactose", LACTOSE, false)                                              \
    X(EXCESS_FRUCTOSE, "excess-fructose", "fructose in excess of glucose", EXCESS_FRUCTOSE, true) \
    X(FRUCTAN, "fructan", "fructan", OLIGOSACCHARIDES, false)                                     \
    X(GALACTO_OLIGOSACCHARIDE, "galacto-oligosaccharide", "galacto-oligosaccharide",              \
      OLIGOSACCHARIDES, false)                                                                    \
    X(OLIGOSACCHARIDES, "oligosaccharides", "oligosaccharides in all", OLIGOSACCHARIDES, true)    \
    X(SORBITOL, "sorbitol", "sorbitol", POLYOLS, false)                                           \
    X(MANNITOL, "mannitol", "mannitol", POLYOLS, false)                                           \
    X(POLYOLS, "polyols", "polyols in all", POLYOLS, true)

#define CLASS_ROWS(X)               \
    X(CLASS_GRAIN, "grain")         \
    X(CLASS_LEGUME, "legume")       \
    X(CLASS_NUT, "nut")             \
    X(CLASS_SEED, "seed")           \
    X(CLASS_VEGETABLE, "vegetable") \
    X(CLASS_FRUIT, "fruit")         \
    X(CLASS_DAIRY, "dairy")         \
    X(CLASS_OTHER, "other")

/* the 14 of Regulation (EU) 1169/2011 Annex II, and the cereals that hold gluten, each of which is
 * to be named; US law names wheat alone of them */
#define ALLERGEN_ROWS(X)                                                \
    X(ALLERGEN_GLUTEN, "gluten", "cereals containing gluten")           \
    X(ALLERGEN_WHEAT, "wheat", "wheat")                                 \
    X(ALLERGEN_RYE, "rye", "rye")                                       \
    X(ALLERGEN_BARLEY, "barley", "barley")                              \
    X(ALLERGEN_OATS, "oats", "oats")                                    \
    X(ALLERGEN_CRUSTACEANS, "crustaceans", "crustaceans")               \
    X(ALLERGEN_EGGS, "eggs", "eggs")                                    \
    X(ALLERGEN_FISH, "fish", "fish")                                    \
    X(ALLERGEN_PEANUTS, "peanuts", "peanuts")                           \
    X(ALLERGEN_SOYBEANS, "soybeans", "soybeans")                        \
    X(ALLERGEN_MILK, "milk", "milk")                                    \
    X(ALLERGEN_NUTS, "nuts", "nuts")                                    \
    X(ALLERGEN_CELERY, "celery", "celery")                              \
    X(ALLERGEN_MUSTARD, "mustard", "mustard")                           \
    X(ALLERGEN_SESAME, "sesame", "sesame seeds")                        \
    X(ALLERGEN_SULPHITES, "sulphites", "sulphur dioxide and sulphites") \
    X(ALLERGEN_LUPIN, "lupin", "lupin")                                 \
    X(ALLERGEN_MOLLUSCS, "molluscs", "molluscs")

#define SEA_ALLERGENS (1u << ALLERGEN_FISH | 1u << ALLERGEN_CRUSTACEANS | 1u << ALLERGEN_MOLLUSCS)
#define GLUTEN_ALLERGENS \
    (1u << ALLERGEN_GLUTEN | 1u << ALLERGEN_WHEAT | 1u << ALLERGEN_RYE | 1u << ALLERGEN_BARLEY)

/* diet, word, its member of schema.org's RestrictedDiet, why a dish keeps to it, the allergens that
 * it rules out (oats are for the label to say) */
#define DIET_ROWS(X)                                                                             \
    X(DIET_VEGAN, "vegan", "https://schema.org/VeganDiet", "no ingredient comes from an animal", \
      SEA_ALLERGENS | 1u << ALLERGEN_EGGS | 1u << ALLERGEN_MILK)                                 \
    X(DIET_VEGETARIAN, "vegetarian", "https://schema.org/VegetarianDiet",                        \
      "no ingredient is of meat or fish", SEA_ALLERGENS)                                         \
    X(DIET_GLUTEN_FREE, "gluten-free", "https://schema.org/GlutenFreeDiet",                      \
      "no ingredient carries gluten", GLUTEN_ALLERGENS)                                          \
    X(DIET_DAIRY_FREE, "dairy-free", NULL, "no ingredient carries milk", 1u << ALLERGEN_MILK)

#define ROW_NUMBER(number, ...) number,
enum group { GROUP_ROWS(ROW_NUMBER) GROUPS };
enum food_class { CLASS_ROWS(ROW_NUMBER) CLASSES };
enum allergen { ALLERGEN_ROWS(ROW_NUMBER) ALLERGENS };
enum diet { DIET_ROWS(ROW_NUMBER) DIETS };
#undef ROW_NUMBER

/* sets of each are bits 1 << number of a uint32_t */
_Static_assert(GROUPS < 32 && CLASSES < 32 && ALLERGENS < 32 && DIETS < 32, "a set of rows");

struct diet_row {
    const char *word;
    const char *url;     /* NULL: there is none */
    const char *because; /* a dish keeps to it */
    uint32_t rules_out;  /* allergens */
};

const char *groups_word(enum group g);
const char *groups_name(enum group g);
/* false: no group of that word */
bool groups_read(struct slice word, enum group *g);
/* the sum that a group is a part of, or the group itself */
enum group group_sum(enum group g);
/* whether a group is one of the parts of another, its sum */
bool groups_is_part(enum group part, enum group sum);
/* whether a group is the sum of others */
bool groups_is_sum(enum group g);
/* whether a group counts in a sitting, by itself and not within its sum */
bool groups_in_sitting(enum group g);

const char *groups_class_word(enum food_class c);
const char *groups_allergen_word(enum allergen a);
const char *groups_allergen_name(enum allergen a);
/* whether it is a cereal that holds gluten, named beside it */
bool groups_allergen_is_cereal(enum allergen a);
const char *groups_diet_word(enum diet d);
/* the rest of its row */
const struct diet_row *groups_diet(enum diet d);
/* the same by number, for lists of words */
const char *groups_allergen_at(int i);
const char *groups_diet_at(int i);

#endif
