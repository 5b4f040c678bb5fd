#include "../core/report.h"
#include "../core/telemetry.h"
#include "stand.h"
#include "tests.h"

static const struct identity identity = {.name = "bench-1", .nonce = 0x0000BEEF, .cause = RESET_WATCHDOG, .flash_good = true, .ram_good = true};

/* The line without its CRC, as text. */
static const char *text_of(struct line *line)
{
    static char text[LINE_LONGEST + 1];
    memcpy(text, line->text, line->length);
    text[line->length] = '\0';
    char *mark = strrchr(text, '#');
    if (mark)
        *mark = '\0';
    return text;
}

static void expect_name(const char *expected, const char *bytes)
{
    struct identity named = {0};
    report_name(&named, (const uint8_t *)bytes);
    EXPECT_TEXT(expected, named.name);
}

TEST(A_board_without_a_proper_name_in_its_EEPROM_is_unnamed)
{
    expect_name("unnamed", "\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF");
    expect_name("unnamed", "Rig 1\xFF\xFF\xFF");
    expect_name("unnamed", "rig 1\xFF\xFF\xFF");
    expect_name("rig-1", "rig-1\xFF\xFF\xFF");
    expect_name("rig-1", "rig-1\0\xFF\xFF");
    expect_name("eight-08", "eight-08");
}

TEST(The_greeting_says_versions_identity_nonce_reset_cause_self_tests_and_digest)
{
    struct stand stand;
    struct line line;
    stand_start(&stand);
    report_hello(&line, &stand.board, &identity, 0);
    EXPECT_TEXT("hello 0001 1 1.2.0 bench-1 0000BEEF watchdog good good 0000 ", text_of(&line));
}

TEST(Every_latched_cause_is_told_once_with_its_time)
{
    struct stand stand;
    struct line line;
    stand_ready(&stand, STAND_CONFIG);
    while (report_trip(&line, &stand.board, 0))
        ;
    board_latch(&stand.board, CAUSE_SPEED, 2469);
    board_latch(&stand.board, CAUSE_LID, 2000);
    board_latch(&stand.board, CAUSE_LID, 9000);
    stand.board.host.last_sent = 0x10;
    EXPECT(report_trip(&line, &stand.board, 0));
    EXPECT_TEXT("trip 0011 1000 lid 0044 ", text_of(&line));
    EXPECT(report_trip(&line, &stand.board, 0));
    EXPECT_TEXT("trip 0012 1234 speed 0044 ", text_of(&line));
    EXPECT(!report_trip(&line, &stand.board, 0));
}

TEST(The_causes_have_the_words_of_the_protocol)
{
    static const char *words[CAUSE_COUNT] = {"start", "selftest", "lid", "lidpair", "stop", "silent", "speed", "current", "tacho", "contactor", "sampler", "receiver"};
    for (enum cause cause = 0; cause < CAUSE_COUNT; cause++)
        EXPECT_TEXT(words[cause], cause_word(cause));
}

TEST(A_stop_is_told_once_with_time_and_width)
{
    struct stand stand;
    struct line line;
    stand_start(&stand);
    EXPECT(!report_stopped(&line, &stand.board, 0));
    stand.board.stopping = (struct stopping){.found = true, .fell = 9000, .width = 2000};
    EXPECT(report_stopped(&line, &stand.board, 0));
    EXPECT_TEXT("stopped 0001 4500 1000 ", text_of(&line));
    EXPECT(!report_stopped(&line, &stand.board, 0));
}

TEST(Orders_are_receipted_in_the_words_of_the_protocol)
{
    struct stand stand;
    struct line line;
    stand_start(&stand);
    stand_load(&stand, STAND_CONFIG);
    EXPECT(report_receipt(&line, &stand.board, &stand.last, &identity, 0));
    EXPECT_TEXT("loaded 0001 0001 891D " STAND_CONFIG " ", text_of(&line));
    stand_reset(&stand);
    EXPECT(report_receipt(&line, &stand.board, &stand.last, &identity, 0));
    EXPECT_TEXT("no 0002 0002 reset bare ", text_of(&line));
    const struct receipt reset = {.order = ORDER_RESET, .host = 0xABC};
    EXPECT(report_receipt(&line, &stand.board, &reset, &identity, 0));
    EXPECT_TEXT("ok 0003 0ABC reset ", text_of(&line));
    const struct receipt unknown = {.reason = REASON_WORD, .host = 1};
    EXPECT(report_receipt(&line, &stand.board, &unknown, &identity, 0));
    EXPECT_TEXT("no 0004 0001 ? word ", text_of(&line));
}

TEST(An_accepted_demand_has_no_line_of_its_own)
{
    struct stand stand;
    struct line line;
    const struct receipt demand = {.order = ORDER_DRIVE};
    stand_start(&stand);
    EXPECT(!report_receipt(&line, &stand.board, &demand, &identity, 0));
    EXPECT_EQUAL(0, stand.board.host.last_sent);
}

static const char *telemetry_of(struct board *board, const struct extent extent[CHANNEL_COUNT], const struct errors *errors)
{
    static struct telemetry telemetry;
    static struct line line;
    telemetry_take(&telemetry, board, extent, errors, 0xBEEF, &line);
    while (!telemetry_write(&telemetry, &line))
        ;
    EXPECT(!line.spoilt);
    EXPECT(line.length <= 196);
    return text_of(&line);
}

TEST(A_telemetry_line_holds_its_fields_in_the_order_of_the_protocol)
{
    struct stand stand;
    const struct extent extent[CHANNEL_COUNT] = {{600, 620, 1220, 2}, {500, 530, 1545, 3}, {400, 400, 400, 1}, {1010, 1010, 1010, 1}};
    const struct errors errors = {1, 2, 3, 4};
    stand_ready(&stand, STAND_CONFIG);
    stand.board.host.last_sent = 0x0FFF;
    stand.board.host.accepted = 0x1234;
    stand.board.in.bolt_home = true;
    stand.board.in.now = 2469135;
    stand.board.in.servo = (struct gauge){.known = true, .width = 2000};
    stand.board.in.receiver = (struct gauge){.known = true, .width = 3000};
    stand.board.in.tacho = (struct tacho_view){.any = true, .count = 77, .last = 2469135 - 1000, .period = 10001};
    stand.board.least_period = 9000;
    EXPECT_TEXT("now 1000 1234567 BEEF 891D idle 0000 084F 00 1000 1000 77 5000 4500 500 600 6100 620 500 5150 530 400 4000 400 "
                "1010 10100 1010 4 1500 1234 01020304 0 ",
                telemetry_of(&stand.board, extent, &errors));
    EXPECT_EQUAL(0, stand.board.least_period);
}

TEST(A_key_that_is_closed_is_shown_fresh_only_after_a_closing)
{
    struct stand stand;
    const struct errors errors = {0};
    const struct extent extent[CHANNEL_COUNT] = {{0}};
    stand_ready(&stand, STAND_CONFIG);
    stand.board.key.contact.closed = true;
    EXPECT(strstr(telemetry_of(&stand.board, extent, &errors), " idle 0000 081B 00 "));
    stand.board.key.fresh = true;
    EXPECT(strstr(telemetry_of(&stand.board, extent, &errors), " idle 0000 089B 00 "));
}

TEST(The_longest_telemetry_line_is_as_short_as_the_protocol_promises)
{
    struct stand stand;
    const struct extent most = {1023, 1023, 64 * 1023, 64};
    const struct extent extent[CHANNEL_COUNT] = {most, most, most, most};
    const struct errors errors = {255, 255, 255, 255};
    stand_ready(&stand, STAND_CONFIG);
    stand.board.in.now = UINT32_MAX;
    stand.board.in.servo = (struct gauge){.known = true, .width = UINT16_MAX};
    stand.board.in.tacho = (struct tacho_view){.count = 65535, .period = TACHO_LONGEST};
    stand.board.out.second = PULSE_MOST;
    stand.board.in.receiver = (struct gauge){.known = true, .width = TICKS_US(PULSE_MOST)};
    stand.board.least_period = TACHO_LONGEST;
    telemetry_of(&stand.board, extent, &errors);
}

TEST(Open_and_shorted_thermistors_are_flagged)
{
    struct stand stand;
    const struct errors errors = {0};
    const struct extent good = {500, 500, 500, 1};
    const struct extent open = {500, 1008, 1508, 2};
    const struct extent shorted = {15, 500, 515, 2};
    const struct extent none = {1023, 0, 0, 0};
    const struct { struct extent one, two; const char *flag; } cases[] = {
        {good, good, " 0 "}, {open, good, " 1 "}, {shorted, good, " 2 "}, {good, open, " 4 "}, {good, shorted, " 8 "}, {none, none, " 0 "}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct extent extent[CHANNEL_COUNT] = {good, good, cases[i].one, cases[i].two};
        stand_start(&stand);
        const char *text = telemetry_of(&stand.board, extent, &errors);
        for (int field = 0; field < 27; field++)
            text = strchr(text, ' ') + 1;
        EXPECT(strncmp(text, cases[i].flag + 1, 2) == 0);
    }
}

TEST(A_receiver_pulse_that_no_receiver_sends_is_not_shown)
{
    struct stand stand;
    const struct errors errors = {0};
    const struct extent extent[CHANNEL_COUNT] = {{0}};
    const ticks_t widths[] = {TICKS_US(799), TICKS_US(2201)};
    for (int i = 0; i < 2; i++) {
        stand_start(&stand);
        stand.board.in.receiver = (struct gauge){.known = true, .width = widths[i]};
        EXPECT(strstr(telemetry_of(&stand.board, extent, &errors), " 0 0000 00000000 0 "));
    }
}
