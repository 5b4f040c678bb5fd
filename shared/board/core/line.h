/* Writes one line of the protocol: word, sequence number, fields, CRC. */
#ifndef LINE_H
#define LINE_H

#include <stdbool.h>
#include <stdint.h>
#include "flash.h"

#define LINE_LONGEST 200

struct line {
    char text[LINE_LONGEST];
    uint8_t length;
    uint8_t summed; /* characters that `crc` covers */
    uint16_t crc;
    bool spoilt; /* it did not fit; such a line is never sent */
};

void line_begin(struct line *line, const char *word, uint16_t sequence);
void line_word(struct line *line, const char *word);
void line_flash_word(struct line *line, const FLASH char *word);
void line_decimal(struct line *line, uint32_t value);
void line_hex(struct line *line, uint32_t value, uint8_t digits);

/* Brings `crc` up to the last character. The CRC is worked out in stretches, which is faster than with every character. */
void line_sum(struct line *line);

/* Adds CRC and line feed; `text` and `length` are then ready to send unless `spoilt`. */
void line_end(struct line *line);

/* Empties the line without starting one: for text that is only measured. */
void line_clear(struct line *line);

#endif
