/* Interrupts that stamp edges and take readings. Contacts, tachometer, receiver, own pulse, analogue channels. */
#ifndef SENSORS_H
#define SENSORS_H

#include "../core/analog.h"
#include "../core/board.h"

void sensors_start(void);

/* Puts away the reading that is ready and starts the next conversion: called by the clock each 128 µs, a little longer than a
   conversion takes, so that the converter needs no interrupt of its own. */
void sensors_sample(void);

/* A contact has changed since the last call of sensors_read. With interrupts off only. */
bool sensors_edge(void);

/* Reads everything. `frame` is the time between two servo pulses, for the age of the pulse read back. */
void sensors_read(struct inputs *in, ticks_t frame);

/* Uses the limits and marks of a new configuration. */
void sensors_retune(const struct config *config);

/* Extents of the analogue channels since the last call. */
void sensors_take_extents(struct extent extent[CHANNEL_COUNT]);

#endif
