#include "fields.h"

#define MOST_DIGITS 9

void fields_start(struct fields *fields, const char *text)
{
    fields->at = text;
    fields->malformed = false;
    fields->out_of_range = false;
}

static bool ends(char c) { return c == ' ' || c == '\0'; }

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

/* Stands at the end of a field: step over the one space that separates it from the next. A space that ends the line is a mistake. */
static void step_over(struct fields *fields)
{
    if (!ends(*fields->at))
        fields->malformed = true;
    else if (*fields->at == ' ' && ends(*++fields->at))
        fields->malformed = true;
}

bool fields_word(struct fields *fields, const char *word)
{
    const char *at = fields->at;
    while (*word && *at == *word) {
        at++;
        word++;
    }
    if (*word || !ends(*at))
        return false;
    fields->at = at;
    step_over(fields);
    return true;
}

void fields_skip(struct fields *fields)
{
    fields->malformed |= ends(*fields->at);
    while (!ends(*fields->at))
        fields->at++;
    step_over(fields);
}

uint16_t fields_hex(struct fields *fields)
{
    uint16_t value = 0;
    for (uint8_t i = 0; i < 4; i++) {
        const char c = *fields->at;
        const bool letter = c >= 'A' && c <= 'F';
        if (!letter && !is_digit(c)) {
            fields->malformed = true;
            return 0;
        }
        value = (uint16_t)((value << 4) | (uint16_t)(letter ? c - 'A' + 10 : c - '0'));
        fields->at++;
    }
    step_over(fields);
    return value;
}

uint32_t fields_decimal(struct fields *fields, uint32_t least, uint32_t most)
{
    const char *first = fields->at;
    uint32_t value = 0;
    while (is_digit(*fields->at) && fields->at - first < MOST_DIGITS)
        value = value * 10u + (uint32_t)(*fields->at++ - '0');
    const bool padded = *first == '0' && fields->at - first > 1;
    fields->malformed |= fields->at == first || padded;
    fields->out_of_range |= value < least || value > most;
    step_over(fields);
    return value;
}

bool fields_flag(struct fields *fields)
{
    const bool set = fields_word(fields, "1");
    if (!set && !fields_word(fields, "0"))
        fields->malformed = true;
    return set;
}

bool fields_end(struct fields *fields)
{
    fields->malformed |= *fields->at != '\0';
    return !fields->malformed && !fields->out_of_range;
}
