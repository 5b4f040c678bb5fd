/* The main loop: look at everything and decide, then talk, then listen, then sleep until an interrupt. */
#include <avr/io.h>
#include <avr/fuse.h>
#include <avr/interrupt.h>
#include <avr/sleep.h>
#include <avr/wdt.h>
#include <util/atomic.h>
#include "../core/inbox.h"
#include "../core/pulse.h"
#include "../core/telemetry.h"
#include "../core/watch.h"
#include "clock.h"
#include "pins.h"
#include "second.h"
#include "selftest.h"
#include "sensors.h"
#include "serial.h"
#include "servo.h"

/* Full-swing crystal with the longest start-up; no bootloader, watchdog always on, EEPROM kept; brown-out reset at 4.3 V. */
FUSES = {.low = 0xF7, .high = 0xC7, .extended = 0xFC};

static struct board board;
static struct identity identity;
static struct inbox inbox;
static struct line line; /* the one being written */
static struct telemetry telemetry;
static struct errors errors;
static ticks_t frame; /* between two servo pulses */
static ticks_t telemetry_due;
static bool ready;        /* the line is finished and does not yet fit into what is being sent */
static bool news;         /* a pass has been made, or a line said, since there was last nothing to say */
static bool refusal_told; /* since the last telemetry line */

static ticks_t now(void)
{
    ticks_t ticks;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { ticks = clock_now(); }
    return ticks;
}

static void retune(void)
{
    const uint16_t rate = board.config.rate ? board.config.rate : PULSE_RATE_AT_START;
    board.retune = false;
    frame = (ticks_t)pulse_top(rate) + 1u;
    sensors_retune(&board.config);
    servo_set_rate(rate);
}

/* Toggled here and nowhere else: a loop that hangs, or skips a check, lets the contactor go. */
static uint8_t power_wave(void) { return board.out.power && watch_complete(&board) ? ~PORTB & PIN_POWER_WATCH : 0; }

static void put_out(void)
{
    uint8_t pins = power_wave();
    if (board.out.release)
        pins |= PIN_LOCK_RELEASE;
    if (board.out.marker)
        pins |= PIN_MARKER;
    servo_put(board.out.pulse);
    second_put(board.out.second);
    servo_share_port(pins);
}

static void pass(void)
{
    sensors_read(&board.in, frame);
    watch_pass(&board);
    put_out();
    news = true;
    if (watch_complete(&board)) {
        servo_attend();
        wdt_reset();
    }
}

static bool pass_is_due(void)
{
    bool due;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { due = clock_take_pass() || sensors_edge(); }
    return due;
}

/* Sends the finished line, or keeps it until it fits. */
static void send(void)
{
    if (line.spoilt)
        errors.dropped++;
    ready = !line.spoilt && !serial_send(line.text, line.length);
}

static void begin_telemetry(void)
{
    struct extent extent[CHANNEL_COUNT];
    sensors_take_extents(extent);
    errors.overruns = serial_overruns();
    telemetry_take(&telemetry, &board, extent, &errors, (uint16_t)identity.nonce, &line);
    telemetry_due += TELEMETRY_PERIOD;
    refusal_told = false;
}

static bool telemetry_is_due(void) { return (int32_t)(board.in.now - telemetry_due) >= 0; }

/* Begins the next line that there is to say, if any. */
static bool begin_line(void)
{
    if (telemetry_is_due())
        begin_telemetry();
    else if (report_trip(&line, &board, now()) || report_stopped(&line, &board, now()))
        send();
    else
        return false;
    return true;
}

/* Says a little. True when there is more to say; asked again after each pass at the latest. */
static bool talk(void)
{
    if (ready)
        send();
    else if (telemetry.field == TELEMETRY_IDLE)
        news = news && begin_line();
    else if (telemetry_write(&telemetry, &line))
        send();
    return !ready && (news || telemetry.field != TELEMETRY_IDLE);
}

#ifdef HANG_TEST
/* Test build: `hang` makes the loop spin for good with interrupts on. */
static void hang_if_told(void)
{
    if (inbox.text[0] == 'h' && inbox.text[1] == 'a')
        for (;;)
            ;
}
#else
static void hang_if_told(void) {}
#endif

static void obey(void)
{
    hang_if_told();
    const struct receipt receipt = orders_take(&board, inbox.text, now(), &line);
    const bool refused = receipt.reason != REASON_NONE;
    const bool tell = !(refused && receipt.order == ORDER_DRIVE && refusal_told);
    if (board.retune)
        retune();
    if (refused)
        errors.refused++;
    if (tell && report_receipt(&line, &board, &receipt, &identity, now()))
        send();
    refusal_told |= refused && receipt.order == ORDER_DRIVE;
}

static bool pass_waits(void) { return clock_pass_due() || sensors_edge(); }

/* Takes bytes until they complete a line, and obeys it; a pass that is due comes first. Waits while the line for an answer is taken. */
static void listen(void)
{
    uint8_t byte;
    enum inbox_result result = INBOX_MORE;
    if (ready || telemetry.field != TELEMETRY_IDLE)
        return;
    while (result == INBOX_MORE && !pass_waits() && serial_take(&byte))
        result = inbox_take(&inbox, byte);
    if (result == INBOX_LINE)
        obey();
    else if (result == INBOX_BAD)
        errors.bad_lines++;
}

/* Interrupts stay off from the question to the sleep: the one instruction after `sei` still comes before any interrupt. */
static void rest(void)
{
    cli();
    while (!pass_waits() && !(serial_line_waiting() && !ready)) {
        sleep_enable();
        sei();
        sleep_cpu();
        sleep_disable();
        cli();
    }
    sei();
}

static void start(void)
{
    pins_start();
    ACSR = 1 << ACD;
    selftest_identify(&identity);
    board_start(&board, identity.flash_good && identity.ram_good);
    inbox_start(&inbox);
    clock_start();
    servo_start();
    second_start();
    retune();
    sensors_start();
    serial_start();
    set_sleep_mode(SLEEP_MODE_IDLE);
    wdt_reset();
    sei();
    report_hello(&line, &board, &identity, now());
    send();
}

int main(void)
{
    start();
    for (;;) {
        if (pass_is_due())
            pass();
        if (!talk()) {
            listen();
            rest();
        }
    }
}
