#include "write/heat_words.h"

#include <math.h>

#include "reckon/fraction.h"
#include "reckon/household.h"
#include "write/markup.h"

/* the ways to write one heat; NULL or NaN where there is none */
struct ways {
    const struct heat *celsius, *fahrenheit, *fan_celsius, *fan_fahrenheit, *gas;
};

struct heat_cluster
heat_cluster_of(const struct heats *h, size_t i)
{
    struct heat_cluster c = {.first = &h->items[i], .last = &h->items[i]};
    for (size_t k = i + 1; k < h->count && h->items[k].pair; k++)
        c.last = &h->items[k];
    return c;
}

static struct ways
ways_of(const struct heat_cluster *c)
{
    struct ways w = {0};
    for (const struct heat *h = c->first; h <= c->last; h++) {
        const struct heat **way = h->scale == HEAT_GAS ? &w.gas
                                  : h->scale == HEAT_FAHRENHEIT
                                      ? h->fan ? &w.fan_fahrenheit : &w.fahrenheit
                                  : h->fan ? &w.fan_celsius
                                           : &w.celsius;
        if (*way == NULL)
            *way = h;
    }
    return w;
}

/* an oven to the mark on its dial; a food never below what is said */
static double
rounded(double degrees, enum heat_of of, double dial)
{
    if (of == HEAT_OF_OVEN || of == HEAT_OF_UNKNOWN)
        return round(degrees / dial) * dial;
    return of == HEAT_OF_FOOD ? ceil(degrees - 1e-9) : round(degrees);
}

static void
add_range(struct text *t, struct span value, const char *unit)
{
    text_add_number(t, value.low, 1);
    if (value.high > value.low) {
        text_add_string(t, "–");
        text_add_number(t, value.high, 1);
    }
    text_add_string(t, unit);
}

/* a heat in a scale: as it is written where it is, else reckoned from `from`, `lower` less */
static void
add_degrees(struct text *t, const struct heat *written, const struct heat *from, double lower,
            bool fahrenheit)
{
    const char *unit = fahrenheit ? " °F" : " °C";
    if (written != NULL) {
        add_range(t, written->value, unit);
        return;
    }
    struct span value = {from->celsius.low - lower, from->celsius.mid - lower,
                         from->celsius.high - lower};
    if (fahrenheit)
        value = (struct span){heat_fahrenheit(value.low), heat_fahrenheit(value.mid),
                              heat_fahrenheit(value.high)};
    const double dial = fahrenheit ? 25 : 10;
    value.low = rounded(value.low, from->of, dial);
    value.high = rounded(value.high, from->of, dial);
    add_range(t, value, unit);
}

/* "180 °C or 160 °C fan/gas mark 4": whether there is no word in it that would be lost */
static bool
is_heats_alone(struct slice words)
{
    static const char *const known[] = {
        "c",          "f",       "or",         "fan", "forced", "oven",   "gas",
        "mark",       "celsius", "with",       "a",   "in",     "degree", "degrees",
        "fahrenheit", "deg",     "convection", "to",  "at",     "about",  "conventional"};
    for (size_t i = 0; i < words.length;) {
        size_t end = i;
        while (end < words.length && ((words.at[end] | 32) >= 'a' && (words.at[end] | 32) <= 'z'))
            end++;
        bool found = end == i;
        for (size_t k = 0; k < sizeof known / sizeof *known && !found; k++)
            found = slice_is_anycase(slice_part(words, i, end), known[k]);
        if (!found)
            return false;
        i = end > i ? end : i + 1;
    }
    return true;
}

/* the next of what stands in brackets */
static void
add_comma(struct text *t, size_t begun)
{
    text_add_string(t, t->length > begun ? ", " : " (");
}

static void
add_gas(struct text *t, const struct ways *w, const struct heat *from, size_t begun)
{
    const double mark = w->gas != NULL ? w->gas->value.mid : heat_gas_mark(from->celsius.mid);
    if (isnan(mark))
        return;
    add_comma(t, begun);
    text_add_string(t, "gas\xc2\xa0");
    fraction_add(t, mark);
}

static void
add_fan(struct text *t, const struct ways *w, const struct heat *from, double lower, size_t begun)
{
    if (w->fan_celsius == NULL && !(lower > 0))
        return;
    add_comma(t, begun);
    text_add_string(t, "fan\xc2\xa0");
    add_degrees(t, w->fan_celsius, from, lower, false);
}

static struct slice
house_order(const struct fragment_context *s, const struct region *r, const struct ways *w,
            const struct heat *first)
{
    const bool oven = first->of == HEAT_OF_OVEN;
    const double fan_lower = s->tables->site.fan_lower;
    /* where a fan oven alone is given, another is set so much higher */
    const bool fan_alone =
        first->fan && w->celsius == NULL && w->fahrenheit == NULL && w->gas == NULL;
    const double lower = fan_alone && oven ? -fan_lower : 0;
    const struct heat *from = w->celsius != NULL      ? w->celsius
                              : w->fahrenheit != NULL ? w->fahrenheit
                                                      : first;
    struct text t = text_new(s->arena), out = text_new(s->arena);
    add_degrees(&t, r->fahrenheit ? w->fahrenheit : w->celsius, from, lower, r->fahrenheit);
    const size_t begun = t.length;
    if (r->fahrenheit) {
        add_comma(&t, begun);
        add_degrees(&t, w->celsius, from, lower, false);
        if (w->fan_fahrenheit != NULL || w->fan_celsius != NULL) {
            add_comma(&t, begun);
            text_add_string(&t, "fan ");
            add_degrees(&t, w->fan_fahrenheit, w->fan_celsius, 0, true);
        }
        if (w->gas != NULL)
            add_gas(&t, w, from, begun);
    } else {
        if (oven && (w->fan_celsius != NULL || w->fan_fahrenheit == NULL))
            add_fan(&t, w, from, fan_alone ? 0 : fan_lower, begun);
        if (w->gas != NULL || (oven && r->gas_marks))
            add_gas(&t, w, from, begun);
        if (w->fahrenheit != NULL) {
            add_comma(&t, begun);
            add_degrees(&t, w->fahrenheit, from, 0, true);
        }
    }
    text_add_string(&t, t.length > begun ? ")" : "");
    markup_measure(&out, text_slice(&t));
    return text_slice(&out);
}

struct slice
heat_words(const struct fragment_context *s, const struct heat_cluster *c, struct slice words,
           size_t i)
{
    const struct ways ways = ways_of(c);
    if (is_heats_alone(words))
        return house_order(s, fragment_region(s, i), &ways, c->first);
    struct text t = text_new(s->arena);
    markup_measure(&t, words);
    return text_slice(&t);
}
