/* text.h - growing text, numbers that no locale can change, nearest words, safe characters. */
#ifndef SILLSPAN_TEXT_H
#define SILLSPAN_TEXT_H

#include <stdbool.h>
#include <stddef.h>

#include "sillspan/status.h"

/** Growing terminated text. A zeroed struct is empty. After a failed allocation `failed` stays set
 *  and further additions do nothing, so only the end need be checked. */
typedef struct ss_text {
    char *data; /**< NULL while empty */
    size_t length;
    size_t capacity;
    bool failed;
} ss_text;

void ss_text_add(ss_text *text, const char *piece);
void ss_text_add_bytes(ss_text *text, const char *piece, size_t length);
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void ss_text_printf(ss_text *text, const char *format, ...);

/** Adds `piece` `count` times. */
void ss_text_repeat(ss_text *text, const char *piece, int count);

/** Adds `piece` with control characters, escape sequences, bidirectional overrides and malformed UTF-8 made
 * harmless (shown as '?'), so that text from a description cannot steer a terminal. Newlines and tabs become
 * spaces. */
void ss_text_add_plain(ss_text *text, const char *piece);

void ss_text_destroy(ss_text *text);

/** Columns that `piece` takes on a terminal: one for each UTF-8 character. */
int ss_text_width(const char *piece);

/** Reads a decimal number ("12", "-0.5", ".5", "1e-3") from the start of `text`, whatever the locale.
 *  `*end` is the first byte that is not part of it (== text when there is none). Overflow gives infinity. */
double ss_text_number(const char *text, const char **end);

/** Writes `value` with `significant` digits (1 to 17), plain notation where it is 1e-4 to 1e7, '.' as the
 * point, no trailing zeros, no "-0". Not a number and infinities read "not a number", "infinite". Returns
 * buffer. */
const char *ss_text_significant(char *buffer, size_t size, double value, int significant);

/** Writes `value` with exactly `decimals` digits after the point, no "-0.0". Returns buffer. */
const char *ss_text_decimals(char *buffer, size_t size, double value, int decimals);

/** The nearest of `count` words by edits (a swap is one), or NULL when none is near enough (at most a third
 * of the letters, and 3). Case does not count. The first of equals. */
const char *ss_text_nearest(const char *word, const char *const *words, int count);

/** Same letters, case ignored (ASCII). */
bool ss_text_same(const char *a, const char *b);

#endif
