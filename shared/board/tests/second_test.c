#include "stand.h"
#include "tests.h"

static void pass(struct stand *stand) { stand_run(stand, 2); }

TEST(A_second_output_rests_at_its_own_stop_until_it_is_demanded)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG_SECOND);
    EXPECT_EQUAL(1500, stand.board.out.second);
    EXPECT_EQUAL(MODE_IDLE, board_mode(&stand.board));
    stand_drive(&stand, 1000);
    EXPECT_EQUAL(MODE_LIVE, board_mode(&stand.board));
    stand.second = 1800;
    pass(&stand);
    EXPECT_EQUAL(1800, stand.board.out.second);
    EXPECT_EQUAL(MODE_SPIN, board_mode(&stand.board));
}

TEST(A_board_with_one_output_puts_nothing_on_the_second)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1500);
    EXPECT_EQUAL(0, stand.board.out.second);
    stand.second = 1500;
    EXPECT_EQUAL(REASON_RANGE, stand_demand(&stand));
}

TEST(A_trip_brings_both_outputs_to_their_stops)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG_SECOND);
    stand_drive(&stand, 1600);
    stand.second = 1800;
    pass(&stand);
    stand.board.in.stop_closed = false;
    pass(&stand);
    EXPECT_EQUAL(1000, stand.board.out.pulse);
    EXPECT_EQUAL(1500, stand.board.out.second);
    EXPECT(!stand.board.out.power);
    EXPECT_EQUAL(REASON_LATCHED, stand_demand(&stand));
}

TEST(A_second_output_off_its_stop_holds_off_power_unlocking_limits_and_reset)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG_SECOND);
    stand.second = 1800;
    stand.power = true;
    EXPECT_EQUAL(REASON_ORDER, stand_demand(&stand));
    stand.power = false;
    stand.release = true;
    EXPECT_EQUAL(REASON_UNLOCK, stand_demand(&stand));
    stand.release = false;
    stand_run(&stand, 5);
    EXPECT_EQUAL(REASON_BUSY, stand_load(&stand, STAND_CONFIG));
    EXPECT_EQUAL(REASON_DEMAND, stand_reset(&stand));
}

/* Ready, powered, the transmitter's stick at stop. */
static void ready_for_gate(struct stand *stand)
{
    stand_ready(stand, STAND_CONFIG);
    stand->receiver = 1010;
    stand_drive(stand, 1000);
}

TEST(An_open_gate_passes_the_receivers_pulse_within_the_controllers_range)
{
    struct stand stand;
    ready_for_gate(&stand);
    stand.gate = true;
    pass(&stand);
    EXPECT_EQUAL(1010, stand.board.out.pulse);
    EXPECT(stand.board.out.gate);
    EXPECT_EQUAL(MODE_SPIN, board_mode(&stand.board));
    const uint16_t given[] = {1700, 2150, 850};
    const uint16_t out[] = {1700, 2000, 1000};
    for (int i = 0; i < 3; i++) {
        stand.receiver = given[i];
        pass(&stand);
        EXPECT_EQUAL(out[i], stand.board.out.pulse);
    }
}

TEST(The_gate_opens_only_on_a_stick_at_stop_and_outputs_at_rest_whose_power_is_settled)
{
    struct stand stand;
    ready_for_gate(&stand);
    stand.gate = true;
    const uint16_t off_stop[] = {0, 974, 1026, 1500};
    for (int i = 0; i < 4; i++) {
        stand.gate = false;
        stand.receiver = off_stop[i];
        pass(&stand);
        stand.gate = true;
        EXPECT_EQUAL(REASON_RECEIVER, stand_demand(&stand));
    }
    stand.gate = false;
    stand.receiver = 1000;
    stand.pulse = 1200;
    pass(&stand);
    stand.gate = true;
    EXPECT_EQUAL(REASON_ORDER, stand_demand(&stand));
    stand.pulse = 1000;
    stand.gate = false;
    pass(&stand);
    stand.gate = true;
    stand.power = false;
    EXPECT_EQUAL(REASON_ORDER, stand_demand(&stand));
    stand.power = true;
    pass(&stand);
    EXPECT(stand.board.out.gate && stand.board.out.power);
}

TEST(A_gate_that_is_tried_without_power_follows_the_stick_and_gets_no_power_until_it_is_shut)
{
    struct stand stand;
    ready_for_gate(&stand);
    stand.power = false;
    pass(&stand);
    stand.gate = true;
    pass(&stand);
    stand.receiver = 1600;
    pass(&stand);
    EXPECT_EQUAL(1600, stand.board.out.pulse);
    EXPECT(stand.board.out.gate && !stand.board.out.power);
    stand.power = true;
    EXPECT_EQUAL(REASON_ORDER, stand_demand(&stand));
    stand.receiver = 1000;
    pass(&stand);
    EXPECT_EQUAL(REASON_ORDER, stand_demand(&stand));
    EXPECT(!stand.board.out.power);
    stand.power = false;
    stand.receiver = 0;
    pass(&stand);
    EXPECT_EQUAL(1000, stand.board.out.pulse);
    EXPECT(stand.board.latched & CAUSE_BIT(CAUSE_RECEIVER));
}

TEST(Power_may_be_taken_from_an_open_gate_and_does_not_come_back_while_it_is_open)
{
    struct stand stand;
    ready_for_gate(&stand);
    stand.gate = true;
    pass(&stand);
    stand.power = false;
    pass(&stand);
    EXPECT(stand.board.out.gate && !stand.board.out.power);
    stand.power = true;
    EXPECT_EQUAL(REASON_ORDER, stand_demand(&stand));
}

TEST(A_radio_lost_while_it_drives_stops_and_stays_stopped_when_it_comes_back)
{
    struct stand stand;
    ready_for_gate(&stand);
    stand.gate = true;
    pass(&stand);
    stand.receiver = 1600;
    pass(&stand);
    EXPECT_EQUAL(1600, stand.board.out.pulse);
    stand.receiver = 0;
    pass(&stand);
    EXPECT_EQUAL(1000, stand.board.out.pulse);
    EXPECT(!stand.board.out.power && !stand.board.out.gate);
    EXPECT(stand.board.latched & CAUSE_BIT(CAUSE_RECEIVER));
    stand.receiver = 1600;
    stand_run(&stand, 20);
    EXPECT_EQUAL(1000, stand.board.out.pulse);
    EXPECT_EQUAL(REASON_LATCHED, stand_demand(&stand));
}

TEST(A_pulse_that_no_receiver_gives_is_a_lost_radio)
{
    struct stand stand;
    ready_for_gate(&stand);
    stand.gate = true;
    pass(&stand);
    stand.receiver = 2300;
    pass(&stand);
    EXPECT(stand.board.latched & CAUSE_BIT(CAUSE_RECEIVER));
    EXPECT_EQUAL(1000, stand.board.out.pulse);
}

TEST(Every_cause_stops_a_receiver_that_drives)
{
    struct stand stand;
    for (int i = 0; i < 3; i++) {
        ready_for_gate(&stand);
        stand.gate = true;
        pass(&stand);
        stand.receiver = 1700;
        pass(&stand);
        stand.board.in.lid.a_closed = i != 0;
        stand.board.in.current_run = i == 1 ? 10 : 0;
        stand.host_alive = i != 2;
        stand_run(&stand, 110);
        EXPECT_EQUAL(1000, stand.board.out.pulse);
        EXPECT(!stand.board.out.power && !stand.board.out.gate);
    }
}
