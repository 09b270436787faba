/* read_scan.c - cuts a description into tokens and looks for what libconfig would pass over or die of. */
#include "io/read_scan.h"

#include <stdio.h>
#include <string.h>

#include "sillspan/reader.h"

#include "base/try.h"
#include "io/read_grammar.h"
#include "io/read_number.h"

typedef struct key_place {
    size_t begin, length;
    int line;
} key_place;

typedef struct scanner {
    ss_scan *scan;
    const ss_source *source;
    ss_diag_list *diags;
    const char *bytes;
    size_t length, at;
    int line;
    ss_grammar grammar;
    bool after_text;                    /* nothing but blanks since a text */
    int keys_from[SS_READ_NESTING + 1]; /* first key of each open group */
    int opened[SS_READ_NESTING + 1];    /* line of each bracket */
    key_place *keys;
    int key_count, key_capacity;
    key_place key;  /* of the value to come */
    int first_line; /* where that key stands already, or 0 */
} scanner;

/* Says why reading ends here. */
static ss_status stop(const scanner *s, int line, const char *what) {
    const ss_status status = ss_diag_add(s->diags, SS_FAULT, ss_source_place(s->source, line), "",
                                         "syntax error: %s; reading stopped here", what);
    return status == SS_OK ? SS_ERROR_DESCRIPTION : status;
}

static ss_status stop_at_word(const scanner *s, size_t begin, size_t end, const char *what) {
    const int length = end - begin > 40 ? 40 : (int)(end - begin);
    ss_text words = {0};
    ss_text_printf(&words, "\"%.*s\" %s", length, s->bytes + begin, what);
    const ss_status status = words.failed ? SS_ERROR_MEMORY : stop(s, s->line, words.data);
    ss_text_destroy(&words);
    return status;
}

/* The next sign, if the grammar allows it here. */
static ss_status take(scanner *s, char sign) {
    char why[120];
    s->after_text = false;
    const int line = ss_source_place(s->source, s->line).line;
    return ss_grammar_take(&s->grammar, sign, line, why, sizeof why) ? SS_OK : stop(s, s->line, why);
}

static char ahead(const scanner *s, size_t i) {
    return s->at + i < s->length ? s->bytes[s->at + i] : '\0';
}

static void emit(scanner *s, size_t begin, size_t end) {
    ss_text_add_bytes(&s->scan->plain, s->bytes + begin, end - begin);
    ss_text_add(&s->scan->plain, " ");
}

/* ---- values and keys ---------------------------------------------------------------------------- */

static ss_status add_value(scanner *s, ss_node_kind kind, unsigned wrong, size_t begin, double number) {
    ss_scan *scan = s->scan;
    if (scan->count >= SS_READ_VALUES) {
        return stop(s, s->line, "more than 200000 values");
    }
    if (scan->count == scan->capacity) {
        const int capacity = scan->capacity == 0 ? 256 : 2 * scan->capacity;
        ss_scan_value *grown = ss_realloc(scan->values, (size_t)capacity, sizeof *grown);
        if (grown == NULL) {
            return SS_ERROR_MEMORY;
        }
        scan->values = grown;
        scan->capacity = capacity;
    }
    ss_scan_value *value = &scan->values[scan->count++];
    *value = (ss_scan_value){.kind = kind, .wrong = wrong, .line = s->line, .number = number, .begin = begin};
    value->length = s->at - begin;
    if (s->key.length > 0) {
        value->line = s->key.line;
        if (s->first_line > 0) {
            value->wrong |= SS_SCAN_REPEATED;
            value->other = s->first_line;
            value->begin = s->key.begin;
            value->length = s->key.length;
        }
    }
    s->key.length = 0;
    return SS_OK;
}

/* Remembers the key from `begin` to the cursor; a repeated one gets a name of its own for libconfig, which
 * would stop at it. */
static ss_status add_key(scanner *s, size_t begin) {
    const key_place key = {.begin = begin, .length = s->at - begin, .line = s->line};
    const int from = s->keys_from[s->grammar.depth];
    s->key = key;
    s->first_line = 0;
    for (int i = from; i < s->key_count && s->first_line == 0; i++) {
        const key_place *other = &s->keys[i];
        if (other->length == key.length &&
            memcmp(s->bytes + other->begin, s->bytes + begin, key.length) == 0) {
            s->first_line = other->line;
        }
    }
    if (s->first_line > 0) {
        ss_text_printf(&s->scan->plain, "*repeated-%d ", s->scan->count);
        return SS_OK;
    }
    if (s->key_count - from >= SS_READ_GROUP_KEYS) {
        return stop(s, s->line, "more than 200 keys in one group");
    }
    if (s->key_count == s->key_capacity) {
        const int capacity = s->key_capacity == 0 ? 64 : 2 * s->key_capacity;
        key_place *grown = ss_realloc(s->keys, (size_t)capacity, sizeof *grown);
        if (grown == NULL) {
            return SS_ERROR_MEMORY;
        }
        s->keys = grown;
        s->key_capacity = capacity;
    }
    s->keys[s->key_count++] = key;
    emit(s, begin, s->at);
    return SS_OK;
}

static ss_status open_level(scanner *s, char open) {
    ss_status status = SS_OK;
    const bool in_array = s->grammar.levels[s->grammar.depth].open == '[';
    SS_TRY(take(s, open));
    const size_t begin = s->at++;
    SS_TRY(add_value(s, open == '{' ? SS_NODE_GROUP : SS_NODE_LIST, in_array ? SS_SCAN_IN_ARRAY : 0U, begin,
                     0.0));
    s->keys_from[s->grammar.depth] = s->key_count;
    s->opened[s->grammar.depth] = s->line;
    ss_text_add(&s->scan->plain, open == '{' ? "{ " : "( ");
done:
    return status;
}

static ss_status close_level(scanner *s, char close) {
    ss_status status = SS_OK;
    const int from = s->keys_from[s->grammar.depth];
    SS_TRY(take(s, close));
    s->key_count = from;
    s->at++;
    ss_text_add(&s->scan->plain, close == '}' ? "} " : ") ");
done:
    return status;
}

/* A text from `begin` to the cursor, with its quotes unless they are missing. libconfig would join it to a
 * text just before it without a word; then only the first is kept, and the fault is said. */
static ss_status add_text(scanner *s, unsigned wrong, size_t begin) {
    ss_status status = SS_OK;
    if (s->after_text) {
        s->scan->values[s->scan->count - 1].wrong |= SS_SCAN_JOINED;
        return SS_OK;
    }
    SS_TRY(take(s, SS_GRAMMAR_A_VALUE));
    SS_TRY(add_value(s, SS_NODE_TEXT, wrong, begin, 0.0));
    if (wrong == 0U) {
        emit(s, begin, s->at);
    } else {
        ss_text_add(&s->scan->plain, "\"\" ");
    }
    s->after_text = true;
done:
    return status;
}

/* ---- tokens ------------------------------------------------------------------------------------- */

static bool letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static bool word_letter(char c) {
    return letter(c) || (c >= '0' && c <= '9') || c == '_' || c == '-';
}

static bool same_word(const scanner *s, size_t begin, const char *word) {
    const size_t length = strlen(word);
    if (s->at - begin != length) {
        return false;
    }
    for (size_t i = 0; i < length; i++) {
        if ((s->bytes[begin + i] | 0x20) != word[i]) {
            return false;
        }
    }
    return true;
}

/* Whether = or : follows the `i`-th byte ahead, perhaps after a comment, so that a word before it is a key.
 */
static bool equals_follows(const scanner *s, size_t i) {
    while (ahead(s, i) == ' ' || ahead(s, i) == '\t' || ahead(s, i) == '\r' || ahead(s, i) == '\n') {
        i++;
    }
    return ahead(s, i) == '=' || ahead(s, i) == ':' || ahead(s, i) == '#' || ahead(s, i) == '/';
}

/* Whether, on this line, a word follows that is no key: the unit of a quantity without quotes. */
static bool unit_follows(const scanner *s) {
    size_t i = 0;
    while (ahead(s, i) == ' ' || ahead(s, i) == '\t') {
        i++;
    }
    if (!letter(ahead(s, i))) {
        return false;
    }
    while (word_letter(ahead(s, i))) {
        i++;
    }
    return ss_grammar_in_list(&s->grammar) || !equals_follows(s, i);
}

/* Takes all up to the next sign of structure as a text whose quotes were forgotten; without a letter in it,
 * as a misspelt number. */
static ss_status take_bare(scanner *s, size_t begin) {
    ss_status status = SS_OK;
    while (s->at < s->length && strchr(";,{}()[]\n\"#=:", s->bytes[s->at]) == NULL &&
           !(ahead(s, 0) == '/' && (ahead(s, 1) == '/' || ahead(s, 1) == '*'))) {
        s->at++;
    }
    const char *last = s->bytes + s->at - 1;
    while (*last == ' ' || *last == '\t' || *last == '\r') {
        s->at--;
        last--;
    }
    bool word = false;
    for (size_t i = begin; i < s->at && !word; i++) {
        word = letter(s->bytes[i]);
    }
    SS_TRY(add_text(s, word ? SS_SCAN_UNQUOTED : SS_SCAN_UNREADABLE, begin));
done:
    return status;
}

static ss_status scan_word(scanner *s) {
    ss_status status = SS_OK;
    const size_t begin = s->at;
    while (s->at < s->length && word_letter(s->bytes[s->at])) {
        s->at++;
    }
    if (same_word(s, begin, "true") || same_word(s, begin, "false")) {
        SS_TRY(take(s, SS_GRAMMAR_A_VALUE));
        SS_TRY(add_value(s, SS_NODE_FLAG, 0U, begin, 0.0));
        emit(s, begin, s->at);
    } else if (s->grammar.state == SS_GRAMMAR_EQUALS || ss_grammar_in_list(&s->grammar)) {
        SS_TRY(take_bare(s, begin));
    } else if (!equals_follows(s, 0)) {
        status = stop_at_word(s, begin, s->at, "stands where a key is due, as in key = value");
    } else {
        SS_TRY(take(s, SS_GRAMMAR_A_KEY));
        SS_TRY(add_key(s, begin));
    }
done:
    return status;
}

static ss_status scan_number(scanner *s) {
    ss_status status = SS_OK;
    const size_t begin = s->at;
    while (s->at < s->length &&
           (word_letter(s->bytes[s->at]) || s->bytes[s->at] == '.' || s->bytes[s->at] == '+')) {
        s->at++;
    }
    double number = 0.0;
    bool whole = false;
    const bool good = ss_number_read(s->bytes + begin, s->at - begin, &number, &whole);
    if (!good || unit_follows(s)) {
        return take_bare(s, begin);
    }
    SS_TRY(take(s, SS_GRAMMAR_A_VALUE));
    SS_TRY(add_value(s, whole ? SS_NODE_INTEGER : SS_NODE_REAL, 0U, begin, number));
    ss_text_add(&s->scan->plain, "1 ");
done:
    return status;
}

static ss_status scan_text(scanner *s) {
    const size_t begin = s->at++;
    while (ahead(s, 0) != '"') {
        if (s->at >= s->length || ahead(s, 0) == '\n') {
            return stop(s, s->line, "the text is not closed on its line");
        }
        if (ahead(s, 0) == '\\' && (ahead(s, 1) == 'x' || ahead(s, 1) == 'X') && ahead(s, 2) == '0' &&
            ahead(s, 3) == '0') {
            return stop(s, s->line, "the text holds a NUL byte, \\x00");
        }
        s->at += ahead(s, 0) == '\\' && ahead(s, 1) != '\n' && s->at + 1 < s->length ? 2 : 1;
    }
    s->at++;
    return add_text(s, 0U, begin);
}

static bool skip_blank(scanner *s) {
    const char c = ahead(s, 0);
    if (c == '\n') {
        s->line++;
        s->at++;
        ss_text_add(&s->scan->plain, "\n");
    } else if (c == ' ' || c == '\t' || c == '\r' || c == '\f') {
        s->at++;
    } else if (c == '#' || (c == '/' && ahead(s, 1) == '/')) {
        while (s->at < s->length && ahead(s, 0) != '\n') {
            s->at++;
        }
    } else if (c == '/' && ahead(s, 1) == '*') {
        s->at += 2;
        while (s->at < s->length && !(ahead(s, 0) == '*' && ahead(s, 1) == '/')) {
            if (ahead(s, 0) == '\n') {
                s->line++;
                ss_text_add(&s->scan->plain, "\n");
            }
            s->at++;
        }
        s->at = s->at + 2 < s->length ? s->at + 2 : s->length;
    } else {
        return false;
    }
    return true;
}

static ss_status scan_separator(scanner *s, char c) {
    const ss_status status = take(s, c == ':' ? '=' : c);
    emit(s, s->at, s->at + 1);
    s->at++;
    return status;
}

static ss_status scan_token(scanner *s) {
    const char c = ahead(s, 0);
    switch (c) {
    case '"': return scan_text(s);
    case '{':
    case '(':
    case '[': return open_level(s, c);
    case '}':
    case ')':
    case ']': return close_level(s, c);
    case '=':
    case ':':
    case ',':
    case ';': return scan_separator(s, c);
    default: break;
    }
    if ((c >= '0' && c <= '9') || c == '.' || c == '-' || c == '+') {
        return scan_number(s);
    }
    if (letter(c)) {
        return scan_word(s);
    }
    size_t end = s->at + 1;
    while (end < s->length && ((unsigned char)s->bytes[end] & 0xC0U) == 0x80U) {
        end++;
    }
    return stop_at_word(s, s->at, end, "is not allowed outside quotes");
}

ss_status ss_scan_complain(const ss_scan_value *value, const ss_source *source, const char *path,
                           ss_diag_list *diags) {
    const ss_where where = ss_source_place(source, value->line);
    const char *word = source->text.data + value->begin;
    const int length = value->length > 40 ? 40 : (int)value->length;
    if ((value->wrong & SS_SCAN_REPEATED) != 0U) {
        return ss_diag_add(diags, SS_FAULT, where, path,
                           "given again in the same group; it stands already at line %d, once is allowed",
                           ss_source_place(source, value->other).line);
    }
    if ((value->wrong & SS_SCAN_JOINED) != 0U) {
        return ss_diag_add(
            diags, SS_FAULT, where, path,
            "found two texts without a comma between them; lists are written [ \"a\", \"b\" ]");
    }
    if ((value->wrong & SS_SCAN_UNQUOTED) != 0U) {
        return ss_diag_add(diags, SS_FAULT, where, path,
                           "found %.*s without quotes; texts, and quantities with their units, are written "
                           "\"%.*s\"",
                           length, word, length, word);
    }
    if ((value->wrong & SS_SCAN_UNREADABLE) != 0U) {
        return ss_diag_add(diags, SS_FAULT, where, path,
                           "%.*s is not a number; numbers are written 12, 0.85 or 1.5e3", length, word);
    }
    return ss_diag_add(diags, SS_FAULT, where, path,
                       "found a group or list inside [ ]; a list of groups is written ( { ... }, { ... } )");
}

ss_status ss_scan_complain_all(const ss_scan *scan, const ss_source *source, ss_diag_list *diags) {
    ss_status status = SS_OK;
    for (int i = 0; i < scan->count && status == SS_OK; i++) {
        if (scan->values[i].wrong != 0U) {
            status = ss_scan_complain(&scan->values[i], source, "", diags);
        }
    }
    return status;
}

ss_status ss_scan_read(ss_scan *scan, const ss_source *source, ss_diag_list *diags) {
    ss_status status = SS_OK;
    scanner s = {.scan = scan,
                 .source = source,
                 .diags = diags,
                 .bytes = source->text.data,
                 .length = source->text.length,
                 .line = 1};
    while (s.at < s.length) {
        if (!skip_blank(&s)) {
            SS_TRY(scan_token(&s));
        }
    }
    SS_TRY(take(&s, SS_GRAMMAR_END));
    if (s.grammar.depth > 0) {
        char what[80];
        const int depth = s.grammar.depth;
        snprintf(what, sizeof what, "the \"%c\" that opens here is never closed",
                 s.grammar.levels[depth].open);
        SS_TRY(stop(&s, s.opened[depth], what));
    }
    ss_text_add(&scan->plain, "\n");
    if (scan->plain.failed) {
        status = SS_ERROR_MEMORY;
    }
done:
    if (status == SS_ERROR_DESCRIPTION && ss_scan_complain_all(scan, source, diags) != SS_OK) {
        status = SS_ERROR_MEMORY;
    }
    ss_free(s.keys);
    return status;
}

void ss_scan_destroy(ss_scan *scan) {
    ss_text_destroy(&scan->plain);
    ss_free(scan->values);
    *scan = (ss_scan){0};
}
