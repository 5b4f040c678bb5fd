#include "selftest.h"
#include <avr/eeprom.h>
#include <avr/io.h>
#include <avr/pgmspace.h>
#include <avr/wdt.h>
#include "../core/crc.h"

#ifndef IMAGE_CRC
#define IMAGE_CRC 0 /* first link; the second one carries the CRC of the first */
#endif

#define EEPROM_NAME ((const uint8_t *)0)
#define EEPROM_STARTS ((uint32_t *)8) /* starts so far: the boot nonce. The cells last about 100,000 starts */
#define RAM_GOOD 1u

/* The program's own CRC, left out of the sum itself. */
static const volatile uint16_t image_crc __attribute__((used, section(".progmem.image_crc"))) = IMAGE_CRC;
extern const uint8_t __data_load_end[]; /* end of the program image, from the linker */

/* Runs before memory is used for anything: no stack, no variables outside registers. Every cell takes both values of every bit; then
   each holds a value made from its address, which shows cells that answer for one another. Results wait in GPIOR0 and GPIOR1. */
__attribute__((naked, used, section(".init3"))) void selftest_ram(void)
{
    register uint8_t good = RAM_GOOD;
    volatile uint8_t *cell;
    GPIOR0 = MCUSR;
    MCUSR = 0;
    WDTCSR = (1 << WDCE) | (1 << WDE);
    WDTCSR = (1 << WDE) | (1 << WDP1);
    for (cell = (volatile uint8_t *)RAMSTART; cell <= (volatile uint8_t *)RAMEND; cell++) {
        wdt_reset();
        *cell = 0x55;
        if (*cell != 0x55)
            good = 0;
        *cell = 0xAA;
        if (*cell != 0xAA)
            good = 0;
        *cell = (uint8_t)((uint16_t)cell ^ ((uint16_t)cell >> 8) * 37u);
    }
    for (cell = (volatile uint8_t *)RAMSTART; cell <= (volatile uint8_t *)RAMEND; cell++) {
        wdt_reset();
        if (*cell != (uint8_t)((uint16_t)cell ^ ((uint16_t)cell >> 8) * 37u))
            good = 0;
    }
    GPIOR1 = good;
}

static bool flash_is_good(void)
{
    const uint16_t own = (uint16_t)(uintptr_t)&image_crc;
    uint16_t crc = CRC_START;
    for (uint16_t at = 0; at < (uint16_t)(uintptr_t)__data_load_end; at++) {
        wdt_reset();
        if (at != own && at != own + 1u)
            crc = crc_add(crc, pgm_read_byte(at));
    }
    return crc == pgm_read_word(own);
}

static enum reset_cause cause_of(uint8_t flags)
{
    if (flags & (1 << PORF))
        return RESET_POWER;
    if (flags & (1 << BORF))
        return RESET_BROWNOUT;
    if (flags & (1 << WDRF))
        return RESET_WATCHDOG;
    return flags & (1 << EXTRF) ? RESET_PIN : RESET_UNKNOWN;
}

static uint32_t count_start(void)
{
    const uint32_t starts = eeprom_read_dword(EEPROM_STARTS) + 1u;
    eeprom_update_dword(EEPROM_STARTS, starts);
    wdt_reset();
    return starts;
}

void selftest_identify(struct identity *identity)
{
    uint8_t name[IDENTITY_LONGEST];
    eeprom_read_block(name, EEPROM_NAME, sizeof name);
    report_name(identity, name);
    identity->cause = cause_of(GPIOR0);
    identity->ram_good = GPIOR1 == RAM_GOOD;
    identity->flash_good = flash_is_good();
    identity->nonce = count_start();
}
