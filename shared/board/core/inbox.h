/* Collects received bytes into lines and lets through only those whose length, characters and CRC are right. */
#ifndef INBOX_H
#define INBOX_H

#include <stdbool.h>
#include <stdint.h>

#define INBOX_LONGEST 120 /* line feed included */

enum inbox_result {
    INBOX_MORE, /* nothing complete yet */
    INBOX_LINE, /* `text` holds a line without its CRC, ended by a zero */
    INBOX_BAD   /* a line ended and was no good; count it */
};

struct inbox {
    char text[INBOX_LONGEST];
    uint8_t length;
    uint8_t mark;      /* index of the last '#' */
    uint16_t crc;      /* of everything so far */
    uint16_t mark_crc; /* of everything before the last '#' */
    bool spoilt;       /* too long or an unprintable byte: skip to the next line feed */
};

/* Starts by skipping to the next line feed, because bytes may already be under way. */
void inbox_start(struct inbox *inbox);

enum inbox_result inbox_take(struct inbox *inbox, uint8_t byte);

#endif
