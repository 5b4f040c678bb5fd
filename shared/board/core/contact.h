/* A contact that opens at once and closes only after it has been closed for a while. */
#ifndef CONTACT_H
#define CONTACT_H

#include "ticks.h"

struct contact {
    bool closed;   /* filtered; zero value is open */
    bool settling; /* reads closed, not yet for long enough */
    ticks_t since; /* when settling began */
};

/* `reads_closed`: the pin now. `blinked`: it was seen open since the last call, however shortly. Returns true when it has just closed. */
bool contact_update(struct contact *contact, bool reads_closed, bool blinked, ticks_t now, ticks_t filter);

#endif
