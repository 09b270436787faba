/* read_grammar.c - which sign may follow which in a description: a stack of brackets and the state inside the
 * innermost. */
#include "io/read_grammar.h"

#include <stdio.h>

bool ss_grammar_in_list(const ss_grammar *g) {
    return g->levels[g->depth].open == '(' || g->levels[g->depth].open == '[';
}

static char closing(char open) {
    return open == '{' ? '}' : open == '(' ? ')' : ']';
}

static bool refuse(char *why, size_t size, const char *words) {
    snprintf(why, size, "%s", words);
    return false;
}

static bool take_value(const ss_grammar *g, char *why, size_t size) {
    if (ss_grammar_in_list(g)) {
        return g->state != SS_GRAMMAR_VALUE ||
               refuse(why, size, "a comma is missing before this item of a list");
    }
    if (g->state == SS_GRAMMAR_EQUALS) {
        return true;
    }
    return refuse(why, size,
                  g->state == SS_GRAMMAR_KEY ? "the \"=\" is missing after a key"
                                             : "found a value where a key is due, as in key = value");
}

static bool take_separator(const ss_grammar *g, char sign, char *why, size_t size) {
    if (sign == ';' && ss_grammar_in_list(g)) {
        return refuse(why, size, "found \";\" in a list, where commas stand between the items");
    }
    if (g->state == SS_GRAMMAR_VALUE) {
        return true;
    }
    snprintf(why, size, "found \"%c\" with no value before it", sign);
    return false;
}

static bool take_close(const ss_grammar *g, char sign, char *why, size_t size) {
    const char open = g->levels[g->depth].open;
    if (open == '\0') {
        snprintf(why, size, "\"%c\" closes nothing", sign);
    } else if (closing(open) != sign) {
        snprintf(why, size, "found \"%c\" where the \"%c\" of line %d waits for its \"%c\"", sign, open,
                 g->levels[g->depth].line, closing(open));
    } else if (g->state == SS_GRAMMAR_KEY || g->state == SS_GRAMMAR_EQUALS) {
        snprintf(why, size, "found \"%c\" where a value is due", sign);
    } else if (g->state == SS_GRAMMAR_SEPARATOR && sign != '}') {
        snprintf(why, size, "found \"%c\" after a comma, where another item is due", sign);
    } else {
        return true;
    }
    return false;
}

static bool may_stand(const ss_grammar *g, char sign, char *why, size_t size) {
    switch (sign) {
    case SS_GRAMMAR_A_VALUE:
    case '{':
    case '(':
    case '[':
        if (sign != SS_GRAMMAR_A_VALUE && g->depth >= SS_READ_NESTING) {
            return refuse(why, size, "groups and lists are nested more than 32 deep");
        }
        return take_value(g, why, size);
    case SS_GRAMMAR_A_KEY:
        return (g->state != SS_GRAMMAR_KEY && g->state != SS_GRAMMAR_EQUALS) ||
               refuse(why, size, "found a key where a value is due");
    case '=': return g->state == SS_GRAMMAR_KEY || refuse(why, size, "found \"=\" with no key before it");
    case ',':
    case ';': return take_separator(g, sign, why, size);
    case '}':
    case ')':
    case ']': return take_close(g, sign, why, size);
    default:
        return (g->state != SS_GRAMMAR_KEY && g->state != SS_GRAMMAR_EQUALS) ||
               refuse(why, size, "the file ends where a value is due");
    }
}

bool ss_grammar_take(ss_grammar *g, char sign, int line, char *why, size_t size) {
    if (!may_stand(g, sign, why, size)) {
        return false;
    }
    switch (sign) {
    case '{':
    case '(':
    case '[':
        g->depth++;
        g->levels[g->depth].open = sign;
        g->levels[g->depth].line = line;
        g->state = SS_GRAMMAR_OPENED;
        break;
    case '}':
    case ')':
    case ']':
        g->depth--;
        g->state = SS_GRAMMAR_VALUE;
        break;
    case SS_GRAMMAR_A_VALUE: g->state = SS_GRAMMAR_VALUE; break;
    case SS_GRAMMAR_A_KEY: g->state = SS_GRAMMAR_KEY; break;
    case '=': g->state = SS_GRAMMAR_EQUALS; break;
    default: g->state = SS_GRAMMAR_SEPARATOR; break;
    }
    return true;
}
