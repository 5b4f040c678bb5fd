/* The serial line. Bytes travel at line rate both ways and count when their stop bit is over; the simulator by itself
 * reckons eleven bits a byte and shows a sent byte when it is written. */
#include "board.h"

enum { CYCLES_PER_BYTE = 320, RECEIVE_ROOM = 3 }; /* 500000 baud, ten bits; two bytes of buffer and the shift register */

static uint32_t used(const line_queue *q) { return q->head - q->tail; }

static int push(line_queue *q, uint64_t now, uint8_t byte)
{
	if (used(q) == LINE_ROOM)
		return 0;
	q->last = (q->last > now ? q->last : now) + CYCLES_PER_BYTE;
	q->at[q->head % LINE_ROOM] = q->last;
	q->byte[q->head++ % LINE_ROOM] = byte;
	return 1;
}

static uint32_t firmware_cycles_per_byte(const boardsim *b)
{
	avr_t *avr = b->avr;
	uint32_t divider = avr_regbit_get(avr, b->uart->ubrrl) | avr_regbit_get(avr, b->uart->ubrrh) << 8;

	return (divider + 1) * (avr_regbit_get(avr, b->uart->u2x) ? 8 : 16) * 10;
}

static uint32_t unread(const boardsim *b)
{
	return (uint16_t)(b->uart->input.write - b->uart->input.read) % (sizeof b->uart->input.buffer / sizeof b->uart->input.buffer[0]);
}

static avr_cycle_count_t arrive(avr_t *avr, avr_cycle_count_t when, void *param)
{
	boardsim *b = param;
	line_queue *q = &b->to_board;
	uint8_t byte = q->byte[q->tail++ % LINE_ROOM];

	(void)avr;
	if (firmware_cycles_per_byte(b) != CYCLES_PER_BYTE || unread(b) >= RECEIVE_ROOM)
		b->line_lost++;
	else {
		b->uart->cycles_per_byte = 1; /* it has arrived: no second wait for its bits */
		avr_raise_irq(b->uart->io.irq + UART_IRQ_INPUT, byte);
		b->uart->cycles_per_byte = CYCLES_PER_BYTE;
	}
	return used(q) ? q->at[q->tail % LINE_ROOM] : when;
}

static void sent(avr_irq_t *irq, uint32_t value, void *param)
{
	boardsim *b = param;

	(void)irq;
	b->uart->cycles_per_byte = firmware_cycles_per_byte(b);
	if (b->uart->cycles_per_byte != CYCLES_PER_BYTE || !push(&b->from_board, b->avr->cycle, value))
		b->line_lost++;
}

int boardsim_line_write(boardsim *b, const uint8_t *bytes, int count)
{
	int taken = 0, idle = used(&b->to_board) == 0;

	while (taken < count && push(&b->to_board, b->avr->cycle, bytes[taken]))
		taken++;
	if (idle && taken)
		call_at(b, b->to_board.at[b->to_board.tail % LINE_ROOM], arrive);
	return taken;
}

int boardsim_line_read(boardsim *b, uint8_t *bytes, int room)
{
	line_queue *q = &b->from_board;
	int count = 0;

	while (count < room && used(q) && q->at[q->tail % LINE_ROOM] <= b->avr->cycle)
		bytes[count++] = q->byte[q->tail++ % LINE_ROOM];
	return count;
}

uint32_t boardsim_line_lost(const boardsim *b) { return b->line_lost; }

void line_attach(boardsim *b)
{
	b->uart->flags &= ~(AVR_UART_FLAG_STDIO | AVR_UART_FLAG_POLL_SLEEP);
	avr_irq_register_notify(b->uart->io.irq + UART_IRQ_OUTPUT, sent, b);
}

void line_restart(boardsim *b)
{
	if (used(&b->to_board))
		call_at(b, b->to_board.at[b->to_board.tail % LINE_ROOM], arrive);
}
