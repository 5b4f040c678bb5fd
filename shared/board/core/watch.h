/* The board's own interlocks: one pass looks at every input, latches what is wrong and decides the outputs. */
#ifndef WATCH_H
#define WATCH_H

#include "board.h"

#define WATCH_SAMPLER_STILL TICKS_MS(5)
#define WATCH_READ_BACK_SLACK TICKS_US(30) /* each edge may be stamped a little late, when another interrupt runs */

/* Looks at `board->in` and sets `board->out`. */
void watch_pass(struct board *board);

/* True when the last pass went through every check: only then may the watchdog be fed and the power wave go on. */
bool watch_complete(const struct board *board);

#endif
