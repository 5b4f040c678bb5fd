/* What the host says: each line is accepted or refused with a reason. */
#ifndef ORDERS_H
#define ORDERS_H

#include "board.h"

#define PROTOCOL_VERSION 1u

#define STICK_AT_STOP TICKS_US(25) /* how far the receiver's pulse may be from stop when the gate opens; the host holds the same */

enum order { ORDER_UNKNOWN, ORDER_HELLO, ORDER_LOAD, ORDER_DRIVE, ORDER_RESET, ORDER_COUNT };

enum reason {
    REASON_NONE, /* accepted */
    REASON_VERSION,
    REASON_FORM,
    REASON_WORD,
    REASON_RANGE,
    REASON_BUSY,
    REASON_REPEAT,
    REASON_STALE,
    REASON_DIGEST,
    REASON_BARE,
    REASON_LATCHED,
    REASON_ORDER,
    REASON_UNLOCK,
    REASON_STANDING,
    REASON_DEMAND,
    REASON_RECEIVER,
    REASON_COUNT
};

struct receipt {
    enum order order;
    enum reason reason;
    uint16_t host; /* the line's number */
};

/* Obeys or refuses a line whose CRC was right. `scratch` is used for measuring text. */
struct receipt orders_take(struct board *board, const char *text, ticks_t now, struct line *scratch);

const FLASH char *order_word(enum order order);
const FLASH char *reason_word(enum reason reason);

#endif
