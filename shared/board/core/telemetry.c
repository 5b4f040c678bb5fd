#include "telemetry.h"
#include <string.h>

enum field {
    FIELD_TIME = TELEMETRY_IDLE + 1,
    FIELD_IDENTITY,
    FIELD_STATE,
    FIELD_PULSE,
    FIELD_TACHO,
    FIELD_SHORTEST,
    FIELD_AGE,
    FIELD_ANALOG,
    FIELD_RECEIVER = FIELD_ANALOG + CHANNEL_COUNT,
    FIELD_COUNTERS,
    FIELD_END
};

static const FLASH char mode_words[MODE_COUNT][5] = {
    [MODE_BARE] = "bare", [MODE_TRIP] = "trip", [MODE_IDLE] = "idle", [MODE_LIVE] = "live", [MODE_SPIN] = "spin"};

static uint16_t bits(const struct board *board)
{
    const bool set[] = {
        board->lid.a.closed, board->lid.b.closed,  board->in.bolt_home,          board->stop.closed,
        board->key.contact.closed, board->in.contactor_closed, board_receives(board), board->key.fresh,
        board->out.power,    board->out.release,   board->out.marker,            board->out.pulse != 0,
        board->out.gate};
    uint16_t result = 0;
    for (uint8_t i = 0; i < sizeof set; i++)
        result = (uint16_t)(result | (uint16_t)set[i] << i);
    return result;
}

static void take_signals(struct telemetry *telemetry, struct board *board)
{
    const struct inputs *in = &board->in;
    telemetry->demanded = board->out.pulse;
    telemetry->second = board->out.second;
    telemetry->measured = in->servo.known ? in->servo.width : 0;
    telemetry->receiver = board_receives(board) ? in->receiver.width : 0;
    telemetry->tacho_count = in->tacho.count;
    telemetry->period = in->tacho.period;
    telemetry->least_period = board->least_period;
    telemetry->age = tacho_age(&in->tacho, in->now);
    board->least_period = 0;
}

void telemetry_take(struct telemetry *telemetry, struct board *board, const struct extent extent[CHANNEL_COUNT],
                    const struct errors *errors, uint16_t nonce, struct line *line)
{
    telemetry->now = board->in.now;
    telemetry->nonce = nonce;
    telemetry->digest = board->digest;
    telemetry->mode = board_mode(board);
    telemetry->latched = board->latched;
    telemetry->bits = bits(board);
    telemetry->closings = board->key.closings;
    telemetry->host = board->host.accepted;
    telemetry->errors = *errors;
    memcpy(telemetry->extent, extent, sizeof telemetry->extent);
    take_signals(telemetry, board);
    telemetry->field = FIELD_TIME;
    line_begin(line, "now", host_next_line(&board->host, telemetry->now));
}

static void write_time(struct line *line, ticks_t ticks) { line_decimal(line, ticks / 2u); }

static void write_state(const struct telemetry *telemetry, struct line *line)
{
    line_flash_word(line, mode_words[telemetry->mode]);
    line_hex(line, telemetry->latched, 4);
    line_hex(line, telemetry->bits, 4);
    line_hex(line, telemetry->closings, 2);
}

static void write_analog(const struct extent *extent, struct line *line)
{
    line_decimal(line, extent->lowest);
    line_decimal(line, extent_mean(extent));
    line_decimal(line, extent->highest);
}

static uint8_t wires(const struct telemetry *telemetry)
{
    const struct extent *one = &telemetry->extent[CHANNEL_THERMISTOR_1];
    const struct extent *two = &telemetry->extent[CHANNEL_THERMISTOR_2];
    return (uint8_t)((one->highest >= THERMISTOR_OPEN) | (one->lowest <= THERMISTOR_SHORT) << 1 |
                     (two->highest >= THERMISTOR_OPEN) << 2 | (two->lowest <= THERMISTOR_SHORT) << 3);
}

static void write_counters(const struct telemetry *telemetry, struct line *line)
{
    const struct errors *e = &telemetry->errors;
    line_hex(line, telemetry->host, 4);
    line_hex(line, (uint32_t)e->bad_lines << 24 | (uint32_t)e->refused << 16 | (uint32_t)e->overruns << 8 | e->dropped, 8);
    line_decimal(line, telemetry->second);
}

static void write_field(const struct telemetry *telemetry, struct line *line)
{
    switch (telemetry->field) {
    case FIELD_TIME:
        write_time(line, telemetry->now);
        break;
    case FIELD_IDENTITY:
        line_hex(line, telemetry->nonce, 4);
        line_hex(line, telemetry->digest, 4);
        break;
    case FIELD_STATE:
        write_state(telemetry, line);
        break;
    case FIELD_PULSE:
        line_decimal(line, telemetry->demanded);
        write_time(line, telemetry->measured);
        break;
    case FIELD_TACHO:
        line_decimal(line, telemetry->tacho_count);
        write_time(line, telemetry->period);
        break;
    case FIELD_SHORTEST:
        write_time(line, telemetry->least_period);
        break;
    case FIELD_AGE:
        write_time(line, telemetry->age);
        break;
    case FIELD_RECEIVER:
        line_hex(line, wires(telemetry), 1);
        write_time(line, telemetry->receiver);
        break;
    case FIELD_COUNTERS:
        write_counters(telemetry, line);
        break;
    case FIELD_END:
        line_end(line);
        break;
    default:
        write_analog(&telemetry->extent[telemetry->field - FIELD_ANALOG], line);
    }
}

bool telemetry_write(struct telemetry *telemetry, struct line *line)
{
    if (telemetry->field == TELEMETRY_IDLE)
        return false;
    write_field(telemetry, line);
    if (telemetry->field != FIELD_END)
        line_sum(line);
    if (telemetry->field++ != FIELD_END)
        return false;
    telemetry->field = TELEMETRY_IDLE;
    return true;
}
