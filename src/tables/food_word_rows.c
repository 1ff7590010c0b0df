#include "tables/food_word_rows.h"

struct word_row {
    const char *stem;
    enum word_part part;
};

/* sorted by stem, for the search in halves; a row a line */
/* clang-format off */
static const struct word_row word_rows[] = {
    {"a", WORD_GLUE},
    {"additional", WORD_NOISE},
    {"all", WORD_NOISE},
    {"an", WORD_GLUE},
    {"and", WORD_GLUE},
    {"approximately", WORD_STOP},
    {"artisan", WORD_NOISE},
    {"as", WORD_STOP},
    {"at", WORD_STOP},
    {"baby", WORD_SOFT},
    {"baton", WORD_CUT},
    {"beaten", WORD_HOW},
    {"best", WORD_NOISE},
    {"big", WORD_NOISE},
    {"blanched", WORD_NUT},
    {"bleached", WORD_NOISE},
    {"boiling", WORD_NOISE},
    {"boned", WORD_CUT},
    {"boneless", WORD_CUT},
    {"brand", WORD_NOISE},
    {"broken", WORD_HOW},
    {"bruised", WORD_HOW},
    {"but", WORD_GLUE},
    {"chilled", WORD_NOISE},
    {"chopped", WORD_CUT},
    {"chunk", WORD_CUT},
    {"chunky", WORD_HOW},
    {"clean", WORD_NOISE},
    {"cleaned", WORD_CUT},
    {"coarse", WORD_SOFT},
    {"coarsely", WORD_HOW},
    {"coin", WORD_CUT},
    {"cold", WORD_NOISE},
    {"cooking", WORD_SOFT},
    {"cooled", WORD_HOW},
    {"cored", WORD_CUT},
    {"creamy", WORD_SOFT},
    {"crisp", WORD_NOISE},
    {"crumbled", WORD_CUT},
    {"crunchy", WORD_NOISE},
    {"crushed", WORD_CUT},
    {"cubed", WORD_CUT},
    {"cut", WORD_CUT},
    {"deseeded", WORD_CUT},
    {"destoned", WORD_CUT},
    {"deveined", WORD_CUT},
    {"diagonally", WORD_HOW},
    {"diced", WORD_CUT},
    {"drained", WORD_HOW},
    {"each", WORD_NOISE},
    {"eg", WORD_STOP},
    {"enriched", WORD_NOISE},
    {"extra", WORD_SOFT},
    {"fashioned", WORD_SOFT},
    {"fillet", WORD_SOFT},
    {"filleted", WORD_CUT},
    {"fine", WORD_SOFT},
    {"finely", WORD_HOW},
    {"fire", WORD_SOFT},
    {"firm", WORD_SOFT},
    {"firmly", WORD_HOW},
    {"flaked", WORD_STATE},
    {"flesh", WORD_CUT},
    {"floret", WORD_CUT},
    {"floweret", WORD_CUT},
    {"for", WORD_STOP},
    {"free", WORD_NAME},
    {"fresh", WORD_NOISE},
    {"freshly", WORD_HOW},
    {"from", WORD_STOP},
    {"frozen", WORD_SOFT},
    {"generous", WORD_NOISE},
    {"glossy", WORD_NOISE},
    {"good", WORD_NOISE},
    {"grade", WORD_NOISE},
    {"grain", WORD_SOFT},
    {"grated", WORD_CUT},
    {"grind", WORD_SOFT},
    {"ground", WORD_STATE},
    {"halved", WORD_CUT},
    {"heaping", WORD_NOISE},
    {"heirloom", WORD_NOISE},
    {"high", WORD_SOFT},
    {"homemade", WORD_NOISE},
    {"hot", WORD_SOFT},
    {"hulled", WORD_CUT},
    {"ice", WORD_NAME},
    {"if", WORD_STOP},
    {"in", WORD_GLUE},
    {"jointed", WORD_CUT},
    {"juicy", WORD_NOISE},
    {"julienned", WORD_CUT},
    {"just", WORD_NOISE},
    {"large", WORD_NOISE},
    {"lean", WORD_SOFT},
    {"leftover", WORD_NOISE},
    {"lengthways", WORD_HOW},
    {"lengthwise", WORD_HOW},
    {"lightly", WORD_HOW},
    {"like", WORD_STOP},
    {"little", WORD_SOFT},
    {"local", WORD_NOISE},
    {"long", WORD_SOFT},
    {"loosely", WORD_HOW},
    {"lukewarm", WORD_NOISE},
    {"mashed", WORD_STATE},
    {"matchstick", WORD_CUT},
    {"medium", WORD_NOISE},
    {"melted", WORD_HOW},
    {"mild", WORD_SOFT},
    {"minced", WORD_CUT},
    {"natural", WORD_SOFT},
    {"nice", WORD_NOISE},
    {"nonstick", WORD_NOISE},
    {"of", WORD_GLUE},
    {"old", WORD_SOFT},
    {"on", WORD_GLUE},
    {"optional", WORD_NOISE},
    {"organic", WORD_NOISE},
    {"overripe", WORD_NOISE},
    {"packed", WORD_HOW},
    {"peeled", WORD_CUT},
    {"picked", WORD_CUT},
    {"piece", WORD_CUT},
    {"pip", WORD_NAME},
    {"pitted", WORD_CUT},
    {"plain", WORD_SOFT},
    {"plump", WORD_NOISE},
    {"plus", WORD_STOP},
    {"pre", WORD_NOISE},
    {"preferably", WORD_STOP},
    {"premium", WORD_NOISE},
    {"pressed", WORD_HOW},
    {"pure", WORD_SOFT},
    {"pureed", WORD_STATE},
    {"quality", WORD_NOISE},
    {"quartered", WORD_CUT},
    {"range", WORD_NAME},
    {"raw", WORD_SOFT},
    {"ready", WORD_NOISE},
    {"regular", WORD_SOFT},
    {"rehydrated", WORD_NAME},
    {"ribbon", WORD_CUT},
    {"rindless", WORD_CUT},
    {"ring", WORD_CUT},
    {"rinsed", WORD_HOW},
    {"ripe", WORD_NOISE},
    {"roasted", WORD_NUT},
    {"room", WORD_NOISE},
    {"rough", WORD_HOW},
    {"roughly", WORD_HOW},
    {"salted", WORD_NUT},
    {"season", WORD_NOISE},
    {"seasonal", WORD_NOISE},
    {"seeded", WORD_CUT},
    {"seedless", WORD_NOISE},
    {"segmented", WORD_CUT},
    {"separated", WORD_HOW},
    {"shaved", WORD_CUT},
    {"shelled", WORD_CUT},
    {"shredded", WORD_CUT},
    {"shucked", WORD_CUT},
    {"sieved", WORD_HOW},
    {"sifted", WORD_HOW},
    {"silky", WORD_SOFT},
    {"skinless", WORD_CUT},
    {"skinned", WORD_CUT},
    {"slice", WORD_CUT},
    {"sliced", WORD_CUT},
    {"slivered", WORD_STATE},
    {"small", WORD_NOISE},
    {"smallish", WORD_NOISE},
    {"soft", WORD_SOFT},
    {"softened", WORD_HOW},
    {"some", WORD_GLUE},
    {"spiral", WORD_SOFT},
    {"spray", WORD_SOFT},
    {"stale", WORD_NOISE},
    {"standard", WORD_NOISE},
    {"stemmed", WORD_CUT},
    {"stoned", WORD_CUT},
    {"strip", WORD_CUT},
    {"stripped", WORD_CUT},
    {"sturdy", WORD_NOISE},
    {"such", WORD_STOP},
    {"temperature", WORD_NOISE},
    {"tender", WORD_NOISE},
    {"thawed", WORD_HOW},
    {"the", WORD_GLUE},
    {"then", WORD_GLUE},
    {"thick", WORD_SOFT},
    {"thickly", WORD_HOW},
    {"thin", WORD_SOFT},
    {"thinly", WORD_HOW},
    {"to", WORD_STOP},
    {"toasted", WORD_NUT},
    {"torn", WORD_CUT},
    {"trimmed", WORD_CUT},
    {"trimming", WORD_CUT},
    {"twist", WORD_SOFT},
    {"unbleached", WORD_NOISE},
    {"uncooked", WORD_SOFT},
    {"unenriched", WORD_NOISE},
    {"unpeeled", WORD_NOISE},
    {"unroasted", WORD_NUT},
    {"unsalted", WORD_SOFT},
    {"unsifted", WORD_HOW},
    {"unsmoked", WORD_SOFT},
    {"unsweetened", WORD_SOFT},
    {"unthawed", WORD_HOW},
    {"untreated", WORD_NOISE},
    {"unwaxed", WORD_NOISE},
    {"very", WORD_GLUE},
    {"warm", WORD_NOISE},
    {"washed", WORD_NOISE},
    {"wedge", WORD_CUT},
    {"well", WORD_HOW},
    {"whisked", WORD_HOW},
    {"whole", WORD_STATE},
    {"with", WORD_STOP},
    {"without", WORD_STOP},
    {"your", WORD_GLUE},
    {"zested", WORD_HOW},
};
/* clang-format on */

/* words that a rule for plurals would get wrong, and other spellings of one word; sorted */
static const struct {
    const char *word, *stem;
} stem_rows[] = {
    {"asparagus", "asparagus"},
    {"brownies", "brownie"},
    {"calves", "calf"},
    {"chile", "chilli"},
    {"chiles", "chilli"},
    {"chili", "chilli"},
    {"chilies", "chilli"},
    {"chilis", "chilli"},
    {"chillies", "chilli"},
    {"chillis", "chilli"},
    {"chipped", "chip"},
    {"cookies", "cookie"},
    {"couscous", "couscous"},
    {"desiccated", "desiccated"},
    {"dessicated", "desiccated"},
    {"dried", "dried"},
    {"dry", "dried"},
    {"filet", "fillet"},
    {"filets", "fillet"},
    {"freerange", "freerange"},
    {"grey", "gray"},
    {"halves", "half"},
    {"knives", "knife"},
    {"leaves", "leaf"},
    {"lite", "light"},
    {"loaves", "loaf"},
    {"lowfat", "lowfat"},
    {"molasses", "molasses"},
    {"nonfat", "nonfat"},
    {"pies", "pie"},
    {"pulverised", "ground"},
    {"pulverized", "ground"},
    {"quiches", "quiche"},
    {"shelves", "shelf"},
    {"skimmed", "skim"},
    {"smoothies", "smoothie"},
    {"swiss", "swiss"},
    {"tin", "can"},
    {"tinned", "canned"},
    {"tins", "can"},
    {"veggies", "vegetable"},
    {"whiskey", "whisky"},
    {"yoghourt", "yoghurt"},
    {"yogurt", "yoghurt"},
    {"yogurts", "yoghurt"},
};

static int
order(struct slice word, const char *row)
{
    for (size_t i = 0; i < word.length; i++)
        if (word.at[i] != row[i])
            return (unsigned char)word.at[i] < (unsigned char)row[i] ? -1 : 1;
    return row[word.length] != '\0' ? -1 : 0;
}

const char *
food_word_stem(struct slice word)
{
    size_t low = 0, high = sizeof stem_rows / sizeof *stem_rows;
    while (low < high) {
        size_t mid = (low + high) / 2;
        int o = order(word, stem_rows[mid].word);
        if (o == 0)
            return stem_rows[mid].stem;
        if (o < 0)
            high = mid;
        else
            low = mid + 1;
    }
    return NULL;
}

enum word_part
food_word_part(struct slice stem)
{
    if (slice_ends(stem, "%")) /* "85% lean", "2% fat": of the label, unless a name has it */
        return WORD_SOFT;
    if (stem.length == 2 && stem.at[0] >= '0' && stem.at[0] <= '9' && stem.at[1] >= '0' &&
        stem.at[1] <= '9') /* "80/20 mince", "70 dark chocolate" */
        return WORD_SOFT;
    size_t low = 0, high = sizeof word_rows / sizeof *word_rows;
    while (low < high) {
        size_t mid = (low + high) / 2;
        int o = order(stem, word_rows[mid].stem);
        if (o == 0)
            return word_rows[mid].part;
        if (o < 0)
            high = mid;
        else
            low = mid + 1;
    }
    return WORD_NAME;
}
