/* Output pins of port B, watched at their registers: the simulator's pin signals forget the compare unit at every write to
 * PORTB. A pin that is not an output is held low by its pull-down. */
#include "board.h"

enum { WATCHED = 0x3c }; /* PB2-PB5 */

void outputs_record(boardsim *b, int pin, int level, uint64_t cycle)
{
	if (b->edge_head - b->edge_tail == EDGE_ROOM) {
		b->edges_lost++;
		return;
	}
	b->edge[b->edge_head++ % EDGE_ROOM] = (boardsim_edge){ .cycle = cycle, .pin = pin, .level = level };
}

static void update(boardsim *b, uint8_t port, uint8_t direction)
{
	uint8_t output = (port & ~(1 << OC1B_PIN)) | servo_pin_level(b) << OC1B_PIN;
	uint8_t changed;

	output &= direction & WATCHED;
	changed = output ^ b->output;
	b->output = output;
	for (int pin = 0; changed >> pin; pin++)
		if (changed >> pin & 1) {
			int level = output >> pin & 1;

			outputs_record(b, pin, level, pin == OC1B_PIN ? servo_edge_cycle(b, level) : b->avr->cycle);
		}
}

void outputs_update(boardsim *b)
{
	update(b, b->avr->data[b->port[0]->r_port], b->avr->data[b->port[0]->r_ddr]);
}

static void port_written(avr_irq_t *irq, uint32_t value, void *param)
{
	boardsim *b = param;

	(void)irq;
	update(b, value, b->avr->data[b->port[0]->r_ddr]);
}

static void direction_written(avr_irq_t *irq, uint32_t value, void *param)
{
	boardsim *b = param;

	(void)irq;
	update(b, b->avr->data[b->port[0]->r_port], value);
}

void outputs_attach(boardsim *b)
{
	avr_irq_register_notify(b->port[0]->io.irq + IOPORT_IRQ_REG_PORT, port_written, b);
	avr_irq_register_notify(b->port[0]->io.irq + IOPORT_IRQ_DIRECTION_ALL, direction_written, b);
}

void outputs_restart(boardsim *b) { update(b, 0, 0); }

int boardsim_output(const boardsim *b, int pin) { return b->output >> pin & 1; }

int boardsim_edges(boardsim *b, boardsim_edge *edges, int room)
{
	int count = 0;

	while (count < room && b->edge_tail != b->edge_head)
		edges[count++] = b->edge[b->edge_tail++ % EDGE_ROOM];
	return count;
}

uint32_t boardsim_edges_lost(const boardsim *b) { return b->edges_lost; }
