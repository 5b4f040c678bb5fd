/* CRC-16: polynomial 0x1021, initial value 0xFFFF, most significant bit first, no final inversion. */
#ifndef CRC_H
#define CRC_H

#include <stdint.h>

#define CRC_START 0xFFFFu

/* The CRC after one more byte. Eight shift steps of the polynomial x^16 + x^12 + x^5 + 1 at once, written in bytes and in line
   because the AVR has no wide shifts and does this for every byte of the line in both directions. */
static inline uint16_t crc_add(uint16_t crc, uint8_t byte)
{
    uint8_t x = (uint8_t)(crc >> 8) ^ byte;
    x ^= x >> 4;
    const uint8_t high = (uint8_t)((uint8_t)crc ^ (uint8_t)(x << 4) ^ (uint8_t)(x >> 3));
    const uint8_t low = (uint8_t)(x ^ (uint8_t)(x << 5));
    return (uint16_t)((uint16_t)high << 8 | low);
}

#endif
