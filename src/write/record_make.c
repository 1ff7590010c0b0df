#include "write/record_make.h"

#include "write/catalogue.h"
#include "write/feed_item.h"
#include "write/fitting.h"
#include "write/preview.h"
#include "write/recipe_name.h"
#include "write/report.h"
#include "write/sarif.h"

void
record_make(struct arena *a, const struct outcome *o, struct record *out)
{
    static const struct report_manner plain = {false, true};
    struct text findings = text_new(a);
    *out = (struct record){.slug = o->post.slug, .publishable = o->publishable};
    for (int level = LEVEL_NOTE; level <= LEVEL_ERROR; level++)
        out->counts[level] = (uint32_t)o->findings.count_by_level[level];
    out->counts[LEVEL_NONE] = (uint32_t)o->findings.answered;
    report_text(&findings, &o->findings, o->post.bytes, &plain);
    out->pieces[RECORD_FINDINGS] = text_slice(&findings);
    out->pieces[RECORD_SARIF] = sarif_results(a, &o->findings);
    if (!o->publishable)
        return;
    out->published = o->post.front.published.text;
    out->changed = recipe_changed(a, o);
    out->pieces[RECORD_CATALOGUE] = catalogue_line(a, o);
    out->pieces[RECORD_DATAFEED] = feed_item_datafeed(a, o);
    out->pieces[RECORD_JSON_FEED] = feed_item_json(a, o);
    out->pieces[RECORD_ATOM] = feed_item_atom(a, o);
    out->pieces[RECORD_SITEMAP] = feed_item_sitemap(a, o);
    out->pieces[RECORD_INDEX] = preview_row(a, o);
    out->pieces[RECORD_FITTING] = fitting_facts(a, o);
}
