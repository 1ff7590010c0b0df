/* A lexicon of a few units and foods, so that lines are tested without the tables. */
#ifndef SMALL_LEXICON_H
#define SMALL_LEXICON_H

#include <string.h>

#include "english.h"
#include "read/amount.h"

struct small_unit {
    struct unit unit;
    const char *words; /* between bars */
};

/* au: tablespoon 20 mL, cup 250 mL */
static const struct small_unit small_units[] = {
    {{.id = "ml", .kind = UNIT_VOLUME, .size = {1, 1, 1}},
     "|ml|mls|mil|mils|millilitre|millilitres|"},
    {{.id = "l", .kind = UNIT_VOLUME, .size = {1000, 1000, 1000}}, "|l|litre|litres|liter|liters|"},
    {{.id = "tsp", .kind = UNIT_VOLUME, .spoon = true, .size = {5, 5, 5}},
     "|tsp|tsps|teaspoon|teaspoons|"},
    {{.id = "tbsp", .kind = UNIT_VOLUME, .spoon = true, .size = {20, 20, 20}},
     "|tbsp|tbsps|tbs|tablespoon|tablespoons|"},
    {{.id = "cup", .kind = UNIT_VOLUME, .size = {250, 250, 250}}, "|cup|cups|c|"},
    {{.id = "fl-oz", .kind = UNIT_VOLUME, .size = {28.4, 28.4, 28.4}},
     "|fl oz|fluid ounces|fluid ounce|"},
    {{.id = "pint", .kind = UNIT_VOLUME, .size = {568, 568, 568}}, "|pint|pints|pt|"},
    {{.id = "g", .kind = UNIT_WEIGHT, .size = {1, 1, 1}}, "|g|gm|gram|grams|"},
    {{.id = "kg", .kind = UNIT_WEIGHT, .size = {1000, 1000, 1000}}, "|kg|kilo|kilos|"},
    {{.id = "oz", .kind = UNIT_WEIGHT, .size = {28.35, 28.35, 28.35}}, "|oz|ounce|ounces|"},
    {{.id = "lb", .kind = UNIT_WEIGHT, .size = {453.6, 453.6, 453.6}}, "|lb|lbs|pound|pounds|"},
    {{.id = "stick", .kind = UNIT_PIECE}, "|stick|sticks|"},
    {{.id = "clove", .kind = UNIT_PIECE}, "|clove|cloves|"},
    {{.id = "stalk", .kind = UNIT_PIECE}, "|stalk|stalks|"},
    {{.id = "sprig", .kind = UNIT_PIECE}, "|sprig|sprigs|"},
    {{.id = "bunch", .kind = UNIT_PIECE}, "|bunch|bunches|"},
    {{.id = "head", .kind = UNIT_PIECE}, "|head|heads|"},
    {{.id = "leaf", .kind = UNIT_PIECE}, "|leaf|leaves|"},
    {{.id = "slice", .kind = UNIT_PIECE}, "|slice|slices|"},
    {{.id = "can", .kind = UNIT_PIECE}, "|can|cans|tin|tins|"},
    {{.id = "jar", .kind = UNIT_PIECE}, "|jar|jars|"},
    {{.id = "packet", .kind = UNIT_PIECE}, "|packet|packets|pack|package|"},
    {{.id = "block", .kind = UNIT_PIECE}, "|block|blocks|"},
    {{.id = "fillet", .kind = UNIT_PIECE}, "|fillet|fillets|"},
    {{.id = "piece", .kind = UNIT_PIECE}, "|piece|pieces|"},
    {{.id = "cm", .kind = UNIT_PIECE}, "|cm|cm piece|cm knob|"},
    {{.id = "inch", .kind = UNIT_PIECE}, "|inch|inches|inch piece|in piece|"},
    {{.id = "thumb", .kind = UNIT_PIECE}, "|thumb|thumb sized piece|thumb size piece|"},
    {{.id = "pinch", .kind = UNIT_VAGUE, .size = {0.15, 0.3, 0.6}}, "|pinch|pinches|"},
    {{.id = "dash", .kind = UNIT_VAGUE, .size = {0.3, 0.6, 1.2}}, "|dash|dashes|"},
    {{.id = "drop", .kind = UNIT_VAGUE, .size = {0.03, 0.05, 0.1}}, "|drop|drops|"},
    {{.id = "splash", .kind = UNIT_VAGUE, .size = {2, 7, 15}}, "|splash|splashes|"},
    {{.id = "drizzle", .kind = UNIT_VAGUE, .size = {5, 10, 20}}, "|drizzle|"},
    {{.id = "handful", .kind = UNIT_VAGUE, .size = {60, 100, 180}}, "|handful|handfuls|"},
    {{.id = "knob", .kind = UNIT_VAGUE, .size = {5, 14, 30}, .vague_grams = true}, "|knob|"},
    {{.id = "squeeze", .kind = UNIT_VAGUE, .size = {2, 5, 15}}, "|squeeze|"},
};

static const char *const small_foods =
    "|coarse polenta|polenta|water|filtered water|garlic-infused oil|garlic "
    "oil|tomatoes|tomato|maple syrup|brown sugar|"
    "smoked paprika|paprika|lime|limes|lemon|lemons|lemon juice|lime juice|milk|oat milk|chickpeas|"
    "walnuts|pecans|chopped walnuts|salt|sea salt|pepper|black pepper|butter|oil|olive "
    "oil|basil|basil leaves|"
    "garlic|onion|onions|red onion|spring onions|flour|plain flour|sugar|caster sugar|potatoes|"
    "red wine vinegar|white wine vinegar|eggs|egg|egg whites|rice|parsley|coriander|mint|mint "
    "leaves|"
    "oregano|dried oregano|fresh oregano|thyme|feta|goat's cheese|salmon|salmon fillets|"
    "dijon mustard|wholegrain mustard|chicken stock|vegetable stock|stock|cream|creme fraiche|"
    "celery|carrots|carrot|ginger|bay leaves|bread|almonds|sliced almonds|chopped almonds|yoghurt|"
    "vanilla|vanilla extract|cinnamon|cloves|ground cloves|half and half|tofu|firm tofu|pine "
    "nuts|courgette|"
    "zucchini|courgettes|rosemary|bananas|ripe bananas|strawberries|ripe strawberries|cocoa|oats|"
    "rolled oats|five-spice powder|5-spice powder|70% chocolate|2% milk|dark chocolate|chocolate|"
    "cornflour|soy sauce|tamari|vinegar|lettuce|spinach|beans|green beans|cumin|nutmeg|ripe "
    "tomatoes|"
    "coconut milk|baking powder|bicarbonate of soda|cream of tartar|quinoa|cherry tomatoes|almond "
    "milk|soy milk|hot chicken stock|crackers|honey|hearts of palm|honey|golden "
    "syrup|";

static inline bool
small_holds(const char *list, struct slice words)
{
    char sought[80];
    if (words.length + 3 > sizeof sought)
        return false;
    sought[0] = '|';
    for (size_t i = 0; i < words.length; i++) {
        char c = words.at[i];
        sought[i + 1] = c >= 'A' && c <= 'Z' ? (char)(c + 32) : c;
    }
    sought[words.length + 1] = '|';
    sought[words.length + 2] = '\0';
    return strstr(list, sought) != NULL;
}

static inline const struct unit *
small_unit(void *ctx, struct slice words)
{
    (void)ctx;
    if (words.length == 1 && words.at[0] == 'T')
        return &small_units[3].unit;
    if (words.length == 1 && words.at[0] == 't')
        return &small_units[2].unit;
    for (size_t i = 0; i < sizeof small_units / sizeof *small_units; i++)
        if (small_holds(small_units[i].words, words))
            return &small_units[i].unit;
    return NULL;
}

static inline bool
small_food(void *ctx, struct slice words)
{
    (void)ctx;
    return small_holds(small_foods, words);
}

static inline void
small_nearest(void *ctx, struct slice word, const char *nearest[3])
{
    (void)ctx;
    (void)word;
    nearest[0] = "tbsp";
    nearest[1] = nearest[2] = NULL;
}

static inline const struct lexicon *
small_lexicon(void)
{
    static struct lexicon l = {NULL, small_unit, small_food, NULL, small_nearest, NULL, false};
    l.lists = english();
    return &l;
}

#endif
