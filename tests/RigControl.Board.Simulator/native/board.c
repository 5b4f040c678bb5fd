#include "board.h"

#include <simavr/sim_elf.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { FREQUENCY = 16000000, SUPPLY_MILLIVOLTS = 5000, BURST_CYCLES = 1000 };

static void say_nothing(avr_t *avr, const int level, const char *format, va_list arguments)
{
	(void)avr, (void)level, (void)format, (void)arguments;
}

/* Lock-step time must not wait for the wall clock. */
static void sleep_at_once(avr_t *avr, avr_cycle_count_t cycles)
{
	(void)avr, (void)cycles;
}

static avr_cycle_count_t horizon(avr_t *avr, avr_cycle_count_t when, void *param)
{
	(void)avr, (void)when, (void)param;
	return 0;
}

/* A reset wipes every cycle timer, ours too; while the watchdog's reset is under way, `run` is its own. */
static void restart(avr_io_t *io)
{
	boardsim *b = (boardsim *)io;

	b->watchdog_resets += b->avr->run != avr_callback_run_raw;
	b->avr->run_cycle_limit = BURST_CYCLES;
	hang_restart(b);
	inputs_restart(b);
	line_restart(b);
	servo_restart(b);
	waves_restart(b);
	outputs_restart(b);
}

static void *find_module(const avr_t *avr, const char *kind, char name)
{
	for (avr_io_t *io = avr->io_port; io; io = io->next)
		if (strcmp(io->kind, kind) == 0 && (strcmp(kind, "timer") != 0 || ((avr_timer_t *)io)->name == name))
			return io;
	return NULL;
}

static void find_ports(boardsim *b)
{
	for (avr_io_t *io = b->avr->io_port; io; io = io->next)
		if (strcmp(io->kind, "port") == 0)
			b->port[((avr_ioport_t *)io)->name - 'B'] = (avr_ioport_t *)io;
}

static avr_t *make_processor(elf_firmware_t *firmware)
{
	avr_t *avr = avr_make_mcu_by_name("atmega328p");

	avr_init(avr);
	avr_load_firmware(avr, firmware);
	avr->frequency = FREQUENCY;
	avr->vcc = avr->avcc = avr->aref = SUPPLY_MILLIVOLTS;
	avr->sleep = sleep_at_once;
	return avr;
}

static void attach(boardsim *b)
{
	find_ports(b);
	b->uart = find_module(b->avr, "uart", '0');
	b->timer1 = find_module(b->avr, "timer", '1');
	b->adc = find_module(b->avr, "adc", 0);
	inputs_attach(b);
	line_attach(b);
	servo_attach(b);
	converter_attach(b);
	outputs_attach(b);
	flags_attach(b);
	b->io.kind = "board";
	b->io.reset = restart;
	avr_register_io(b->avr, &b->io);
}

boardsim *boardsim_create(const char *elf, char *error, int error_size)
{
	elf_firmware_t firmware = { 0 };

	avr_global_logger_set(say_nothing);
	if (access(elf, R_OK) != 0 || elf_read_firmware(elf, &firmware) != 0 || firmware.flashsize == 0) {
		snprintf(error, error_size, "%s is not a readable AVR program (ELF); build it with make -C shared/board firmware", elf);
		return NULL;
	}
	boardsim *b = calloc(1, sizeof *b);

	b->avr = make_processor(&firmware);
	free(firmware.flash);
	attach(b);
	boardsim_reset(b, BOARDSIM_POWER_ON);
	return b;
}

void boardsim_free(boardsim *b)
{
	if (!b)
		return;
	b->avr->io_port = b->io.next; /* we are not the simulator's to free */
	avr_terminate(b->avr);
	free(b->avr);
	free(b);
}

void boardsim_reset(boardsim *b, int cause)
{
	avr_t *avr = b->avr;

	avr_reset(avr);
	inputs_stop_polling(b);
	avr_regbit_set(avr, cause == BOARDSIM_POWER_ON    ? avr->reset_flags.porf
	                    : cause == BOARDSIM_RESET_PIN ? avr->reset_flags.extrf
	                                                  : avr->reset_flags.borf);
}

int boardsim_run_until(boardsim *b, uint64_t cycle)
{
	avr_t *avr = b->avr;

	while (avr->cycle < cycle) {
		if (avr->state == cpu_Done || avr->state == cpu_Crashed || avr->state == cpu_Stopped)
			return -1;
		if (avr_cycle_timer_status(avr, horizon, b) == 0) /* a reset wipes the horizon too */
			avr_cycle_timer_register(avr, cycle - avr->cycle, horizon, b);
		avr_run(avr);
	}
	return 0;
}

uint64_t boardsim_cycle(const boardsim *b) { return b->avr->cycle; }

uint32_t boardsim_watchdog_resets(const boardsim *b) { return b->watchdog_resets; }

chained put_before(boardsim *b, avr_io_addr_t address, avr_io_write_t write)
{
	chained old = { b->avr->io[AVR_DATA_TO_IO(address)].w.c, b->avr->io[AVR_DATA_TO_IO(address)].w.param };

	b->avr->io[AVR_DATA_TO_IO(address)].w.c = write;
	b->avr->io[AVR_DATA_TO_IO(address)].w.param = b;
	return old;
}

void call_at(boardsim *b, uint64_t cycle, avr_cycle_timer_t timer)
{
	avr_cycle_timer_register(b->avr, cycle > b->avr->cycle ? cycle - b->avr->cycle : 0, timer, b);
}

uint8_t bits_written(const avr_t *avr, uint8_t value)
{
	uint16_t opcode = avr->flash[avr->pc] | avr->flash[avr->pc + 1] << 8;

	return (opcode & 0xff00) == 0x9a00 ? 1 << (opcode & 7) : value;
}
