#include "causes.h"

static const FLASH char words[CAUSE_COUNT][10] = {
    [CAUSE_START] = "start",
    [CAUSE_SELFTEST] = "selftest",
    [CAUSE_LID] = "lid",
    [CAUSE_LIDPAIR] = "lidpair",
    [CAUSE_STOP] = "stop",
    [CAUSE_SILENT] = "silent",
    [CAUSE_SPEED] = "speed",
    [CAUSE_CURRENT] = "current",
    [CAUSE_TACHO] = "tacho",
    [CAUSE_CONTACTOR] = "contactor",
    [CAUSE_SAMPLER] = "sampler",
    [CAUSE_RECEIVER] = "receiver",
};

const FLASH char *cause_word(enum cause cause) { return words[cause]; }
