#include "write/linked_line.h"

#include "read/link.h"
#include "write/links.h"

struct linked_line
linked_line_begin(struct text *t, const struct outcome *o, const struct ingredient_line *line)
{
    struct linked_line l = {.t = t, .o = o, .line = line, .begin = t->length};
    if (link_is_safe(line->link)) {
        l.from = line->link_from;
        l.to = line->link_to;
    }
    linked_line_advance(&l, 0);
    return l;
}

void
linked_line_advance(struct linked_line *l, size_t at)
{
    if (!l->open && at >= l->from && at < l->to) {
        text_add_string(l->t, "<a href=\"");
        text_add_html(l->t, l->line->link);
        text_add_string(l->t, "\">");
        l->open = true;
    } else if (l->open && at >= l->to) {
        text_add_string(l->t, "</a>");
        l->open = false;
    }
}

void
linked_line_words(struct linked_line *l, size_t from, size_t to)
{
    const size_t stops[] = {l->from, l->to};
    for (size_t i = 0; i < 2; i++)
        if (stops[i] > from && stops[i] < to) {
            text_add_html(l->t, slice_part(l->line->text, from, stops[i]));
            from = stops[i];
            linked_line_advance(l, from);
        }
    text_add_html(l->t, slice_part(l->line->text, from, to));
    linked_line_advance(l, to);
}

void
linked_line_end(struct linked_line *l)
{
    text_add_string(l->t, l->open ? "</a>" : "");
    if (l->to > 0)
        links_resolve(l->t, l->begin, l->o, false);
}
