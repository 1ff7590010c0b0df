#include "compile/linked.h"

#include "base/list.h"
#include "read/link.h"

struct linking {
    struct arena *arena;
    const struct post_finder *finder;
    struct notices *notices;
    struct outcome *out;
};

static struct linked_post *
find(const struct linking *l, struct slice name)
{
    struct linked_posts *all = &l->out->linked;
    for (size_t i = 0; i < all->count; i++)
        if (slice_equal(all->items[i].name, name))
            return &all->items[i];
    struct linked_post *one = LIST_GROW(l->arena, all);
    struct slice slug;
    const bool there = l->finder->settle(l->finder->ctx, name, &slug);
    *one = (struct linked_post){name, there ? slice_copy(l->arena, slug) : SLICE("")};
    reads_note_question(l->out->reads, post_finder_link_key(l->arena, name),
                        there ? post_finder_digest(slug) : 0);
    return one;
}

static void
judge_link(const struct linking *l, struct slice url, struct place place)
{
    struct slice rest;
    const struct slice name = link_post(url, &rest);
    if (name.length > 0 && find(l, name)->slug.length == 0)
        notice_add(l->notices, RULE_LINK_DEAD, place, url, SLICE(""));
}

static void
judge_text(const struct linking *l, const struct post *post)
{
    for (size_t i = 0; i < post->body.links.count; i++)
        judge_link(l, post->body.links.items[i].url, post->body.links.items[i].place);
}

static void
judge_lines(const struct linking *l, const struct dish *d)
{
    for (size_t i = 0; i < d->count; i++) {
        const struct ingredient_line *line = &d->ingredients[i].line;
        judge_link(l, line->link, written_line_place(line, line->link_from, line->link_to));
    }
}

void
linked_judge(struct arena *a, const struct post_finder *finder, struct notices *notices,
             struct outcome *out)
{
    const struct linking l = {a, finder, notices, out};
    if (finder == NULL)
        return;
    judge_text(&l, &out->post);
    judge_lines(&l, &out->dish);
    for (size_t i = 0; out->post.front.dish_count > 0 && i < out->member_count; i++) {
        judge_text(&l, &out->members[i].outcome->post);
        judge_lines(&l, &out->members[i].outcome->dish);
    }
    for (size_t i = 0; out->post.front.dish_count > 0 && i < out->member_count; i++)
        out->members[i].outcome->linked = out->linked;
}
