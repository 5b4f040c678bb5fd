/* A small test bench for the portable core. A test's name is a sentence; its underscores are printed as spaces. */
#ifndef TESTS_H
#define TESTS_H

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

typedef void (*test_body)(void);

void tests_add(const char *name, test_body body);
void tests_fail(const char *file, int line, const char *what);
void tests_compare(const char *file, int line, const char *what, long long expected, long long actual);
void tests_compare_text(const char *file, int line, const char *expected, const char *actual);

/* The next number of a seeded series: the same on every machine. */
uint32_t tests_random(uint32_t *state);

#define TEST(name)                                                                \
    static void name(void);                                                       \
    __attribute__((constructor)) static void add_##name(void) { tests_add(#name, name); } \
    static void name(void)

#define EXPECT(condition) do { if (!(condition)) tests_fail(__FILE__, __LINE__, #condition); } while (0)
#define EXPECT_EQUAL(expected, actual) tests_compare(__FILE__, __LINE__, #actual, (long long)(expected), (long long)(actual))
#define EXPECT_TEXT(expected, actual) tests_compare_text(__FILE__, __LINE__, expected, actual)

#endif
