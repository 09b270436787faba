/* write_html_text.c - text that others wrote as text of a page or of its style, and as nothing else. */
#include <stdint.h>
#include <string.h>

#include "io/write_html.h"
#include "io/write_lines.h"

/* A longer word of a cell may be broken, into pieces of so many characters, or after a dot and the like where
 * the piece has at least so many. */
#define LONG 20
#define PIECE 14
#define LEAST 6
/* Characters of a title that fit the margin of a page. */
#define MARGIN 90

static void add_escaped(ss_text *out, const char *plain) {
    const char *from = plain;
    for (const char *at = plain;; at++) {
        const char *name = NULL;
        switch (*at) {
        case '&': name = "&amp;"; break;
        case '<': name = "&lt;"; break;
        case '>': name = "&gt;"; break;
        case '"': name = "&quot;"; break;
        case '\'': name = "&#39;"; break;
        default: break;
        }
        if (name != NULL || *at == '\0') {
            ss_text_add_bytes(out, from, (size_t)(at - from));
            from = at + 1;
        }
        if (*at == '\0') {
            return;
        }
        if (name != NULL) {
            ss_text_add(out, name);
        }
    }
}

void ss_html_text(ss_text *out, const char *text) {
    ss_text plain = {0};
    ss_text_add_plain(&plain, text);
    add_escaped(out, plain.data == NULL ? "" : plain.data);
    out->failed = out->failed || plain.failed;
    ss_text_destroy(&plain);
}

/* Bytes of the UTF-8 character that begins with `lead`. */
static int length_of(unsigned char lead) {
    return lead < 0x80U ? 1 : lead >= 0xF0U ? 4 : lead >= 0xE0U ? 3 : 2;
}

/* A word that is too long for a column, with places where a browser may break it. */
static void add_long_word(ss_text *out, const char *word, size_t length) {
    ss_text piece = {0};
    int width = 0;
    for (size_t i = 0; i < length;) {
        const size_t bytes = (size_t)length_of((unsigned char)word[i]);
        ss_text_add_bytes(&piece, word + i, bytes);
        i += bytes;
        width++;
        const bool joint = strchr("._/", word[i - 1]) != NULL;
        if (i >= length || width == PIECE || (joint && width >= LEAST)) {
            add_escaped(out, piece.data == NULL ? "" : piece.data);
            ss_text_add(out, i < length ? "<wbr>" : "");
            out->failed = out->failed || piece.failed;
            ss_text_destroy(&piece);
            width = 0;
        }
    }
}

void ss_html_cell(ss_text *out, const char *text) {
    ss_text plain = {0};
    ss_text_add_plain(&plain, text);
    const char *at = plain.data == NULL ? "" : plain.data;
    while (*at != '\0') {
        const size_t blanks = strspn(at, " ");
        const size_t word = strcspn(at + blanks, " ");
        ss_text_add_bytes(out, at, blanks);
        if (ss_lines_width(at + blanks, word) > LONG) {
            add_long_word(out, at + blanks, word);
        } else {
            ss_text one = {0};
            ss_text_add_bytes(&one, at + blanks, word);
            add_escaped(out, one.data == NULL ? "" : one.data);
            out->failed = out->failed || one.failed;
            ss_text_destroy(&one);
        }
        at += blanks + word;
    }
    out->failed = out->failed || plain.failed;
    ss_text_destroy(&plain);
}

static bool is_harmless(uint32_t code) {
    return (code >= '0' && code <= '9') || (code >= 'A' && code <= 'Z') || (code >= 'a' && code <= 'z') ||
           code == ' ';
}

void ss_html_style_text(ss_text *out, const char *text) {
    ss_text plain = {0};
    ss_text_add_plain(&plain, text);
    int width = 0;
    /* What was made harmless is well-formed UTF-8. */
    for (const char *at = plain.data == NULL ? "" : plain.data; *at != '\0' && width < MARGIN; width++) {
        const unsigned char lead = (unsigned char)*at;
        const int length = length_of(lead);
        uint32_t code = length == 1 ? lead : lead & (0xFFU >> (length + 1));
        for (int i = 1; i < length; i++) {
            code = (code << 6) | ((unsigned char)at[i] & 0x3FU);
        }
        if (is_harmless(code)) {
            ss_text_add_bytes(out, at, 1);
        } else {
            ss_text_printf(out, "\\%06x ", (unsigned)code);
        }
        at += length;
    }
    out->failed = out->failed || plain.failed;
    ss_text_destroy(&plain);
}
