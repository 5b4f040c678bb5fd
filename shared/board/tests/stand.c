#include "stand.h"
#include <stdio.h>
#include <string.h>

static void settle(struct inputs *in)
{
    in->lid = (struct lid_reading){.a_closed = true, .b_closed = true};
    in->stop_closed = true;
    in->stop_blinked = false;
}

void stand_start(struct stand *stand)
{
    memset(stand, 0, sizeof *stand);
    stand->host_listens = true;
    stand->pulse = 1000;
    board_start(&stand->board, true);
    settle(&stand->board.in);
}

static void pass(struct stand *stand)
{
    struct inputs *in = &stand->board.in;
    stand->now += STAND_PASS;
    in->now = stand->now;
    in->analog_readings++;
    if (!stand->contactor_stuck)
        in->contactor_closed = stand->board.out.power;
    in->receiver = (struct gauge){.known = stand->receiver != 0, .width = TICKS_US(stand->receiver)};
    tacho_rest(&stand->tacho, stand->now);
    in->tacho = tacho_take(&stand->tacho);
    watch_pass(&stand->board);
    stand->board.stopping.found = false;
}

void stand_run(struct stand *stand, uint32_t ms)
{
    const ticks_t end = stand->now + TICKS_MS(ms);
    while ((int32_t)(end - stand->now) > 0) {
        const uint16_t line = host_next_line(&stand->board.host, stand->now);
        if (stand->host_listens)
            stand->board_line = line;
        if (stand->host_alive)
            stand_demand(stand);
        pass(stand);
    }
}

enum reason stand_say(struct stand *stand, const char *word, const char *rest)
{
    char text[INT8_MAX];
    struct line scratch;
    snprintf(text, sizeof text, "%s %04X%s%s", word, ++stand->host_line, *rest ? " " : "", rest);
    stand->last = orders_take(&stand->board, text, stand->now, &scratch);
    if (stand->board.retune) {
        stand->board.retune = false;
        tacho_start(&stand->tacho, stand->board.config.pulses_per_rev);
    }
    return stand->last.reason;
}

enum reason stand_demand(struct stand *stand)
{
    char rest[64];
    snprintf(rest, sizeof rest, "%04X %04X %u %u %u 0 %u %u", stand->board_line, stand->board.digest, stand->pulse, stand->power, stand->release,
             stand->second, stand->gate);
    return stand_say(stand, "drive", rest);
}

enum reason stand_reset(struct stand *stand)
{
    char rest[8];
    snprintf(rest, sizeof rest, "%04X", stand->board_line);
    return stand_say(stand, "reset", rest);
}

enum reason stand_load(struct stand *stand, const char *config)
{
    char rest[100];
    snprintf(rest, sizeof rest, "1 %s", config);
    return stand_say(stand, "load", rest);
}

void stand_ready(struct stand *stand, const char *config)
{
    stand_start(stand);
    stand_load(stand, config);
    stand->pulse = stand->board.config.stop_pulse;
    stand->second = stand->board.config.second.stop;
    stand->host_alive = true;
    stand_run(stand, 60);
    stand_reset(stand);
    stand_run(stand, 2);
}

void stand_drive(struct stand *stand, uint16_t pulse)
{
    stand->power = true;
    stand_run(stand, 10);
    stand->pulse = pulse;
    stand_run(stand, 10);
}

void stand_mark(struct stand *stand) { tacho_pulse(&stand->tacho, stand->now); }
