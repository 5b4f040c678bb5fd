/* What the parts of the board share. */
#ifndef BOARD_H
#define BOARD_H

#include "boardsim.h"

#include <simavr/sim_avr.h>
#include <simavr/avr_adc.h>
#include <simavr/avr_extint.h>
#include <simavr/avr_ioport.h>
#include <simavr/avr_timer.h>
#include <simavr/avr_uart.h>

/* UNREAD_ROOM: with the byte being read, two bytes of buffer and the shift register. */
enum { PORTS = 3, UNREAD_ROOM = 2, EDGE_ROOM = 65536, LINE_ROOM = 4096, OC1B_PIN = 2, TACHOMETER_PIN = 0, RECEIVER_PIN = 12, SECOND_PIN = 13 };

/* A queue of bytes with the cycle at which each has arrived. */
typedef struct {
	uint8_t byte[LINE_ROOM];
	uint64_t at[LINE_ROOM];
	uint32_t head, tail;
	uint64_t last;
} line_queue;

/* The callback that the simulator had at a register before ours. */
typedef struct { avr_io_write_t c; void *param; } chained;
typedef struct { avr_io_read_t c; void *param; } chained_read;

struct boardsim {
	avr_io_t io; /* first member: the simulator resets us together with its own modules */
	avr_t *avr;
	avr_ioport_t *port[PORTS];
	uint8_t driven[PORTS], level[PORTS];
	uint32_t watchdog_resets;

	avr_uart_t *uart;
	line_queue to_board, from_board;
	uint32_t line_lost;
	uint8_t unread[UNREAD_ROOM], unread_count;
	chained_read uart_read;

	avr_timer_t *timer1;
	chained ocr_write[2], tccr_write;
	uint8_t ocr_high, ocr_waiting, oc1b_latch;

	avr_adc_t *adc;
	int millivolts[8];
	uint16_t converting, converted;
	uint8_t converter_stalls;

	double tachometer_period, tachometer_next;
	uint64_t tachometer_at, receiver_frame, receiver_width, receiver_at;
	uint8_t tachometer_low, receiver_high;

	uint8_t hanging;
	uint16_t under_hang;

	uint8_t output;
	uint8_t second; /* level of PC5 */
	boardsim_edge edge[EDGE_ROOM];
	uint32_t edge_head, edge_tail, edges_lost;
};

/* Each part is attached once and restarted at every reset of the processor, the watchdog's included. */
void inputs_attach(boardsim *b);
void inputs_restart(boardsim *b);
void inputs_stop_polling(boardsim *b);
void line_attach(boardsim *b);
void line_restart(boardsim *b);
void servo_attach(boardsim *b);
void servo_restart(boardsim *b);
int servo_pin_level(const boardsim *b);
uint64_t servo_edge_cycle(const boardsim *b, int level);
void converter_attach(boardsim *b);
void waves_restart(boardsim *b);
void outputs_attach(boardsim *b);
void outputs_restart(boardsim *b);
void outputs_update(boardsim *b);
void outputs_record(boardsim *b, int pin, int level, uint64_t cycle);
void hang_restart(boardsim *b);
void flags_attach(boardsim *b);

/* Puts a write callback before the simulator's own at a register and returns the one that was there. */
chained put_before(boardsim *b, avr_io_addr_t address, avr_io_write_t write);
/* Calls `timer` at an absolute cycle, or at once when that has passed. */
void call_at(boardsim *b, uint64_t cycle, avr_cycle_timer_t timer);
/* The bits that the running instruction really writes: `sbi` writes one, though the simulator reads and writes eight. */
uint8_t bits_written(const avr_t *avr, uint8_t value);

#endif
