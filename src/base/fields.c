/* fields.c - texts as fields of one line, and back. */
#include "base/fields.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"

static const char escaped[] = "\t\n\r\\";
static const char letters[] = "tnr\\";
/* Stand for no text, and for one without a byte. */
static const char none[] = "\\0";
static const char empty[] = "\\e";

void ss_fields_add(ss_text *line, const char *piece) {
    if (line->length > 0) {
        ss_text_add(line, "\t");
    }
    if (piece == NULL || piece[0] == '\0') {
        ss_text_add(line, piece == NULL ? none : empty);
        return;
    }
    while (*piece != '\0') {
        const size_t plain = strcspn(piece, escaped);
        ss_text_add_bytes(line, piece, plain);
        piece += plain;
        if (*piece != '\0') {
            const char pair[2] = {'\\', letters[strchr(escaped, *piece) - escaped]};
            ss_text_add_bytes(line, pair, sizeof pair);
            piece++;
        }
    }
}

void ss_fields_add_integer(ss_text *line, long long value) {
    ss_text_printf(line, "%s%lld", line->length > 0 ? "\t" : "", value);
}

void ss_fields_add_number(ss_text *line, double value) {
    char buffer[64];
    ss_fields_add(line, isnan(value) ? "none" : ss_text_significant(buffer, sizeof buffer, value, 17));
}

/* Takes one escaped field of `length` bytes apart into `out`, which has room. */
static bool unescape(const char *from, size_t length, char *out) {
    for (size_t i = 0; i < length; i++) {
        if (from[i] != '\\') {
            *out++ = from[i];
            continue;
        }
        const char *const letter = ++i < length ? strchr(letters, from[i]) : NULL;
        if (letter == NULL || *letter == '\0') {
            return false;
        }
        *out++ = escaped[letter - letters];
    }
    *out = '\0';
    return true;
}

const char *ss_fields_text(ss_fields *fields) {
    const char *const from = fields->at;
    if (fields->wrong || fields->no_memory || from == NULL) {
        fields->wrong = fields->wrong || from == NULL;
        return NULL;
    }
    const size_t length = strcspn(from, "\t");
    fields->at = from[length] == '\t' ? from + length + 1 : NULL;
    if (length == 2 && strncmp(from, none, 2) == 0) {
        return NULL;
    }
    char *const text = ss_arena_alloc(fields->arena, length + 1, 1);
    if (text == NULL) {
        fields->no_memory = true;
        return NULL;
    }
    if (length == 2 && strncmp(from, empty, 2) == 0) {
        return text;
    }
    if (length == 0 || !unescape(from, length, text)) {
        fields->wrong = true;
        return NULL;
    }
    return text;
}

long long ss_fields_integer(ss_fields *fields, long long least, long long most) {
    const char *end = NULL;
    const char *const text = ss_fields_text(fields);
    const double value = text == NULL ? SS_NAN : ss_text_number(text, &end);
    if (text == NULL || end == text || *end != '\0' || !(value >= (double)least && value <= (double)most) ||
        value != floor(value)) {
        fields->wrong = true;
        return least;
    }
    return (long long)value;
}

double ss_fields_number(ss_fields *fields) {
    const char *end = NULL;
    const char *const text = ss_fields_text(fields);
    if (text == NULL || strcmp(text, "none") == 0) {
        fields->wrong = fields->wrong || text == NULL;
        return SS_NAN;
    }
    if (strcmp(text, "infinite") == 0 || strcmp(text, "-infinite") == 0) {
        return text[0] == '-' ? -SS_INFINITY : SS_INFINITY;
    }
    const double value = ss_text_number(text, &end);
    fields->wrong = fields->wrong || end == text || *end != '\0';
    return value;
}

bool ss_fields_end(const ss_fields *fields) {
    return !fields->wrong && !fields->no_memory && fields->at == NULL;
}
