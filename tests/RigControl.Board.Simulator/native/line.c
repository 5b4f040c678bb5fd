/* The serial line. Bytes travel at line rate both ways and count when their stop bit is over; the simulator by itself
 * reckons eleven bits a byte and shows a sent byte when it is written. It is given one received byte at a time: while its
 * own buffer holds several, it raises the interrupt once a byte time only, and a firmware once late would never catch up. */
#include "board.h"

enum { CYCLES_PER_BYTE = 320 }; /* 500000 baud, ten bits */

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

static void hand_over(boardsim *b, uint8_t byte)
{
	b->uart->cycles_per_byte = 1; /* it has arrived: no second wait for its bits */
	avr_raise_irq(b->uart->io.irq + UART_IRQ_INPUT, byte);
	b->uart->cycles_per_byte = CYCLES_PER_BYTE;
}

static int nothing_unread(const boardsim *b) { return b->uart->input.read == b->uart->input.write; }

/* Two bytes wait in the buffer and a third in the shift register, until the start bit of a fourth. */
static int has_room(const boardsim *b, uint64_t now)
{
	const line_queue *q = &b->to_board;
	int next_follows_at_once = used(q) && q->at[q->tail % LINE_ROOM] - CYCLES_PER_BYTE <= now;

	return b->unread_count < UNREAD_ROOM - next_follows_at_once;
}

static avr_cycle_count_t arrive(avr_t *avr, avr_cycle_count_t when, void *param)
{
	boardsim *b = param;
	line_queue *q = &b->to_board;
	uint8_t byte = q->byte[q->tail++ % LINE_ROOM];

	if (firmware_cycles_per_byte(b) != CYCLES_PER_BYTE || !avr_regbit_get(avr, b->uart->rxen))
		b->line_lost++;
	else if (nothing_unread(b) && b->unread_count == 0)
		hand_over(b, byte);
	else if (has_room(b, when))
		b->unread[b->unread_count++] = byte;
	else
		b->line_lost++;
	return used(q) ? q->at[q->tail % LINE_ROOM] : when;
}

static uint8_t read_data(avr_t *avr, avr_io_addr_t address, void *param)
{
	boardsim *b = param;
	uint8_t value = b->uart_read.c(avr, address, b->uart_read.param);

	if (b->unread_count && nothing_unread(b)) {
		hand_over(b, b->unread[0]);
		for (int n = 1; n < b->unread_count; n++)
			b->unread[n - 1] = b->unread[n];
		b->unread_count--;
	}
	return value;
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
	b->uart_read.c = b->avr->io[AVR_DATA_TO_IO(b->uart->r_udr)].r.c;
	b->uart_read.param = b->avr->io[AVR_DATA_TO_IO(b->uart->r_udr)].r.param;
	b->avr->io[AVR_DATA_TO_IO(b->uart->r_udr)].r.c = read_data;
	b->avr->io[AVR_DATA_TO_IO(b->uart->r_udr)].r.param = b;
}

void line_restart(boardsim *b)
{
	b->unread_count = 0;
	if (used(&b->to_board))
		call_at(b, b->to_board.at[b->to_board.tail % LINE_ROOM], arrive);
}
