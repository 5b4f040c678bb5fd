#include "config.h"
#include <string.h>

#define STRICTEST_FOLLOW 20u
#define STRICTEST_DISAGREE 10u
#define SHORTEST_CLOSING 6u
#define LONGEST_CLOSING 200u
#define HIGHEST_COUNT 1023u
#define MID_SCALE 512u

void config_clear(struct config *config)
{
    memset(config, 0, sizeof *config);
    config->follow_ms = STRICTEST_FOLLOW;
    config->disagree_ms = STRICTEST_DISAGREE;
    config->closing_ms = LONGEST_CLOSING;
}

static uint16_t take(struct fields *fields, uint16_t least, uint16_t most) { return (uint16_t)fields_decimal(fields, least, most); }

static void read_output(struct config *config, struct fields *fields)
{
    config->stop_pulse = take(fields, PULSE_LEAST, PULSE_MOST);
    config->least_pulse = take(fields, PULSE_LEAST, PULSE_MOST);
    config->greatest_pulse = take(fields, config->least_pulse, PULSE_MOST);
    config->arming_pulse = take(fields, PULSE_LEAST, PULSE_MOST);
    config->rate = take(fields, 50, 400);
}

static void read_limits(struct config *config, struct fields *fields)
{
    config->pulses_per_rev = (uint8_t)take(fields, 1, 16);
    config->least_revolution = fields_decimal(fields, 500, 4000000);
    config->lowest_current = take(fields, 0, MID_SCALE - 1);
    config->highest_current = take(fields, MID_SCALE, HIGHEST_COUNT);
    config->current_run = (uint8_t)take(fields, 1, 200);
    config->tacho_lost_ms = fields_word(fields, "none") ? 0 : take(fields, 20, 10000);
    config->tacho_from = take(fields, 1, 1000);
}

static void read_contacts(struct config *config, struct fields *fields)
{
    config->follow_ms = take(fields, STRICTEST_FOLLOW, 500);
    config->disagree_ms = take(fields, STRICTEST_DISAGREE, 500);
    config->closing_ms = take(fields, SHORTEST_CLOSING, LONGEST_CLOSING);
}

static void read_second(struct range *second, struct fields *fields)
{
    *second = (struct range){0};
    if (fields_word(fields, "none"))
        return;
    second->stop = take(fields, PULSE_LEAST, PULSE_MOST);
    second->least = take(fields, PULSE_LEAST, PULSE_MOST);
    second->greatest = take(fields, second->least, PULSE_MOST);
    if (second->stop < second->least || second->stop > second->greatest)
        fields->out_of_range = true;
}

bool config_read(struct config *config, struct fields *fields)
{
    read_output(config, fields);
    read_limits(config, fields);
    read_contacts(config, fields);
    config->cease = fields_word(fields, "cease");
    if (!config->cease && !fields_word(fields, "stop"))
        fields->malformed = true;
    read_second(&config->second, fields);
    return fields_end(fields);
}

static void write_second(const struct range *second, struct line *line)
{
    if (!second->greatest) {
        line_word(line, "none");
        return;
    }
    line_decimal(line, second->stop);
    line_decimal(line, second->least);
    line_decimal(line, second->greatest);
}

void config_write(const struct config *config, struct line *line)
{
    line_decimal(line, config->stop_pulse);
    line_decimal(line, config->least_pulse);
    line_decimal(line, config->greatest_pulse);
    line_decimal(line, config->arming_pulse);
    line_decimal(line, config->rate);
    line_decimal(line, config->pulses_per_rev);
    line_decimal(line, config->least_revolution);
    line_decimal(line, config->lowest_current);
    line_decimal(line, config->highest_current);
    line_decimal(line, config->current_run);
    if (config->tacho_lost_ms)
        line_decimal(line, config->tacho_lost_ms);
    else
        line_word(line, "none");
    line_decimal(line, config->tacho_from);
    line_decimal(line, config->follow_ms);
    line_decimal(line, config->disagree_ms);
    line_decimal(line, config->closing_ms);
    line_word(line, config->cease ? "cease" : "stop");
    write_second(&config->second, line);
}

uint16_t config_digest(const struct config *config, struct line *scratch)
{
    line_clear(scratch);
    config_write(config, scratch);
    line_sum(scratch);
    return scratch->crc == DIGEST_NONE ? 0xFFFFu : scratch->crc;
}

struct spans config_spans(const struct config *config)
{
    return (struct spans){
        .least_revolution = TICKS_US(config->least_revolution),
        .tacho_lost = TICKS_MS(config->tacho_lost_ms),
        .follow = TICKS_MS(config->follow_ms),
        .disagree = TICKS_MS(config->disagree_ms),
        .closing = TICKS_MS(config->closing_ms),
    };
}

bool config_permits(const struct config *config, uint16_t pulse)
{
    return config_is_quiet(config, pulse) || (pulse >= config->least_pulse && pulse <= config->greatest_pulse);
}

bool config_is_quiet(const struct config *config, uint16_t pulse)
{
    return pulse == config->stop_pulse || pulse == config->arming_pulse;
}

bool config_permits_second(const struct config *config, uint16_t pulse)
{
    return config->second.greatest ? pulse >= config->second.least && pulse <= config->second.greatest : pulse == 0;
}

uint16_t config_within_range(const struct config *config, uint16_t pulse)
{
    if (pulse < config->least_pulse)
        return config->least_pulse;
    return pulse > config->greatest_pulse ? config->greatest_pulse : pulse;
}
