#include "../core/inbox.h"
#include "../core/crc.h"
#include "tests.h"

#define GOOD "reset 002A 5F2C #D9A8\n"

/* Feeds text; returns how many lines came out good, and counts the bad ones. */
static int feed(struct inbox *inbox, const char *text, int *bad)
{
    int good = 0;
    for (; *text; text++) {
        const enum inbox_result result = inbox_take(inbox, (uint8_t)*text);
        good += result == INBOX_LINE;
        *bad += result == INBOX_BAD;
    }
    return good;
}

static void start_in_step(struct inbox *inbox)
{
    inbox_start(inbox);
    inbox_take(inbox, '\n');
}

static void expect(const char *text, int good, int bad)
{
    struct inbox inbox;
    int counted = 0;
    start_in_step(&inbox);
    EXPECT_EQUAL(good, feed(&inbox, text, &counted));
    EXPECT_EQUAL(bad, counted);
}

TEST(A_good_line_comes_out_without_its_CRC)
{
    struct inbox inbox;
    int bad = 0;
    start_in_step(&inbox);
    EXPECT_EQUAL(1, feed(&inbox, GOOD, &bad));
    EXPECT_TEXT("reset 002A 5F2C", inbox.text);
}

TEST(Lines_one_after_the_other_all_come_out) { expect(GOOD GOOD GOOD, 3, 0); }

TEST(A_line_under_way_when_listening_begins_is_skipped)
{
    struct inbox inbox;
    int bad = 0;
    inbox_start(&inbox);
    EXPECT_EQUAL(1, feed(&inbox, "5F2C #D9A8\n" GOOD, &bad));
    EXPECT_EQUAL(1, bad);
}

TEST(Nothing_counts_before_the_first_line_feed_since_it_may_be_the_tail_of_something_older)
{
    struct inbox inbox;
    int bad = 0;
    inbox_start(&inbox);
    EXPECT_EQUAL(0, feed(&inbox, GOOD, &bad));
    EXPECT_EQUAL(1, feed(&inbox, GOOD, &bad));
}

TEST(A_torn_line_is_lost_and_the_next_one_is_not) { expect("reset 002A 5F\n" GOOD, 1, 1); }

TEST(A_torn_line_that_runs_into_the_next_spoils_both_and_no_more) { expect("reset 00" GOOD GOOD, 1, 1); }

TEST(A_wrong_CRC_is_refused) { expect("reset 002A 5F2C #D9A9\n", 0, 1); }

TEST(A_CRC_in_lower_case_or_of_another_length_is_refused)
{
    expect("reset 002A 5F2C #d9a8\n", 0, 1);
    expect("reset 002A 5F2C #D9A\n", 0, 1);
    expect("reset 002A 5F2C #D9A8 \n", 0, 1);
    expect("reset 002A 5F2C #0D9A8\n", 0, 1);
}

TEST(A_line_without_a_mark_or_with_nothing_before_it_is_refused)
{
    expect("reset 002A 5F2C D9A8\n", 0, 1);
    expect("\n", 0, 1);
    expect("#FFFF\n", 0, 1);
    expect(" #C592\n", 0, 1);
}

TEST(Unprintable_bytes_and_carriage_returns_spoil_a_line)
{
    expect("reset 002A 5F2C #D9A8\r\n" GOOD, 1, 1);
    expect("reset\t002A 5F2C #D9A8\n" GOOD, 1, 1);
    expect("\xFF\xFE\x80" GOOD GOOD, 1, 1);
}

/* Makes a line of `length` bytes, line feed included, with a right CRC. */
static void make_line(char *text, size_t length)
{
    uint16_t crc = CRC_START;
    memset(text, 'a', length);
    text[length - 7] = ' ';
    for (size_t i = 0; i < length - 6; i++)
        crc = crc_add(crc, (uint8_t)text[i]);
    snprintf(text + length - 6, 7, "#%04X\n", crc);
}

TEST(The_longest_line_is_taken_and_one_byte_more_is_dropped_whole)
{
    char text[INBOX_LONGEST + 2];
    make_line(text, INBOX_LONGEST);
    expect(text, 1, 0);
    make_line(text, INBOX_LONGEST + 1);
    expect(text, 0, 1);
}

TEST(Any_amount_of_garbage_without_a_line_feed_is_one_bad_line)
{
    struct inbox inbox;
    uint32_t seed = 12;
    int bad = 0;
    start_in_step(&inbox);
    for (int i = 0; i < 100000; i++) {
        const uint8_t byte = (uint8_t)tests_random(&seed);
        EXPECT(byte == '\n' || inbox_take(&inbox, byte) == INBOX_MORE);
    }
    feed(&inbox, "\n", &bad);
    EXPECT_EQUAL(1, bad);
    EXPECT_EQUAL(1, feed(&inbox, GOOD, &bad));
}

TEST(Every_prefix_of_a_good_line_is_refused)
{
    const char line[] = GOOD;
    for (size_t length = 0; length < sizeof line - 2; length++) {
        char torn[sizeof line + 1];
        memcpy(torn, line, length);
        strcpy(torn + length, "\n");
        expect(torn, 0, 1);
    }
}
