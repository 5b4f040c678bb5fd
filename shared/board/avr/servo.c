#include "servo.h"
#include <avr/interrupt.h>
#include <avr/io.h>
#include <stdbool.h>
#include <util/atomic.h>
#include "../core/pulse.h"
#include "pins.h"
#include "second.h"

#define FRAME_MODE ((1 << WGM11) | (1 << WGM10))
#define CLEAR_OF_TOP 64u /* counts: do not write so close to a frame's end that the write straddles it */
#define NEAR_EDGE 16u
#define RISE_WITHIN 800u /* counts */

static volatile uint16_t wanted_compare; /* 0 = cease */
static volatile uint16_t wanted_top;
static volatile uint16_t next_top;      /* written; the timer takes it over when the frame under way ends */
static volatile uint16_t frame_top;     /* of the frame under way */
static volatile uint16_t frame_compare; /* of the frame under way */
static volatile ticks_t unattended;

void servo_start(void)
{
    wanted_top = next_top = frame_top = pulse_top(PULSE_RATE_AT_START);
    frame_compare = pulse_compare(PULSE_LEAST);
    OCR1A = frame_top;
    OCR1B = frame_compare;
    TCCR1A = FRAME_MODE;
    TCCR1B = (1 << ICNC1) | (1 << WGM13) | (1 << WGM12) | (1 << CS11); /* 2 MHz; capture on the falling edge, noise filter */
    TIFR1 = (1 << ICF1) | (1 << OCF1B) | (1 << TOV1);
    TIMSK1 = (1 << ICIE1) | (1 << OCIE1B) | (1 << TOIE1);
}

/* The port's latch follows the pulse while the timer drives the pin. The chip does not need it; a simulated port shows its latch
   whenever any of its pins is written, and would cut the pulse short. */
static void set_latch(bool high)
{
    if (high)
        PORTB |= PIN_SERVO;
    else
        PORTB &= (uint8_t)~PIN_SERVO;
}

/* Only while the pin is low. The chip buffers OCR1B until the next frame starts. The pin is disconnected for the write, because
   a simulated timer may take the new value at once and would raise the pin again; it stays low either way. */
static void commit(void)
{
    set_latch(false);
    TCCR1A = FRAME_MODE;
    if (wanted_compare == 0)
        return;
    OCR1B = wanted_compare;
    TCCR1A = FRAME_MODE | (1 << COM1B1);
}

/* A frame has started; if a pulse is out, it has just risen. */
ISR(TIMER1_OVF_vect)
{
    frame_compare = OCR1B;
    frame_top = next_top;
    if (next_top != wanted_top) {
        next_top = wanted_top;
        OCR1A = next_top;
    }
    unattended += (ticks_t)frame_top + 1u;
    if (unattended >= SERVO_UNATTENDED) {
        wanted_compare = 0;
        second_put(0);
    }
    second_frame();
}

/* The pulse has fallen. */
ISR(TIMER1_COMPB_vect) { commit(); }

/* With interrupts off. A fall whose interrupt still waits is left to it; one whose interrupt is over is low from its first count on, or what
   is wanted just then would wait for the fall of another whole frame. */
static bool is_low(void)
{
    const uint16_t count = TCNT1;
    const bool waiting = TIFR1 & ((1 << TOV1) | (1 << OCF1B));
    return !waiting && count > frame_compare && count < frame_top - CLEAR_OF_TOP;
}

void servo_put(uint16_t us)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        const uint16_t compare = us ? pulse_compare(us) : 0;
        if (compare != wanted_compare) {
            wanted_compare = compare;
            if (is_low())
                commit();
        }
    }
}

/* The direction comes from the place in the frame: no pulse is as short as RISE_WITHIN, and the pin may have changed again. */
bool servo_edge(void)
{
    const bool rose = TCNT1 < RISE_WITHIN;
    if (TCCR1A & (1 << COM1B1))
        set_latch(rose);
    return rose;
}

/* Just before an edge of the pulse, or between an edge and its interrupt: the latch may not be what the pin is. */
static bool is_at_edge(void)
{
    const uint16_t count = TCNT1;
    const bool rising = count > frame_top - NEAR_EDGE;
    const bool falling = count <= frame_compare && count > frame_compare - NEAR_EDGE;
    return rising || falling || (PCIFR & (1 << PCIF0));
}

/* Waits out an edge, at most some 10 µs. */
void servo_share_port(uint8_t pins)
{
    bool done = false;
    while (!done) {
        ATOMIC_BLOCK(ATOMIC_FORCEON)
        {
            done = !is_at_edge();
            if (done)
                PORTB = (PORTB & (PIN_SERVO | PIN_TACHOMETER)) | pins;
        }
    }
}

void servo_set_rate(uint16_t rate)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { wanted_top = pulse_top(rate); }
}

void servo_attend(void)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { unattended = 0; }
}

/* A frame that ended in between has its end still waiting, because interrupts are off and capture comes before overflow. */
uint16_t servo_since(uint16_t count)
{
    const uint16_t now = TCNT1;
    return now >= count ? now - count : (uint16_t)(now + frame_top + 1u - count);
}
