#include "contact.h"

bool contact_update(struct contact *contact, bool reads_closed, bool blinked, ticks_t now, ticks_t filter)
{
    if (!reads_closed || blinked) {
        contact->closed = false;
        contact->settling = false;
        return false;
    }
    if (contact->closed)
        return false;
    if (!contact->settling) {
        contact->settling = true;
        contact->since = now;
    }
    contact->closed = ticks_passed(now, contact->since, filter);
    return contact->closed;
}
