#include "report.h"
#include <string.h>

static const FLASH char reset_words[RESET_COUNT][9] = {
    [RESET_UNKNOWN] = "unknown", [RESET_POWER] = "power", [RESET_BROWNOUT] = "brownout", [RESET_WATCHDOG] = "watchdog", [RESET_PIN] = "pin"};

static bool names(uint8_t c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; }

/* Blank EEPROM reads 0xFF and may also follow a shorter name. */
void report_name(struct identity *identity, const uint8_t bytes[IDENTITY_LONGEST])
{
    uint8_t length = 0;
    while (length < IDENTITY_LONGEST && names(bytes[length])) {
        identity->name[length] = (char)bytes[length];
        length++;
    }
    identity->name[length] = '\0';
    if (length == 0 || (length < IDENTITY_LONGEST && bytes[length] != 0xFF && bytes[length] != 0))
        strcpy(identity->name, "unnamed");
}

static uint32_t micros(ticks_t ticks) { return ticks / 2u; }

void report_hello(struct line *line, struct board *board, const struct identity *identity, ticks_t now)
{
    line_begin(line, "hello", host_next_line(&board->host, now));
    line_decimal(line, PROTOCOL_VERSION);
    line_word(line, FIRMWARE_VERSION);
    line_word(line, identity->name);
    line_hex(line, identity->nonce, 8);
    line_flash_word(line, reset_words[identity->cause]);
    line_word(line, identity->flash_good ? "good" : "bad");
    line_word(line, identity->ram_good ? "good" : "bad");
    line_hex(line, board->digest, 4);
    line_end(line);
}

bool report_trip(struct line *line, struct board *board, ticks_t now)
{
    enum cause cause = CAUSE_START;
    if (!board->unreported)
        return false;
    while (!(board->unreported & CAUSE_BIT(cause)))
        cause++;
    board->unreported &= (causes_t)~CAUSE_BIT(cause);
    line_begin(line, "trip", host_next_line(&board->host, now));
    line_decimal(line, micros(board->latched_at[cause]));
    line_flash_word(line, cause_word(cause));
    line_hex(line, board->latched, 4);
    line_end(line);
    return true;
}

bool report_stopped(struct line *line, struct board *board, ticks_t now)
{
    if (!board->stopping.found)
        return false;
    board->stopping.found = false;
    line_begin(line, "stopped", host_next_line(&board->host, now));
    line_decimal(line, micros(board->stopping.fell));
    line_decimal(line, micros(board->stopping.width));
    line_end(line);
    return true;
}

static void accept_load(struct line *line, struct board *board, const struct receipt *receipt, ticks_t now)
{
    line_begin(line, "loaded", host_next_line(&board->host, now));
    line_hex(line, receipt->host, 4);
    line_hex(line, board->digest, 4);
    config_write(&board->config, line);
    line_end(line);
}

static void answer(struct line *line, struct board *board, const struct receipt *receipt, ticks_t now)
{
    const bool refused = receipt->reason != REASON_NONE;
    line_begin(line, refused ? "no" : "ok", host_next_line(&board->host, now));
    line_hex(line, receipt->host, 4);
    line_flash_word(line, order_word(receipt->order));
    if (refused)
        line_flash_word(line, reason_word(receipt->reason));
    line_end(line);
}

bool report_receipt(struct line *line, struct board *board, const struct receipt *receipt, const struct identity *identity, ticks_t now)
{
    const bool accepted = receipt->reason == REASON_NONE;
    if (accepted && receipt->order == ORDER_DRIVE)
        return false;
    if (accepted && receipt->order == ORDER_HELLO)
        report_hello(line, board, identity, now);
    else if (accepted && receipt->order == ORDER_LOAD)
        accept_load(line, board, receipt, now);
    else
        answer(line, board, receipt, now);
    return true;
}
