#include "serial.h"
#include <avr/interrupt.h>
#include <avr/io.h>

#define BAUD_DIVISOR 1     /* 16 MHz / 16 / (1 + 1) = 500000, without error */
#define SPOILT_BYTE 0x00u  /* stands for a byte with a framing error: it spoils its line */

#define RING 256 /* indices of one byte wrap by themselves */

static volatile uint8_t received[RING];
static volatile uint8_t receive_in, receive_out;
static volatile uint8_t to_send[RING];
static volatile uint8_t send_in, send_out;
static volatile uint8_t overruns;
static volatile uint8_t feeds_in, feeds_out; /* line feeds received and taken */

void serial_start(void)
{
    UBRR0 = BAUD_DIVISOR;
    UCSR0B = (1 << RXCIE0) | (1 << RXEN0) | (1 << TXEN0);
}

ISR(USART_RX_vect)
{
    const uint8_t status = UCSR0A;
    const uint8_t byte = UDR0;
    const uint8_t next = (uint8_t)(receive_in + 1u);
    if (status & (1 << DOR0))
        overruns++;
    if (next == receive_out) {
        overruns++;
        return;
    }
    received[receive_in] = status & (1 << FE0) ? SPOILT_BYTE : byte;
    feeds_in += byte == '\n';
    receive_in = next;
}

ISR(USART_UDRE_vect)
{
    if (send_out == send_in) {
        UCSR0B &= (uint8_t)~(1 << UDRIE0);
        return;
    }
    UDR0 = to_send[send_out++];
}

bool serial_line_waiting(void) { return feeds_in != feeds_out; }

bool serial_take(uint8_t *byte)
{
    const uint8_t at = receive_out;
    if (at == receive_in)
        return false;
    *byte = received[at];
    feeds_out += *byte == '\n';
    receive_out = (uint8_t)(at + 1u);
    return true;
}

uint8_t serial_room(void) { return (uint8_t)(send_out - send_in - 1u); }

bool serial_send(const char *text, uint8_t length)
{
    uint8_t at = send_in;
    if (length > serial_room())
        return false;
    for (uint8_t i = 0; i < length; i++)
        to_send[at++] = (uint8_t)text[i];
    send_in = at;
    UCSR0B |= 1 << UDRIE0;
    return true;
}

uint8_t serial_overruns(void) { return overruns; }
