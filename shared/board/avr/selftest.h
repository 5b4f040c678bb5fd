/* What the board finds out about itself before it does anything. */
#ifndef SELFTEST_H
#define SELFTEST_H

#include "../core/report.h"

/* Reset cause, RAM and flash results, board name and a new boot nonce. Takes about 60 ms. */
void selftest_identify(struct identity *identity);


#endif
