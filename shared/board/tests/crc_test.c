#include "../core/crc.h"
#include "tests.h"

static uint16_t crc_of(const char *text)
{
    uint16_t crc = CRC_START;
    while (*text)
        crc = crc_add(crc, (uint8_t)*text++);
    return crc;
}

/* The definition, bit by bit, to compare the folded form with. */
static uint16_t crc_by_bits(uint16_t crc, uint8_t byte)
{
    crc = (uint16_t)(crc ^ (uint16_t)byte << 8);
    for (int i = 0; i < 8; i++)
        crc = (uint16_t)(crc & 0x8000 ? crc << 1 ^ 0x1021 : crc << 1);
    return crc;
}

/* Source: catalogue of parametrised CRC algorithms (reveng), CRC-16/IBM-3740, check 0x29B1; value read in library documentation that
   cites the catalogue, not in the catalogue itself. */
TEST(The_CRC_of_the_check_string_is_the_catalogues) { EXPECT_EQUAL(0x29B1, crc_of("123456789")); }

/* Source: protocol.md; derived with a bitwise program of its own. */
TEST(The_worked_example_of_the_protocol_comes_out) { EXPECT_EQUAL(0xD9A8, crc_of("reset 002A 5F2C ")); }

TEST(The_CRC_follows_its_polynomial_for_every_state_and_byte)
{
    for (uint32_t crc = 0; crc <= UINT16_MAX; crc++)
        for (uint32_t byte = crc % 7; byte <= UINT8_MAX; byte += 7)
            if (crc_by_bits((uint16_t)crc, (uint8_t)byte) != crc_add((uint16_t)crc, (uint8_t)byte))
                EXPECT_EQUAL(crc_by_bits((uint16_t)crc, (uint8_t)byte), crc_add((uint16_t)crc, (uint8_t)byte));
}

TEST(Every_single_and_double_flipped_bit_of_a_line_is_noticed)
{
    const char line[] = "drive 01A3 5F2C 9C1E 1480 1 0 0 ";
    const uint16_t good = crc_of(line);
    const int bits = (int)(sizeof line - 1) * 8;
    for (int first = 0; first < bits; first++)
        for (int second = first; second < bits; second++) {
            char spoilt[sizeof line];
            uint16_t crc = CRC_START;
            memcpy(spoilt, line, sizeof line);
            spoilt[first / 8] = (char)(spoilt[first / 8] ^ 1 << first % 8);
            if (second != first)
                spoilt[second / 8] = (char)(spoilt[second / 8] ^ 1 << second % 8);
            for (size_t i = 0; i < sizeof line - 1; i++)
                crc = crc_add(crc, (uint8_t)spoilt[i]);
            EXPECT(crc != good);
        }
}
