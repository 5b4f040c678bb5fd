#include "stand.h"
#include "tests.h"

/* What every trip must have done. */
static void expect_tripped(const struct stand *stand, enum cause cause, uint16_t pulse)
{
    EXPECT(stand->board.latched & CAUSE_BIT(cause));
    EXPECT(!stand->board.out.power);
    EXPECT_EQUAL(pulse, stand->board.out.pulse);
    EXPECT_EQUAL(MODE_TRIP, board_mode(&stand->board));
}

static void expect_running(const struct stand *stand, uint16_t pulse)
{
    EXPECT_EQUAL(0, stand->board.latched);
    EXPECT(stand->board.out.power);
    EXPECT_EQUAL(pulse, stand->board.out.pulse);
}

TEST(A_board_that_has_just_started_puts_out_nothing)
{
    const struct board zero = {0};
    struct stand stand;
    stand_start(&stand);
    stand_run(&stand, 200);
    EXPECT_EQUAL(0, zero.out.pulse + zero.out.power + zero.out.release + zero.out.marker);
    EXPECT_EQUAL(0, stand.board.out.pulse + stand.board.out.power + stand.board.out.release + stand.board.out.marker);
    EXPECT_EQUAL(MODE_BARE, board_mode(&stand.board));
    EXPECT_EQUAL(CAUSE_BIT(CAUSE_START) | CAUSE_BIT(CAUSE_LID) | CAUSE_BIT(CAUSE_STOP) | CAUSE_BIT(CAUSE_SILENT), stand.board.latched);
}

TEST(Loaded_but_not_confirmed_still_puts_out_nothing)
{
    struct stand stand;
    stand_start(&stand);
    EXPECT_EQUAL(REASON_NONE, stand_load(&stand, STAND_CONFIG));
    stand_run(&stand, 200);
    EXPECT_EQUAL(0, stand.board.out.pulse);
    EXPECT_EQUAL(MODE_BARE, board_mode(&stand.board));
}

TEST(The_first_demand_with_the_digest_starts_stop_pulses_and_a_reset_makes_the_board_idle)
{
    struct stand stand;
    stand_start(&stand);
    stand_load(&stand, STAND_CONFIG);
    stand.host_alive = true;
    stand_run(&stand, 60);
    EXPECT_EQUAL(1000, stand.board.out.pulse);
    EXPECT_EQUAL(MODE_TRIP, board_mode(&stand.board));
    EXPECT_EQUAL(REASON_NONE, stand_reset(&stand));
    EXPECT_EQUAL(MODE_IDLE, board_mode(&stand.board));
}

TEST(A_run_goes_from_idle_to_live_to_spin_and_nothing_trips)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    EXPECT_EQUAL(MODE_IDLE, board_mode(&stand.board));
    stand.power = true;
    stand_run(&stand, 50);
    EXPECT_EQUAL(MODE_LIVE, board_mode(&stand.board));
    stand.pulse = 1050;
    stand_run(&stand, 2000);
    EXPECT_EQUAL(MODE_SPIN, board_mode(&stand.board));
    expect_running(&stand, 1050);
}

TEST(A_lid_that_opens_stops_the_output)
{
    for (int contact = 0; contact < 2; contact++) {
        struct stand stand;
        stand_ready(&stand, STAND_CONFIG);
        stand_drive(&stand, 1800);
        expect_running(&stand, 1800);
        *(contact ? &stand.board.in.lid.a_closed : &stand.board.in.lid.b_closed) = false;
        stand_run(&stand, 1);
        expect_tripped(&stand, CAUSE_LID, 1000);
    }
}

TEST(A_blink_of_lid_or_stop_between_two_checks_stops_the_output_at_the_time_it_was_seen)
{
    for (int contact = 0; contact < 3; contact++) {
        struct stand stand;
        struct inputs *in = &stand.board.in;
        bool *blink[] = {&in->lid.a_blinked, &in->lid.b_blinked, &in->stop_blinked};
        const enum cause cause = contact == 2 ? CAUSE_STOP : CAUSE_LID;
        stand_ready(&stand, STAND_CONFIG);
        stand_drive(&stand, 1800);
        *blink[contact] = true;
        in->opened_at = stand.now + 123;
        stand_run(&stand, 1);
        expect_tripped(&stand, cause, 1000);
        EXPECT_EQUAL(in->opened_at, stand.board.latched_at[cause]);
    }
}

TEST(A_stop_circuit_that_opens_stops_the_output)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1800);
    stand.board.in.stop_closed = false;
    stand_run(&stand, 1);
    expect_tripped(&stand, CAUSE_STOP, 1000);
}

TEST(Lid_contacts_that_disagree_latch_a_fault_of_their_own)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1800);
    stand.board.in.lid.a_closed = false;
    stand_run(&stand, 45);
    EXPECT(!(stand.board.latched & CAUSE_BIT(CAUSE_LIDPAIR)));
    stand_run(&stand, 10);
    expect_tripped(&stand, CAUSE_LIDPAIR, 1000);
    stand.board.in.lid.a_closed = true;
    stand.pulse = 1000;
    stand.power = false;
    stand_run(&stand, 100);
    EXPECT_EQUAL(REASON_STANDING, stand_reset(&stand));
}

TEST(A_host_that_falls_silent_stops_the_output_within_a_tenth_of_a_second)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1800);
    stand.host_alive = false;
    stand_run(&stand, 95);
    expect_running(&stand, 1800);
    stand_run(&stand, 5);
    expect_tripped(&stand, CAUSE_SILENT, 1000);
}

TEST(A_host_that_talks_and_no_longer_listens_counts_as_silent)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1800);
    stand.host_listens = false;
    stand_run(&stand, 120);
    expect_running(&stand, 1800);
    EXPECT_EQUAL(REASON_STALE, stand.last.reason);
    stand_run(&stand, 30);
    expect_tripped(&stand, CAUSE_SILENT, 1000);
}

TEST(A_revolution_that_is_too_short_stops_the_output)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1800);
    for (int i = 0; i < 100; i++) {
        stand_run(&stand, 2);
        stand_mark(&stand);
    }
    expect_running(&stand, 1800);
    for (ticks_t i = 1; i <= 2; i++)
        tacho_pulse(&stand.tacho, stand.now + i * TICKS_US(1490));
    const ticks_t passed = stand.tacho.view.last;
    stand_run(&stand, 1);
    expect_tripped(&stand, CAUSE_SPEED, 1000);
    EXPECT_EQUAL(passed, stand.board.latched_at[CAUSE_SPEED]);
}

TEST(A_revolution_of_exactly_the_permitted_time_is_permitted)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1800);
    for (ticks_t i = 0; i < 40; i++)
        tacho_pulse(&stand.tacho, stand.now + i * TICKS_US(1500));
    stand_run(&stand, 1);
    expect_running(&stand, 1800);
}

TEST(Over_speed_stands_until_the_rotor_is_slower_or_sends_no_more_pulses)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    for (ticks_t i = 0; i < 4; i++)
        tacho_pulse(&stand.tacho, stand.now + i * TICKS_US(100));
    stand_run(&stand, 1);
    expect_tripped(&stand, CAUSE_SPEED, 1000);
    EXPECT_EQUAL(REASON_STANDING, stand_reset(&stand));
    stand_run(&stand, 5);
    EXPECT_EQUAL(REASON_NONE, stand_reset(&stand));
}

TEST(Readings_beyond_the_current_limit_stop_the_output_when_they_are_enough_in_a_row)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1800);
    stand.board.in.current_run = 3;
    stand_run(&stand, 10);
    expect_running(&stand, 1800);
    stand.board.in.current_run = 4;
    stand_run(&stand, 1);
    expect_tripped(&stand, CAUSE_CURRENT, 1000);
}

TEST(A_tachometer_lost_while_driven_stops_the_output)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1800);
    for (int i = 0; i < 10; i++) {
        stand_run(&stand, 100);
        stand_mark(&stand);
    }
    expect_running(&stand, 1800);
    stand_run(&stand, 299);
    expect_running(&stand, 1800);
    stand_run(&stand, 3);
    expect_tripped(&stand, CAUSE_TACHO, 1000);
}

TEST(A_tachometer_is_not_missed_near_stop_nor_where_there_is_none)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1099);
    stand_run(&stand, 2000);
    expect_running(&stand, 1099);
    stand.pulse = 1100;
    stand_run(&stand, 400);
    expect_tripped(&stand, CAUSE_TACHO, 1000);
    stand_ready(&stand, "1000 1000 2000 1000 400 2 3000 100 900 4 none 100 100 50 20 stop none");
    stand.power = false;
    stand_drive(&stand, 2000);
    stand_run(&stand, 2000);
    expect_running(&stand, 2000);
}

TEST(A_tachometer_is_not_missed_before_the_contactor_has_closed)
{
    struct stand stand;
    stand_ready(&stand, "1000 1000 2000 1200 400 2 3000 100 900 4 20 100 500 50 20 stop none");
    stand.contactor_stuck = true;
    stand.power = true;
    stand.pulse = 1200;
    stand_run(&stand, 400);
    expect_running(&stand, 1200);
}

TEST(A_tachometer_is_missed_in_reverse_too)
{
    struct stand stand;
    stand_ready(&stand, "1500 1000 2000 1500 50 2 3000 100 900 4 300 100 100 50 20 stop none");
    stand_drive(&stand, 1401);
    stand_run(&stand, 400);
    expect_running(&stand, 1401);
    stand.pulse = 1400;
    stand_run(&stand, 400);
    expect_tripped(&stand, CAUSE_TACHO, 1500);
}

TEST(A_contactor_that_does_not_close_or_does_not_open_latches)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand.contactor_stuck = true;
    stand.power = true;
    stand_run(&stand, 95);
    expect_running(&stand, 1000);
    stand_run(&stand, 10);
    expect_tripped(&stand, CAUSE_CONTACTOR, 1000);
    stand_ready(&stand, STAND_CONFIG);
    stand.power = false;
    stand.contactor_stuck = true;
    stand.board.in.contactor_closed = true;
    stand_run(&stand, 110);
    expect_tripped(&stand, CAUSE_CONTACTOR, 1000);
    EXPECT_EQUAL(REASON_STANDING, stand_reset(&stand));
}

TEST(A_converter_that_stands_still_latches)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    for (int i = 0; i < 8; i++) {
        stand.board.in.analog_readings = stand.board.analog_readings;
        stand.board.in.now += STAND_PASS;
        watch_pass(&stand.board);
    }
    expect_tripped(&stand, CAUSE_SAMPLER, 1000);
}

TEST(A_failed_self_test_can_never_be_reset)
{
    struct stand stand;
    stand_start(&stand);
    stand.board.selftest_failed = true;
    stand_load(&stand, STAND_CONFIG);
    stand.host_alive = true;
    stand_run(&stand, 1000);
    EXPECT_EQUAL(REASON_STANDING, stand_reset(&stand));
    expect_tripped(&stand, CAUSE_SELFTEST, 1000);
}

TEST(A_trip_may_cease_the_pulses_instead)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG_CEASE);
    stand_drive(&stand, 1800);
    expect_running(&stand, 1800);
    stand.board.in.stop_closed = false;
    stand_run(&stand, 1);
    expect_tripped(&stand, CAUSE_STOP, 0);
}

TEST(A_cause_stays_latched_when_it_is_gone_until_it_is_reset)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1800);
    stand.board.in.stop_closed = false;
    stand_run(&stand, 1);
    stand.board.in.stop_closed = true;
    stand_run(&stand, 1000);
    expect_tripped(&stand, CAUSE_STOP, 1000);
    stand.pulse = 1000;
    stand.power = false;
    stand_run(&stand, 10);
    EXPECT_EQUAL(REASON_NONE, stand_reset(&stand));
    stand_run(&stand, 10);
    EXPECT_EQUAL(MODE_IDLE, board_mode(&stand.board));
}

TEST(A_pass_is_complete_only_when_every_check_was_made)
{
    struct stand stand;
    stand_start(&stand);
    EXPECT(!watch_complete(&stand.board));
    stand_run(&stand, 2);
    EXPECT(watch_complete(&stand.board));
    for (int bit = 0; bit < 8; bit++) {
        stand.board.checked = (uint8_t)(UINT8_MAX ^ 1 << bit);
        EXPECT(!watch_complete(&stand.board));
    }
}
