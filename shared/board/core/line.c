#include "line.h"
#include "crc.h"

#define DECIMAL_DIGITS 10
#define DECIMAL_DIGITS_16 5 /* of a 16-bit value */

static void put(struct line *line, char c)
{
    if (line->length >= LINE_LONGEST) {
        line->spoilt = true;
        return;
    }
    line->text[line->length++] = c;
}

static void separate(struct line *line)
{
    if (line->length > 0)
        put(line, ' ');
}

void line_clear(struct line *line)
{
    line->length = 0;
    line->summed = 0;
    line->crc = CRC_START;
    line->spoilt = false;
}

void line_begin(struct line *line, const char *word, uint16_t sequence)
{
    line_clear(line);
    line_word(line, word);
    line_hex(line, sequence, 4);
}

void line_word(struct line *line, const char *word)
{
    separate(line);
    while (*word)
        put(line, *word++);
}

void line_flash_word(struct line *line, const FLASH char *word)
{
    separate(line);
    while (*word)
        put(line, *word++);
}

/* Subtracts powers of ten, since a 32-bit division costs the AVR some 600 cycles a digit. */
void line_decimal(struct line *line, uint32_t value)
{
    static const FLASH uint32_t power[DECIMAL_DIGITS - 1] = {
        1000000000u, 100000000u, 10000000u, 1000000u, 100000u, 10000u, 1000u, 100u, 10u};
    bool started = false;
    separate(line);
    for (uint8_t i = value > UINT16_MAX ? 0 : DECIMAL_DIGITS - DECIMAL_DIGITS_16; i < DECIMAL_DIGITS - 1; i++) {
        char digit = '0';
        const uint32_t p = power[i];
        while (value >= p) {
            value -= p;
            digit++;
        }
        started |= digit != '0';
        if (started)
            put(line, digit);
    }
    put(line, (char)('0' + value));
}

static void put_hex(struct line *line, uint32_t value, uint8_t digits)
{
    while (digits--) {
        const uint8_t nibble = (uint8_t)(value >> (4 * digits)) & 0xFu;
        put(line, (char)(nibble < 10 ? '0' + nibble : 'A' + nibble - 10));
    }
}

void line_hex(struct line *line, uint32_t value, uint8_t digits)
{
    separate(line);
    put_hex(line, value, digits);
}

void line_sum(struct line *line)
{
    const char *at = line->text + line->summed;
    const char *end = line->text + line->length;
    uint16_t crc = line->crc;
    while (at != end)
        crc = crc_add(crc, (uint8_t)*at++);
    line->crc = crc;
    line->summed = line->length;
}

void line_end(struct line *line)
{
    separate(line);
    line_sum(line);
    put(line, '#');
    put_hex(line, line->crc, 4);
    put(line, '\n');
}
