/* Output pins of port B and PC5, watched at their registers: the simulator's pin signals forget the compare unit at every write to
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

static void second_update(boardsim *b)
{
	int level = b->avr->data[b->port[1]->r_port] & b->avr->data[b->port[1]->r_ddr] & 1 << (SECOND_PIN - 8) ? 1 : 0;

	if (level == b->second)
		return;
	b->second = level;
	outputs_record(b, SECOND_PIN, level, b->avr->cycle);
}

static void write_second(avr_t *avr, avr_io_addr_t address, uint8_t value, void *param)
{
	avr->data[address] = value;
	second_update(param);
}

void outputs_update(boardsim *b)
{
	uint8_t port = b->avr->data[b->port[0]->r_port];
	uint8_t output = (port & ~(1 << OC1B_PIN)) | servo_pin_level(b) << OC1B_PIN;
	uint8_t changed;

	output &= b->avr->data[b->port[0]->r_ddr] & WATCHED;
	changed = output ^ b->output;
	b->output = output;
	for (int pin = 0; changed >> pin; pin++)
		if (changed >> pin & 1) {
			int level = output >> pin & 1;

			outputs_record(b, pin, level, pin == OC1B_PIN ? servo_edge_cycle(b, level) : b->avr->cycle);
		}
}

/* Replaces the simulator's own write, which would pull the servo pulse's pin to its PORT bit and feign a pin change. */
static void write_port(avr_t *avr, avr_io_addr_t address, uint8_t value, void *param)
{
	boardsim *b = param;

	avr->data[address] = value;
	for (int pin = 0; pin < 8; pin++)
		if (avr->data[b->port[0]->r_ddr] >> pin & 1)
			avr_raise_irq(b->port[0]->io.irq + pin, pin == OC1B_PIN ? servo_pin_level(b) : value >> pin & 1);
	outputs_update(b);
}

static void write_direction(avr_t *avr, avr_io_addr_t address, uint8_t value, void *param)
{
	boardsim *b = param;

	avr->data[address] = value;
	write_port(avr, b->port[0]->r_port, avr->data[b->port[0]->r_port], param);
}

/* Output pins read back as they are, the compare unit's too. */
static uint8_t read_pins(avr_t *avr, avr_io_addr_t address, void *param)
{
	boardsim *b = param;
	uint8_t direction = avr->data[b->port[0]->r_ddr];
	uint8_t port = (avr->data[b->port[0]->r_port] & ~(1 << OC1B_PIN)) | servo_pin_level(b) << OC1B_PIN;

	avr->data[address] = (avr->data[address] & ~direction) | (port & direction);
	return avr->data[address];
}

void outputs_attach(boardsim *b)
{
	put_before(b, b->port[0]->r_port, write_port);
	put_before(b, b->port[0]->r_ddr, write_direction);
	put_before(b, b->port[1]->r_port, write_second);
	put_before(b, b->port[1]->r_ddr, write_second);
	b->avr->io[AVR_DATA_TO_IO(b->port[0]->r_pin)].r.c = read_pins;
	b->avr->io[AVR_DATA_TO_IO(b->port[0]->r_pin)].r.param = b;
}

/* The registers are clear: everything falls. */
void outputs_restart(boardsim *b)
{
	outputs_update(b);
	second_update(b);
}

int boardsim_output(const boardsim *b, int pin) { return pin == SECOND_PIN ? b->second : b->output >> pin & 1; }

int boardsim_edges(boardsim *b, boardsim_edge *edges, int room)
{
	int count = 0;

	while (count < room && b->edge_tail != b->edge_head)
		edges[count++] = b->edge[b->edge_tail++ % EDGE_ROOM];
	return count;
}

uint32_t boardsim_edges_lost(const boardsim *b) { return b->edges_lost; }
