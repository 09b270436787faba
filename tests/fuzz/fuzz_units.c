/* fuzz_units.c - any bytes as a quantity: refused in words with nothing written, or finite and the same when
 * shown and read again. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sillspan/text.h"
#include "sillspan/units.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define CAPACITY 5
#define UNTOUCHED -1234567.0625

static void require(int condition, const char *what, const char *text) {
    if (condition) {
        return;
    }
    fprintf(stderr, "%s: \"%s\"\n", what, text);
    abort();
}

/* What was accepted must survive being shown with all its digits and read again. */
static void check_accepted(const char *text, ss_dimension dimension, const double *values, int count) {
    require(count >= 1 && count <= CAPACITY, "count out of range", text);
    for (int i = 0; i < count; i++) {
        require(isfinite(values[i]), "accepted and not finite", text);
        char shown[96];
        double back = UNTOUCHED;
        int one = 0;
        ss_units_format(shown, sizeof shown, values[i], dimension, SS_UNITS_SI, 17);
        /* A value near the largest double may overflow in a smaller unit (mm4), which is then said. */
        if (strstr(shown, "infinite") != NULL) {
            continue;
        }
        require(ss_units_parse(shown, dimension, &back, 1, &one, NULL) == SS_OK, "shown but not readable",
                shown);
        const double apart = fabs(back - values[i]);
        /* Below the normal range a double has fewer digits: the display unit's factor of at most 1e12 can
         * cost that many. */
        require(apart <= 1e-15 * fabs(values[i]) + 1e-290, "changed by showing and reading", shown);
    }
    for (int i = count; i < CAPACITY; i++) {
        require(values[i] == UNTOUCHED, "wrote behind the count", text);
    }
}

static void check_refused(const char *text, const ss_error *error, const double *values, int count) {
    require(error->status == SS_ERROR_DESCRIPTION, "refused with another status", text);
    const size_t length = strlen(error->message);
    require(length > 10 && length < sizeof error->message - 1, "refused without words, or with too many",
            text);
    require(count == -1, "refused and counted", text);
    for (int i = 0; i < CAPACITY; i++) {
        require(values[i] == UNTOUCHED, "refused and written", text);
    }
}

static void check_number(const char *text) {
    const char *end = NULL;
    const double value = ss_text_number(text, &end);
    require(end >= text && end <= text + strlen(text), "number ends outside its text", text);
    require(!isnan(value), "number is none", text);
    ss_text plain = {0};
    ss_text_add_plain(&plain, text);
    require(!plain.failed && plain.length <= strlen(text), "plain text grew", text);
    for (size_t i = 0; i < plain.length; i++) {
        require((unsigned char)plain.data[i] >= 0x20U && plain.data[i] != 0x7F, "plain text steers", text);
    }
    ss_text_destroy(&plain);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    char *text = malloc(size + 1);
    if (text == NULL) {
        return 0;
    }
    if (size > 0) {
        memcpy(text, data, size);
    }
    text[size] = '\0';
    check_number(text);
    for (int d = 0; d < SS_DIM_COUNT; d++) {
        double values[CAPACITY];
        for (int i = 0; i < CAPACITY; i++) {
            values[i] = UNTOUCHED;
        }
        int count = -1;
        ss_error error = {.status = SS_OK, .message = ""};
        const ss_status status = ss_units_parse(text, (ss_dimension)d, values, CAPACITY, &count, &error);
        if (status == SS_OK) {
            check_accepted(text, (ss_dimension)d, values, count);
        } else {
            check_refused(text, &error, values, count);
        }
    }
    free(text);
    return 0;
}
