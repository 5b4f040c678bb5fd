#include "../core/contact.h"
#include "../core/lid.h"
#include "tests.h"

#define FILTER TICKS_MS(20)
#define TOLERANCE TICKS_MS(50)

static const struct lid_reading closed = {.a_closed = true, .b_closed = true};
static const struct lid_reading opened = {0};
static const struct lid_reading only_a = {.a_closed = true};
static const struct lid_reading only_b = {.b_closed = true};

TEST(A_contact_is_open_until_it_has_been_closed_for_the_filter_time)
{
    struct contact contact = {0};
    EXPECT(!contact_update(&contact, true, false, 0, FILTER));
    EXPECT(!contact_update(&contact, true, false, FILTER - 1, FILTER));
    EXPECT(!contact.closed);
    EXPECT(contact_update(&contact, true, false, FILTER, FILTER));
    EXPECT(contact.closed);
    EXPECT(!contact_update(&contact, true, false, FILTER + 1, FILTER));
}

TEST(A_contact_opens_at_once_even_by_a_blink_between_two_looks)
{
    struct contact contact = {.closed = true};
    contact_update(&contact, false, false, 0, FILTER);
    EXPECT(!contact.closed);
    contact.closed = true;
    contact_update(&contact, true, true, 0, FILTER);
    EXPECT(!contact.closed);
}

TEST(A_bouncing_contact_starts_its_filter_time_afresh_with_every_bounce)
{
    struct contact contact = {0};
    for (ticks_t now = 0; now < TICKS_MS(200); now += TICKS_MS(10))
        contact_update(&contact, true, now % TICKS_MS(20) == 0, now, FILTER);
    EXPECT(!contact.closed);
}

TEST(A_filter_time_across_the_wrap_of_the_clock_is_the_same)
{
    struct contact contact = {0};
    const ticks_t start = (ticks_t)0 - FILTER / 2;
    contact_update(&contact, true, false, start, FILTER);
    contact_update(&contact, true, false, start + FILTER - 1, FILTER);
    EXPECT(!contact.closed);
    contact_update(&contact, true, false, start + FILTER, FILTER);
    EXPECT(contact.closed);
}

static void run_lid(struct lid *lid, const struct lid_reading *reading, ticks_t *now, ticks_t span)
{
    const ticks_t end = *now + span;
    while (*now != end) {
        *now += TICKS_MS(1);
        lid_update(lid, reading, *now, FILTER, TOLERANCE);
    }
}

TEST(The_lid_is_closed_only_when_both_contacts_say_so)
{
    const struct lid_reading *readings[] = {&opened, &only_a, &only_b, &closed};
    for (int i = 0; i < 4; i++) {
        struct lid lid = {0};
        ticks_t now = 0;
        run_lid(&lid, readings[i], &now, TICKS_MS(40));
        EXPECT_EQUAL(i == 3, lid_closed(&lid));
    }
}

TEST(Contacts_that_disagree_for_too_long_are_a_fault_and_a_moment_is_not)
{
    struct lid lid = {0};
    ticks_t now = 0;
    run_lid(&lid, &closed, &now, TICKS_MS(30));
    run_lid(&lid, &only_a, &now, TICKS_MS(50));
    EXPECT(!lid.fault);
    run_lid(&lid, &closed, &now, TICKS_MS(5));
    run_lid(&lid, &only_b, &now, TICKS_MS(50));
    EXPECT(!lid.fault);
    run_lid(&lid, &only_b, &now, TICKS_MS(2));
    EXPECT(lid.fault);
}

TEST(A_contact_fault_stays_until_both_contacts_have_been_open_together)
{
    struct lid lid = {.fault = true};
    ticks_t now = 0;
    run_lid(&lid, &closed, &now, TICKS_MS(500));
    EXPECT(lid.fault);
    run_lid(&lid, &only_a, &now, TICKS_MS(20));
    run_lid(&lid, &only_b, &now, TICKS_MS(20));
    EXPECT(lid.fault);
    run_lid(&lid, &opened, &now, TICKS_MS(1));
    EXPECT(!lid.fault);
}
