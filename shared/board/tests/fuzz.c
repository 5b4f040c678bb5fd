/* Bounded fuzz of the whole host side: seeded lines, half right and half spoilt, against a board whose contacts move at random. After
   every line and check the board must keep the promises below. Usage: fuzz SEED LINES */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include "../core/crc.h"
#include "../core/inbox.h"
#include "../core/report.h"
#include "stand.h"

#define TEXT 160

static uint32_t state;
static uint32_t seed;
static long done;
static unsigned long accepted, refused, bad, powered, trips, gated, ceased;

static uint32_t pick(uint32_t below)
{
    state ^= state << 13;
    state ^= state >> 17;
    state ^= state << 5;
    return state % below;
}

static bool one_in(uint32_t n) { return pick(n) == 0; }

static void promise(bool kept, const char *what)
{
    if (kept)
        return;
    printf("broken after %ld lines with seed %u: %s\n", done, seed, what);
    exit(1);
}

static const char *word(void)
{
    static const char *words[] = {"hello", "load", "drive", "reset", "now", "drives", "", "a", "#", "stop", "none", "cease"};
    return words[pick(sizeof words / sizeof *words)];
}

/* A field that is now and then what it should be. */
static void add_field(char *text)
{
    char field[24];
    const uint32_t numbers[] = {0, 1, 799, 800, 1000, 2200, 2201, 65535, 65536, 999999999};
    switch (pick(5)) {
    case 0: snprintf(field, sizeof field, " %04X", pick(65536)); break;
    case 1: snprintf(field, sizeof field, " %u", numbers[pick(10)]); break;
    case 2: snprintf(field, sizeof field, " %u", pick(4)); break;
    case 3: snprintf(field, sizeof field, " %s", word()); break;
    default: snprintf(field, sizeof field, " %u", state); break;
    }
    strncat(text, field, TEXT - strlen(text) - 1);
}

static void random_line(char *text)
{
    snprintf(text, TEXT, "%s", word());
    for (uint32_t fields = pick(20); fields > 0; fields--)
        add_field(text);
}

/* A line that the board may well accept. */
static void plausible_line(const struct stand *stand, char *text)
{
    const uint16_t number = (uint16_t)(stand->host_line + pick(3));
    const uint16_t echo = (uint16_t)(stand->board_line - (one_in(8) ? pick(40) : 0));
    const uint16_t pulse = (uint16_t)(one_in(2) ? 1000 : one_in(8) ? 0 : 990 + pick(1030));
    switch (pick(12)) {
    case 0: snprintf(text, TEXT, "hello %04X 1", number); break;
    case 1: snprintf(text, TEXT, "load %04X 1 %s", number, one_in(3) ? STAND_CONFIG_SECOND : one_in(2) ? STAND_CONFIG : STAND_CONFIG_CEASE); break;
    case 2: case 3: snprintf(text, TEXT, "reset %04X %04X", number, echo); break;
    default:
        snprintf(text, TEXT, "drive %04X %04X %04X %u %u %u %u %u %u", number, echo, stand->board.digest, pulse, pick(2), one_in(6), pick(2),
                 one_in(4) ? 1100 + pick(820) : stand->board.config.second.stop, one_in(4));
    }
}

/* Adds the CRC, and then sometimes tears, doubles or spoils the line. */
static size_t seal(char *text)
{
    uint16_t crc = CRC_START;
    strcat(text, " ");
    for (const char *at = text; *at; at++)
        crc = crc_add(crc, (uint8_t)*at);
    size_t length = strlen(text);
    length += (size_t)sprintf(text + length, "#%04X\n", crc);
    if (one_in(6))
        text[pick((uint32_t)length)] ^= (char)(1u << pick(8));
    if (one_in(12))
        length = pick((uint32_t)length);
    return length;
}

/* The gate was open without power at the last look. */
static bool unpowered_gate;

static void check_promises(const struct board *board)
{
    const struct outputs *out = &board->out;
    const struct config *config = &board->config;
    promise(board->confirmed || (!out->pulse && !out->power && !out->release), "something is out before a configuration is confirmed");
    promise(!board->latched || !out->power, "power is on with a cause latched");
    promise(!board->latched || !out->pulse || out->pulse == config->stop_pulse, "another pulse than stop is out with a cause latched");
    promise(!board->latched || !out->second || out->second == config->second.stop, "the second output is off its stop with a cause latched");
    promise(!out->second || config_permits_second(config, out->second), "a pulse is on the second output that the configuration does not permit");
    promise(!out->gate || board_receives(board), "the gate is open without a receiver");
    promise(!out->gate || !out->power || !unpowered_gate, "power came on behind an open gate");
    unpowered_gate = out->gate && !out->power;
    promise(!out->pulse || config_permits(config, out->pulse), "a pulse is out that the configuration does not permit");
    promise(!(board->standing & (causes_t)~board->latched), "a cause stands and is not latched");
    promise(!out->release || (!out->power && (!out->pulse || out->pulse == config->stop_pulse)), "the lid is unlocked while driven");
    promise(out->pulse || !board->confirmed || board->latched || out->power, "no pulses are out and nothing says why");
    promise(!board->latched || out->pulse || !board->confirmed || config->cease, "pulses cease where a trip has to put out stop");
    promise(!out->power || (lid_closed(&board->lid) && board->stop.closed && board->host.alive), "power without lid, stop or host");
    promise(watch_complete(board), "a check was left out");
}

static void tell(struct stand *stand, const struct inbox *inbox)
{
    static const struct identity identity = {.name = "fuzz"};
    struct line line;
    const uint16_t digest = stand->board.digest;
    const bool driven = stand->board.out.power;
    const struct receipt receipt = orders_take(&stand->board, inbox->text, stand->now, &line);
    const bool good = receipt.reason == REASON_NONE;
    accepted += good;
    refused += !good;
    if (good)
        stand->host_line = receipt.host;
    promise(!driven || digest == stand->board.digest, "limits changed under power");
    if (report_receipt(&line, &stand->board, &receipt, &identity, stand->now))
        promise(!line.spoilt && line.length <= 110, "a receipt is longer than promised");
}

static void feed(struct stand *stand, struct inbox *inbox, const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        const enum inbox_result result = inbox_take(inbox, (uint8_t)text[i]);
        if (result == INBOX_LINE)
            tell(stand, inbox);
        bad += result == INBOX_BAD;
    }
}

static void shake_contacts(struct inputs *in)
{
    in->lid.a_closed = !one_in(400);
    in->lid.b_closed = !one_in(400);
    in->stop_closed = !one_in(400);
    in->stop_blinked = one_in(1000);
    in->current_run = one_in(500) ? 10 : 0;
}

/* Mostly a stick at stop, so that the gate opens now and then. */
static void shake_receiver(struct stand *stand)
{
    if (one_in(30))
        stand->receiver = (uint16_t)(one_in(3) ? pick(2500) : one_in(4) ? 0 : 990 + pick(20));
}

int main(int argc, char **argv)
{
    static struct stand stand;
    struct inbox inbox;
    seed = argc > 1 ? (uint32_t)strtoul(argv[1], NULL, 10) : 1;
    const long lines = argc > 2 ? strtol(argv[2], NULL, 10) : 200000;
    state = seed * 2654435761u + 1;
    stand_ready(&stand, STAND_CONFIG);
    stand.host_alive = false;
    inbox_start(&inbox);
    for (done = 0; done < lines; done++) {
        char text[TEXT + 16];
        if (one_in(4))
            random_line(text);
        else
            plausible_line(&stand, text);
        feed(&stand, &inbox, text, seal(text));
        shake_contacts(&stand.board.in);
        shake_receiver(&stand);
        if (one_in(3))
            stand_run(&stand, 1 + (one_in(20) ? pick(40) : 0));
        else
            watch_pass(&stand.board);
        check_promises(&stand.board);
        powered += stand.board.out.power;
        trips += stand.board.latched != 0;
        gated += stand.board.out.gate;
        ceased += stand.board.out.power && !stand.board.out.pulse;
    }
    printf("seed %u: %ld lines, %lu accepted, %lu refused, %lu bad; with power after %lu, without pulses after %lu of them, gate open after %lu, latched after %lu; every promise kept\n", seed, lines,
           accepted, refused, bad, powered, ceased, gated, trips);
    promise(lines < 10000 || (accepted > 0 && refused > 0 && bad > 0 && powered > 0 && ceased > 0 && gated > 0 && trips > 0), "the fuzz never got anywhere");
    return 0;
}
