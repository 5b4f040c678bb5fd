#include "analog.h"
#include "flash.h"

#define NOTHING_LOWEST 1023u

static const FLASH uint8_t round_of_channels[ANALOG_ROUND] = {
    CHANNEL_VOLTAGE, CHANNEL_CURRENT, CHANNEL_VOLTAGE, CHANNEL_CURRENT, CHANNEL_VOLTAGE, CHANNEL_CURRENT, CHANNEL_THERMISTOR_1,
    CHANNEL_VOLTAGE, CHANNEL_CURRENT, CHANNEL_VOLTAGE, CHANNEL_CURRENT, CHANNEL_VOLTAGE, CHANNEL_CURRENT, CHANNEL_THERMISTOR_2};

enum channel analog_channel(uint8_t place) { return (enum channel)round_of_channels[place]; }

static void watch_current(struct analog *analog, uint16_t counts)
{
    const bool beyond = counts < analog->lowest_current || counts > analog->highest_current;
    if (!beyond)
        analog->run = 0;
    else if (analog->run < UINT8_MAX)
        analog->run++;
    if (analog->run > analog->longest)
        analog->longest = analog->run;
}

void analog_add(struct analog *analog, enum channel channel, uint16_t counts)
{
    struct extent *extent = &analog->extent[channel];
    if (extent->readings == 0 || counts < extent->lowest)
        extent->lowest = counts;
    if (extent->readings == 0 || counts > extent->highest)
        extent->highest = counts;
    if (extent->readings < EXTENT_MOST) {
        extent->sum = (uint16_t)(extent->sum + counts);
        extent->readings++;
    }
    if (channel == CHANNEL_CURRENT)
        watch_current(analog, counts);
    analog->readings++;
}

void analog_take(struct analog *analog)
{
    for (uint8_t i = 0; i < CHANNEL_COUNT; i++)
        analog->extent[i] = (struct extent){.lowest = NOTHING_LOWEST};
}

uint8_t analog_take_run(struct analog *analog)
{
    const uint8_t longest = analog->longest;
    analog->longest = analog->run;
    return longest;
}

uint16_t extent_mean(const struct extent *extent)
{
    if (extent->readings == 0)
        return 0;
    return (uint16_t)(((uint32_t)extent->sum * 10u + extent->readings / 2u) / extent->readings);
}
