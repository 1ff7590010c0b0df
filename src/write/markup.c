#include "write/markup.h"

#include <string.h>

#include "read/link.h"

struct writer {
    struct text *text;
    const struct step_run *run, *runs_end; /* the next text nodes of a step */
    const struct mark *marks, *end, *open;
    bool bare; /* the item's only paragraph stands without <p> */
    cmark_node *item;
    int heading_shift; /* added to a heading's level */
    int heading_above; /* level of the heading before: none is more than one deeper */
    int heading_now;
    int heading_least; /* in a step: the page has one heading of level 1 */
    size_t in_image;   /* only plain text inside */
};

void
markup_words(struct text *t, struct slice words)
{
    bool ascii = true;
    const size_t plain = slice_plain(words, 0);
    if (plain == words.length) {
        text_add(t, words);
        return;
    }
    for (size_t i = plain; i < words.length && ascii; i++)
        ascii = (unsigned char)words.at[i] < 0x80;
    text_add_string(t, ascii ? "" : "<bdi>");
    text_add_html(t, words);
    text_add_string(t, ascii ? "" : "</bdi>");
}

static bool
is_unit_start(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '%' || (unsigned char)c == 0xc2;
}

/* the last byte of a digit or of a vulgar fraction (½ is C2 BD, ⅓ is E2 85 93) */
static bool
is_figure_end(struct slice s, size_t at)
{
    const unsigned char c = (unsigned char)s.at[at];
    if (c >= '0' && c <= '9')
        return true;
    if (at >= 1 && (unsigned char)s.at[at - 1] == 0xc2)
        return c >= 0xbc && c <= 0xbe;
    return at >= 2 && (unsigned char)s.at[at - 2] == 0xe2 && (unsigned char)s.at[at - 1] == 0x85;
}

void
markup_measure(struct text *t, struct slice words)
{
    size_t from = 0;
    for (size_t i = 1; i + 1 < words.length; i++) {
        if ((words.at[i] != ' ' && words.at[i] != '\n') || !is_figure_end(words, i - 1) ||
            !is_unit_start(words.at[i + 1]))
            continue;
        text_add_html(t, slice_part(words, from, i));
        text_add_string(t, "\xc2\xa0");
        from = i + 1;
    }
    text_add_html(t, slice_part(words, from, words.length));
}

void
markup_address(struct text *t, struct slice url)
{
    static const char hex[] = "0123456789ABCDEF", kept[] = "-_.~!*'();:@&=+$,/?#%";
    for (size_t i = 0; i < url.length; i++) {
        unsigned char c = (unsigned char)url.at[i];
        bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
        if (plain || (c != 0 && strchr(kept, c) != NULL)) {
            text_add_byte(t, (char)c);
            continue;
        }
        char escaped[] = {'%', hex[c >> 4], hex[c & 15]};
        text_add_bytes(t, escaped, sizeof escaped);
    }
}

static void
add_address(struct text *t, struct slice url)
{
    struct text address = text_new(t->arena);
    markup_address(&address, url);
    text_add_html(t, text_slice(&address));
}

/* where a node's text begins in the step's plain text; false outside a step */
static bool
find_run(struct writer *w, const cmark_node *node, size_t *start)
{
    while (w->run < w->runs_end && w->run->node != node)
        w->run++;
    if (w->run == w->runs_end)
        return false;
    *start = w->run++->from;
    return true;
}

/* whether plain bytes up to `to` lie in this text node and the texts and soft breaks behind it */
static bool
goes_on_to(cmark_node *node, size_t from, size_t to)
{
    for (cmark_node *n = node; n != NULL; n = cmark_node_next(n)) {
        if (cmark_node_get_type(n) == CMARK_NODE_TEXT)
            from += strlen(cmark_node_get_literal(n));
        else if (cmark_node_get_type(n) == CMARK_NODE_SOFTBREAK)
            from++;
        else
            return false;
        if (from >= to)
            return true;
    }
    return false;
}

static void
open_mark(struct writer *w, const struct mark *m)
{
    w->open = m;
    if (m->kind == MARK_TIME) {
        text_add_string(w->text, "<time class=\"dl-time\" datetime=\"");
        text_add_html(w->text, m->value);
        text_add_string(w->text, "\">");
    } else if (m->kind == MARK_HEAT) {
        text_add_string(w->text, "<span class=\"dl-heat\">");
        text_add(w->text, m->value);
    } else {
        text_add_string(w->text, "<span class=\"dl-named\">");
        text_add(w->text, m->value);
    }
}

static void
close_mark(struct writer *w)
{
    text_add_string(w->text, w->open->kind == MARK_TIME ? "</time>" : "</span>");
    w->open = NULL;
}

/* one stretch of plain bytes that no mark begins or ends in */
static void
add_stretch(struct writer *w, struct slice s)
{
    if (w->open != NULL && w->open->kind != MARK_TIME && w->open->value.length > 0)
        return;
    if (w->open != NULL && w->open->kind == MARK_TIME)
        markup_measure(w->text, s);
    else
        text_add_html(w->text, s);
}

static void
write_text(struct writer *w, cmark_node *node)
{
    struct slice s = slice_of(cmark_node_get_literal(node));
    size_t start, done = 0;
    if (!find_run(w, node, &start) || w->in_image > 0) {
        text_add_html(w->text, s);
        return;
    }
    while (done < s.length) {
        size_t here = start + done, stop = s.length;
        if (w->open != NULL) {
            if (w->open->to <= here) {
                close_mark(w);
                continue;
            }
            if (w->open->to - start < stop)
                stop = w->open->to - start;
        } else {
            while (w->marks < w->end &&
                   (w->marks->from < here || w->marks->to <= w->marks->from ||
                    !(w->marks->from >= start + s.length || goes_on_to(node, start, w->marks->to))))
                w->marks++;
            if (w->marks < w->end && w->marks->from == here) {
                open_mark(w, w->marks++);
                continue;
            }
            if (w->marks < w->end && w->marks->from - start < stop)
                stop = w->marks->from - start;
        }
        add_stretch(w, slice_part(s, done, stop));
        done = stop;
    }
    if (w->open != NULL && w->open->to <= start + s.length)
        close_mark(w);
}

static void
write_code(struct writer *w, cmark_node *node)
{
    struct slice s = slice_of(cmark_node_get_literal(node));
    text_add_string(w->text, w->in_image > 0 ? "" : "<code>");
    text_add_html(w->text, s);
    text_add_string(w->text, w->in_image > 0 ? "" : "</code>");
}

static void
write_heading(struct writer *w, cmark_node *node, bool enter)
{
    char tag[] = "<h1>", end[] = "</h1>\n";
    if (enter) {
        int level = cmark_node_get_heading_level(node) + w->heading_shift;
        if (level > w->heading_above + 1)
            level = w->heading_above + 1;
        if (level < w->heading_least)
            level = w->heading_least;
        w->heading_now = level < 1 ? 1 : level > 6 ? 6 : level;
        w->heading_above = w->heading_now;
    }
    tag[2] = end[3] = (char)('0' + w->heading_now);
    text_add_string(w->text, enter ? tag : end);
}

static void
write_link(struct writer *w, cmark_node *node, bool enter)
{
    struct slice url = slice_of(cmark_node_get_url(node));
    bool safe = link_is_safe(url);
    if (w->in_image > 0)
        return;
    if (!enter) {
        text_add_string(w->text, safe ? "</a>" : "");
    } else if (safe) {
        text_add_string(w->text, "<a href=\"");
        add_address(w->text, url);
        text_add_string(w->text, "\">");
    }
}

static void
write_image(struct writer *w, cmark_node *node, bool enter)
{
    struct slice url = slice_of(cmark_node_get_url(node));
    bool safe = link_is_safe(url) && url.length > 0;
    if (enter && w->in_image++ == 0 && safe) {
        text_add_string(w->text, "<img src=\"");
        add_address(w->text, url);
        text_add_string(w->text, "\" alt=\"");
    } else if (!enter && --w->in_image == 0 && safe) {
        text_add_string(w->text, "\">");
    }
}

static void
write_list(struct writer *w, cmark_node *node, bool enter)
{
    bool ordered = cmark_node_get_list_type(node) == CMARK_ORDERED_LIST;
    int start = cmark_node_get_list_start(node);
    if (!enter)
        text_add_string(w->text, ordered ? "</ol>\n" : "</ul>\n");
    else if (ordered && start != 1)
        text_addf(w->text, "<ol start=\"%d\">\n", start);
    else
        text_add_string(w->text, ordered ? "<ol>\n" : "<ul>\n");
}

static bool
in_tight_list(cmark_node *paragraph)
{
    cmark_node *item = cmark_node_parent(paragraph);
    cmark_node *list = item != NULL ? cmark_node_parent(item) : NULL;
    return list != NULL && cmark_node_get_type(list) == CMARK_NODE_LIST &&
           cmark_node_get_list_tight(list);
}

static void
write_paragraph(struct writer *w, cmark_node *node, bool enter)
{
    if (w->bare && cmark_node_parent(node) == w->item)
        return;
    if (in_tight_list(node))
        text_add_string(w->text, enter || cmark_node_next(node) == NULL ? "" : "\n");
    else
        text_add_string(w->text, enter ? "<p>" : "</p>\n");
}

static void
write_code_block(struct writer *w, cmark_node *node)
{
    text_add_string(w->text, "<pre><code>");
    text_add_html(w->text, slice_of(cmark_node_get_literal(node)));
    text_add_string(w->text, "</code></pre>\n");
}

static void
write_break(struct writer *w, bool soft)
{
    bool replaced = w->open != NULL && w->open->kind != MARK_TIME && w->open->value.length > 0;
    if (!replaced && soft && w->open != NULL && w->open->kind == MARK_TIME)
        text_add_string(w->text, "\xc2\xa0");
    else if (!replaced)
        text_add_string(w->text, w->in_image > 0 ? " " : soft ? "\n" : "<br>\n");
}

static void
write_node(struct writer *w, cmark_node *node, bool enter)
{
    struct text *t = w->text;
    switch (cmark_node_get_type(node)) {
    case CMARK_NODE_TEXT:
        write_text(w, node);
        break;
    case CMARK_NODE_SOFTBREAK:
    case CMARK_NODE_LINEBREAK:
        write_break(w, cmark_node_get_type(node) == CMARK_NODE_SOFTBREAK);
        break;
    case CMARK_NODE_CODE:
        write_code(w, node);
        break;
    case CMARK_NODE_EMPH:
        text_add_string(t, w->in_image > 0 ? "" : enter ? "<em>" : "</em>");
        break;
    case CMARK_NODE_STRONG:
        text_add_string(t, w->in_image > 0 ? "" : enter ? "<strong>" : "</strong>");
        break;
    case CMARK_NODE_LINK:
        write_link(w, node, enter);
        break;
    case CMARK_NODE_IMAGE:
        write_image(w, node, enter);
        break;
    case CMARK_NODE_PARAGRAPH:
        write_paragraph(w, node, enter);
        break;
    case CMARK_NODE_HEADING:
        write_heading(w, node, enter);
        break;
    case CMARK_NODE_LIST:
        write_list(w, node, enter);
        break;
    case CMARK_NODE_ITEM:
        text_add_string(t, enter ? "<li>" : "</li>\n");
        break;
    case CMARK_NODE_BLOCK_QUOTE:
        text_add_string(t, enter ? "<blockquote>\n" : "</blockquote>\n");
        break;
    case CMARK_NODE_CODE_BLOCK:
        write_code_block(w, node);
        break;
    case CMARK_NODE_THEMATIC_BREAK:
        text_add_string(t, "<hr>\n");
        break;
    default: /* raw HTML is never written */
        break;
    }
}

static void
write_tree(struct writer *w, cmark_node *root)
{
    cmark_iter *iter = cmark_iter_new(root);
    cmark_event_type event;
    while ((event = cmark_iter_next(iter)) != CMARK_EVENT_DONE)
        write_node(w, cmark_iter_get_node(iter), event == CMARK_EVENT_ENTER);
    cmark_iter_free(iter);
}

void
markup_step(struct text *t, const struct step *step, const struct mark *marks, size_t count)
{
    struct writer w = {
        .text = t, .marks = marks, .end = count > 0 ? marks + count : marks, .item = step->node};
    w.heading_above = 6; /* a heading in a step keeps its level, below the page's own */
    w.heading_least = 2;
    w.run = step->runs;
    w.runs_end = step->runs + step->run_count;
    if (cmark_node_get_type(step->node) != CMARK_NODE_ITEM) {
        w.item = cmark_node_parent(step->node);
        w.bare = true;
        write_tree(&w, step->node);
        return;
    }
    cmark_node *first = cmark_node_first_child(step->node);
    w.bare = first != NULL && cmark_node_next(first) == NULL;
    for (cmark_node *n = first; n != NULL; n = cmark_node_next(n))
        write_tree(&w, n);
}

void
markup_blocks(struct text *t, cmark_node *first, cmark_node *last, int heading_level)
{
    int top = 6;
    for (cmark_node *n = first; n != NULL; n = n == last ? NULL : cmark_node_next(n))
        if (cmark_node_get_type(n) == CMARK_NODE_HEADING && cmark_node_get_heading_level(n) < top)
            top = cmark_node_get_heading_level(n);
    struct writer w = {.text = t, .heading_shift = heading_level - top};
    w.heading_above = heading_level - 1;
    for (cmark_node *n = first; n != NULL; n = n == last ? NULL : cmark_node_next(n))
        write_tree(&w, n);
}
