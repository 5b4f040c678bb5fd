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
#define MARKS 16u /* a power of two; 2000 pulses a second are two or three a pass */
#define READINGS (2u * ANALOG_ROUND)

static volatile ticks_t marks[MARKS]; /* times of tachometer pulses since the last pass */
static volatile uint8_t mark_in, mark_out;
static struct tacho tacho;
static struct gauge servo;
static struct gauge receiver;
static struct analog analog;
static volatile uint16_t readings[READINGS]; /* the last two rounds of analogue channels; a reading's place tells its channel */
static volatile uint8_t reading_in;
static uint8_t reading_out;
static uint8_t blinked;
static ticks_t opened_at;
static volatile bool edge;

/* The place after, round the ring of two rounds. */
static uint8_t after(uint8_t place) { return place + 1u < READINGS ? (uint8_t)(place + 1u) : 0; }

void sensors_start(void)
{
    analog_take(&analog);
    PCMSK0 = PIN_SERVO;
    PCMSK1 = PIN_RECEIVER;
    PCMSK2 = PINS_CONTACTS;
    PCICR = (1 << PCIE0) | (1 << PCIE1) | (1 << PCIE2);
    ADCSRA = (1 << ADEN) | (1 << ADPS2) | (1 << ADPS1) | (1 << ADPS0); /* 125 kHz: a conversion takes 104 µs */
    ADMUX = REFERENCE | (uint8_t)analog_channel(0);
    ADCSRA |= 1 << ADSC;
}

static uint8_t channel_at(uint8_t place)
{
    return (uint8_t)analog_channel(place < ANALOG_ROUND ? place : (uint8_t)(place - ANALOG_ROUND));
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

ISR(PCINT0_vect)
{
    const bool rose = servo_edge();
    gauge_edge(&servo, rose, clock_now());
}

ISR(TIMER1_CAPT_vect)
{
    const uint8_t next = (uint8_t)(mark_in + 1u) % MARKS;
    const uint16_t captured = ICR1;
    marks[mark_in] = clock_now() - servo_since(captured);
    if (next != mark_out)
        mark_in = next;
}

/* Marks are worked out here and not in their interrupt, which would keep the stamps of other edges waiting. */
static void collect_marks(void)
{
    const uint8_t end = mark_in;
    uint8_t at = mark_out;
    for (; at != end; at = (uint8_t)(at + 1u) % MARKS)
        tacho_pulse(&tacho, marks[at]);
    mark_out = at;
}

void sensors_sample(void)
{
    if (ADCSRA & (1 << ADSC))
        return;
    const uint8_t next = after(reading_in);
    readings[reading_in] = ADC;
    ADMUX = REFERENCE | channel_at(next);
    ADCSRA |= 1 << ADSC;
    reading_in = next;
}

/* Interrupts need not be off: the place being written is never read. A loop that stalls for a whole ring loses that ring. */
static void collect_readings(void)
{
    const uint8_t end = reading_in;
    while (reading_out != end) {
        analog_add(&analog, (enum channel)channel_at(reading_out), readings[reading_out]);
        reading_out = after(reading_out);
    }
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

static void read_gauge(struct gauge *copy, struct gauge *gauge, ticks_t now, ticks_t limit)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        gauge_age(gauge, now, limit);
        *copy = *gauge;
    }
}

/* In small steps with interrupts let in between, so that no byte from the host is lost meanwhile. */
void sensors_read(struct inputs *in, ticks_t frame)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { read_contacts(in); }
    collect_marks();
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { in->now = clock_now(); }
    tacho_rest(&tacho, in->now);
    in->tacho = tacho_take(&tacho);
    read_gauge(&in->servo, &servo, in->now, 2 * frame);
    read_gauge(&in->receiver, &receiver, in->now, RECEIVER_SILENT);
    collect_readings();
    in->current_run = analog_take_run(&analog);
    in->analog_readings = analog.readings;
}

void sensors_retune(const struct config *config)
{
    tacho_start(&tacho, config->pulses_per_rev);
    analog.lowest_current = config->lowest_current;
    analog.highest_current = config->highest_current;
    analog.run = analog.longest = 0;
}

void sensors_take_extents(struct extent extent[CHANNEL_COUNT])
{
    memcpy(extent, analog.extent, sizeof analog.extent);
    analog_take(&analog);
}
