#include "serial.h"
#include <avr/interrupt.h>
#include <avr/io.h>

#define BAUD_DIVISOR 1     /* 16 MHz / 16 / (1 + 1) = 500000, without error */
#define SPOILT_BYTE 0x00u  /* stands for a byte with a framing error: it spoils its line */
#define RECEIVE_SIZE 128u  /* a power of two */

static volatile uint8_t received[RECEIVE_SIZE];
static volatile uint8_t receive_in, receive_out;
static volatile uint8_t to_send[256]; /* indices wrap by themselves */
static volatile uint8_t send_in, send_out;
static volatile uint8_t overruns;

void serial_start(void)
{
    UBRR0 = BAUD_DIVISOR;
    UCSR0B = (1 << RXCIE0) | (1 << RXEN0) | (1 << TXEN0);
}

ISR(USART_RX_vect)
{
    const uint8_t status = UCSR0A;
    const uint8_t byte = UDR0;
    const uint8_t next = (uint8_t)(receive_in + 1u) % RECEIVE_SIZE;
    if (status & (1 << DOR0))
        overruns++;
    if (next == receive_out) {
        overruns++;
        return;
    }
    received[receive_in] = status & (1 << FE0) ? SPOILT_BYTE : byte;
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

bool serial_waiting(void) { return receive_out != receive_in; }

bool serial_take(uint8_t *byte)
{
    const uint8_t at = receive_out;
    if (at == receive_in)
        return false;
    *byte = received[at];
    receive_out = (uint8_t)(at + 1u) % RECEIVE_SIZE;
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
