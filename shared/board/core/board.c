#include "board.h"
#include <string.h>

void board_start(struct board *board, bool selftest_good)
{
    memset(board, 0, sizeof *board);
    config_clear(&board->config);
    board->spans = config_spans(&board->config);
    board->selftest_failed = !selftest_good;
    board->retune = true;
    board_latch(board, CAUSE_START, 0);
}

bool board_is_quiet(const struct board *board, uint16_t pulse) { return pulse == 0 || config_is_quiet(&board->config, pulse); }

enum mode board_mode(const struct board *board)
{
    if (!board->confirmed)
        return MODE_BARE;
    if (board->latched)
        return MODE_TRIP;
    if (board->out.gate || !board_is_quiet(board, board->out.pulse) || board->out.second != board->config.second.stop)
        return MODE_SPIN;
    return board->out.power ? MODE_LIVE : MODE_IDLE;
}

bool board_receives(const struct board *board)
{
    const struct gauge *receiver = &board->in.receiver;
    return receiver->known && receiver->width >= TICKS_US(PULSE_LEAST) && receiver->width <= TICKS_US(PULSE_MOST);
}

static void expect_stop(struct board *board, ticks_t at)
{
    board->stopping = (struct stopping){.waiting = board->out.pulse != 0, .from = at};
}

void board_latch(struct board *board, enum cause cause, ticks_t at)
{
    if (board->latched & CAUSE_BIT(cause))
        return;
    if (!board->latched)
        expect_stop(board, at);
    board->latched |= CAUSE_BIT(cause);
    board->unreported |= CAUSE_BIT(cause);
    board->latched_at[cause] = at;
}

void board_reset(struct board *board)
{
    board->latched = 0;
    board->key.fresh = false;
    board->stopping.waiting = false;
}

void board_load(struct board *board, const struct config *config, uint16_t digest, ticks_t now)
{
    board->config = *config;
    board->spans = config_spans(config);
    board->digest = digest;
    board->confirmed = false;
    board->retune = true;
    board->demand = (struct demand){0};
    board_latch(board, CAUSE_START, now);
}
