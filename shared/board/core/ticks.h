/* Board time: a free-running 32-bit count of 0.5 µs. It wraps after 35 min 47 s, so only spans shorter than that may be compared;
   anything that can last longer keeps a flag beside its time. */
#ifndef TICKS_H
#define TICKS_H

#include <stdbool.h>
#include <stdint.h>

typedef uint32_t ticks_t;

#define TICKS_US(us) ((ticks_t)(us) * 2u)
#define TICKS_MS(ms) ((ticks_t)(ms) * 2000u)

/* True once `span` has gone by since `since`. */
static inline bool ticks_passed(ticks_t now, ticks_t since, ticks_t span) { return (ticks_t)(now - since) >= span; }

#endif
