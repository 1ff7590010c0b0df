#include "tables/foods.h"

#include <string.h>

const char *
foods_nutrient_word(enum nutrient n)
{
    static const char *const words[NUTRIENTS] = {
        [ENERGY_KCAL] = "energy-kcal",
        [PROTEIN] = "protein",
        [FAT] = "fat",
        [SATURATED_FAT] = "saturated-fat",
        [CARBOHYDRATE] = "carbohydrate",
        [SUGARS] = "sugars",
        [FIBRE] = "fibre",
        [SODIUM_MG] = "sodium-mg",
    };
    return words[n];
}

const struct figure *
foods_form_density(const struct form *f, struct reads *reads)
{
    reads_note(reads, &f->entry);
    return &f->density;
}

const struct figure *
foods_form_piece(const struct form *f, const char *word, struct reads *reads)
{
    reads_note(reads, &f->entry);
    for (size_t i = 0; i < f->piece_count; i++)
        if (strcmp(f->pieces[i].word, word) == 0)
            return &f->pieces[i].grams;
    return NULL;
}

const struct figure *
foods_form_edible(const struct form *f, struct reads *reads)
{
    reads_note(reads, &f->entry);
    return &f->edible;
}

const char *
foods_shown(const struct food *f, int region, struct reads *reads)
{
    reads_note(reads, &f->identity);
    bool own = region >= 0 && region < REGIONS_MOST && f->shown[region] != NULL;
    return own ? f->shown[region] : f->name;
}
