#include "lid.h"

static void compare(struct lid *lid, const struct lid_reading *reading, ticks_t now, ticks_t tolerance)
{
    if (!reading->a_closed && !reading->b_closed)
        lid->fault = false;
    if (reading->a_closed == reading->b_closed) {
        lid->disagreeing = false;
        return;
    }
    if (!lid->disagreeing) {
        lid->disagreeing = true;
        lid->since = now;
    }
    if (ticks_passed(now, lid->since, tolerance))
        lid->fault = true;
}

void lid_update(struct lid *lid, const struct lid_reading *reading, ticks_t now, ticks_t filter, ticks_t tolerance)
{
    contact_update(&lid->a, reading->a_closed, reading->a_blinked, now, filter);
    contact_update(&lid->b, reading->b_closed, reading->b_blinked, now, filter);
    compare(lid, reading, now, tolerance);
}
