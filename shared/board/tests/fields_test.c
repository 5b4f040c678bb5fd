#include "../core/fields.h"
#include "tests.h"

static struct fields of(const char *text)
{
    struct fields fields;
    fields_start(&fields, text);
    return fields;
}

static bool decimal_is_good(const char *text, uint32_t least, uint32_t most)
{
    struct fields fields = of(text);
    fields_decimal(&fields, least, most);
    return fields_end(&fields);
}

TEST(Fields_are_read_from_left_to_right)
{
    struct fields fields = of("drive 01A3 1480 1 0");
    EXPECT(fields_word(&fields, "drive"));
    EXPECT_EQUAL(0x01A3, fields_hex(&fields));
    EXPECT_EQUAL(1480, fields_decimal(&fields, 800, 2200));
    EXPECT(fields_flag(&fields));
    EXPECT(!fields_flag(&fields));
    EXPECT(fields_end(&fields));
}

TEST(A_word_must_match_whole)
{
    struct fields fields = of("driver 1");
    EXPECT(!fields_word(&fields, "drive"));
    EXPECT(!fields_word(&fields, "drivers"));
    EXPECT(fields_word(&fields, "driver"));
}

TEST(Decimals_are_held_to_their_range_at_both_ends)
{
    EXPECT(decimal_is_good("800", 800, 2200));
    EXPECT(decimal_is_good("2200", 800, 2200));
    EXPECT(!decimal_is_good("799", 800, 2200));
    EXPECT(!decimal_is_good("2201", 800, 2200));
}

TEST(Signs_leading_zeros_fractions_and_letters_are_not_decimals)
{
    const char *bad[] = {"", "-1", "+1", "01", "00", "1.0", "1e3", "0x10", "12a", "none", "1234567890", "99999999999999999999"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        EXPECT(!decimal_is_good(bad[i], 0, 999999999));
    EXPECT(decimal_is_good("0", 0, 1));
    EXPECT(decimal_is_good("999999999", 0, 999999999));
}

TEST(A_number_out_of_range_is_told_apart_from_a_malformed_one)
{
    struct fields far = of("9000");
    struct fields wrong = of("9O00");
    fields_decimal(&far, 0, 10);
    fields_decimal(&wrong, 0, 10000);
    EXPECT(far.out_of_range && !far.malformed);
    EXPECT(wrong.malformed);
}

TEST(Hexadecimals_need_four_upper_case_digits)
{
    const char *bad[] = {"", "1", "01A", "01a3", "01A3F", "0x1A", "01G3"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct fields fields = of(bad[i]);
        fields_hex(&fields);
        EXPECT(!fields_end(&fields));
    }
}

TEST(A_flag_is_0_or_1_and_nothing_else)
{
    const char *bad[] = {"", "2", "01", "10", "on", "-"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct fields fields = of(bad[i]);
        fields_flag(&fields);
        EXPECT(!fields_end(&fields));
    }
}

TEST(Doubled_leading_and_trailing_spaces_are_mistakes)
{
    const char *bad[] = {"1  2", " 1 2", "1 2 ", "1 2  "};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct fields fields = of(bad[i]);
        fields_decimal(&fields, 0, 9);
        fields_decimal(&fields, 0, 9);
        EXPECT(!fields_end(&fields));
    }
}

TEST(Missing_and_surplus_fields_are_mistakes)
{
    struct fields few = of("1");
    struct fields many = of("1 2 3");
    fields_decimal(&few, 0, 9);
    fields_decimal(&few, 0, 9);
    fields_decimal(&many, 0, 9);
    fields_decimal(&many, 0, 9);
    EXPECT(!fields_end(&few));
    EXPECT(!fields_end(&many));
}

TEST(Reading_on_after_a_mistake_never_leaves_the_text)
{
    struct fields fields = of("x");
    for (int i = 0; i < 20; i++) {
        fields_hex(&fields);
        fields_decimal(&fields, 0, 9);
        fields_flag(&fields);
        fields_skip(&fields);
    }
    EXPECT(!fields_end(&fields));
}
