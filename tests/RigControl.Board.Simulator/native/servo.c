/* Timer 1 as the servo pulse needs it. In the PWM modes OCR1A and OCR1B take effect at the bottom of the count (ATmega328P
 * datasheet, 16-bit Timer/Counter1, "Output Compare Units", double buffering; from memory), and high bytes go through the
 * TEMP register. The simulator applies a write at once, which would cut pulses that a real board does not cut. */
#include "board.h"

enum { WATCHED_ERROR = 16 }; /* cycles by which an instruction can delay the simulator's timers */

static int buffered(const boardsim *b)
{
	return b->timer1->wgm_op_mode_kind == avr_timer_wgm_pwm && b->timer1->tov_cycles > 1;
}

static int connected(const boardsim *b) { return avr_regbit_get(b->avr, b->timer1->comp[AVR_TIMER_COMPB].com) != 0; }

static void apply(boardsim *b)
{
	b->ocr_waiting = 0;
	for (int comp = 0; comp < 2; comp++) {
		avr_io_addr_t low = b->timer1->comp[comp].r_ocr;

		b->ocr_write[comp].c(b->avr, low, b->avr->data[low], b->ocr_write[comp].param);
	}
}

/* Registered after the simulator's own overflow timer for the same cycle, hence called after it. */
static avr_cycle_count_t bottom(avr_t *avr, avr_cycle_count_t when, void *param)
{
	(void)avr, (void)when;
	if (((boardsim *)param)->ocr_waiting)
		apply(param);
	return 0;
}

static void write_high(avr_t *avr, avr_io_addr_t address, uint8_t value, void *param)
{
	(void)avr, (void)address;
	((boardsim *)param)->ocr_high = value;
}

/* The registers show what was written; the running compare values live in the simulator's timer until `apply`. */
static void write_low(avr_t *avr, avr_io_addr_t address, uint8_t value, void *param)
{
	boardsim *b = param;

	avr->data[address + 1] = b->ocr_high;
	avr->data[address] = value;
	if (!buffered(b))
		apply(b);
	else if (!b->ocr_waiting) {
		b->ocr_waiting = 1;
		call_at(b, b->timer1->tov_base + b->timer1->tov_cycles, bottom);
	}
}

static void compared(avr_irq_t *irq, uint32_t value, void *param)
{
	boardsim *b = param;

	(void)irq;
	b->oc1b_latch = value & 1;
	outputs_update(b);
}

static void write_control(avr_t *avr, avr_io_addr_t address, uint8_t value, void *param)
{
	boardsim *b = param;

	b->tccr_write.c(avr, address, value, b->tccr_write.param);
	/* The pin follows the compare unit or PORTB, whichever is now connected. */
	avr_raise_irq(b->port[0]->io.irq + OC1B_PIN, servo_pin_level(b));
	outputs_update(b);
}

int servo_pin_level(const boardsim *b)
{
	return connected(b) ? b->oc1b_latch : b->avr->data[b->port[0]->r_port] >> OC1B_PIN & 1;
}

/* Cycle of a pulse edge as the timer makes it, not as the end of the running instruction shows it. */
uint64_t servo_edge_cycle(const boardsim *b, int level)
{
	uint64_t now = b->avr->cycle;
	uint64_t exact = b->timer1->tov_base + (level ? 0 : b->timer1->comp[AVR_TIMER_COMPB].comp_cycles);

	return connected(b) && exact <= now && now - exact <= WATCHED_ERROR ? exact : now;
}

void servo_attach(boardsim *b)
{
	for (int comp = 0; comp < 2; comp++) {
		b->ocr_write[comp] = put_before(b, b->timer1->comp[comp].r_ocr, write_low);
		put_before(b, b->timer1->comp[comp].r_ocrh, write_high);
	}
	b->tccr_write = put_before(b, b->timer1->comp[AVR_TIMER_COMPB].com.reg, write_control);
	avr_irq_register_notify(b->timer1->io.irq + TIMER_IRQ_OUT_COMP + AVR_TIMER_COMPB, compared, b);
}

void servo_restart(boardsim *b)
{
	b->ocr_waiting = b->ocr_high = b->oc1b_latch = 0;
}
