/* Registers in which a written one means "clear" or "toggle" this bit alone. The simulator clears all flags of a timer
 * together, which would lose a capture, and reads the other pins back when one is toggled with `sbi`. */
#include "board.h"

#include <string.h>

static avr_timer_t *timer_of(avr_t *avr, avr_io_addr_t flags)
{
	for (avr_io_t *io = avr->io_port; io; io = io->next)
		if (strcmp(io->kind, "timer") == 0 && ((avr_timer_t *)io)->overflow.raised.reg == flags)
			return (avr_timer_t *)io;
	return NULL;
}

static void clear(avr_t *avr, avr_int_vector_t *vector, uint8_t bits)
{
	if (vector->vector && bits >> vector->raised.bit & 1 && avr_regbit_get(avr, vector->raised))
		avr_clear_interrupt(avr, vector);
}

static void write_flags(avr_t *avr, avr_io_addr_t address, uint8_t value, void *param)
{
	avr_timer_t *timer = timer_of(avr, address);
	uint8_t bits = bits_written(avr, value);

	(void)param;
	clear(avr, &timer->overflow, bits);
	clear(avr, &timer->icr, bits);
	for (int comp = 0; comp < AVR_TIMER_COMP_COUNT; comp++)
		clear(avr, &timer->comp[comp].interrupt, bits);
}

static void write_pin(avr_t *avr, avr_io_addr_t address, uint8_t value, void *param)
{
	boardsim *b = param;

	for (int n = 0; n < PORTS; n++)
		if (b->port[n]->r_pin == address) {
			avr_io_addr_t port = b->port[n]->r_port;
			uint8_t toggled = avr->data[port] ^ bits_written(avr, value);

			avr->io[AVR_DATA_TO_IO(port)].w.c(avr, port, toggled, avr->io[AVR_DATA_TO_IO(port)].w.param);
		}
}

void flags_attach(boardsim *b)
{
	for (avr_io_t *io = b->avr->io_port; io; io = io->next)
		if (strcmp(io->kind, "timer") == 0)
			put_before(b, ((avr_timer_t *)io)->overflow.raised.reg, write_flags);
	for (int n = 0; n < PORTS; n++)
		put_before(b, b->port[n]->r_pin, write_pin);
}
