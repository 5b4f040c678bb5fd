/* Servo pulses in the units of a 16-bit timer that counts 0.5 µs from 0 to TOP: high from 0 to the compare value. */
#ifndef PULSE_H
#define PULSE_H

#include <stdint.h>
#include "config.h"

#define PULSE_RATE_AT_START 50u

/* TOP for a rate of 50–400 pulses a second. */
static inline uint16_t pulse_top(uint16_t rate) { return (uint16_t)(2000000u / rate - 1u); }

/* Compare value for a pulse of `us`; the timer clears the pin one count later. */
static inline uint16_t pulse_compare(uint16_t us) { return (uint16_t)(2u * us - 1u); }

/* The longest pulse must end before the shortest frame with this much to spare, or it would be cut off or never fall. */
#define PULSE_SPARE 200u /* µs */
_Static_assert(PULSE_MOST + PULSE_SPARE <= 1000000u / 400u, "the longest pulse must fit the shortest frame");

#endif
