/* Readings of the analogue converter: lowest, sum and highest between two telemetry lines, and runs beyond the current limits. */
#ifndef ANALOG_H
#define ANALOG_H

#include <stdbool.h>
#include <stdint.h>

enum channel { CHANNEL_VOLTAGE, CHANNEL_CURRENT, CHANNEL_THERMISTOR_1, CHANNEL_THERMISTOR_2, CHANNEL_COUNT };

/* A divider whose thermistor or wire is open reads near full scale, shorted near zero (counts of 1023; common practice, no source). */
#define THERMISTOR_OPEN 1008u
#define THERMISTOR_SHORT 15u

#define EXTENT_MOST 64u

struct extent {
    uint16_t lowest; /* counts */
    uint16_t highest;
    uint16_t sum;    /* of at most EXTENT_MOST readings, so that it cannot overflow; later ones still move the extremes */
    uint8_t readings;
};

struct analog {
    struct extent extent[CHANNEL_COUNT];
    uint16_t lowest_current; /* counts; readings beyond these count as over-current. The zero values make every reading beyond */
    uint16_t highest_current;
    uint8_t run;      /* consecutive readings beyond, saturating */
    uint8_t longest;  /* run since the last analog_take_run */
    uint8_t readings; /* of any channel, wraps: shows that the converter runs */
};

/* The channel converted at a place of the round: voltage and current six times, each thermistor once. */
#define ANALOG_ROUND 14u
enum channel analog_channel(uint8_t place);

/* One reading. */
void analog_add(struct analog *analog, enum channel channel, uint16_t counts);

/* Starts the extents afresh. */
void analog_take(struct analog *analog);

/* The longest run since the last call. */
uint8_t analog_take_run(struct analog *analog);

/* Mean in tenths of a count; 0 without a reading. */
uint16_t extent_mean(const struct extent *extent);

#endif
