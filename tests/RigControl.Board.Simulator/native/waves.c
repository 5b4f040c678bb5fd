/* Signals that the harness makes edge by edge: the tachometer's and the receiver's. */
#include "board.h"

enum { MARK_CYCLES = 1600 }; /* a mark passes the sensor in 100 us, or half a period when that is shorter */

/* The capture register holds the count of the edge's own cycle, not of the end of the running instruction. */
static void correct_capture(boardsim *b, uint64_t when)
{
	avr_timer_t *t = b->timer1;

	if (t->tov_cycles <= 1 || t->cs_div_value == 0 || when < t->tov_base || avr_regbit_get(b->avr, t->ices))
		return;
	uint16_t count = (when - t->tov_base) / t->cs_div_value;

	b->avr->data[t->r_icr] = count;
	b->avr->data[t->r_icrh] = count >> 8;
}

static uint64_t later(uint64_t now, double cycle) { return cycle > now + 1.0 ? (uint64_t)cycle : now + 1; }

static avr_cycle_count_t tachometer(avr_t *avr, avr_cycle_count_t when, void *param)
{
	boardsim *b = param;
	double half = b->tachometer_period / 2;

	(void)avr;
	b->tachometer_low = !b->tachometer_low;
	boardsim_input(b, TACHOMETER_PIN, !b->tachometer_low);
	if (b->tachometer_low) {
		correct_capture(b, when);
		outputs_record(b, TACHOMETER_PIN, 0, when);
		b->tachometer_next += b->tachometer_period;
		b->tachometer_at = later(when, when + (half < MARK_CYCLES ? half : MARK_CYCLES));
	} else
		b->tachometer_at = b->tachometer_period > 0 ? later(when, b->tachometer_next) : 0;
	return b->tachometer_at;
}

static void schedule_tachometer(boardsim *b)
{
	if (b->tachometer_at)
		call_at(b, b->tachometer_at, tachometer);
}

void boardsim_tachometer(boardsim *b, double period)
{
	double now = b->avr->cycle, left = period;

	if (period == b->tachometer_period)
		return;
	if (b->tachometer_period > 0 && b->tachometer_next > now)
		left = (b->tachometer_next - now) / b->tachometer_period * period;
	b->tachometer_period = period;
	b->tachometer_next = now + left;
	if (b->tachometer_low) /* let the running pulse end first */
		return;
	avr_cycle_timer_cancel(b->avr, tachometer, b);
	b->tachometer_at = period > 0 ? (uint64_t)b->tachometer_next : 0;
	schedule_tachometer(b);
}

static avr_cycle_count_t receiver(avr_t *avr, avr_cycle_count_t when, void *param)
{
	boardsim *b = param;

	(void)avr;
	if (b->receiver_high)
		outputs_record(b, RECEIVER_PIN, 0, when);
	b->receiver_high = !b->receiver_high && b->receiver_width > 0;
	boardsim_input(b, RECEIVER_PIN, b->receiver_high);
	b->receiver_at = b->receiver_high          ? when + b->receiver_width
	                 : b->receiver_width == 0  ? 0
	                                           : when + b->receiver_frame - b->receiver_width;
	return b->receiver_at;
}

void boardsim_receiver(boardsim *b, uint64_t frame, uint64_t width)
{
	b->receiver_frame = frame;
	b->receiver_width = width < frame ? width : 0;
	if (b->receiver_width && !b->receiver_at) {
		b->receiver_at = b->avr->cycle + 1;
		call_at(b, b->receiver_at, receiver);
	}
}

void waves_restart(boardsim *b)
{
	schedule_tachometer(b);
	if (b->receiver_at)
		call_at(b, b->receiver_at, receiver);
}
