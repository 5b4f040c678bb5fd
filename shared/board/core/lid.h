/* The lid's two antivalent contacts: closed only when both say so, faulty when they disagree for too long. */
#ifndef LID_H
#define LID_H

#include "contact.h"

struct lid {
    struct contact a;
    struct contact b;
    bool disagreeing;
    ticks_t since; /* when the disagreement began */
    bool fault;    /* stands until both contacts have been seen open together, which shows that both can move */
};

struct lid_reading {
    bool a_closed; /* what the contact says now */
    bool b_closed;
    bool a_blinked; /* open at some time since the last reading */
    bool b_blinked;
};

void lid_update(struct lid *lid, const struct lid_reading *reading, ticks_t now, ticks_t filter, ticks_t tolerance);

static inline bool lid_closed(const struct lid *lid) { return lid->a.closed && lid->b.closed; }

#endif
