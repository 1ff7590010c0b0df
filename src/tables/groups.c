#include "tables/groups.h"

static const struct group_row {
    const char *word, *name;
    enum group sum;
    bool in_sitting;
} group_rows[GROUPS] = {
#define ROW(number, word, name, sum, in_sitting) [number] = {word, name, sum, in_sitting},
    GROUP_ROWS(ROW)
#undef ROW
};

static const struct {
    const char *word, *name;
} allergen_rows[ALLERGENS] = {
#define ROW(number, word, name) [number] = {word, name},
    ALLERGEN_ROWS(ROW)
#undef ROW
};

#define ROW(number, word) [number] = word,
static const char *const class_words[CLASSES] = {CLASS_ROWS(ROW)};
#undef ROW

static const struct diet_row diet_rows[DIETS] = {
#define ROW(number, word, url, because, rules_out) [number] = {word, url, because, rules_out},
    DIET_ROWS(ROW)
#undef ROW
};

const char *
groups_word(enum group g)
{
    return group_rows[g].word;
}

const char *
groups_name(enum group g)
{
    return group_rows[g].name;
}

bool
groups_read(struct slice word, enum group *g)
{
    for (int i = 0; i < GROUPS; i++)
        if (slice_is(word, group_rows[i].word)) {
            *g = (enum group)i;
            return true;
        }
    return false;
}

enum group
group_sum(enum group g)
{
    return group_rows[g].sum;
}

bool
groups_is_part(enum group part, enum group sum)
{
    return part != sum && group_rows[part].sum == sum;
}

bool
groups_is_sum(enum group g)
{
    for (enum group part = 0; part < GROUPS; part++)
        if (groups_is_part(part, g))
            return true;
    return false;
}

bool
groups_in_sitting(enum group g)
{
    return group_rows[g].in_sitting;
}

const char *
groups_class_word(enum food_class c)
{
    return class_words[c];
}

const char *
groups_allergen_word(enum allergen a)
{
    return allergen_rows[a].word;
}

const char *
groups_allergen_name(enum allergen a)
{
    return allergen_rows[a].name;
}

bool
groups_allergen_is_cereal(enum allergen a)
{
    return a >= ALLERGEN_WHEAT && a <= ALLERGEN_OATS;
}

const char *
groups_diet_word(enum diet d)
{
    return diet_rows[d].word;
}

const struct diet_row *
groups_diet(enum diet d)
{
    return &diet_rows[d];
}

const char *
groups_allergen_at(int i)
{
    return groups_allergen_word((enum allergen)i);
}

const char *
groups_diet_at(int i)
{
    return groups_diet_word((enum diet)i);
}
