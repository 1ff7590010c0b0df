#include "press/impact_outputs.h"

#include "write/article.h"
#include "write/record.h"
#include "write/record_make.h"

enum { HEADING_LEVEL = 2 };

static struct slice
fragment_of(struct arena *a, const struct outcome *o)
{
    const struct fragment_manner manner = {HEADING_LEVEL, -1};
    struct text t = text_new(a);
    if (o->publishable)
        article_write(&t, o, &manner);
    return text_slice(&t);
}

static struct slice
data_of(struct arena *a, const struct outcome *o)
{
    struct text t = text_new(a);
    if (o->post.readable)
        article_data_write(&t, o);
    return text_slice(&t);
}

static bool
records_differ(struct arena *a, const struct impact_pair *pair)
{
    struct record before, after;
    record_make(a, pair->before, &before);
    record_make(a, pair->after, &after);
    bool differ = before.publishable != after.publishable;
    for (int k = 0; k < RECORD_PIECES; k++) /* what fits beside it is of other posts' pages */
        differ = differ || (k != RECORD_FITTING && !slice_equal(before.pieces[k], after.pieces[k]));
    return differ;
}

struct outputs_changed
impact_outputs(struct arena *a, const struct impact_pair *pair)
{
    struct outputs_changed out;
    out.page = !slice_equal(fragment_of(a, pair->before), fragment_of(a, pair->after));
    out.data = !slice_equal(data_of(a, pair->before), data_of(a, pair->after));
    out.any = out.page || out.data || records_differ(a, pair);
    return out;
}
