/* What the host must load before a pulse or power comes out. There are no defaults. */
#ifndef CONFIG_H
#define CONFIG_H

#include <stdbool.h>
#include <stdint.h>
#include "fields.h"
#include "line.h"
#include "ticks.h"

#define PULSE_LEAST 800u /* µs, 1–2 ms with the overtravel that servo signals commonly use (common practice, no source) */
#define PULSE_MOST 2200u /* µs */
#define DIGEST_NONE 0u

/* The pulses of an output, µs. */
struct range {
    uint16_t stop;
    uint16_t least;
    uint16_t greatest;
};

struct config {
    uint16_t stop_pulse;       /* µs */
    uint16_t least_pulse;      /* µs */
    uint16_t greatest_pulse;   /* µs */
    uint16_t arming_pulse;     /* µs */
    uint16_t rate;             /* pulses a second, 50–400 */
    uint8_t pulses_per_rev;    /* tachometer, 1–16 */
    uint32_t least_revolution; /* µs, shorter is over-speed, 500–4000000 */
    uint16_t lowest_current;   /* counts, below is over-current, 0–511 */
    uint16_t highest_current;  /* counts, above is over-current, 512–1023 */
    uint8_t current_run;       /* consecutive readings beyond that trip, 1–200 */
    uint16_t tacho_lost_ms;    /* ms without a pulse while driven, 20–10000; 0: no tachometer */
    uint16_t tacho_from;       /* µs away from stop from which it is watched, 1–1000 */
    uint16_t follow_ms;        /* ms for the contactor's feedback, 20–500 */
    uint16_t disagree_ms;      /* ms for the lid contacts, 10–500 */
    uint16_t closing_ms;       /* ms, closing filter of contacts, 6–200: an opening shows in at least one telemetry line */
    bool cease;                /* a trip ceases pulses instead of putting out the stop pulse */
    struct range second;       /* of the second output; all zero: nothing on it */
};

/* The times of a configuration in ticks, worked out once because the board asks for them at every pass. */
struct spans {
    ticks_t least_revolution;
    ticks_t tacho_lost;
    ticks_t follow;
    ticks_t disagree;
    ticks_t closing;
};

struct spans config_spans(const struct config *config);

/* The strictest times: what holds while nothing is loaded. */
void config_clear(struct config *config);

/* Reads all fields. False leaves `config` half written: read into a spare one. `fields` says what was wrong. */
bool config_read(struct config *config, struct fields *fields);

/* Appends the fields in the order and form in which they are read. */
void config_write(const struct config *config, struct line *line);

/* CRC of what `config_write` gives; never DIGEST_NONE. Uses `scratch`. */
uint16_t config_digest(const struct config *config, struct line *scratch);

/* True when the configuration permits this pulse. */
bool config_permits(const struct config *config, uint16_t pulse);

/* True when the configuration permits this pulse on the second output: 0, none, where nothing is on it. */
bool config_permits_second(const struct config *config, uint16_t pulse);

/* The receiver's pulse as it may go out: no further than the ends of the controller's range. */
uint16_t config_within_range(const struct config *config, uint16_t pulse);

/* True for a pulse on which nothing should turn: stop or arming. */
bool config_is_quiet(const struct config *config, uint16_t pulse);

#endif
