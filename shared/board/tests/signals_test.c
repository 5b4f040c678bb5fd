#include "../core/analog.h"
#include "../core/gauge.h"
#include "../core/pulse.h"
#include "../core/tacho.h"
#include "tests.h"

TEST(A_steady_rotor_shows_its_period_and_its_revolution)
{
    struct tacho tacho = {.pulses_per_rev = 3};
    for (ticks_t i = 0; i < 10; i++)
        tacho_pulse(&tacho, 1000 + 500 * i);
    EXPECT_EQUAL(10, tacho.view.count);
    EXPECT_EQUAL(500, tacho.view.period);
    EXPECT_EQUAL(1500, tacho.view.revolution);
    EXPECT_EQUAL(100, tacho_age(&tacho.view, 1000 + 500 * 9 + 100));
}

TEST(Unevenly_spaced_marks_do_not_look_like_over_speed)
{
    struct tacho tacho = {.pulses_per_rev = 2};
    ticks_t at = 0;
    for (int i = 0; i < 40; i++)
        tacho_pulse(&tacho, at += i % 2 ? 400 : 600);
    EXPECT_EQUAL(400, tacho.view.least_period);
    EXPECT_EQUAL(1000, tacho.view.least_revolution);
}

TEST(Every_number_of_marks_that_may_be_configured_gives_its_revolution)
{
    for (uint8_t marks = 1; marks <= TACHO_MOST_PULSES; marks++) {
        struct tacho tacho = {.pulses_per_rev = marks};
        for (ticks_t i = 0; i <= marks; i++) {
            EXPECT_EQUAL(0, tacho.view.revolution);
            tacho_pulse(&tacho, 70 + 100 * i);
        }
        EXPECT_EQUAL(100 * marks, tacho.view.revolution);
    }
}

TEST(The_shortest_revolution_is_kept_until_it_is_taken)
{
    struct tacho tacho = {.pulses_per_rev = 1};
    const ticks_t times[] = {1000, 2000, 2300, 4000, 6000};
    for (size_t i = 0; i < 5; i++)
        tacho_pulse(&tacho, times[i]);
    EXPECT_EQUAL(300, tacho_take(&tacho).least_revolution);
    EXPECT_EQUAL(0, tacho_take(&tacho).least_revolution);
    EXPECT_EQUAL(2000, tacho.view.revolution);
}

TEST(A_period_across_the_wrap_of_the_clock_is_right)
{
    struct tacho tacho = {.pulses_per_rev = 1};
    tacho_pulse(&tacho, (ticks_t)0 - 300);
    tacho_pulse(&tacho, 700);
    EXPECT_EQUAL(1000, tacho.view.period);
}

TEST(A_rotor_at_rest_gives_no_period_to_the_pulse_that_starts_it_again)
{
    struct tacho tacho = {.pulses_per_rev = 1};
    tacho_pulse(&tacho, 1000);
    tacho_pulse(&tacho, 2000);
    tacho_rest(&tacho, 2000 + TACHO_LONGEST);
    EXPECT_EQUAL(TACHO_LONGEST, tacho_age(&tacho.view, 5));
    tacho_pulse(&tacho, 2100);
    EXPECT_EQUAL(0, tacho.view.period);
    EXPECT_EQUAL(0, tacho.view.revolution);
    EXPECT_EQUAL(3, tacho.view.count);
}

TEST(A_tachometer_that_never_pulsed_is_as_old_as_can_be_shown)
{
    const struct tacho tacho = {0};
    EXPECT_EQUAL(TACHO_LONGEST, tacho_age(&tacho.view, 0));
    EXPECT_EQUAL(TACHO_LONGEST, tacho_age(&tacho.view, 12345));
}

TEST(A_pulse_is_measured_from_its_rise_to_its_fall)
{
    struct gauge gauge = {0};
    gauge_edge(&gauge, true, 100);
    EXPECT(!gauge.known);
    gauge_edge(&gauge, false, 3100);
    EXPECT(gauge.known);
    EXPECT_EQUAL(3000, gauge.width);
    EXPECT_EQUAL(100, gauge.rose);
    EXPECT_EQUAL(3100, gauge.fell);
}

TEST(A_fall_without_a_rise_is_no_pulse)
{
    struct gauge gauge = {0};
    gauge_edge(&gauge, false, 3100);
    EXPECT(!gauge.known);
    gauge_edge(&gauge, true, 4000);
    gauge_edge(&gauge, false, 5000);
    gauge_edge(&gauge, false, 9000);
    EXPECT_EQUAL(1000, gauge.width);
}

TEST(An_old_pulse_is_forgotten)
{
    struct gauge gauge = {.known = true, .fell = 1000};
    gauge_age(&gauge, 1000 + TICKS_MS(99), TICKS_MS(100));
    EXPECT(gauge.known);
    gauge_age(&gauge, 1000 + TICKS_MS(100), TICKS_MS(100));
    EXPECT(!gauge.known);
}

TEST(A_pulse_that_fell_just_after_the_clock_was_read_is_not_an_old_one)
{
    struct gauge gauge = {.known = true, .fell = 1000};
    gauge_age(&gauge, 990, TICKS_MS(5));
    EXPECT(gauge.known);
    gauge.fell = 5;
    gauge_age(&gauge, (ticks_t)-5, TICKS_MS(5));
    EXPECT(gauge.known);
}

static struct analog fresh(void)
{
    struct analog analog = {.lowest_current = 100, .highest_current = 900};
    analog_take(&analog);
    return analog;
}

TEST(Peaks_are_kept_and_the_mean_is_in_tenths_of_a_count)
{
    struct analog analog = fresh();
    const uint16_t counts[] = {500, 501, 1023, 2};
    for (int i = 0; i < 4; i++)
        analog_add(&analog, CHANNEL_VOLTAGE, counts[i]);
    const struct extent *voltage = &analog.extent[CHANNEL_VOLTAGE];
    EXPECT_EQUAL(2, voltage->lowest);
    EXPECT_EQUAL(1023, voltage->highest);
    EXPECT_EQUAL(5065, extent_mean(voltage));
}

TEST(A_channel_without_a_reading_has_its_lowest_above_its_highest)
{
    struct analog analog = fresh();
    analog_add(&analog, CHANNEL_VOLTAGE, 10);
    EXPECT(analog.extent[CHANNEL_CURRENT].lowest > analog.extent[CHANNEL_CURRENT].highest);
    EXPECT_EQUAL(0, extent_mean(&analog.extent[CHANNEL_CURRENT]));
}

TEST(A_long_frame_of_highest_readings_does_not_overflow_the_mean)
{
    struct analog analog = fresh();
    for (int i = 0; i < 1000; i++)
        analog_add(&analog, CHANNEL_VOLTAGE, 1023);
    analog_add(&analog, CHANNEL_VOLTAGE, 1);
    EXPECT_EQUAL(10230, extent_mean(&analog.extent[CHANNEL_VOLTAGE]));
    EXPECT_EQUAL(1, analog.extent[CHANNEL_VOLTAGE].lowest);
}

TEST(Consecutive_readings_beyond_either_current_limit_make_one_run)
{
    struct analog analog = fresh();
    const uint16_t counts[] = {500, 99, 901, 50, 100, 950};
    for (int i = 0; i < 6; i++)
        analog_add(&analog, CHANNEL_CURRENT, counts[i]);
    EXPECT_EQUAL(3, analog_take_run(&analog));
    EXPECT_EQUAL(1, analog_take_run(&analog));
}

TEST(A_run_goes_on_over_a_take_and_other_channels_do_not_break_it)
{
    struct analog analog = fresh();
    for (int i = 0; i < 300; i++) {
        analog_add(&analog, CHANNEL_CURRENT, 1000);
        analog_add(&analog, CHANNEL_VOLTAGE, 500);
        EXPECT_EQUAL(i < 255 ? i + 1 : 255, analog_take_run(&analog));
    }
}

TEST(Limits_that_were_never_loaded_make_every_reading_beyond)
{
    struct analog analog = {0};
    analog_add(&analog, CHANNEL_CURRENT, 512);
    EXPECT_EQUAL(1, analog_take_run(&analog));
}

TEST(A_round_of_the_converter_visits_every_channel_and_mostly_voltage_and_current)
{
    int visits[CHANNEL_COUNT] = {0};
    for (uint8_t place = 0; place < ANALOG_ROUND; place++)
        visits[analog_channel(place)]++;
    EXPECT_EQUAL(6, visits[CHANNEL_VOLTAGE]);
    EXPECT_EQUAL(6, visits[CHANNEL_CURRENT]);
    EXPECT_EQUAL(1, visits[CHANNEL_THERMISTOR_1]);
    EXPECT_EQUAL(1, visits[CHANNEL_THERMISTOR_2]);
}

TEST(No_permitted_pulse_at_any_rate_reaches_the_end_of_its_frame)
{
    for (uint16_t rate = 50; rate <= 400; rate++) {
        const uint32_t frame = pulse_top(rate) + 1u;
        EXPECT(frame <= 40000 && frame >= 5000);
        EXPECT(2000000.0 / rate - frame < 1.0);
        for (uint16_t us = PULSE_LEAST; us <= PULSE_MOST; us++) {
            const uint32_t high = pulse_compare(us) + 1u;
            if (high != 2u * us || high + 2u * PULSE_SPARE > frame)
                EXPECT_EQUAL(us, 0);
        }
    }
}
