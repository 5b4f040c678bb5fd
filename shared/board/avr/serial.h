/* The serial line to the host, 500000 baud, through two rings. */
#ifndef SERIAL_H
#define SERIAL_H

#include <stdbool.h>
#include <stdint.h>

void serial_start(void);

/* True and a byte, or false when none has come. */
bool serial_take(uint8_t *byte);

/* A line feed has been received and not taken yet: worth listening now rather than after the next pass. */
bool serial_line_waiting(void);

/* Bytes that fit into what is still to be sent. */
uint8_t serial_room(void);

/* Queues a whole line; false when it does not fit, then nothing of it is sent. */
bool serial_send(const char *text, uint8_t length);

/* Bytes lost for want of room or time, wraps. */
uint8_t serial_overruns(void);

#endif
