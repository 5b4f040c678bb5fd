/* Why the board stops by itself. A cause stands while its reason is there and is latched until it is reset. */
#ifndef CAUSES_H
#define CAUSES_H

#include <stdint.h>
#include "flash.h"

enum cause {
    CAUSE_START,     /* board start, or a new configuration */
    CAUSE_SELFTEST,  /* flash CRC or RAM test failed */
    CAUSE_LID,       /* a lid contact opened */
    CAUSE_LIDPAIR,   /* the lid contacts disagree too long */
    CAUSE_STOP,      /* the stop circuit opened */
    CAUSE_SILENT,    /* no accepted demand from the host */
    CAUSE_SPEED,     /* a revolution shorter than permitted */
    CAUSE_CURRENT,   /* too many readings in a row beyond the limits */
    CAUSE_TACHO,     /* no tachometer pulse while driven */
    CAUSE_CONTACTOR, /* its feedback does not follow */
    CAUSE_SAMPLER,   /* the analogue converter stands still */
    CAUSE_RECEIVER,  /* the gate was open and the receiver gave no pulse */
    CAUSE_COUNT
};

typedef uint16_t causes_t; /* one bit per cause */

#define CAUSE_BIT(cause) ((causes_t)(1u << (cause)))

/* The word that the protocol uses. */
const FLASH char *cause_word(enum cause cause);

#endif
