/* Constant tables stay in the microcontroller's flash instead of being copied into its 2 KB of RAM. */
#ifndef FLASH_H
#define FLASH_H

#ifdef __AVR__
#define FLASH __flash
#else
#define FLASH
#endif

#endif
