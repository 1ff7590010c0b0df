#include "judge/vessels.h"

#include "read/words_listed.h"

size_t
vessels_count(struct arena *a, const struct schedule *s, struct slice *named)
{
    const struct word_list *vessels =
        word_lists_get(s->count > 0 ? s->steps[0].marks.words.lists : NULL, WORDS_VESSELS);
    struct text t = text_new(a);
    size_t count = 0;
    for (size_t v = 0; v < vessels->count; v++) {
        const char *name = vessels->values[v].text;
        bool found = false;
        if (v > 0 && strcmp(name, vessels->values[v - 1].text) == 0)
            continue;
        for (size_t i = 0; i < s->count && !found; i++)
            found = words_any_meaning(&s->steps[i].marks.words, WORDS_VESSELS, name, NULL) != NULL;
        if (!found)
            continue;
        text_addf(&t, "%s%s", count == 0 ? "" : " and ", name);
        count++;
        /* another pan is a second one even where the first has no name */
        if (count == 1 && strcmp(name, "another pan") == 0)
            count = 2;
    }
    *named = text_slice(&t);
    return count;
}
