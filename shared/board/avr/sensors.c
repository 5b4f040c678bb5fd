#include "sensors.h"
#include <avr/interrupt.h>
#include <avr/io.h>
#include <string.h>
#include <util/atomic.h>
#include "../core/telemetry.h"
#include "clock.h"
#include "pins.h"
#include "servo.h"

#define REFERENCE (1 << REFS0) /* supply voltage: the dividers follow it */
#define RISE_WITHIN 800u       /* counts: an edge this early in a frame is a rise, since no pulse is shorter than 800 µs */

static struct tacho tacho;
static struct gauge servo;
static struct gauge receiver;
static struct analog analog;
static uint8_t place; /* in the round of analogue channels */
static uint8_t blinked;
static ticks_t opened_at;
static volatile bool edge;

static void start_conversion(void)
{
    ADMUX = REFERENCE | (uint8_t)analog_channel(place);
    ADCSRA |= 1 << ADSC;
}

void sensors_start(void)
{
    analog_take(&analog);
    PCMSK0 = PIN_SERVO;
    PCMSK1 = PIN_RECEIVER;
    PCMSK2 = PINS_CONTACTS;
    PCICR = (1 << PCIE0) | (1 << PCIE1) | (1 << PCIE2);
    ADCSRA = (1 << ADEN) | (1 << ADIE) | (1 << ADPS2) | (1 << ADPS1) | (1 << ADPS0); /* 125 kHz: a reading each 0.11 ms */
    start_conversion();
}

/* The contacts whose opening stops the output, each as a bit when it reads open. */
static uint8_t open_contacts(uint8_t pins) { return (pins ^ PIN_LID_B) & (PIN_LID_A | PIN_LID_B | PIN_STOP); }

ISR(PCINT2_vect)
{
    const uint8_t open = open_contacts(PIND);
    if (open && !blinked)
        opened_at = clock_now();
    blinked |= open;
    edge = true;
}

ISR(PCINT1_vect) { gauge_edge(&receiver, PINC & PIN_RECEIVER, clock_now()); }

/* The direction comes from the place in the frame, since the pin itself may have changed again. */
ISR(PCINT0_vect) { gauge_edge(&servo, TCNT1 < RISE_WITHIN, clock_now()); }

ISR(TIMER1_CAPT_vect)
{
    const uint16_t captured = ICR1;
    tacho_pulse(&tacho, clock_now() - servo_since(captured));
}

ISR(ADC_vect)
{
    analog_add(&analog, analog_channel(place), ADC);
    place = (uint8_t)(place + 1u) % ANALOG_ROUND;
    start_conversion();
}

bool sensors_edge(void) { return edge; }

static void read_contacts(struct inputs *in)
{
    const uint8_t pins = PIND;
    const uint8_t open = open_contacts(pins);
    in->lid = (struct lid_reading){!(open & PIN_LID_A), !(open & PIN_LID_B), blinked & PIN_LID_A, blinked & PIN_LID_B};
    in->stop_closed = !(open & PIN_STOP);
    in->stop_blinked = blinked & PIN_STOP;
    in->opened_at = opened_at;
    in->key_closed = !(pins & PIN_ARM_KEY);
    in->bolt_home = !(pins & PIN_LOCK_BOLT);
    in->contactor_closed = pins & PIN_CONTACTOR;
    blinked = 0;
    edge = false;
}

static void read_pulses(struct inputs *in, ticks_t frame)
{
    tacho_rest(&tacho, in->now);
    gauge_age(&servo, in->now, 2 * frame);
    gauge_age(&receiver, in->now, RECEIVER_SILENT);
    in->tacho = tacho_take(&tacho);
    in->servo = servo;
    in->receiver = receiver;
}

/* In three steps with interrupts let in between, so that no byte from the host is lost meanwhile. */
void sensors_read(struct inputs *in, ticks_t frame)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { read_contacts(in); }
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        in->now = clock_now();
        read_pulses(in, frame);
    }
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        in->current_run = analog_take_run(&analog);
        in->analog_readings = analog.readings;
    }
}

void sensors_retune(const struct config *config)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        tacho_start(&tacho, config->pulses_per_rev);
        analog.lowest_current = config->lowest_current;
        analog.highest_current = config->highest_current;
        analog.run = analog.longest = 0;
    }
}

void sensors_take_extents(struct extent extent[CHANNEL_COUNT])
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        memcpy(extent, analog.extent, sizeof analog.extent);
        analog_take(&analog);
    }
}
