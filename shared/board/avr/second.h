/* The second output's servo pulse. No timer drives its pin: interrupts raise and lower it, so that it is 4 µs coarse and its edges
   wait for other interrupts, some 20 µs at most. It shares the frame of the first output. */
#ifndef SECOND_H
#define SECOND_H

#include <stdint.h>

void second_start(void);

/* The pulse in µs from the next frame on, 0 to cease. A pulse under way is never touched. */
void second_put(uint16_t us);

/* A frame has started. With interrupts off only. */
void second_frame(void);

#endif
