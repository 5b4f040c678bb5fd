#include "tests.h"
#include <stdlib.h>

#define MOST_TESTS 256

static struct {
    const char *name;
    test_body body;
} tests[MOST_TESTS];
static int count;
static bool failed;

void tests_add(const char *name, test_body body)
{
    if (count == MOST_TESTS) {
        fprintf(stderr, "more tests than MOST_TESTS in tests.c; raise it\n");
        exit(1);
    }
    tests[count].name = name;
    tests[count++].body = body;
}

void tests_fail(const char *file, int line, const char *what)
{
    failed = true;
    printf("    %s:%d: not so: %s\n", file, line, what);
}

void tests_compare(const char *file, int line, const char *what, long long expected, long long actual)
{
    if (expected == actual)
        return;
    failed = true;
    printf("    %s:%d: %s is %lld (0x%llX), expected %lld (0x%llX)\n", file, line, what, actual, actual, expected, expected);
}

void tests_compare_text(const char *file, int line, const char *expected, const char *actual)
{
    if (strcmp(expected, actual) == 0)
        return;
    failed = true;
    printf("    %s:%d: text is\n      \"%s\"\n    expected\n      \"%s\"\n", file, line, actual, expected);
}

uint32_t tests_random(uint32_t *state)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return *state;
}

static void print_name(const char *name)
{
    for (; *name; name++)
        putchar(*name == '_' ? ' ' : *name);
}

int main(void)
{
    int passed = 0;
    for (int i = 0; i < count; i++) {
        failed = false;
        tests[i].body();
        printf("%s  ", failed ? "FAILED" : "passed");
        print_name(tests[i].name);
        putchar('\n');
        passed += !failed;
    }
    printf("%d passed, %d failed\n", passed, count - passed);
    return passed == count && count > 0 ? 0 : 1;
}
