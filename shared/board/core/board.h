/* Everything the board knows and decides, as one value. All zero is safe: nothing loaded, host silent, lid open, outputs off. */
#ifndef BOARD_H
#define BOARD_H

#include "causes.h"
#include "config.h"
#include "contact.h"
#include "gauge.h"
#include "host.h"
#include "lid.h"
#include "tacho.h"

/* What the host asks for in a `drive`. */
struct demand {
    uint16_t pulse; /* µs; 0 = none, or nothing demanded yet */
    bool power;
    bool release;
    bool marker;
    uint16_t second; /* µs, of the second output; 0 = none */
    bool gate;       /* pass the receiver's pulse instead of `pulse` */
};

/* What the pins must do. Zero: no pulses, no power, lid locked. */
struct outputs {
    uint16_t pulse; /* µs, 0 = cease */
    bool power;
    bool release;
    bool marker;
    uint16_t second; /* µs, 0 = cease */
    bool gate;       /* `pulse` is the receiver's */
};

/* What the pins say, gathered at `now`. */
struct inputs {
    ticks_t now;
    struct lid_reading lid;
    bool stop_closed;
    bool stop_blinked;
    bool key_closed;
    bool bolt_home;
    bool contactor_closed;
    ticks_t opened_at; /* time of the first blink of lid or stop, if any blinked */
    struct tacho_view tacho;
    struct gauge servo;       /* pulses read back */
    struct gauge receiver;
    uint8_t current_run;      /* longest run of readings beyond the current limits */
    uint8_t analog_readings;  /* counter that shows that the converter runs */
};

/* Something that has been so since a time. */
struct since {
    bool so;
    ticks_t at;
};

/* How the output came to its stop after a trip. */
struct stopping {
    bool waiting;
    bool found;    /* `fell` and `width` are to be reported */
    ticks_t from;  /* when the first cause latched */
    ticks_t fell;
    ticks_t width;
};

struct key {
    struct contact contact;
    bool seen_open;   /* a closing counts only after an opening */
    bool fresh;       /* closed since the last reset and still closed */
    uint8_t closings; /* wraps */
};

enum mode { MODE_BARE, MODE_TRIP, MODE_IDLE, MODE_LIVE, MODE_SPIN, MODE_COUNT };

struct board {
    struct config config;
    struct spans spans;   /* of `config` */
    uint16_t digest;      /* of `config`; DIGEST_NONE = nothing loaded */
    bool confirmed;       /* a demand carried that digest */
    bool retune;          /* `config` is new: frame rate, tachometer and current limits must follow */
    bool selftest_failed; /* for good */

    causes_t latched;
    causes_t standing;
    causes_t unreported; /* latched and not yet told to the host */
    ticks_t latched_at[CAUSE_COUNT];

    struct host host;
    struct demand demand;
    struct inputs in;
    struct outputs out;
    struct lid lid;
    struct contact stop;
    struct key key;
    struct stopping stopping;

    struct since contactor_astray; /* feedback differs from power */
    struct since tacho_missing;    /* driven and no pulse */
    struct since sampler_still;
    uint16_t tacho_count;          /* at the last pass */
    uint8_t analog_readings;       /* at the last pass */
    ticks_t least_period;          /* since the last telemetry line */
    uint8_t checked;               /* which checks this pass went through */
};

/* A board that has just started. */
void board_start(struct board *board, bool selftest_good);

enum mode board_mode(const struct board *board);

/* True for a pulse on which nothing should turn: stop, arming, or none. */
bool board_is_quiet(const struct board *board, uint16_t pulse);

/* Latches a cause seen at `at`; only the first time counts. */
void board_latch(struct board *board, enum cause cause, ticks_t at);

/* True while the receiver gives pulses of a width that a receiver may give. */
bool board_receives(const struct board *board);

/* Clears what is latched and asks for a fresh closing of the arm key. The caller has made sure that it may. */
void board_reset(struct board *board);

/* Takes a new configuration. Pulses cease until it is confirmed. */
void board_load(struct board *board, const struct config *config, uint16_t digest, ticks_t now);

#endif
