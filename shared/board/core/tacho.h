/* Tachometer: periods between pulses and times of whole revolutions (marks may be unevenly spaced). */
#ifndef TACHO_H
#define TACHO_H

#include "ticks.h"

#define TACHO_MOST_PULSES 16            /* per revolution */
#define TACHO_LONGEST TICKS_US(9999999) /* longer ages and periods are shown as this */

/* What the rest of the firmware sees. */
struct tacho_view {
    bool any;                 /* a pulse came and has not rested since */
    uint16_t count;           /* pulses since start, wraps */
    ticks_t last;             /* time of the last pulse */
    ticks_t period;           /* between the last two pulses; 0 = unknown */
    ticks_t revolution;       /* of the last whole revolution; 0 = unknown */
    ticks_t least_period;     /* since the last tacho_take; 0 = none */
    ticks_t least_revolution; /* since the last tacho_take; 0 = none */
};

struct tacho {
    struct tacho_view view;
    ticks_t at[TACHO_MOST_PULSES]; /* the last pulses, a ring */
    uint8_t next;
    uint8_t held;           /* pulses in the ring since the last rest */
    uint8_t pulses_per_rev; /* 1–16; 0 counts pulses and knows no revolution */
};

/* A pulse at `at`. */
void tacho_pulse(struct tacho *tacho, ticks_t at);

/* Forgets periods when nothing has come for TACHO_LONGEST, so that no time is ever compared across a wrap. */
void tacho_rest(struct tacho *tacho, ticks_t now);

/* Other marks on the rotor: what was measured before says nothing. */
void tacho_start(struct tacho *tacho, uint8_t pulses_per_rev);

/* The view so far; its least values start afresh. */
struct tacho_view tacho_take(struct tacho *tacho);

/* Time since the last pulse, at most TACHO_LONGEST. */
ticks_t tacho_age(const struct tacho_view *view, ticks_t now);

/* The lesser of two times of which 0 means none. */
ticks_t tacho_lesser(ticks_t a, ticks_t b);

#endif
