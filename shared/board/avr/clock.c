#include "clock.h"
#include <avr/interrupt.h>
#include <avr/io.h>
#include "sensors.h"

static volatile ticks_t overflowed; /* time at the last overflow */
static volatile uint8_t overflows;  /* since the last pass */

void clock_start(void)
{
    TCCR2B = 1 << CS21; /* 2 MHz */
    TIMSK2 = 1 << TOIE2;
}

ISR(TIMER2_OVF_vect)
{
    overflowed += 256;
    if (overflows < CLOCK_OVERFLOWS_PER_PASS)
        overflows++;
    sei(); /* a byte from the host does not wait for what has time until the next turn */
    sensors_sample();
}

/* An overflow that waits for its interrupt counts when the counter was read after it. */
ticks_t clock_now(void)
{
    const uint8_t count = TCNT2;
    const bool waiting = TIFR2 & (1 << TOV2);
    return overflowed + count + (waiting && count < 128 ? 256u : 0u);
}

bool clock_pass_due(void) { return overflows >= CLOCK_OVERFLOWS_PER_PASS; }

bool clock_take_pass(void)
{
    if (!clock_pass_due())
        return false;
    overflows = 0;
    return true;
}
