#include "judge/passages.h"

#include "base/list.h"

struct place
passages_place(const struct passage *p, size_t from, size_t to)
{
    return p->step != NULL ? body_step_place(p->step, from, to) : p->place;
}

const struct durations *
passages_durations(struct passage *p)
{
    if (p->durations == NULL) {
        struct durations *found = arena_take(p->arena, sizeof *found);
        durations_find(p->arena, p->words, found);
        p->durations = found;
    }
    return p->durations;
}

const struct heats *
passages_heats(struct passage *p)
{
    if (p->heats == NULL) {
        struct heats *found = arena_take(p->arena, sizeof *found);
        heats_find(p->arena, p->words, found);
        p->heats = found;
    }
    return p->heats;
}

/* a passage that is no step */
static void
add(struct passages *out, enum passage_kind kind, struct slice text, const struct words *words,
    struct place place)
{
    *LIST_GROW(out->arena, out) = (struct passage){kind,  text,  SIZE_MAX,   SIZE_MAX, NULL,
                                                   place, words, out->arena, NULL,     NULL};
}

static bool
holds_words(cmark_node *node)
{
    cmark_node_type type = cmark_node_get_type(node);
    return type == CMARK_NODE_PARAGRAPH || type == CMARK_NODE_HEADING;
}

static struct slice
plain_text(struct arena *a, cmark_node *block)
{
    struct text t = text_new(a);
    cmark_iter *iter = cmark_iter_new(block);
    for (cmark_event_type e; (e = cmark_iter_next(iter)) != CMARK_EVENT_DONE;) {
        cmark_node *node = cmark_iter_get_node(iter);
        cmark_node_type type = cmark_node_get_type(node);
        if (e != CMARK_EVENT_ENTER)
            continue;
        if (type == CMARK_NODE_TEXT || type == CMARK_NODE_CODE)
            text_add_string(&t, cmark_node_get_literal(node));
        else if (type == CMARK_NODE_SOFTBREAK || type == CMARK_NODE_LINEBREAK)
            text_add_byte(&t, ' ');
    }
    cmark_iter_free(iter);
    return text_slice(&t);
}

/* lines before the body: cmark counts from the body's first line */
static uint32_t
lines_before(const struct body *body)
{
    for (size_t p = 0; p < body->part_count; p++)
        if (body->parts[p].count > 0) {
            const struct step *s = &body->parts[p].steps[0];
            uint32_t own = (uint32_t)cmark_node_get_start_line(s->node);
            return s->place.line >= own ? s->place.line - own : 0;
        }
    return 0;
}

/* every paragraph and heading of a section is a passage of its own */
static void
add_section(struct passages *out, const struct body_section *section, enum passage_kind kind)
{
    uint32_t before = lines_before(&out->post->body);
    for (cmark_node *top = section->first; top != NULL; top = cmark_node_next(top)) {
        cmark_iter *iter = cmark_iter_new(top);
        for (cmark_event_type e; (e = cmark_iter_next(iter)) != CMARK_EVENT_DONE;) {
            cmark_node *node = cmark_iter_get_node(iter);
            if (e != CMARK_EVENT_ENTER || !holds_words(node))
                continue;
            struct slice text = plain_text(out->arena, node);
            if (slice_trim(text).length == 0)
                continue;
            uint32_t line = before + (uint32_t)cmark_node_get_start_line(node);
            struct words *words = arena_take(out->arena, sizeof *words);
            words_read(out->arena, out->post->range.lists, text, words);
            add(out, kind, text, words, (struct place){line, 0, 0});
        }
        cmark_iter_free(iter);
        if (top == section->last)
            break;
    }
}

void
passages_read(struct arena *a, const struct post *post, const struct schedule *s,
              struct passages *out)
{
    const struct front_value *storage = &post->front.storage;
    *out = (struct passages){.arena = a, .post = post};
    for (size_t i = 0; i < s->count; i++) {
        const struct step_time *st = &s->steps[i];
        const struct step *step = &post->body.parts[st->part].steps[st->step];
        *LIST_GROW(a, out) = (struct passage){PASSAGE_STEP,     step->text, st->part,
                                              st->step,         step,       step->place,
                                              &st->marks.words, a,          &st->marks.durations,
                                              &st->marks.heats};
    }
    struct arena *before = arena_lend(a);
    add_section(out, &post->body.notes, PASSAGE_NOTE);
    if (slice_trim(storage->text).length > 0)
        add(out, PASSAGE_NOTE, storage->text, &post->storage_words, storage->place);
    add_section(out, &post->body.prose, PASSAGE_PROSE);
    arena_lend(before);
}
