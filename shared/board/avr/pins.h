/* The pin map: names, places and electrical senses. */
#ifndef PINS_H
#define PINS_H

#include <avr/io.h>
#include <stdbool.h>

/* Port D, all with pull-up. A broken wire reads open, pressed, unlocked. */
#define PIN_LID_A (1 << PD2)     /* low = lid closed */
#define PIN_LID_B (1 << PD3)     /* high = lid closed: the other sense, so that one short cannot close both */
#define PIN_LOCK_BOLT (1 << PD4) /* low = bolt home */
#define PIN_STOP (1 << PD5)      /* low = circuit closed = clear */
#define PIN_ARM_KEY (1 << PD6)   /* low = key closed */
#define PIN_CONTACTOR (1 << PD7) /* low = contactor proven open */
#define PINS_CONTACTS (PIN_LID_A | PIN_LID_B | PIN_LOCK_BOLT | PIN_STOP | PIN_ARM_KEY | PIN_CONTACTOR)

/* Port B */
#define PIN_TACHOMETER (1 << PB0)   /* falling edge = a pulse */
#define PIN_SERVO (1 << PB2)        /* OC1B */
#define PIN_POWER_WATCH (1 << PB3)  /* square wave = contactor held */
#define PIN_LOCK_RELEASE (1 << PB4) /* high = unlocked */
#define PIN_MARKER (1 << PB5)       /* high = light on */
#define PINS_OUT (PIN_SERVO | PIN_POWER_WATCH | PIN_LOCK_RELEASE | PIN_MARKER)

/* Port C: ADC0–ADC3 are the channels of analog.h in their order. */
#define PINS_ANALOG 0x0F
#define PIN_RECEIVER (1 << PC4)
#define PIN_SECOND (1 << PC5) /* servo pulse of the second output */

/* Outputs low, pull-ups on. */
static inline void pins_start(void)
{
    PORTB = PIN_TACHOMETER;
    DDRB = PINS_OUT;
    PORTC = 0;
    DDRC = PIN_SECOND;
    PORTD = PINS_CONTACTS;
    DIDR0 = PINS_ANALOG;
}

#endif
