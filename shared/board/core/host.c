#include "host.h"

#define FURTHEST_AHEAD 32767u

uint16_t host_next_line(struct host *host, ticks_t now)
{
    host->last_sent++;
    host->sent_at[host->last_sent % HOST_REMEMBERED] = now;
    if (host->sent < HOST_REMEMBERED)
        host->sent++;
    return host->last_sent;
}

bool host_echo_is_fresh(const struct host *host, uint16_t echo, ticks_t now)
{
    const uint16_t back = (uint16_t)(host->last_sent - echo);
    return back < host->sent && !ticks_passed(now, host->sent_at[echo % HOST_REMEMBERED], HOST_ECHO_AGE);
}

bool host_sequence_follows(const struct host *host, uint16_t sequence)
{
    const uint16_t ahead = (uint16_t)(sequence - host->accepted);
    return !host->numbered || (ahead >= 1 && ahead <= FURTHEST_AHEAD);
}

void host_accept(struct host *host, uint16_t sequence)
{
    host->accepted = sequence;
    host->numbered = true;
}

void host_hear(struct host *host, ticks_t now)
{
    host->heard = now;
    host->alive = true;
}

void host_update(struct host *host, ticks_t now)
{
    if (host->alive && ticks_passed(now, host->heard, HOST_SILENCE))
        host->alive = false;
}
