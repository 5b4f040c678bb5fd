#include "watch.h"

enum check {
    CHECK_SELFTEST = 1,
    CHECK_LID = 2,
    CHECK_STOP = 4,
    CHECK_HOST = 8,
    CHECK_SPEED = 16,
    CHECK_CURRENT = 32,
    CHECK_TACHO = 64,
    CHECK_DEVICES = 128,
    CHECK_ALL = 255
};

static void stand(struct board *board, enum cause cause, bool stands, ticks_t at)
{
    if (!stands)
        return;
    board->standing |= CAUSE_BIT(cause);
    board_latch(board, cause, at);
}

/* True once `so` has been so for `span`. */
static bool lasts(struct since *since, bool so, ticks_t now, ticks_t span)
{
    if (so && !since->so)
        since->at = now;
    since->so = so;
    return so && ticks_passed(now, since->at, span);
}

static void check_selftest(struct board *board)
{
    stand(board, CAUSE_SELFTEST, board->selftest_failed, board->in.now);
    board->checked |= CHECK_SELFTEST;
}

static void check_lid(struct board *board)
{
    const struct inputs *in = &board->in;
    const bool blinked = in->lid.a_blinked || in->lid.b_blinked;
    lid_update(&board->lid, &in->lid, in->now, board->spans.closing, board->spans.disagree);
    stand(board, CAUSE_LID, !lid_closed(&board->lid), blinked ? in->opened_at : in->now);
    stand(board, CAUSE_LIDPAIR, board->lid.fault, in->now);
    board->checked |= CHECK_LID;
}

static void check_stop(struct board *board)
{
    const struct inputs *in = &board->in;
    contact_update(&board->stop, in->stop_closed, in->stop_blinked, in->now, board->spans.closing);
    stand(board, CAUSE_STOP, !board->stop.closed, in->stop_blinked ? in->opened_at : in->now);
    board->checked |= CHECK_STOP;
}

static void check_host(struct board *board)
{
    host_update(&board->host, board->in.now);
    if (!board->host.alive)
        board->demand = (struct demand){.pulse = board->config.stop_pulse, .second = board->config.second.stop};
    stand(board, CAUSE_SILENT, !board->host.alive, board->in.now);
    board->checked |= CHECK_HOST;
}

/* A rotor that stops sending pulses is slower than the time since its last one, so the cause ends by itself. */
static void check_speed(struct board *board)
{
    const struct tacho_view *tacho = &board->in.tacho;
    const ticks_t least = board->spans.least_revolution;
    const ticks_t age = tacho_age(tacho, board->in.now);
    const bool passed_by = tacho->least_revolution && tacho->least_revolution < least;
    const bool still = tacho->revolution && tacho->revolution < least && age < least;
    if (passed_by)
        board_latch(board, CAUSE_SPEED, tacho->last);
    stand(board, CAUSE_SPEED, still, tacho->last);
    board->least_period = tacho_lesser(board->least_period, tacho->least_period);
    board->checked |= CHECK_SPEED;
}

static void check_current(struct board *board)
{
    stand(board, CAUSE_CURRENT, board->digest != DIGEST_NONE && board->in.current_run >= board->config.current_run, board->in.now);
    board->checked |= CHECK_CURRENT;
}

static bool is_driven(const struct board *board)
{
    const int16_t away = (int16_t)(board->out.pulse - board->config.stop_pulse);
    const uint16_t distance = (uint16_t)(away < 0 ? -away : away);
    return board->out.power && board->in.contactor_closed && board->out.pulse && distance >= board->config.tacho_from;
}

static void check_tacho(struct board *board)
{
    const bool pulse = board->in.tacho.count != board->tacho_count;
    const bool watched = board->config.tacho_lost_ms && is_driven(board);
    board->tacho_count = board->in.tacho.count;
    if (pulse)
        board->tacho_missing.so = false; /* and begins again at once */
    stand(board, CAUSE_TACHO, lasts(&board->tacho_missing, watched, board->in.now, board->spans.tacho_lost), board->in.now);
    board->checked |= CHECK_TACHO;
}

/* A radio lost while it drives stops everything, whatever the receiver or the controller would do by themselves. */
static void check_receiver(struct board *board)
{
    stand(board, CAUSE_RECEIVER, board->demand.gate && !board_receives(board), board->in.now);
}

static void check_devices(struct board *board)
{
    const struct inputs *in = &board->in;
    const bool astray = in->contactor_closed != board->out.power;
    const bool still = in->analog_readings == board->analog_readings;
    board->analog_readings = in->analog_readings;
    stand(board, CAUSE_CONTACTOR, lasts(&board->contactor_astray, astray, in->now, board->spans.follow), in->now);
    stand(board, CAUSE_SAMPLER, lasts(&board->sampler_still, still, in->now, WATCH_SAMPLER_STILL), in->now);
    check_receiver(board);
    board->checked |= CHECK_DEVICES;
}

static void update_key(struct board *board)
{
    struct key *key = &board->key;
    const bool closed = contact_update(&key->contact, board->in.key_closed, false, board->in.now, board->spans.closing);
    if (!board->in.key_closed) {
        key->seen_open = true;
        key->fresh = false;
    }
    if (closed && key->seen_open) {
        key->fresh = true;
        key->closings++;
    }
}

/* To the nearest microsecond. Between two passes the receiver may have given nothing new: then it is the last one again. */
static uint16_t receiver_pulse(const struct board *board)
{
    return config_within_range(&board->config, (uint16_t)((board->in.receiver.width + 1u) / 2u));
}

static uint16_t second_to_put_out(const struct board *board)
{
    if (!board->confirmed || !board->config.second.greatest)
        return 0;
    if (!board->latched)
        return board->demand.second;
    return board->config.cease ? 0 : board->config.second.stop;
}

static uint16_t pulse_to_put_out(const struct board *board)
{
    if (!board->confirmed)
        return 0;
    if (!board->latched)
        return board->demand.gate ? receiver_pulse(board) : board->demand.pulse;
    return board->config.cease ? 0 : board->config.stop_pulse;
}

static void decide(struct board *board)
{
    const struct demand *demand = &board->demand;
    const bool released = board->confirmed && demand->release;
    struct outputs *out = &board->out;
    out->pulse = pulse_to_put_out(board);
    out->second = second_to_put_out(board);
    out->gate = board->confirmed && !board->latched && demand->gate;
    out->power = board->confirmed && !board->latched && demand->power;
    out->release = released && !out->power && !board->in.contactor_closed;
    out->marker = board->confirmed && demand->marker;
}

static bool is_stop_pulse(const struct board *board, const struct gauge *servo)
{
    const ticks_t stop = TICKS_US(board->config.stop_pulse);
    const bool after = (int32_t)(servo->rose - board->stopping.from) >= 0;
    return servo->known && after && servo->width + WATCH_READ_BACK_SLACK >= stop && servo->width <= stop + WATCH_READ_BACK_SLACK;
}

/* The pulse that proves the stop: the first whole stop pulse, or, where pulses cease, the one after which nothing came. */
static void follow_stop(struct board *board)
{
    struct stopping *stopping = &board->stopping;
    const struct gauge *servo = &board->in.servo;
    const bool done = board->out.pulse ? is_stop_pulse(board, servo) : !servo->known;
    if (!stopping->waiting || !done)
        return;
    stopping->waiting = false;
    stopping->found = true;
    stopping->fell = servo->fell;
    stopping->width = servo->width;
}

void watch_pass(struct board *board)
{
    board->checked = 0;
    board->standing = 0;
    check_selftest(board);
    check_lid(board);
    check_stop(board);
    check_host(board);
    check_speed(board);
    check_current(board);
    check_tacho(board);
    check_devices(board);
    update_key(board);
    decide(board);
    follow_stop(board);
}

bool watch_complete(const struct board *board) { return board->checked == CHECK_ALL; }
