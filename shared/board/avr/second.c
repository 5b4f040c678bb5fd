#include "second.h"
#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>
#include "pins.h"

#define US_PER_COUNT 4u

static volatile uint16_t wanted; /* counts; 0 = cease */
static volatile uint8_t turns;   /* of the timer that the pulse under way still lasts */

void second_start(void)
{
    TCCR0A = 0;
    TCCR0B = (1 << CS01) | (1 << CS00); /* 250 kHz */
}

void second_put(uint16_t us)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { wanted = us / US_PER_COUNT; }
}

/* The compare match comes once a turn; the pulse falls at the one of its last turn. A match right at the start would be missed. */
void second_frame(void)
{
    if (wanted == 0)
        return;
    const uint8_t last = (uint8_t)wanted;
    TCNT0 = 0;
    OCR0A = last ? last : 1;
    TIFR0 = 1 << OCF0A;
    turns = (uint8_t)(wanted >> 8);
    PORTC |= PIN_SECOND;
    TIMSK0 = 1 << OCIE0A;
}

ISR(TIMER0_COMPA_vect)
{
    if (turns > 0) {
        turns--;
        return;
    }
    PORTC &= (uint8_t)~PIN_SECOND;
    TIMSK0 = 0;
}
