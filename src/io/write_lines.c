/* write_lines.c - text broken into lines of a given width. */
#include "io/write_lines.h"

#include <stdbool.h>

int ss_lines_width(const char *text, size_t length) {
    int columns = 0;
    for (size_t i = 0; i < length; i++) {
        /* Bytes that go on with a character take no column of their own. */
        columns += ((unsigned char)text[i] & 0xC0U) != 0x80U;
    }
    return columns;
}

size_t ss_lines_break(const char *text, int columns, const char **next) {
    size_t end = 0;   /* after what fits */
    size_t blank = 0; /* the last blank within it */
    int taken = 0;
    for (size_t i = 0; text[i] != '\0'; i++) {
        const bool starts = ((unsigned char)text[i] & 0xC0U) != 0x80U;
        if (starts && taken == columns && i > 0) {
            if (text[i] == ' ') {
                blank = i;
            }
            if (blank > 0) {
                end = blank;
            }
            *next = text + end;
            while (**next == ' ') {
                (*next)++;
            }
            return end;
        }
        if (text[i] == ' ' && taken > 0) {
            blank = i;
        }
        taken += starts;
        end = i + 1;
    }
    *next = text + end;
    return end;
}

/* A word that is longer than the line is left whole: a path cut in two cannot be copied. */
static size_t break_at_word(const char *text, int columns, const char **next) {
    size_t word = 0;
    while (text[word] != '\0' && text[word] != ' ') {
        word++;
    }
    if (ss_lines_width(text, word) < columns) {
        return ss_lines_break(text, columns, next);
    }
    *next = text + word;
    while (**next == ' ') {
        (*next)++;
    }
    return word;
}

void ss_lines_wrap(ss_text *out, const char *text, int first, int rest, int width) {
    ss_text plain = {0};
    ss_text_add_plain(&plain, text);
    const char *at = plain.data == NULL ? "" : plain.data;
    int indent = first;
    do {
        const char *next = at;
        const int room = width - indent < 10 ? 10 : width - indent;
        const size_t length = break_at_word(at, room, &next);
        if (length > 0) {
            ss_text_repeat(out, " ", indent);
            ss_text_add_bytes(out, at, length);
        }
        ss_text_add(out, "\n");
        at = next;
        indent = rest;
    } while (*at != '\0');
    out->failed = out->failed || plain.failed;
    ss_text_destroy(&plain);
}
