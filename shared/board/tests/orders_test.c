#include "stand.h"
#include "tests.h"

static enum reason say(struct stand *stand, const char *text)
{
    struct line scratch;
    stand->last = orders_take(&stand->board, text, stand->now, &scratch);
    return stand->last.reason;
}

static enum reason drive(struct stand *stand, uint16_t pulse, bool power, bool release)
{
    stand->pulse = pulse;
    stand->power = power;
    stand->release = release;
    return stand_demand(stand);
}

TEST(Another_protocol_version_is_refused)
{
    struct stand stand;
    stand_start(&stand);
    EXPECT_EQUAL(REASON_VERSION, say(&stand, "hello 0001 2"));
    EXPECT_EQUAL(REASON_NONE, say(&stand, "hello 0001 1"));
    EXPECT_EQUAL(REASON_VERSION, say(&stand, "load 0002 2 " STAND_CONFIG));
    EXPECT_EQUAL(REASON_VERSION, say(&stand, "load 0002 0 with other fields"));
    EXPECT_EQUAL(DIGEST_NONE, stand.board.digest);
}

TEST(Words_that_are_not_known_are_refused_and_say_so)
{
    const char *words[] = {"hang 0001", "Drive 0001", "drives 0001", "x 0001", "now 0001 5"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        struct stand stand;
        stand_start(&stand);
        EXPECT_EQUAL(REASON_WORD, say(&stand, words[i]));
        EXPECT_EQUAL(ORDER_UNKNOWN, stand.last.order);
        EXPECT_EQUAL(1, stand.last.host);
    }
}

TEST(Lines_with_missing_surplus_or_malformed_fields_are_refused)
{
    const char *lines[] = {"hello", "hello 1 1", "hello 0001", "hello 0001 1 1", "reset 0002", "reset 0002 xyz", "drive 0002 0001 891D 1000 0 0 0 0",
                           "drive 0002 0001 891D 1000 0 0 0 0 0 0", "drive 0002 0001 891D 1000 2 0 0 0 0", "drive 0002 0001 011a 1000 0 0 0 0 0", "load 0002 1", ""};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        struct stand stand;
        stand_start(&stand);
        EXPECT_EQUAL(REASON_FORM, say(&stand, lines[i]));
        EXPECT(!stand.board.host.alive);
    }
}

TEST(Nothing_is_driven_and_nothing_reset_before_a_configuration_is_loaded)
{
    struct stand stand;
    stand_start(&stand);
    stand_run(&stand, 10);
    EXPECT_EQUAL(REASON_BARE, stand_demand(&stand));
    EXPECT_EQUAL(REASON_BARE, stand_reset(&stand));
    stand_load(&stand, STAND_CONFIG);
    EXPECT_EQUAL(REASON_BARE, stand_reset(&stand));
}

TEST(A_demand_for_another_configuration_than_the_loaded_one_is_refused)
{
    struct stand stand;
    char rest[40];
    stand_ready(&stand, STAND_CONFIG);
    snprintf(rest, sizeof rest, "%04X 011B 1000 0 0 0 0 0", stand.board_line);
    EXPECT_EQUAL(REASON_DIGEST, stand_say(&stand, "drive", rest));
}

TEST(A_line_that_comes_twice_is_taken_once)
{
    struct stand stand;
    char text[60];
    stand_ready(&stand, STAND_CONFIG);
    snprintf(text, sizeof text, "drive %04X %04X %04X 1000 0 0 0 0 0", ++stand.host_line, stand.board_line, stand.board.digest);
    EXPECT_EQUAL(REASON_NONE, say(&stand, text));
    EXPECT_EQUAL(REASON_REPEAT, say(&stand, text));
}

TEST(A_hello_starts_the_numbering_afresh)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    EXPECT_EQUAL(REASON_REPEAT, say(&stand, "reset 0001 0001"));
    EXPECT_EQUAL(REASON_NONE, say(&stand, "hello 0000 1"));
    stand.host_line = 0;
    EXPECT_EQUAL(REASON_NONE, stand_demand(&stand));
}

TEST(An_echo_fifty_milliseconds_old_is_refused_and_is_no_sign_of_life)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    const ticks_t heard = stand.board.host.heard;
    stand.now += TICKS_MS(51);
    EXPECT_EQUAL(REASON_STALE, stand_demand(&stand));
    EXPECT_EQUAL(REASON_STALE, stand_reset(&stand));
    EXPECT_EQUAL(heard, stand.board.host.heard);
}

TEST(Only_pulses_that_the_configuration_permits_are_taken)
{
    struct stand stand;
    stand_ready(&stand, "1000 1200 1800 1100 400 2 3000 100 900 4 300 100 100 50 20 stop none");
    for (uint16_t pulse = 700; pulse < 2400; pulse++) {
        const bool permitted = pulse == 1000 || pulse == 1100 || (pulse >= 1200 && pulse <= 1800);
        EXPECT_EQUAL(permitted ? REASON_NONE : REASON_RANGE, drive(&stand, pulse, false, false));
    }
    EXPECT_EQUAL(REASON_RANGE, drive(&stand, 0, false, false));
}

TEST(While_a_cause_is_latched_only_the_stop_pulse_without_power_may_be_demanded)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand.board.in.stop_closed = false;
    stand_run(&stand, 2);
    EXPECT_EQUAL(REASON_LATCHED, drive(&stand, 1800, false, false));
    EXPECT_EQUAL(REASON_LATCHED, drive(&stand, 1000, true, false));
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 1000, false, false));
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 1000, false, true));
}

TEST(Power_is_switched_on_only_at_a_pulse_on_which_nothing_turns)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    EXPECT_EQUAL(REASON_ORDER, drive(&stand, 1500, true, false));
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 1500, false, false));
    stand_run(&stand, 2);
    EXPECT_EQUAL(REASON_ORDER, drive(&stand, 1000, true, false));
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 1000, false, false));
    stand_run(&stand, 2);
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 1000, true, false));
    stand_run(&stand, 2);
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 1500, true, false));
}

TEST(Pulses_cease_on_demand_only_while_the_power_is_on_and_stays_on)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    EXPECT_EQUAL(REASON_RANGE, drive(&stand, 0, false, false));
    EXPECT_EQUAL(REASON_RANGE, drive(&stand, 0, true, false));
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 1000, false, false));
    stand_drive(&stand, 1500);
    EXPECT_EQUAL(REASON_RANGE, drive(&stand, 0, false, false));
    EXPECT_EQUAL(REASON_UNLOCK, drive(&stand, 0, true, true));
    stand.gate = true;
    EXPECT_EQUAL(REASON_ORDER, drive(&stand, 0, true, false));
    stand.gate = false;
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 0, true, false));
    stand_run(&stand, 500);
    EXPECT_EQUAL(0, stand.board.out.pulse);
    EXPECT(stand.board.out.power);
    EXPECT(!stand.board.latched);
    EXPECT_EQUAL(MODE_LIVE, board_mode(&stand.board));
}

TEST(After_pulses_that_ceased_only_stop_may_follow)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1500);
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 0, true, false));
    stand_run(&stand, 5);
    EXPECT_EQUAL(REASON_ORDER, drive(&stand, 1500, true, false));
    EXPECT_EQUAL(REASON_ORDER, drive(&stand, 1500, false, false));
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 1000, true, false));
    stand_run(&stand, 5);
    EXPECT_EQUAL(1000, stand.board.out.pulse);
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 1500, true, false));
}

TEST(A_trip_while_pulses_cease_takes_the_power_and_puts_out_stop_until_a_reset)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1500);
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 0, true, false));
    stand_run(&stand, 5);
    stand.board.in.stop_closed = false;
    stand_run(&stand, 2);
    EXPECT(!stand.board.out.power);
    EXPECT_EQUAL(1000, stand.board.out.pulse);
    EXPECT_EQUAL(REASON_RANGE, drive(&stand, 0, true, false));
    stand.board.in.stop_closed = true;
    stand_run(&stand, 200);
    EXPECT(!stand.board.out.power);
    EXPECT_EQUAL(1000, stand.board.out.pulse);
    EXPECT_EQUAL(REASON_STANDING, stand_reset(&stand));
}

TEST(The_lock_is_never_released_together_with_power_or_a_pulse)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    EXPECT_EQUAL(REASON_UNLOCK, drive(&stand, 1000, true, true));
    EXPECT_EQUAL(REASON_UNLOCK, drive(&stand, 1500, false, true));
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 1000, false, true));
}

TEST(Limits_cannot_be_changed_while_powered_or_driven)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand.power = true;
    stand_run(&stand, 5);
    EXPECT_EQUAL(REASON_BUSY, stand_load(&stand, STAND_CONFIG_CEASE));
    stand.pulse = 1500;
    stand_run(&stand, 5);
    EXPECT_EQUAL(REASON_BUSY, stand_load(&stand, STAND_CONFIG_CEASE));
    EXPECT_EQUAL(0x891D, stand.board.digest);
    EXPECT(!stand.board.config.cease);
    stand.power = false;
    stand_run(&stand, 5);
    EXPECT_EQUAL(REASON_BUSY, stand_load(&stand, STAND_CONFIG_CEASE));
    stand.pulse = 1000;
    stand_run(&stand, 5);
    EXPECT_EQUAL(REASON_NONE, stand_load(&stand, STAND_CONFIG_CEASE));
}

TEST(Power_just_demanded_already_keeps_the_limits)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    EXPECT_EQUAL(REASON_NONE, drive(&stand, 1000, true, false));
    EXPECT_EQUAL(REASON_BUSY, stand_load(&stand, STAND_CONFIG_CEASE));
}

TEST(A_configuration_that_is_refused_leaves_the_old_one_as_it_was)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    EXPECT_EQUAL(REASON_RANGE, stand_load(&stand, "1000 1000 2000 1000 401 2 3000 100 900 4 300 100 100 50 20 stop none"));
    EXPECT_EQUAL(REASON_FORM, stand_load(&stand, "1000 1000 2000 1000 400 2 3000 100 900 4 300 100 100 50 20 halt"));
    EXPECT_EQUAL(400, stand.board.config.rate);
    EXPECT_EQUAL(0x891D, stand.board.digest);
    EXPECT_EQUAL(MODE_IDLE, board_mode(&stand.board));
}

TEST(A_new_configuration_ceases_the_pulses_and_asks_for_a_reset)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand.host_alive = false;
    EXPECT_EQUAL(REASON_NONE, stand_load(&stand, STAND_CONFIG_CEASE));
    stand_run(&stand, 2);
    EXPECT_EQUAL(0, stand.board.out.pulse);
    EXPECT(stand.board.latched & CAUSE_BIT(CAUSE_START));
    EXPECT_EQUAL(MODE_BARE, board_mode(&stand.board));
}

TEST(No_reset_while_a_cause_stands)
{
    struct stand stand;
    bool *spoilt[] = {&stand.board.in.lid.a_closed, &stand.board.in.lid.b_closed, &stand.board.in.stop_closed};
    for (int i = 0; i < 3; i++) {
        stand_ready(&stand, STAND_CONFIG);
        *spoilt[i] = false;
        stand_run(&stand, 5);
        EXPECT_EQUAL(REASON_STANDING, stand_reset(&stand));
        *spoilt[i] = true;
        stand_run(&stand, 15);
        EXPECT_EQUAL(REASON_STANDING, stand_reset(&stand));
        stand_run(&stand, 15);
        EXPECT_EQUAL(REASON_NONE, stand_reset(&stand));
    }
}

TEST(No_reset_while_a_pulse_or_power_is_demanded)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1800);
    EXPECT_EQUAL(REASON_DEMAND, stand_reset(&stand));
    stand.pulse = 1000;
    stand_run(&stand, 5);
    EXPECT_EQUAL(REASON_DEMAND, stand_reset(&stand));
    stand.power = false;
    stand.pulse = 1500;
    stand_run(&stand, 5);
    EXPECT_EQUAL(REASON_DEMAND, stand_reset(&stand));
    stand.pulse = 1000;
    stand_run(&stand, 5);
    EXPECT_EQUAL(REASON_NONE, stand_reset(&stand));
}

TEST(A_demand_from_before_a_trip_does_not_come_back_with_the_reset)
{
    struct stand stand;
    stand_ready(&stand, STAND_CONFIG);
    stand_drive(&stand, 1800);
    stand.board.in.stop_blinked = true;
    stand_run(&stand, 1);
    stand.board.in.stop_blinked = false;
    stand_run(&stand, 30);
    EXPECT_EQUAL(REASON_DEMAND, stand_reset(&stand));
    stand_run(&stand, 200);
    EXPECT_EQUAL(1000, stand.board.out.pulse);
    EXPECT(!stand.board.out.power);
}

TEST(A_refused_line_changes_nothing)
{
    const char *lines[] = {"load 7000 9 1", "drive 7000 0000 0000 1000 0 0 0 0 0", "reset 7000 0000", "hello 7000 7", "nonsense 7000"};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        struct stand stand;
        stand_ready(&stand, STAND_CONFIG);
        stand_drive(&stand, 1500);
        const struct board before = stand.board;
        EXPECT(say(&stand, lines[i]) != REASON_NONE);
        EXPECT(memcmp(&before, &stand.board, sizeof before) == 0);
    }
}
