/* Input pins. The simulator lets a write to a PORT register undo what we drive unless it is told that the level comes from
 * outside, so both are always set together. */
#include "board.h"

static void drive(boardsim *b, int port, int bit)
{
	b->port[port]->external.pull_mask = b->driven[port];
	b->port[port]->external.pull_value = b->level[port];
	avr_raise_irq(b->port[port]->io.irq + bit, b->level[port] >> bit & 1);
}

void boardsim_input(boardsim *b, int pin, int level)
{
	int port = pin / 8, bit = pin % 8;

	if (pin < 0 || port >= PORTS)
		return;
	b->driven[port] |= 1 << bit;
	b->level[port] = level ? b->level[port] | 1 << bit : b->level[port] & ~(1 << bit);
	drive(b, port, bit);
}

/* Until the caller says otherwise every wire is broken: the pull-ups hold the pins high. */
void inputs_attach(boardsim *b)
{
	b->driven[0] = b->level[0] = 1 << TACHOMETER_PIN;
	b->driven[1] = 1 << (RECEIVER_PIN - 8);
	b->driven[2] = b->level[2] = 0xfc;
}

/* Without this, a low level at PD2 or PD3 is polled at every cycle from the moment it appears, which takes seven times as long. */
void inputs_stop_polling(boardsim *b)
{
	for (int n = 0; n < 2; n++)
		avr_extint_set_strict_lvl_trig(b->avr, n, 0);
}

static avr_cycle_count_t stop_polling(avr_t *avr, avr_cycle_count_t when, void *param)
{
	(void)avr, (void)when;
	inputs_stop_polling(param);
	return 0;
}

/* A reset clears the PIN registers, and a signal that has not changed would not set them again. */
void inputs_restart(boardsim *b)
{
	for (int port = 0; port < PORTS; port++) {
		for (int bit = 0; bit < 8; bit++)
			if (b->driven[port] >> bit & 1)
				drive(b, port, bit);
		b->avr->data[b->port[port]->r_pin] = b->level[port];
	}
	call_at(b, b->avr->cycle, stop_polling); /* the reset turns it on again, after we are called */
}
