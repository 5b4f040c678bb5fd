/* A small program that exercises what the rig board needs of the simulator. Answers commands of one byte on the line. */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/wdt.h>

#define F_TOP 40000u /* 20 ms in half microseconds */

static volatile uint8_t command, argument[2], have;
static volatile uint16_t reading[4], captured, last;
static volatile uint8_t overflows, captures;
static volatile uint16_t fell; /* count at which the pulse pin was last seen to change, away from its rise */
static volatile uint32_t period;

ISR(USART_RX_vect)
{
	uint8_t byte = UDR0;

	if (have == 0)
		command = byte;
	else
		argument[have - 1] = byte;
	have++;
}

/* The conversion that has just started was set up one interrupt ago; the result is of the one before. */
ISR(ADC_vect)
{
	static uint8_t running = 0, next = 0;
	uint16_t result = ADC;
	uint8_t measured = running;

	running = next;
	next = (next + 1) & 3;
	ADMUX = 0x40 | next;
	reading[measured] = result;
}

ISR(PCINT0_vect)
{
	uint16_t count = TCNT1;

	if (count > 200)
		fell = count;
}

ISR(TIMER1_OVF_vect) { overflows++; }

ISR(TIMER1_CAPT_vect)
{
	uint16_t now = ICR1;
	uint8_t wraps = overflows;

	if ((TIFR1 & _BV(TOV1)) && now < F_TOP / 2)
		wraps++;
	period = (uint32_t)now + (uint32_t)F_TOP * (uint8_t)wraps - last;
	last = now;
	overflows -= wraps;
	captures++;
}

static void send(uint8_t byte)
{
	while (!(UCSR0A & _BV(UDRE0)))
		;
	UDR0 = byte;
}

static void send_word(uint16_t value)
{
	send(value);
	send(value >> 8);
}

static void obey(void)
{
	switch (command) {
	case 'w': OCR1B = argument[0] | argument[1] << 8; break;
	case 'a':
		for (uint8_t n = 0; n < 4; n++)
			send_word(reading[n]);
		break;
	case 'p':
		cli();
		send_word(period);
		send_word(period >> 16);
		sei();
		break;
	case 'i': send(PIND); send(PINC); break;
	case 't': PINB |= _BV(4); break;
	case 'x': /* a mark waits for its interrupt; is it still there when another flag is cleared? */
		cli();
		TIFR1 = _BV(ICF1);
		while (!(TIFR1 & _BV(ICF1)))
			;
		TIFR1 = _BV(OCF1A);
		send((TIFR1 & _BV(ICF1)) != 0);
		sei();
		break;
	case 'm': send(GPIOR0); break;
	case 'f': send_word(fell); break;
	}
	have = 0;
}

int main(void)
{
	GPIOR0 = MCUSR;
	MCUSR = 0;
	wdt_enable(WDTO_60MS);
	DDRB = _BV(2) | _BV(3) | _BV(4) | _BV(5);
	PORTB = _BV(5);
	PORTD = 0xfc;
	UBRR0 = 1;
	UCSR0B = _BV(RXEN0) | _BV(TXEN0) | _BV(RXCIE0);
	OCR1A = F_TOP - 1;
	OCR1B = 1999;
	PCMSK0 = _BV(PCINT2);
	PCICR = _BV(PCIE0);
	TIMSK1 = _BV(TOIE1) | _BV(ICIE1);
	TCCR1A = _BV(COM1B1) | _BV(WGM11) | _BV(WGM10);
	TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
	ADMUX = 0x40;
	ADCSRA = _BV(ADEN) | _BV(ADSC) | _BV(ADATE) | _BV(ADIE) | 7;
	sei();
	for (uint8_t turn = 0;; turn++) {
		wdt_reset();
		if (turn == 0)
			PINB = _BV(3);
		if (have == 3)
			obey();
	}
}
