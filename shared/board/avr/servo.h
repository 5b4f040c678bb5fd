/* The servo pulse on OC1B, timer 1 in fast PWM up to OCR1A: high from the start of a frame to the compare match. */
#ifndef SERVO_H
#define SERVO_H

#include <stdbool.h>
#include <stdint.h>
#include "../core/ticks.h"

#define SERVO_UNATTENDED TICKS_MS(40)

void servo_start(void);

/* The rate from the next frame but one on. */
void servo_set_rate(uint16_t rate);

/* The pulse in µs from the next frame on, 0 to cease. A pulse under way is never touched. */
void servo_put(uint16_t us);

/* An edge of our own pulse, read back from the pin: true when it rose. Called first thing by the pin-change interrupt. */
bool servo_edge(void);

/* Sets the other outputs of the port, which the servo pin shares: `pins` high, the rest low. */
void servo_share_port(uint8_t pins);

/* The main loop is well. Pulses cease by themselves after SERVO_UNATTENDED without this, before the watchdog resets. */
void servo_attend(void);

/* How long ago timer 1 read `count`, in ticks. With interrupts off only. */
uint16_t servo_since(uint16_t count);

#endif
