/* The analogue converter. A conversion measures the channel that was selected when it started, as on the chip; the simulator
 * looks the channel up when the result is read, which in free running mode would hand out the neighbour's value. */
#include "board.h"

enum { FULL_SCALE = 1024, SUPPLY = 5000, BAND_GAP = 1100, BAND_GAP_CHANNEL = 14 };

static uint16_t sample(const boardsim *b)
{
	uint8_t mux = b->avr->data[b->adc->r_admux], channel = mux & 15;
	int reference = mux >> 6 == 3 ? BAND_GAP : SUPPLY;
	int voltage = channel < 8 ? b->millivolts[channel] : channel == BAND_GAP_CHANNEL ? BAND_GAP : 0;
	int counts = voltage * FULL_SCALE / reference;

	return counts < 0 ? 0 : counts >= FULL_SCALE ? FULL_SCALE - 1 : counts;
}

static void started(avr_irq_t *irq, uint32_t value, void *param)
{
	boardsim *b = param;

	(void)irq, (void)value;
	b->converted = b->converting;
	b->converting = sample(b);
}

static uint8_t read_result(avr_t *avr, avr_io_addr_t address, void *param)
{
	boardsim *b = param;

	if (b->adc->read_status == 0) {
		uint16_t counts = avr_regbit_get(avr, b->adc->adsc) ? b->converted : b->converting;

		counts <<= avr_regbit_get(avr, b->adc->adlar) ? 6 : 0;
		avr->data[b->adc->r_adcl] = counts;
		avr->data[b->adc->r_adch] = counts >> 8;
		b->adc->read_status = 1;
	}
	return avr->data[address];
}

/* While a conversion runs, the bit that started it reads as set. */
static uint8_t read_control(avr_t *avr, avr_io_addr_t address, void *param)
{
	const boardsim *b = param;

	return avr->data[address] | (b->converter_stalls ? b->adc->adsc.mask << b->adc->adsc.bit : 0);
}

/* What is read stays in the register, and ends with the stall. */
void boardsim_converter_stalls(boardsim *b, int stalls)
{
	if (b->converter_stalls && !stalls)
		avr_regbit_clear(b->avr, b->adc->adsc);
	b->converter_stalls = stalls != 0;
}

void boardsim_millivolts(boardsim *b, int channel, int millivolts)
{
	if (channel >= 0 && channel < 8)
		b->millivolts[channel] = millivolts;
}

void converter_attach(boardsim *b)
{
	avr_io_addr_t result[] = { b->adc->r_adcl, b->adc->r_adch };

	for (int half = 0; half < 2; half++) {
		b->avr->io[AVR_DATA_TO_IO(result[half])].r.c = read_result;
		b->avr->io[AVR_DATA_TO_IO(result[half])].r.param = b;
	}
	b->avr->io[AVR_DATA_TO_IO(b->adc->adsc.reg)].r.c = read_control;
	b->avr->io[AVR_DATA_TO_IO(b->adc->adsc.reg)].r.param = b;
	avr_irq_register_notify(b->adc->io.irq + ADC_IRQ_OUT_TRIGGER, started, b);
}
