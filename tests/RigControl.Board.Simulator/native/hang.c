/* A hang of the very binary that a real board runs: an instruction that jumps to itself, in a word of flash that no program
 * uses, and the program counter set to it. The word is put back at the next reset, before the firmware sums its flash. */
#include "board.h"

#include <string.h>

enum { JUMP_TO_SELF = 0xcfff, PATIENCE = 16000 };

static int in_main_program(const avr_t *avr) { return avr->interrupts.running_ptr == 0 && avr->sreg[S_I]; }

void boardsim_hang(boardsim *b, int interrupts_on)
{
	avr_t *avr = b->avr;
	uint16_t jump = JUMP_TO_SELF;

	for (int n = 0; n < PATIENCE && !in_main_program(avr); n++)
		boardsim_run_until(b, avr->cycle + 1);
	if (!b->hanging)
		memcpy(&b->under_hang, avr->flash + avr->flashend - 1, sizeof jump);
	memcpy(avr->flash + avr->flashend - 1, &jump, sizeof jump);
	b->hanging = 1;
	avr->pc = avr->flashend - 1;
	avr->state = cpu_Running;
	avr->sreg[S_I] = interrupts_on != 0;
}

void hang_restart(boardsim *b)
{
	if (b->hanging)
		memcpy(b->avr->flash + b->avr->flashend - 1, &b->under_hang, sizeof b->under_hang);
	b->hanging = 0;
}
