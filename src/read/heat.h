/* Temperatures as a method states them; an oven's told from a food's. */
#ifndef READ_HEAT_H
#define READ_HEAT_H

#include "base/notice.h"
#include "base/span.h"
#include "read/heat_of.h"

enum heat_scale { HEAT_CELSIUS, HEAT_FAHRENHEIT, HEAT_GAS };

struct heat {
    size_t from, to; /* bytes in the text */
    enum heat_scale scale;
    struct span value;   /* as written, in its scale */
    struct span celsius; /* the same in degrees C; a gas mark by heat_of_gas_mark */
    bool fan;            /* "fan", "fan-forced", "convection" */
    bool no_unit;        /* "heat the oven to 180": scale is not said */
    bool pair;           /* another way of writing the heat before it: "180 °C (350 °F)" */
    bool implausible;    /* no oven is set so: see reckon/heat_doubt.h; never converted */
    enum heat_of of;
};

struct heats {
    struct heat *items;
    size_t count, room;
};

/* power levels of a microwave: "at 800 W", "on high (900 W)" */
struct power {
    size_t from, to;
    double watts;
};

struct powers {
    struct power *items;
    size_t count, room;
};

enum { HEATS_MOST = 1000 }; /* and powers, in one text; more are not looked at */

/* all temperatures in a text, in order */
void heats_find(struct arena *a, const struct words *w, struct heats *out);
void heat_powers_find(struct arena *a, const struct words *w, struct powers *out);
/* whether two writings of one heat agree: 10 degrees C apart at most, since Fahrenheit is rounded
 * to 25 and a gas mark spans 14; a fan oven's 8 to 32 lower than another's */
bool heat_agrees(const struct heat *a, const struct heat *b);
/* exact: ITS scales, F = C x 9/5 + 32 */
double heat_fahrenheit(double celsius);
double heat_celsius(double fahrenheit);
/* degrees C of a gas mark ¼, ½, 1 to 9 (source beside the table); NaN for none */
double heat_of_gas_mark(double mark);
/* nearest gas mark of an oven at `celsius`, or NaN outside the marks */
double heat_gas_mark(double celsius);

#endif
