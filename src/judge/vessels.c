#include "judge/vessels.h"

/* words that mean one and the same vessel; a plain "pan" or "pot" is any of them */
static const struct vessel {
    const char *name;
    const char *words[9];
} vessels[] = {
    {"a saucepan", {"saucepan", "saucepans", "stockpot", "stock pot", "milk pan", NULL}},
    {"a frying pan",
     {"frying pan", "frying pans", "skillet", "griddle", "griddle pan", "crepe pan", NULL}},
    {"a slow cooker", {"slow cooker", "pressure cooker", NULL}},
    {"a wok", {"wok", NULL}},
    {"a casserole", {"casserole dish", "flameproof casserole", "dutch oven", NULL}},
    {"a tray",
     {"baking tray", "baking sheet", "roasting tin", "roasting tray", "oven tray", "sheet pan",
      "baking dish", "ovenproof dish", NULL}},
    {"another pan",
     {"another pan", "another pot", "second pan", "second pot", "separate pan", "separate saucepan",
      "separate pot", "another saucepan", NULL}},
};

size_t
vessels_count(struct arena *a, const struct schedule *s, struct slice *named)
{
    struct text t = text_new(a);
    size_t count = 0;
    for (size_t v = 0; v < sizeof vessels / sizeof *vessels; v++) {
        bool found = false;
        for (size_t i = 0; i < s->count && !found; i++) {
            const struct words *w = &s->steps[i].marks.words;
            found = words_any(w, vessels[v].words, 0, w->count, NULL) != NULL;
        }
        if (!found)
            continue;
        text_addf(&t, "%s%s", count == 0 ? "" : " and ", vessels[v].name);
        count++;
        /* another pan is a second one even where the first has no name */
        if (count == 1 && v + 1 == sizeof vessels / sizeof *vessels)
            count = 2;
    }
    *named = text_slice(&t);
    return count;
}
