#include "../core/config.h"
#include "stand.h"
#include "tests.h"

#define COUNT 17

static const char *good[COUNT] = {"1000", "1000", "2000", "1000", "400", "2", "3000", "100", "900", "4", "300", "100", "100", "50", "20", "stop", "none"};

static bool reads(const char *text, struct config *config)
{
    struct fields fields;
    fields_start(&fields, text);
    return config_read(config, &fields);
}

/* The good configuration with one field replaced. */
static bool reads_with(int field, const char *value)
{
    char text[200] = "";
    struct config config;
    for (int i = 0; i < COUNT; i++) {
        strcat(text, i ? " " : "");
        strcat(text, i == field ? value : good[i]);
    }
    return reads(text, &config);
}

TEST(Every_field_is_held_to_the_range_that_the_protocol_states)
{
    static const struct { int field; uint32_t least, most; } range[] = {
        {0, 800, 2200}, {1, 800, 2000}, {2, 1000, 2200}, {3, 800, 2200}, {4, 50, 400}, {5, 1, 16}, {6, 500, 4000000}, {7, 0, 511},
        {8, 512, 1023}, {9, 1, 200}, {10, 20, 10000}, {11, 1, 1000}, {12, 20, 500}, {13, 10, 500}, {14, 6, 200}};
    for (size_t i = 0; i < sizeof range / sizeof *range; i++) {
        char value[16];
        const uint32_t values[] = {range[i].least, range[i].most, range[i].most + 1, range[i].least - 1};
        for (int k = 0; k < (range[i].least ? 4 : 3); k++) {
            snprintf(value, sizeof value, "%u", values[k]);
            EXPECT_EQUAL(k < 2, reads_with(range[i].field, value));
        }
    }
}

TEST(There_are_no_defaults_a_missing_field_is_a_mistake)
{
    struct config config;
    EXPECT(!reads("1000 1000 2000 1000 400 2 3000 100 900 4 300 100 100 50 20", &config));
    EXPECT(!reads("1000 1000 2000 1000 400 2 3000 100 900 4 300 100 100 50 20 stop none 0", &config));
    EXPECT(!reads("", &config));
    for (int i = 0; i < COUNT; i++)
        EXPECT(!reads_with(i, "x"));
}

TEST(Only_the_tachometer_and_the_second_output_may_be_absent_and_only_by_the_word_none)
{
    for (int i = 0; i < COUNT; i++)
        EXPECT_EQUAL(i == 10 || i == 16, reads_with(i, "none"));
    EXPECT(!reads_with(10, "0"));
}

TEST(What_is_read_is_written_back_the_same)
{
    const char *texts[] = {
        "1000 1000 2000 1000 400 2 3000 100 900 4 300 100 100 50 20 stop none",
        "1500 1100 1900 1500 50 16 4000000 0 1023 200 none 1 500 500 200 cease none",
    };
    for (size_t i = 0; i < 2; i++) {
        struct config config;
        struct line line;
        EXPECT(reads(texts[i], &config));
        line_clear(&line);
        config_write(&config, &line);
        EXPECT_EQUAL(strlen(texts[i]), line.length);
        EXPECT(memcmp(texts[i], line.text, line.length) == 0);
    }
}

/* Source: protocol.md; derived with a bitwise program of its own. */
TEST(The_digest_of_the_protocols_example_comes_out)
{
    struct config config;
    struct line scratch;
    EXPECT(reads("1000 1000 2000 1000 400 2 3000 100 900 4 300 100 100 50 20 stop none", &config));
    EXPECT_EQUAL(0x891D, config_digest(&config, &scratch));
}

TEST(A_digest_is_never_the_one_that_means_nothing_loaded)
{
    struct config config;
    struct line scratch;
    bool wrapped = false;
    EXPECT(reads("1000 1000 2000 1000 400 2 3000 100 900 4 300 100 100 50 20 stop none", &config));
    for (uint32_t i = 0; i < 400000 && !wrapped; i++) {
        config.least_revolution = 500 + i % 4001;
        config.stop_pulse = (uint16_t)(800 + i / 4001);
        const uint16_t digest = config_digest(&config, &scratch);
        EXPECT(digest != DIGEST_NONE);
        wrapped |= scratch.crc == DIGEST_NONE;
    }
    EXPECT(wrapped);
}

TEST(Changing_any_field_changes_the_digest)
{
    static const char *other[COUNT] = {"1001", "1001", "2001", "1001", "399", "3", "3001", "101", "901", "5", "301", "101", "101", "51", "21", "cease", "1500 1100 1900"};
    struct config config;
    struct line scratch;
    for (int field = 0; field < COUNT; field++) {
        char text[200] = "";
        for (int i = 0; i < COUNT; i++) {
            strcat(text, i ? " " : "");
            strcat(text, i == field ? other[i] : good[i]);
        }
        EXPECT(reads(text, &config));
        EXPECT(config_digest(&config, &scratch) != 0x891D);
    }
}

TEST(Permitted_pulses_are_stop_arming_and_the_range_between_least_and_greatest)
{
    struct config config;
    EXPECT(reads("900 1100 1900 950 400 2 3000 100 900 4 300 100 100 50 20 stop none", &config));
    for (uint16_t pulse = 0; pulse < 3000; pulse++)
        EXPECT_EQUAL(pulse == 900 || pulse == 950 || (pulse >= 1100 && pulse <= 1900), config_permits(&config, pulse));
}

TEST(A_second_output_has_a_stop_within_its_ends)
{
    struct config config;
    EXPECT(reads_with(16, "1500 1100 1900"));
    EXPECT(reads_with(16, "1100 1100 1900"));
    EXPECT(!reads_with(16, "1000 1100 1900"));
    EXPECT(!reads_with(16, "1950 1100 1900"));
    EXPECT(!reads_with(16, "1500 1900 1100"));
    EXPECT(!reads_with(16, "1500 1100"));
    EXPECT(!reads_with(16, "1500 1100 2201"));
    EXPECT(reads(STAND_CONFIG_SECOND, &config));
    EXPECT(config_permits_second(&config, 1100) && config_permits_second(&config, 1900));
    EXPECT(!config_permits_second(&config, 1099) && !config_permits_second(&config, 1901) && !config_permits_second(&config, 0));
    EXPECT(reads(STAND_CONFIG, &config));
    EXPECT(config_permits_second(&config, 0) && !config_permits_second(&config, 1500));
}
