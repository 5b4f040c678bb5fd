#include "gauge.h"

void gauge_edge(struct gauge *gauge, bool rising, ticks_t at)
{
    if (rising) {
        gauge->start = at;
    } else if (gauge->high) {
        gauge->rose = gauge->start;
        gauge->fell = at;
        gauge->width = at - gauge->start;
        gauge->known = true;
    }
    gauge->high = rising;
}

void gauge_age(struct gauge *gauge, ticks_t now, ticks_t limit)
{
    if (gauge->known && (int32_t)(now - gauge->fell) >= (int32_t)limit)
        gauge->known = false;
}
