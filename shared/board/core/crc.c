#include "crc.h"

/* Eight shift steps of the polynomial folded into four exclusive-ors: no table, about 25 instructions on the AVR. */
uint16_t crc_add(uint16_t crc, uint8_t byte)
{
    crc = (uint16_t)((crc >> 8) | (crc << 8));
    crc ^= byte;
    crc ^= (uint8_t)crc >> 4;
    crc ^= (uint16_t)(crc << 12);
    crc ^= (uint16_t)((uint16_t)(crc & 0xFFu) << 5);
    return crc;
}
