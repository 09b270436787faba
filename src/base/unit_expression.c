/* unit_expression.c - reading products of units such as "kip-ft" and "kN m/rad per m". */
#include "base/unit_expression.h"

#include <string.h>

#include "base/try.h"

/* More than any unit of engineering needs; bounds the powers. */
#define MOST_FACTORS 8
#define MOST_POWER 6

static const char raised_dot[] = "\xC2\xB7";
static const char raised_two[] = "\xC2\xB2";
static const char raised_three[] = "\xC2\xB3";
static const char raised_four[] = "\xE2\x81\xB4";

static bool is_digit(char letter) {
    return letter >= '0' && letter <= '9';
}

static bool is_letter(char letter) {
    return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z');
}

static bool starts_with(const char *text, const char *prefix) {
    return strncmp(text, prefix, strlen(prefix)) == 0;
}

const char *ss_unit_skip_space(const char *text) {
    while (*text == ' ' || *text == '\t' || *text == '\n' || *text == '\r') {
        text++;
    }
    return text;
}

const char *ss_unit_article(const char *name) {
    return strchr("aeiou", name[0]) != NULL ? "an" : "a";
}

ss_unit_excerpt ss_unit_excerpt_of(const char *start, const char *end) {
    ss_unit_excerpt excerpt = {{0}};
    start = ss_unit_skip_space(start);
    while (end > start && strchr(" \t\r\n", end[-1]) != NULL) {
        end--;
    }
    size_t length = end > start ? (size_t)(end - start) : 0;
    if (length < sizeof excerpt.text) {
        memcpy(excerpt.text, start, length);
        return excerpt;
    }
    length = sizeof excerpt.text - 4;
    /* Do not cut inside a UTF-8 character. */
    while (length > 0 && ((unsigned char)start[length] & 0xC0U) == 0x80U) {
        length--;
    }
    memcpy(excerpt.text, start, length);
    memcpy(excerpt.text + length, "...", 4);
    return excerpt;
}

/* Bytes of the unit symbol at `at`, 0 when none begins here. */
static size_t symbol_length(const char *at) {
    size_t length = 0;
    while (is_letter(at[length])) {
        length++;
    }
    if (length > 0) {
        return length;
    }
    if (starts_with(at, "''")) {
        return 2;
    }
    return *at != '\0' && strchr("'\"%#", *at) != NULL ? 1 : 0;
}

/*
 * Reads what joins two units: *sign is +1 for times and -1 for over, *binding says whether a unit must
 * follow. Returns where the next unit begins, or `at` when the expression ends here. A '-' that no unit
 * follows may belong to "2 ft-3 in".
 */
static const char *read_joint(const char *at, int *sign, bool *binding) {
    const char *next = ss_unit_skip_space(at);
    const bool spaced = next != at;
    *sign = 1;
    *binding = true;
    if (*next == '/') {
        *sign = -1;
        return ss_unit_skip_space(next + 1);
    }
    if (spaced && starts_with(next, "per") && !is_letter(next[3])) {
        *sign = -1;
        return ss_unit_skip_space(next + 3);
    }
    if (*next == '*') {
        return ss_unit_skip_space(next + 1);
    }
    if (starts_with(next, raised_dot)) {
        return ss_unit_skip_space(next + strlen(raised_dot));
    }
    *binding = false;
    if (*next == '-' && is_letter(next[1])) {
        return next + 1;
    }
    return spaced && symbol_length(next) > 0 ? next : at;
}

/* Reads "3", "^3" or a raised 3; *power is 1 when there is none and 0 when it is no power of ours. */
static const char *read_power(const char *at, int *power) {
    static const struct {
        const char *text;
        int power;
    } raised[] = {{raised_two, 2}, {raised_three, 3}, {raised_four, 4}};
    for (size_t i = 0; i < sizeof raised / sizeof raised[0]; i++) {
        if (starts_with(at, raised[i].text)) {
            *power = raised[i].power;
            return at + strlen(raised[i].text);
        }
    }
    const bool raised_by_sign = *at == '^';
    const char *digit = raised_by_sign ? at + 1 : at;
    int value = 0;
    *power = raised_by_sign ? 0 : 1;
    if (!is_digit(*digit)) {
        return digit;
    }
    for (; is_digit(*digit); digit++) {
        if (value <= MOST_POWER) {
            value = 10 * value + (*digit - '0');
        }
    }
    /* In "7ft6in" the figure belongs to the inches. */
    if (!raised_by_sign && symbol_length(digit) > 0) {
        return at;
    }
    *power = value <= MOST_POWER ? value : 0;
    return digit;
}

/* How the factors were written, for units whose lengths cancel. */
typedef struct product {
    ss_unit unit;
    int lengths_above;
    int lengths_below;
} product;

static void multiply(product *result, const ss_unit *factor, int power) {
    const bool above = power > 0;
    const int times = above ? power : -power;
    double value = 1.0;
    for (int i = 0; i < times; i++) {
        value *= factor->factor;
    }
    result->unit.factor = above ? result->unit.factor * value : result->unit.factor / value;
    result->unit.force += power * factor->force;
    result->unit.length += power * factor->length;
    result->unit.angle += power * factor->angle;
    result->unit.time += power * factor->time;
    /* Only lengths proper: "ksi in2" is an ordinary force. */
    if (factor->force == 0 && factor->length > 0) {
        if (above) {
            result->lengths_above += times;
        } else {
            result->lengths_below += times;
        }
    }
}

static ss_status refuse_unknown(const char *symbol, size_t length, ss_dimension due, ss_error *error) {
    const ss_unit_excerpt found = ss_unit_excerpt_of(symbol, symbol + length);
    const char *nearest = ss_unit_nearest(found.text);
    if (nearest != NULL) {
        return ss_error_set(error, SS_ERROR_DESCRIPTION, "\"%s\" is not a known unit; did you mean \"%s\"?",
                            found.text, nearest);
    }
    const ss_dimension_row *row = ss_unit_dimension(due);
    return ss_error_set(error, SS_ERROR_DESCRIPTION, "\"%s\" is not a known unit; %s %s is due, such as %s",
                        found.text, ss_unit_article(row->name), row->name, row->example);
}

/* Reads one unit with its power at `at` into the product; *end is behind it. */
static ss_status read_factor(const char *at, const char **end, int sign, product *result, ss_dimension due,
                             ss_error *error) {
    const size_t length = symbol_length(at);
    ss_unit factor;
    if (!ss_unit_find(at, length, &factor)) {
        return refuse_unknown(at, length, due, error);
    }
    int power = 1;
    *end = at + length;
    /* Behind a foot or inch mark a digit begins the inches: 2'3". */
    if (is_letter(*at)) {
        *end = read_power(at + length, &power);
    }
    if (power == 0) {
        const ss_unit_excerpt found = ss_unit_excerpt_of(at, *end);
        return ss_error_set(error, SS_ERROR_DESCRIPTION,
                            "\"%s\" has no usable power; a power is a whole number from 1 to %d", found.text,
                            MOST_POWER);
    }
    multiply(result, &factor, sign * power);
    return SS_OK;
}

ss_status ss_unit_expression_read(const char *text, const char **end, ss_unit *unit, ss_dimension due,
                                  ss_error *error) {
    ss_status status = SS_OK;
    product result = {.unit = {.factor = 1.0}};
    const char *at = text;
    if (symbol_length(at) == 0) {
        *end = text;
        goto done;
    }
    int sign = 1;
    for (int count = 0;; count++) {
        if (count == MOST_FACTORS) {
            const ss_unit_excerpt found = ss_unit_excerpt_of(text, at);
            status = ss_error_set(error, SS_ERROR_DESCRIPTION, "\"%s\" is too long for a unit", found.text);
            goto done;
        }
        const char *behind = at;
        SS_TRY(read_factor(at, &behind, sign, &result, due, error));
        bool binding = false;
        const char *next = read_joint(behind, &sign, &binding);
        if (next == behind) {
            at = behind;
            break;
        }
        if (binding && symbol_length(next) == 0) {
            const ss_unit_excerpt found = ss_unit_excerpt_of(text, next);
            status = ss_error_set(error, SS_ERROR_DESCRIPTION, "\"%s\" lacks a unit at its end", found.text);
            goto done;
        }
        at = next;
    }
    result.unit.per_length = result.lengths_above > 0 && result.lengths_below > 0;
    *unit = result.unit;
    *end = at;
done:
    return status;
}
