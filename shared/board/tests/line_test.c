#include "../core/line.h"
#include "../core/crc.h"
#include "tests.h"

static const char *text_of(struct line *line)
{
    static char text[LINE_LONGEST + 1];
    memcpy(text, line->text, line->length);
    text[line->length] = '\0';
    return text;
}

TEST(A_line_is_word_number_fields_CRC_and_line_feed)
{
    struct line line;
    line_begin(&line, "reset", 0x002A);
    line_hex(&line, 0x5F2C, 4);
    line_end(&line);
    EXPECT_TEXT("reset 002A 5F2C #D9A8\n", text_of(&line));
}

TEST(Decimals_have_no_leading_zeros_whatever_their_size)
{
    const uint32_t values[] = {0, 1, 9, 10, 99, 100, 65535, 65536, 99999, 100000, 9999999, 1000000000, 2147483647, 4294967295u};
    for (size_t i = 0; i < sizeof values / sizeof *values; i++) {
        struct line line;
        char expected[16];
        snprintf(expected, sizeof expected, "%u", values[i]);
        line_clear(&line);
        line_decimal(&line, values[i]);
        EXPECT_TEXT(expected, text_of(&line));
    }
}

TEST(Hexadecimals_are_upper_case_and_of_fixed_width)
{
    struct line line;
    line_clear(&line);
    line_hex(&line, 0x00AB, 4);
    line_hex(&line, 0xF, 1);
    line_hex(&line, 0xDEADBEEF, 8);
    EXPECT_TEXT("00AB F DEADBEEF", text_of(&line));
}

TEST(A_CRC_worked_out_in_stretches_is_that_of_the_whole)
{
    struct line line;
    uint16_t crc = CRC_START;
    line_begin(&line, "now", 7);
    line_sum(&line);
    line_decimal(&line, 123456);
    line_sum(&line);
    line_word(&line, "idle");
    line_end(&line);
    const char *text = text_of(&line);
    const char *mark = strchr(text, '#');
    for (const char *at = text; at != mark; at++)
        crc = crc_add(crc, (uint8_t)*at);
    char expected[8];
    snprintf(expected, sizeof expected, "#%04X\n", crc);
    EXPECT_TEXT(expected, mark);
}

TEST(A_line_that_does_not_fit_is_marked_and_writes_nothing_beyond_its_end)
{
    struct line line;
    line_begin(&line, "now", 0);
    for (int i = 0; i < 50; i++)
        line_decimal(&line, 4294967295u);
    line_end(&line);
    EXPECT(line.spoilt);
    EXPECT_EQUAL(LINE_LONGEST, line.length);
}
