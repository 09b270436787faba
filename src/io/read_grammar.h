/* read_grammar.h - which sign may follow which in a description. */
#ifndef SS_IO_READ_GRAMMAR_H
#define SS_IO_READ_GRAMMAR_H

#include <stdbool.h>
#include <stddef.h>

#include "sillspan/reader.h"

/** What stands before the next sign. */
typedef enum ss_grammar_state {
    SS_GRAMMAR_OPENED, /**< the begin of the file, a group or a list */
    SS_GRAMMAR_KEY,
    SS_GRAMMAR_EQUALS,
    SS_GRAMMAR_VALUE,
    SS_GRAMMAR_SEPARATOR
} ss_grammar_state;

/** Signs; the brackets, '=', ',' and ';' stand for themselves (':' counts as '='). */
enum { SS_GRAMMAR_A_KEY = 'k', SS_GRAMMAR_A_VALUE = 'v', SS_GRAMMAR_END = '\0' };

/** A zeroed struct is the begin of a file. */
typedef struct ss_grammar {
    ss_grammar_state state;
    int depth;
    struct {
        char open; /**< '{', '(' or '['; '\0' for the file itself */
        int line;
    } levels[SS_READ_NESTING + 1];
} ss_grammar;

/**
 * Takes the next sign, on `line` (for words only). False when it may not stand here; `why` then says so. The
 * rules are file  = { setting }      setting = key "=" value [ ";" | "," ] value = scalar | "{" { setting }
 * "}" | "(" [ value { "," value } ] ")" | the same with "[" "]"
 */
bool ss_grammar_take(ss_grammar *g, char sign, int line, char *why, size_t size);

/** Whether the innermost bracket is that of a list. */
bool ss_grammar_in_list(const ss_grammar *g);

#endif
