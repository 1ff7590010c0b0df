#include "judge/tools.h"

#include <string.h>

#include "read/words_listed.h"

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

/* one name of a tool in one step; true: it is told */
static bool
judge_name(struct arena *a, const struct post *post, const struct step_time *st,
           const struct word_list *tools, size_t name, struct notices *notices)
{
    const struct words *w = &st->marks.words;
    const size_t at = words_find(w, tools->words[name], 0, w->count);
    if (at == SIZE_MAX || !needed(w, at) || listed(a, post, tools->values[name].text))
        return false;
    const struct step *step = &post->body.parts[st->part].steps[st->step];
    const size_t end = at + words_at(w, at, tools->words[name]);
    const size_t from = w->items[at].from, to = w->items[end - 1].to;
    notice_add(notices, RULE_TOOL_UNLISTED, body_step_place(step, from, to),
               slice_part(step->text, from, to), SLICE(""));
    return true;
}

void
tools_judge(struct arena *a, const struct post *post, const struct schedule *s,
            struct notices *notices)
{
    if (post->front.equipment.count == 0)
        return;
    const struct word_list *tools = word_lists_get(post->range.lists, WORDS_TOOLS);
    /* the names of one tool stand side by side */
    for (size_t i = 0, end; i < tools->count; i = end) {
        bool told = false;
        for (end = i + 1;
             end < tools->count && strcmp(tools->values[end].text, tools->values[i].text) == 0;)
            end++;
        for (size_t k = 0; k < s->count && !told; k++)
            for (size_t name = i; name < end && !told; name++)
                told = judge_name(a, post, &s->steps[k], tools, name, notices);
    }
}
