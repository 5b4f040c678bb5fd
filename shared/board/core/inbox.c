#include "inbox.h"
#include "crc.h"

#define CRC_CHARACTERS 4
#define SHORTEST_MARK 2 /* one letter and a space before '#' */

static void begin(struct inbox *inbox)
{
    inbox->length = 0;
    inbox->mark = 0;
    inbox->crc = CRC_START;
    inbox->spoilt = false;
}

void inbox_start(struct inbox *inbox)
{
    begin(inbox);
    inbox->spoilt = true;
}

static bool crc_matches(const struct inbox *inbox)
{
    uint16_t sent = 0;
    if (inbox->mark < SHORTEST_MARK || inbox->length != inbox->mark + 1 + CRC_CHARACTERS || inbox->text[inbox->mark - 1] != ' ')
        return false;
    for (uint8_t i = inbox->mark + 1; i < inbox->length; i++) {
        const char c = inbox->text[i];
        const bool letter = c >= 'A' && c <= 'F';
        if (!letter && (c < '0' || c > '9'))
            return false;
        sent = (uint16_t)((sent << 4) | (uint16_t)(letter ? c - 'A' + 10 : c - '0'));
    }
    return sent == inbox->mark_crc;
}

static enum inbox_result finish(struct inbox *inbox)
{
    const bool good = !inbox->spoilt && crc_matches(inbox);
    if (good)
        inbox->text[inbox->mark - 1] = '\0';
    begin(inbox);
    return good ? INBOX_LINE : INBOX_BAD;
}

enum inbox_result inbox_take(struct inbox *inbox, uint8_t byte)
{
    if (byte == '\n')
        return finish(inbox);
    if (byte < 0x20 || byte > 0x7E || inbox->length >= INBOX_LONGEST - 1) {
        inbox->spoilt = true;
        return INBOX_MORE;
    }
    if (byte == '#') {
        inbox->mark = inbox->length;
        inbox->mark_crc = inbox->crc;
    }
    inbox->text[inbox->length++] = (char)byte;
    inbox->crc = crc_add(inbox->crc, byte);
    return INBOX_MORE;
}
