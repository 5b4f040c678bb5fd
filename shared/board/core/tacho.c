#include "tacho.h"

ticks_t tacho_lesser(ticks_t a, ticks_t b)
{
    if (a == 0 || b == 0)
        return a | b;
    return a < b ? a : b;
}

/* The pulse `back` places before the one about to be stored. */
static ticks_t earlier(const struct tacho *tacho, uint8_t back)
{
    return tacho->at[(uint8_t)(tacho->next - back) % TACHO_MOST_PULSES];
}

static void measure(struct tacho *tacho, ticks_t at)
{
    struct tacho_view *view = &tacho->view;
    if (tacho->held >= 1) {
        view->period = at - view->last;
        view->least_period = tacho_lesser(view->least_period, view->period);
    }
    if (tacho->pulses_per_rev && tacho->held >= tacho->pulses_per_rev) {
        view->revolution = at - earlier(tacho, tacho->pulses_per_rev);
        view->least_revolution = tacho_lesser(view->least_revolution, view->revolution);
    }
}

void tacho_pulse(struct tacho *tacho, ticks_t at)
{
    measure(tacho, at);
    tacho->at[tacho->next] = at;
    tacho->next = (uint8_t)(tacho->next + 1u) % TACHO_MOST_PULSES;
    if (tacho->held < TACHO_MOST_PULSES)
        tacho->held++;
    tacho->view.any = true;
    tacho->view.last = at;
    tacho->view.count++;
}

void tacho_rest(struct tacho *tacho, ticks_t now)
{
    if (tacho->view.any && ticks_passed(now, tacho->view.last, TACHO_LONGEST))
        tacho_start(tacho, tacho->pulses_per_rev);
}

void tacho_start(struct tacho *tacho, uint8_t pulses_per_rev)
{
    tacho->pulses_per_rev = pulses_per_rev;
    tacho->held = 0;
    tacho->view.any = false;
    tacho->view.period = 0;
    tacho->view.revolution = 0;
}

struct tacho_view tacho_take(struct tacho *tacho)
{
    const struct tacho_view view = tacho->view;
    tacho->view.least_period = 0;
    tacho->view.least_revolution = 0;
    return view;
}

ticks_t tacho_age(const struct tacho_view *view, ticks_t now)
{
    const ticks_t age = now - view->last;
    return view->any && age < TACHO_LONGEST ? age : TACHO_LONGEST;
}
