/* A line as it was read, in one line of text, for tables of expectations. */
#ifndef SHOWN_LINE_H
#define SHOWN_LINE_H

#include "read/ingredient_line.h"

static inline void
show_amount(struct text *t, const struct amount *m)
{
    static const char *const fills[] = {"",       "level ",  "rounded ", "heaped ",
                                        "scant ", "packed ", "sifted "};
    static const char *const sizes[] = {"", "small ", "medium ", "large "};
    text_add_string(t, m->plus ? "+" : "");
    if (m->each) {
        text_add_number(t, m->times.mid, 3);
        text_add_string(t, "x");
    }
    text_add_string(t, m->about ? "~" : "");
    text_add_string(t, fills[m->fill]);
    text_add_string(t, sizes[m->size]);
    text_add_number(t, m->value.low, 3);
    if (m->value.high > m->value.low) {
        text_add_byte(t, '-');
        text_add_number(t, m->value.high, 3);
    }
    if (m->unit != NULL)
        text_addf(t, " %s", m->unit->id);
    text_add_string(t, m->container ? "#" : "");
}

static inline void
show_food(struct text *t, const struct written_food *f)
{
    static const char *const of_its[] = {"", "juice of ", "zest of ", "juice and zest of "};
    for (size_t i = 0; i < f->amount_count; i++) {
        if (i > 0)
            text_add_string(t, f->amounts[i].plus ? " " : " = ");
        show_amount(t, &f->amounts[i]);
    }
    text_addf(t, "%s[%s%.*s]", f->amount_count > 0 ? " " : "", of_its[f->of_it],
              SLICE_ARGS(f->name));
    if (f->after.length > 0)
        text_addf(t, " {%.*s}", SLICE_ARGS(f->after));
    if (f->extra != NULL) {
        text_add_string(t, " extra ");
        show_amount(t, f->extra);
    }
    text_add_string(t, f->extra_unmeasured ? " extra" : "");
    text_add_string(t, f->to_taste ? " taste" : "");
    text_add_string(t, f->amount_unread ? " unread" : "");
}

static inline struct slice
show_line(struct arena *a, const struct ingredient_line *line)
{
    struct text t = text_new(a);
    text_add_string(&t, line->optional ? "optional " : "");
    for (size_t i = 0; i < line->option_count; i++) {
        if (i > 0)
            text_add_string(&t, " | ");
        for (size_t j = 0; j < line->options[i].count; j++) {
            if (j > 0)
                text_add_string(&t, " & ");
            show_food(&t, &line->options[i].foods[j]);
        }
    }
    if (line->has_stays)
        text_addf(&t, " stays %g-%g", line->stays.low, line->stays.high);
    return text_slice(&t);
}

#endif
