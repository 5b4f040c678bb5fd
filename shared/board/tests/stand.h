/* A board on a stand: lid closed, stop clear, a host that talks and listens, all of it to be spoilt by a test. Time passes in checks
   of 1.024 ms, as on the microcontroller. */
#ifndef STAND_H
#define STAND_H

#include "../core/orders.h"
#include "../core/watch.h"

#define STAND_CONFIG "1000 1000 2000 1000 400 2 3000 100 900 4 300 100 100 50 20 stop none"
#define STAND_CONFIG_CEASE "1000 1000 2000 1000 400 2 3000 100 900 4 300 100 100 50 20 cease none"
#define STAND_CONFIG_SECOND "1000 1000 2000 1000 400 2 3000 100 900 4 300 100 100 50 20 stop 1500 1100 1900"
#define STAND_PASS TICKS_US(1024)

struct stand {
    struct board board;
    struct tacho tacho;
    ticks_t now;
    uint16_t host_line;   /* number of the host's last line */
    uint16_t board_line;  /* number of the board's last line, as the host knows it */
    bool host_alive;      /* demands are repeated every pass */
    bool host_listens;    /* echoes follow */
    bool contactor_stuck; /* its feedback stays as it is */
    uint16_t pulse;       /* what the host demands, µs */
    bool power;
    bool release;
    uint16_t second;      /* what it demands of the second output, µs */
    bool gate;
    uint16_t receiver;    /* width of the receiver's pulses, µs; 0 = none */
    struct receipt last; /* of the host's last line */
};

/* A board that has just started, nothing loaded. */
void stand_start(struct stand *stand);

/* Loaded, confirmed, reset: mode idle. */
void stand_ready(struct stand *stand, const char *config);

/* Ready, and driven with `pulse` and power. */
void stand_drive(struct stand *stand, uint16_t pulse);

/* Lets `ms` pass. */
void stand_run(struct stand *stand, uint32_t ms);

/* One line from the host: its word, its number, then `rest`. */
enum reason stand_say(struct stand *stand, const char *word, const char *rest);

/* A demand as the host would send it now. */
enum reason stand_demand(struct stand *stand);

/* A reset that echoes the board's last line. */
enum reason stand_reset(struct stand *stand);

/* Loads a configuration, given as its fields. */
enum reason stand_load(struct stand *stand, const char *config);

/* A tachometer pulse now. */
void stand_mark(struct stand *stand);

#endif
