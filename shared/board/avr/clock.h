/* Board time on timer 2, apart from the servo timer, whose frame changes with the configuration. */
#ifndef CLOCK_H
#define CLOCK_H

#include "../core/ticks.h"

#define CLOCK_OVERFLOWS_PER_PASS 8 /* 8 × 128 µs: a pass each 1.024 ms, and at once when a contact changes */

void clock_start(void);

/* Now, to 0.5 µs. With interrupts off only. */
ticks_t clock_now(void);

/* True once a pass is due; asking clears it. With interrupts off only. */
bool clock_take_pass(void);
bool clock_pass_due(void);

#endif
