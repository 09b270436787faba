/* unit_expression.h - reading products of units such as "kip-ft" and "kN m/rad per m". */
#ifndef SS_BASE_UNIT_EXPRESSION_H
#define SS_BASE_UNIT_EXPRESSION_H

#include "base/unit_table.h"
#include "sillspan/status.h"

/** The first byte of `text` that is not white space. */
const char *ss_unit_skip_space(const char *text);

/** A short copy of a piece of the user's text, for a message. */
typedef struct ss_unit_excerpt {
    char text[72];
} ss_unit_excerpt;

/** Copies start..end without white space around it; what is too long ends in "...". */
ss_unit_excerpt ss_unit_excerpt_of(const char *start, const char *end);

/**
 * Reads the longest unit at the start of `text`: units with whole powers ("ft3", "ft^3"), joined by '*', '-',
 * a raised dot or white space (times), by '/' or the word "per" (divided by the next one only). *end is the
 * first byte after it,
 * == text when no unit begins here; *unit is then untouched. `due` serves the message about an unknown unit.
 */
ss_status ss_unit_expression_read(const char *text, const char **end, ss_unit *unit, ss_dimension due,
                                  ss_error *error);

/** "a" or "an", as `name` sounds. */
const char *ss_unit_article(const char *name);

#endif
