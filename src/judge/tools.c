#include "judge/tools.h"

/* a tool in a row, by all its names; pans, bowls and spoons every kitchen has */
static const char *const tools[][8] = {
    {"stick blender", "hand blender", "immersion blender", "blender", "liquidiser", NULL},
    {"food processor", NULL},
    {"stand mixer", "electric mixer", "hand mixer", "electric whisk", NULL},
    {"thermometer", "temperature probe", NULL},
    {"rolling pin", NULL},
    {"piping bag", NULL},
    {"mandoline", NULL},
    {"spice grinder", "coffee grinder", NULL},
    {"pestle and mortar", "mortar and pestle", "mortar", NULL},
    {"potato ricer", "ricer", NULL},
    {"loaf tin", "loaf pan", NULL},
    {"muffin tin", "muffin pan", "muffin tray", "bun tin", NULL},
    {"springform tin", "springform", "cake tin", "cake pan", NULL},
    {"tart tin", "tart pan", "flan tin", "quiche tin", NULL},
    {"pie dish", "pie plate", NULL},
    {"slow cooker", NULL},
    {"pressure cooker", NULL},
    {"air fryer", NULL},
    {"waffle iron", NULL},
    {"griddle pan", "griddle", NULL},
    {"wok", NULL},
    {"steamer", "steaming basket", "steamer basket", NULL},
    {"muslin", "cheesecloth", NULL},
    {"ice cream machine", "ice cream maker", NULL},
    {"microwave", NULL},
    {"spiraliser", "spiralizer", NULL},
    {"ramekins", "ramekin", NULL},
    {"dariole moulds", "dariole mould", NULL},
};

static bool
listed(struct arena *a, const struct post *post, const char *const *names)
{
    const struct front_list *equipment = &post->front.equipment;
    for (size_t i = 0; i < equipment->count; i++) {
        struct words w;
        words_read(a, post->range.lists, equipment->items[i].text, &w);
        if (words_any(&w, names, 0, w.count, NULL) != NULL)
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
judge_tool(struct arena *a, const struct post *post, const struct schedule *s,
           const char *const *names, struct notices *notices)
{
    for (size_t k = 0; k < s->count; k++) {
        const struct words *w = &s->steps[k].marks.words;
        size_t at = 0;
        const char *name = words_any(w, names, 0, w->count, &at);
        if (name == NULL || !needed(w, at) || listed(a, post, names))
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
    for (size_t i = 0; i < sizeof tools / sizeof *tools; i++)
        judge_tool(a, post, s, tools[i], notices);
}
