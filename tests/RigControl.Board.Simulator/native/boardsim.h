/* An ATmega328P at 16 MHz as it sits on the rig board: the real firmware binary, with the pins, the serial line and the
 * analogue inputs in the caller's hand. Time is the processor's cycle count; nothing here looks at a clock.
 * Not safe for use by two threads at once; several boards may live side by side. */
#ifndef BOARDSIM_H
#define BOARDSIM_H

#include <stdint.h>

typedef struct boardsim boardsim;

/* A change of an output pin. pin = 8 * port + bit with port B = 0, C = 1, D = 2. */
typedef struct {
	uint64_t cycle;
	uint8_t pin;
	uint8_t level;
	uint8_t unused[6];
} boardsim_edge;

enum { BOARDSIM_POWER_ON = 0, BOARDSIM_RESET_PIN = 1, BOARDSIM_BROWN_OUT = 2 };

/* Loads an ELF file and powers the board on. NULL and a sentence in `error` when that is impossible. */
boardsim *boardsim_create(const char *elf, char *error, int error_size);
void boardsim_free(boardsim *b);

/* Resets the processor at once, as BOARDSIM_POWER_ON, _RESET_PIN or _BROWN_OUT; RAM keeps its content. */
void boardsim_reset(boardsim *b, int cause);

/* Runs to the first instruction boundary at or after `cycle` (at most 4 cycles late). 0, or -1 when the processor stopped
 * for good: an invalid instruction, or sleep with interrupts off and no watchdog. */
int boardsim_run_until(boardsim *b, uint64_t cycle);
/* Makes the program outside the interrupt routines spin for good, with interrupts on or off, until a reset. */
void boardsim_hang(boardsim *b, int interrupts_on);
uint64_t boardsim_cycle(const boardsim *b);
uint32_t boardsim_watchdog_resets(const boardsim *b);

/* Serial line, 500000 baud 8N1. Written bytes reach the board one every 20 us; returns how many were taken (room for 4096).
 * Bytes of the board can be read once their stop bit is over. */
int boardsim_line_write(boardsim *b, const uint8_t *bytes, int count);
int boardsim_line_read(boardsim *b, uint8_t *bytes, int room);
/* Bytes lost because the firmware did not fetch them in time, or listened at another speed. */
uint32_t boardsim_line_lost(const boardsim *b);

/* Level at an input pin from now on. */
void boardsim_input(boardsim *b, int pin, int level);
/* Voltage at an analogue input (0-7) in mV; taken at the start of each conversion. */
void boardsim_millivolts(boardsim *b, int channel, int millivolts);
/* Whether the conversion that is under way never ends. */
void boardsim_converter_stalls(boardsim *b, int stalls);
/* Falling edges at PB0 every `period` cycles, or none for 0. A change keeps the share of the period already gone. */
void boardsim_tachometer(boardsim *b, double period);
/* Pulses at PC4 of `width` cycles every `frame` cycles, or none for width 0. */
void boardsim_receiver(boardsim *b, uint64_t frame, uint64_t width);

/* Level at an output pin (only PB2-PB5 and PC5 are watched). */
int boardsim_output(const boardsim *b, int pin);
/* Fetches and forgets the oldest edges: all changes of PB2-PB5 and PC5, and the falling edges that we make at PB0 and PC4. Up to 65536 are kept; more are lost and counted. */
int boardsim_edges(boardsim *b, boardsim_edge *edges, int room);
uint32_t boardsim_edges_lost(const boardsim *b);

/* A pseudo-terminal in raw mode that survives its clients. Descriptor of the near side, or -1 and errno; the far side's path
 * goes into `path`. Read and write return 0 when nothing moves, so that nobody waits. */
int boardsim_terminal_open(char *path, int path_size);
int boardsim_terminal_read(int terminal, uint8_t *bytes, int room);
int boardsim_terminal_write(int terminal, const uint8_t *bytes, int count);
void boardsim_terminal_close(int terminal);

#endif
