#include "stand.h"
#include "tests.h"

TEST(The_lock_is_released_only_when_the_contactor_is_proven_open)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand.release = true;
    stand_run(&stand, 10);
    EXPECT(stand.board.out.release);
    stand.contactor_stuck = true;
    stand.board.in.contactor_closed = true;
    stand_run(&stand, 2);
    EXPECT(!stand.board.out.release);
}

TEST(A_silent_host_leaves_the_lid_locked)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand.release = true;
    stand_run(&stand, 10);
    stand.host_alive = false;
    stand_run(&stand, 110);
    EXPECT(!stand.board.out.release);
}

TEST(A_key_held_closed_since_the_start_is_no_closing)
{
    struct stand stand;
    stand_start(&stand);
    stand.board.in.key_closed = true;
    stand_run(&stand, 500);
    EXPECT_EQUAL(0, stand.board.key.closings);
    EXPECT(!stand.board.key.fresh);
}

TEST(A_closing_of_the_key_is_fresh_until_it_opens_or_the_board_is_reset)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand.board.in.key_closed = true;
    stand_run(&stand, 15);
    EXPECT_EQUAL(0, stand.board.key.closings);
    stand_run(&stand, 10);
    EXPECT_EQUAL(1, stand.board.key.closings);
    EXPECT(stand.board.key.fresh);
    EXPECT_EQUAL(REASON_NONE, stand_reset(&stand));
    EXPECT(!stand.board.key.fresh);
    stand_run(&stand, 100);
    EXPECT(!stand.board.key.fresh);
    stand.board.in.key_closed = false;
    stand_run(&stand, 2);
    stand.board.in.key_closed = true;
    stand_run(&stand, 30);
    EXPECT(stand.board.key.fresh);
    EXPECT_EQUAL(2, stand.board.key.closings);
}

TEST(The_first_stop_pulse_that_began_after_the_trip_proves_the_stop)
{
    struct stand stand;
    struct board *board = &stand.board;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1800);
    board->in.stop_closed = false;
    stand_run(&stand, 1);
    const ticks_t trip = board->latched_at[CAUSE_STOP];
    board->in.servo = (struct gauge){.known = true, .rose = trip - 10, .fell = trip + 1990, .width = TICKS_US(1000)};
    watch_pass(board);
    EXPECT(!board->stopping.found);
    board->in.servo = (struct gauge){.known = true, .rose = trip + 10, .fell = trip + 3610, .width = TICKS_US(1800)};
    watch_pass(board);
    EXPECT(!board->stopping.found);
    board->in.servo = (struct gauge){.known = true, .rose = trip + 5000, .fell = trip + 7000, .width = TICKS_US(1000)};
    watch_pass(board);
    EXPECT(board->stopping.found);
    EXPECT_EQUAL(trip + 7000, board->stopping.fell);
    EXPECT(!board->stopping.waiting);
}

TEST(Where_pulses_cease_the_last_pulse_proves_the_stop)
{
    struct stand stand;
    struct board *board = &stand.board;
    stand_ready(&stand, STAND_CONFIG_CEASE);
    stand_drive(&stand, 1800);
    board->in.servo = (struct gauge){.known = true, .fell = 42, .width = TICKS_US(1800)};
    board->in.stop_closed = false;
    stand_run(&stand, 1);
    EXPECT(board->stopping.waiting);
    board->in.servo.known = false;
    watch_pass(board);
    EXPECT(board->stopping.found);
    EXPECT_EQUAL(42, board->stopping.fell);
}
