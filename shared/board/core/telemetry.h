/* The `now` line. A snapshot is taken at once and written field by field between passes, because writing it whole would
   keep the interlocks waiting. */
#ifndef TELEMETRY_H
#define TELEMETRY_H

#include "analog.h"
#include "board.h"
#include "line.h"

#define TELEMETRY_PERIOD TICKS_MS(5)
#define RECEIVER_SILENT TICKS_MS(100)

/* Counters that wrap. */
struct errors {
    uint8_t bad_lines;
    uint8_t refused;
    uint8_t overruns;
    uint8_t dropped;
};

struct telemetry {
    uint8_t field; /* next to write; TELEMETRY_IDLE = none */
    ticks_t now;
    uint16_t nonce, digest, latched, bits;
    enum mode mode;
    uint8_t closings;
    uint16_t demanded, second; /* µs */
    ticks_t measured;
    uint16_t tacho_count;
    ticks_t period, least_period, age;
    ticks_t receiver;
    uint16_t host;
    struct extent extent[CHANNEL_COUNT];
    struct errors errors;
};

#define TELEMETRY_IDLE 0u

/* Takes the snapshot and begins a line. Starts the board's least period afresh. */
void telemetry_take(struct telemetry *telemetry, struct board *board, const struct extent extent[CHANNEL_COUNT],
                    const struct errors *errors, uint16_t nonce, struct line *line);

/* Writes the next field. True when the line has become complete. */
bool telemetry_write(struct telemetry *telemetry, struct line *line);

#endif
