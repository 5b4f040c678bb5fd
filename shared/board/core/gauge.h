/* Measures the width of pulses from the times of their edges: the receiver's, and our own read back from the pin. */
#ifndef GAUGE_H
#define GAUGE_H

#include "ticks.h"

struct gauge {
    bool high;      /* a rise was seen and no fall yet */
    bool known;     /* `rose`, `fell` and `width` hold a whole pulse, not older than the caller's limit */
    ticks_t start;  /* rise of the pulse under way */
    ticks_t rose;   /* of the last whole pulse */
    ticks_t fell;   /* of the last whole pulse */
    ticks_t width;  /* of the last whole pulse */
};

/* An edge at `at`: called from the pin-change interrupt. */
void gauge_edge(struct gauge *gauge, bool rising, ticks_t at);

/* Forgets a pulse older than `limit`. `now` may have been read a little before the pulse fell. */
void gauge_age(struct gauge *gauge, ticks_t now, ticks_t limit);

#endif
