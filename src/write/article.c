#include "write/article.h"

#include "write/recipe_data.h"
#include "write/round_up.h"

void
article_write(struct text *t, const struct outcome *o, const struct fragment_manner *manner)
{
    if (outcome_round_up(o))
        round_up_write(t, o, manner);
    else
        fragment_write(t, o, manner);
}

void
article_data_write(struct text *t, const struct outcome *o)
{
    if (outcome_round_up(o))
        round_up_data_write(t, o);
    else
        recipe_data_write(t, o);
}
