/* read_number.c - bare numbers of a description: decimal and hexadecimal whole numbers, reals. */
#include "io/read_number.h"

#include <string.h>

#include "sillspan/text.h"

static int digit_of(char letter) {
    if (letter >= '0' && letter <= '9') {
        return letter - '0';
    }
    if (letter >= 'a' && letter <= 'f') {
        return letter - 'a' + 10;
    }
    if (letter >= 'A' && letter <= 'F') {
        return letter - 'A' + 10;
    }
    return 16;
}

static bool read_whole(const char *word, size_t length, double *number) {
    double sign = 1.0;
    int base = 10;
    size_t i = 0;
    if (length > 2 && word[0] == '0' && (word[1] == 'x' || word[1] == 'X')) {
        base = 16;
        i = 2;
    } else if (word[0] == '+' || word[0] == '-') {
        sign = word[0] == '-' ? -1.0 : 1.0;
        i = 1;
    }
    while (length > i + 1 && word[length - 1] == 'L') {
        length--;
    }
    if (i == length) {
        return false;
    }
    double value = 0.0;
    for (; i < length; i++) {
        const int digit = digit_of(word[i]);
        if (digit >= base) {
            return false;
        }
        value = value * base + digit;
    }
    *number = sign * value;
    return true;
}

bool ss_number_read(const char *word, size_t length, double *number, bool *whole) {
    /* A copy, because what follows the word in the source could continue it. */
    char copy[400];
    if (length == 0 || length >= sizeof copy) {
        return false;
    }
    *whole = read_whole(word, length, number);
    if (*whole) {
        return true;
    }
    memcpy(copy, word, length);
    copy[length] = '\0';
    const char *end = NULL;
    *number = ss_text_number(copy, &end);
    return end == copy + length;
}
