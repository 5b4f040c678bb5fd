/* CRC-16: polynomial 0x1021, initial value 0xFFFF, most significant bit first, no final inversion. */
#ifndef CRC_H
#define CRC_H

#include <stdint.h>

#define CRC_START 0xFFFFu

/* The CRC after one more byte. */
uint16_t crc_add(uint16_t crc, uint8_t byte);

#endif
