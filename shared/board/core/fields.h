/* Reads the fields of a line from left to right. The first mistake sticks: read everything, then ask once. */
#ifndef FIELDS_H
#define FIELDS_H

#include <stdbool.h>
#include <stdint.h>

struct fields {
    const char *at;
    bool malformed;    /* a field is missing, too long or not of its form */
    bool out_of_range; /* a number is of the right form and not permitted */
};

void fields_start(struct fields *fields, const char *text);

/* Takes the next field when it is exactly `word`; otherwise leaves it and returns false. */
bool fields_word(struct fields *fields, const char *word);

/* Skips a field, whatever it is. */
void fields_skip(struct fields *fields);

/* Four upper-case hexadecimal digits. */
uint16_t fields_hex(struct fields *fields);

/* A decimal without sign and leading zeros, from `least` to `most`; at most nine digits. */
uint32_t fields_decimal(struct fields *fields, uint32_t least, uint32_t most);

/* `0` or `1`. */
bool fields_flag(struct fields *fields);

/* Nothing may follow; true when everything before was right too. */
bool fields_end(struct fields *fields);

#endif
