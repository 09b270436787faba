/* text_number.c - decimal numbers read and written the same in every locale. */
#include "sillspan/text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/*
 * A number half way between two doubles has at most 767 significant digits, so what follows the first 800
 * matters only by not being zero: one further digit stands for it.
 */
#define KEPT_DIGITS 800

/* The text of one number as a whole number of digits and a power of ten. */
typedef struct decimal {
    char digits[KEPT_DIGITS + 2];
    int count;
    bool beyond;        /* a digit that is not zero was left out */
    long long exponent; /* the value is digits * 10^exponent */
} decimal;

static bool is_digit(char letter) {
    return letter >= '0' && letter <= '9';
}

static void take_digit(decimal *number, char digit, bool after_point) {
    if (number->count == 0 && digit == '0') {
        if (after_point) {
            number->exponent--;
        }
    } else if (number->count < KEPT_DIGITS) {
        number->digits[number->count++] = digit;
        if (after_point) {
            number->exponent--;
        }
    } else {
        number->beyond = number->beyond || digit != '0';
        if (!after_point) {
            number->exponent++;
        }
    }
}

/* Reads an exponent at `at` ("e-3"); returns the byte after it, or `at` when there is none. */
static const char *take_exponent(decimal *number, const char *at) {
    if (*at != 'e' && *at != 'E') {
        return at;
    }
    const char *digit = at + 1;
    const bool negative = *digit == '-';
    if (*digit == '-' || *digit == '+') {
        digit++;
    }
    if (!is_digit(*digit)) {
        return at;
    }
    long long value = 0;
    for (; is_digit(*digit); digit++) {
        /* Far beyond what any mantissa of real length can bring back. */
        if (value < 1000000000000LL) {
            value = 10 * value + (*digit - '0');
        }
    }
    number->exponent += negative ? -value : value;
    return digit;
}

double ss_text_number(const char *text, const char **end) {
    decimal number = {.count = 0};
    const char *at = text;
    const bool negative = *at == '-';
    if (*at == '-' || *at == '+') {
        at++;
    }
    bool any = false;
    for (; is_digit(*at); at++, any = true) {
        take_digit(&number, *at, false);
    }
    if (*at == '.') {
        const char *point = at++;
        for (; is_digit(*at); at++, any = true) {
            take_digit(&number, *at, true);
        }
        if (!any) {
            at = point;
        }
    }
    if (!any) {
        if (end != NULL) {
            *end = text;
        }
        return 0.0;
    }
    at = take_exponent(&number, at);
    if (end != NULL) {
        *end = at;
    }
    if (number.count == 0) {
        return negative ? -0.0 : 0.0;
    }
    if (number.beyond) {
        number.digits[number.count++] = '1';
        number.exponent--;
    }
    /* Whole digits and an exponent have no decimal point, so strtod reads them alike in every locale. */
    const long long limit = 100000;
    const long long exponent =
        number.exponent > limit ? limit : (number.exponent < -limit ? -limit : number.exponent);
    char token[KEPT_DIGITS + 32];
    snprintf(token, sizeof token, "%.*se%lld", number.count, number.digits, exponent);
    const double value = strtod(token, NULL);
    return negative ? -value : value;
}

/* Part of a number is a wrong number, so a buffer that is too small is filled with '#'. */
static const char *hand_over(char *buffer, size_t size, const char *text) {
    const size_t length = strlen(text);
    if (size == 0) {
        return buffer;
    }
    if (length < size) {
        memcpy(buffer, text, length + 1);
    } else {
        memset(buffer, '#', size - 1);
        buffer[size - 1] = '\0';
    }
    return buffer;
}

static const char *not_finite(double value) {
    if (isnan(value)) {
        return "not a number";
    }
    return value > 0.0 ? "infinite" : "-infinite";
}

const char *ss_text_significant(char *buffer, size_t size, double value, int significant) {
    if (!isfinite(value)) {
        return hand_over(buffer, size, not_finite(value));
    }
    if (value == 0.0) {
        return hand_over(buffer, size, "0");
    }
    const int wanted = significant < 1 ? 1 : (significant > 17 ? 17 : significant);
    char raw[64];
    snprintf(raw, sizeof raw, "%.*e", wanted - 1, fabs(value));
    /* Whatever the locale puts between the digits is skipped. */
    char digits[32];
    int count = 0;
    const char *at = raw;
    for (; *at != 'e'; at++) {
        if (is_digit(*at) && count < 17) {
            digits[count++] = *at;
        }
    }
    const int exponent = (int)strtol(at + 1, NULL, 10);
    while (count > 1 && digits[count - 1] == '0') {
        count--;
    }

    char text[64];
    int length = 0;
    const bool plain = exponent >= -4 && exponent < 7;
    const int whole =
        plain ? exponent + 1 : 1; /* digits before the point; zero or less: leading zeros after it */
    if (value < 0.0) {
        text[length++] = '-';
    }
    if (whole <= 0) {
        text[length++] = '0';
    }
    for (int i = 0; i < whole; i++) {
        text[length++] = i < count ? digits[i] : '0';
    }
    if (count > whole) {
        text[length++] = '.';
    }
    for (int i = whole; i < 0; i++) {
        text[length++] = '0';
    }
    for (int i = whole < 0 ? 0 : whole; i < count; i++) {
        text[length++] = digits[i];
    }
    text[length] = '\0';
    if (!plain) {
        snprintf(text + length, sizeof text - (size_t)length, "e%d", exponent);
    }
    return hand_over(buffer, size, text);
}

const char *ss_text_decimals(char *buffer, size_t size, double value, int decimals) {
    if (!isfinite(value)) {
        return hand_over(buffer, size, not_finite(value));
    }
    const int wanted = decimals < 0 ? 0 : (decimals > 30 ? 30 : decimals);
    char raw[384]; /* the largest double has 309 digits before the point */
    snprintf(raw, sizeof raw, "%.*f", wanted, fabs(value));
    char text[384];
    int length = 0;
    bool zero = true;
    for (const char *at = raw; *at != '\0'; at++) {
        zero = zero && (!is_digit(*at) || *at == '0');
    }
    if (value < 0.0 && !zero) {
        text[length++] = '-';
    }
    bool point = false;
    for (const char *at = raw; *at != '\0'; at++) {
        if (is_digit(*at)) {
            text[length++] = *at;
        } else if (!point) {
            text[length++] = '.'; /* the locale's point may be another letter, or several bytes */
            point = true;
        }
    }
    text[length] = '\0';
    return hand_over(buffer, size, text);
}
