/* The board's lines other than telemetry: greeting, trips, receipts. */
#ifndef REPORT_H
#define REPORT_H

#include "board.h"
#include "orders.h"

#define FIRMWARE_VERSION "1.2.0"
#define IDENTITY_LONGEST 8

enum reset_cause { RESET_UNKNOWN, RESET_POWER, RESET_BROWNOUT, RESET_WATCHDOG, RESET_PIN, RESET_COUNT };

/* Which board this is and how it started. */
struct identity {
    char name[IDENTITY_LONGEST + 1];
    uint32_t nonce; /* another at every start */
    enum reset_cause cause;
    bool flash_good;
    bool ram_good;
};

/* Takes the board's name from up to eight bytes; anything but a–z 0–9 - in them makes it `unnamed`. */
void report_name(struct identity *identity, const uint8_t bytes[IDENTITY_LONGEST]);

void report_hello(struct line *line, struct board *board, const struct identity *identity, ticks_t now);

/* True when a latched cause is not yet told; then `line` tells the first of them. */
bool report_trip(struct line *line, struct board *board, ticks_t now);

/* True when a stop is to be told; then `line` tells it. */
bool report_stopped(struct line *line, struct board *board, ticks_t now);

/* Answers an order. False when the order is one that telemetry acknowledges. */
bool report_receipt(struct line *line, struct board *board, const struct receipt *receipt, const struct identity *identity, ticks_t now);

#endif
