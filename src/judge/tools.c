#include "judge/tools.h"

static bool
listed(struct arena *a, const struct post *post, const char *tool)
{
    const struct front_list *equipment = &post->front.equipment;
    for (size_t i = 0; i < equipment->count; i++) {
        struct words w;
        words_read(a, post->range.lists, equipment->items[i].text, &w);
        if (words_any_meaning(&w, WORDS_TOOLS, tool, NULL) != NULL)
            return true;
    }
    return false;
}

/* "or in a food processor", "if you have": no step needs it */
static bool
needed(const struct words *w, size_t at)
{
    return words_any(w, words_list(w, WORDS_TOOL_NOT_NEEDED), words_sentence_from(w, at),
                     words_sentence_to(w, at), NULL) == NULL;
}

static void
judge_tool(struct arena *a, const struct post *post, const struct schedule *s, const char *tool,
           struct notices *notices)
{
    for (size_t k = 0; k < s->count; k++) {
        const struct words *w = &s->steps[k].marks.words;
        size_t at = 0;
        const char *name = words_any_meaning(w, WORDS_TOOLS, tool, &at);
        if (name == NULL || !needed(w, at) || listed(a, post, tool))
            continue;
        const struct step *step = &post->body.parts[s->steps[k].part].steps[s->steps[k].step];
        size_t from = w->items[at].from, to = w->items[at + words_at(w, at, name) - 1].to;
        notice_add(notices, RULE_TOOL_UNLISTED, body_step_place(step, from, to),
                   slice_part(step->text, from, to), SLICE(""));
        return;
    }
}

void
tools_judge(struct arena *a, const struct post *post, const struct schedule *s,
            struct notices *notices)
{
    if (post->front.equipment.count == 0)
        return;
    const struct word_list *tools = word_lists_get(post->range.lists, WORDS_TOOLS);
    for (size_t i = 0; i < tools->count; i++)
        if (i == 0 || strcmp(tools->values[i].text, tools->values[i - 1].text) != 0)
            judge_tool(a, post, s, tools->values[i].text, notices);
}
