/* Is the host alive, and does it still listen? It shows both by echoing the number of a recent line of the board. */
#ifndef HOST_H
#define HOST_H

#include "ticks.h"

#define HOST_REMEMBERED 32u            /* lines of the board that may be echoed */
#define HOST_ECHO_AGE TICKS_MS(50)     /* an echo must be younger */
#define HOST_SILENCE TICKS_MS(97)      /* less than 100: a line waits a millisecond to be read, and silence as long to be seen */

struct host {
    ticks_t sent_at[HOST_REMEMBERED]; /* by the low bits of the line number */
    uint16_t last_sent;               /* number of the board's last line */
    uint8_t sent;                     /* lines remembered, at most HOST_REMEMBERED */
    uint16_t accepted;                /* number of the last host line accepted */
    bool numbered;                    /* `accepted` holds a number */
    bool alive;                       /* a demand was accepted in the last HOST_SILENCE; zero value is silent */
    ticks_t heard;                    /* when */
};

/* The number of the board's next line, which leaves at `now`. */
uint16_t host_next_line(struct host *host, ticks_t now);

bool host_echo_is_fresh(const struct host *host, uint16_t echo, ticks_t now);

/* True when `sequence` follows the last number accepted by 1 to 32767. */
bool host_sequence_follows(const struct host *host, uint16_t sequence);

void host_accept(struct host *host, uint16_t sequence);

/* A demand was accepted. */
void host_hear(struct host *host, ticks_t now);

/* Lets silence show. */
void host_update(struct host *host, ticks_t now);

#endif
