#include "orders.h"

static const FLASH char order_words[ORDER_COUNT][6] = {
    [ORDER_UNKNOWN] = "?", [ORDER_HELLO] = "hello", [ORDER_LOAD] = "load", [ORDER_DRIVE] = "drive", [ORDER_RESET] = "reset"};

static const FLASH char reason_words[REASON_COUNT][9] = {
    [REASON_NONE] = "none",       [REASON_VERSION] = "version",   [REASON_FORM] = "form",     [REASON_WORD] = "word",
    [REASON_RANGE] = "range",     [REASON_BUSY] = "busy",         [REASON_REPEAT] = "repeat", [REASON_STALE] = "stale",
    [REASON_DIGEST] = "digest",   [REASON_BARE] = "bare",         [REASON_LATCHED] = "latched", [REASON_ORDER] = "order",
    [REASON_UNLOCK] = "unlock",   [REASON_STANDING] = "standing", [REASON_DEMAND] = "demand",
    [REASON_RECEIVER] = "receiver"};

const FLASH char *order_word(enum order order) { return order_words[order]; }

const FLASH char *reason_word(enum reason reason) { return reason_words[reason]; }

static enum reason take_hello(struct fields *fields)
{
    const uint32_t version = fields_decimal(fields, 0, 999999999);
    if (!fields_end(fields))
        return REASON_FORM;
    return version == PROTOCOL_VERSION ? REASON_NONE : REASON_VERSION;
}

/* Limits must not move under a running rotor. */
static bool is_busy(const struct board *board)
{
    const bool driven = board->out.pulse && board->out.pulse != board->config.stop_pulse;
    return board->out.power || board->demand.power || driven || (board->out.second && board->out.second != board->config.second.stop);
}

static enum reason take_load(struct board *board, struct fields *fields, ticks_t now, struct line *scratch)
{
    struct config config;
    if (fields_decimal(fields, 0, 999999999) != PROTOCOL_VERSION)
        return fields->malformed ? REASON_FORM : REASON_VERSION;
    if (!config_read(&config, fields))
        return fields->malformed ? REASON_FORM : REASON_RANGE;
    if (is_busy(board))
        return REASON_BUSY;
    board_load(board, &config, config_digest(&config, scratch), now);
    return REASON_NONE;
}

/* Nothing turns on these pulses. */
static bool rests(const struct board *board, uint16_t pulse, uint16_t second)
{
    return board_is_quiet(board, pulse) && (second == 0 || second == board->config.second.stop);
}

static bool stick_is_at_stop(const struct board *board)
{
    const ticks_t stop = TICKS_US(board->config.stop_pulse);
    const ticks_t width = board->in.receiver.width;
    return board_receives(board) && width + STICK_AT_STOP >= stop && width <= stop + STICK_AT_STOP;
}

/* The receiver may drive while the host demands nothing but stop; the gate opens on outputs that rest, and a stick at stop. Whether with
   power or without was settled before, so that what is tried without power stays so. */
static enum reason judge_gate(const struct board *board, const struct demand *demand)
{
    const bool demands_stop = demand->pulse == board->config.stop_pulse && demand->second == board->config.second.stop;
    const bool opens = !board->demand.gate;
    const bool settled = demand->power == board->out.power && rests(board, board->out.pulse, board->out.second);
    if (!demands_stop || (opens && !settled))
        return REASON_ORDER;
    return opens && !stick_is_at_stop(board) ? REASON_RECEIVER : REASON_NONE;
}

/* No pulses at all, to see what the controller does then: only where the power is on and stays on. */
static bool ceases(const struct board *board, const struct demand *demand)
{
    return demand->pulse == 0 && demand->power && board->out.power;
}

/* A controller that lost its pulses finds stop first. */
static bool resumes_driving(const struct board *board, const struct demand *demand, bool stop)
{
    return board->demand.pulse == 0 && demand->pulse != 0 && !stop;
}

/* Is the demand itself permitted now? */
static enum reason judge(const struct board *board, const struct demand *demand)
{
    const bool stop = demand->pulse == board->config.stop_pulse && demand->second == board->config.second.stop && !demand->gate;
    const bool switches_on = demand->power && !board->out.power;
    if (!(config_permits(&board->config, demand->pulse) || ceases(board, demand)) || !config_permits_second(&board->config, demand->second))
        return REASON_RANGE;
    if (board->latched && (demand->power || !stop))
        return REASON_LATCHED;
    if (switches_on && !(rests(board, demand->pulse, demand->second) && rests(board, board->out.pulse, board->out.second) && !demand->gate))
        return REASON_ORDER;
    if (resumes_driving(board, demand, stop))
        return REASON_ORDER;
    if (demand->release && (demand->power || !stop))
        return REASON_UNLOCK;
    return demand->gate ? judge_gate(board, demand) : REASON_NONE;
}

static enum reason take_drive(struct board *board, struct fields *fields, ticks_t now)
{
    const uint16_t echo = fields_hex(fields);
    const uint16_t digest = fields_hex(fields);
    struct demand demand = {.pulse = (uint16_t)fields_decimal(fields, 0, 65535)};
    demand.power = fields_flag(fields);
    demand.release = fields_flag(fields);
    demand.marker = fields_flag(fields);
    demand.second = (uint16_t)fields_decimal(fields, 0, 65535);
    demand.gate = fields_flag(fields);
    if (!fields_end(fields))
        return fields->malformed ? REASON_FORM : REASON_RANGE;
    if (board->digest == DIGEST_NONE)
        return REASON_BARE;
    if (digest != board->digest)
        return REASON_DIGEST;
    if (!host_echo_is_fresh(&board->host, echo, now))
        return REASON_STALE;
    const enum reason reason = judge(board, &demand);
    if (reason == REASON_NONE) {
        board->confirmed = true;
        board->demand = demand;
        host_hear(&board->host, now);
    }
    return reason;
}

static enum reason take_reset(struct board *board, struct fields *fields, ticks_t now)
{
    const uint16_t echo = fields_hex(fields);
    if (!fields_end(fields))
        return REASON_FORM;
    if (!board->confirmed)
        return REASON_BARE;
    if (!host_echo_is_fresh(&board->host, echo, now))
        return REASON_STALE;
    if (board->demand.power || board->demand.pulse != board->config.stop_pulse || board->demand.second != board->config.second.stop)
        return REASON_DEMAND;
    if (board->standing)
        return REASON_STANDING;
    board_reset(board);
    return REASON_NONE;
}

static enum order read_word(struct fields *fields)
{
    if (fields_word(fields, "drive"))
        return ORDER_DRIVE;
    if (fields_word(fields, "hello"))
        return ORDER_HELLO;
    if (fields_word(fields, "load"))
        return ORDER_LOAD;
    if (fields_word(fields, "reset"))
        return ORDER_RESET;
    fields_skip(fields);
    return ORDER_UNKNOWN;
}

static enum reason obey(struct board *board, const struct receipt *receipt, struct fields *fields, ticks_t now, struct line *scratch)
{
    if (receipt->order == ORDER_UNKNOWN)
        return REASON_WORD;
    if (receipt->order == ORDER_HELLO)
        return take_hello(fields);
    if (!host_sequence_follows(&board->host, receipt->host))
        return REASON_REPEAT;
    if (receipt->order == ORDER_LOAD)
        return take_load(board, fields, now, scratch);
    return receipt->order == ORDER_DRIVE ? take_drive(board, fields, now) : take_reset(board, fields, now);
}

struct receipt orders_take(struct board *board, const char *text, ticks_t now, struct line *scratch)
{
    struct fields fields;
    fields_start(&fields, text);
    struct receipt receipt = {.order = read_word(&fields)};
    receipt.host = fields_hex(&fields);
    receipt.reason = fields.malformed ? REASON_FORM : obey(board, &receipt, &fields, now, scratch);
    if (receipt.reason == REASON_NONE)
        host_accept(&board->host, receipt.host);
    return receipt;
}
