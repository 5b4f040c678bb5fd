#include "../core/host.h"
#include "tests.h"

TEST(A_host_that_was_never_heard_is_silent)
{
    const struct host host = {0};
    EXPECT(!host.alive);
}

TEST(A_host_falls_silent_before_a_tenth_of_a_second_is_over)
{
    struct host host = {0};
    host_hear(&host, 1000);
    host_update(&host, 1000 + HOST_SILENCE - 1);
    EXPECT(host.alive);
    host_update(&host, 1000 + HOST_SILENCE);
    EXPECT(!host.alive);
    EXPECT(HOST_SILENCE >= TICKS_MS(95) && HOST_SILENCE + 2 * TICKS_US(1024) < TICKS_MS(100));
}

TEST(Silence_lasts_however_often_the_clock_wraps)
{
    struct host host = {0};
    host_hear(&host, 1000);
    host_update(&host, 1000 + TICKS_MS(200));
    host_update(&host, 1001);
    EXPECT(!host.alive);
}

TEST(An_echo_of_the_last_line_is_fresh_until_fifty_milliseconds_have_passed)
{
    struct host host = {0};
    const uint16_t line = host_next_line(&host, 500);
    EXPECT(host_echo_is_fresh(&host, line, 500));
    EXPECT(host_echo_is_fresh(&host, line, 500 + TICKS_MS(50) - 1));
    EXPECT(!host_echo_is_fresh(&host, line, 500 + TICKS_MS(50)));
}

TEST(An_echo_of_a_line_that_was_never_sent_is_not_fresh)
{
    struct host host = {0};
    EXPECT(!host_echo_is_fresh(&host, 0, 0));
    EXPECT(!host_echo_is_fresh(&host, 1, 0));
    const uint16_t line = host_next_line(&host, 0);
    EXPECT(!host_echo_is_fresh(&host, (uint16_t)(line + 1), 0));
    EXPECT(!host_echo_is_fresh(&host, (uint16_t)(line - 1), 0));
    EXPECT(!host_echo_is_fresh(&host, (uint16_t)(line + 0x8000), 0));
}

TEST(Only_the_last_thirty_two_lines_may_be_echoed)
{
    struct host host = {0};
    for (int i = 0; i < 70000; i++)
        host_next_line(&host, 0);
    for (uint16_t back = 0; back < 100; back++)
        EXPECT_EQUAL(back < HOST_REMEMBERED, host_echo_is_fresh(&host, (uint16_t)(host.last_sent - back), 0));
}

TEST(The_first_number_is_taken_whatever_it_is_and_then_numbers_must_rise)
{
    struct host host = {0};
    EXPECT(host_sequence_follows(&host, 0xABCD));
    host_accept(&host, 0xFFF0);
    EXPECT(!host_sequence_follows(&host, 0xFFF0));
    EXPECT(!host_sequence_follows(&host, 0xFFEF));
    EXPECT(host_sequence_follows(&host, 0xFFF1));
    EXPECT(host_sequence_follows(&host, 0x0005));
    EXPECT(host_sequence_follows(&host, (uint16_t)(0xFFF0 + 32767)));
    EXPECT(!host_sequence_follows(&host, (uint16_t)(0xFFF0 + 32768)));
}
