/* fields.h - texts as fields of one line, and back. */
#ifndef SS_BASE_FIELDS_H
#define SS_BASE_FIELDS_H

#include "sillspan/memory.h"
#include "sillspan/text.h"

/** Adds a field: a tab unless `line` is empty so far, then `piece` with its tabs, line ends, backslashes and
 * carriage returns escaped. NULL is told from "" (and so a line of one field is never empty). */
void ss_fields_add(ss_text *line, const char *piece);
void ss_fields_add_integer(ss_text *line, long long value);
/** With 17 digits, so that reading gives the same bits; not a number and infinities too. */
void ss_fields_add_number(ss_text *line, double value);

/** Reads fields one after the other; a zeroed struct but for `at` and `arena` begins. */
typedef struct ss_fields {
    const char *at; /**< what is not read yet, a terminated line; NULL: nothing is left */
    ss_arena *arena;
    bool wrong;     /**< a field was missing or was none of ours; stays set */
    bool no_memory; /**< stays set */
} ss_fields;

/** NULL also where something is wrong. */
const char *ss_fields_text(ss_fields *fields);
/** An integer from `least` to `most`; `least` where something is wrong. */
long long ss_fields_integer(ss_fields *fields, long long least, long long most);
double ss_fields_number(ss_fields *fields);
/** Whether all was read, and right. */
bool ss_fields_end(const ss_fields *fields);

#endif
