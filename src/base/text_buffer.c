/* text_buffer.c - text that grows, and the making harmless of text that others wrote. */
#include "sillspan/text.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "sillspan/memory.h"

static bool reserve(ss_text *text, size_t more) {
    if (text->failed) {
        return false;
    }
    if (more > (size_t)PTRDIFF_MAX - text->length - 1) {
        text->failed = true;
        return false;
    }
    const size_t needed = text->length + more + 1;
    if (needed <= text->capacity) {
        return true;
    }
    size_t capacity = text->capacity < 64 ? 64 : text->capacity;
    while (capacity < needed) {
        capacity = capacity > (size_t)PTRDIFF_MAX / 2 ? needed : 2 * capacity;
    }
    char *grown = ss_realloc(text->data, capacity, 1);
    if (grown == NULL) {
        text->failed = true;
        return false;
    }
    text->data = grown;
    text->capacity = capacity;
    return true;
}

void ss_text_add_bytes(ss_text *text, const char *piece, size_t length) {
    if (!reserve(text, length)) {
        return;
    }
    if (length > 0) {
        memcpy(text->data + text->length, piece, length);
    }
    text->length += length;
    text->data[text->length] = '\0';
}

void ss_text_add(ss_text *text, const char *piece) {
    ss_text_add_bytes(text, piece, strlen(piece));
}

void ss_text_printf(ss_text *text, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    va_list again;
    va_copy(again, arguments);
    const int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    if (length < 0) {
        text->failed = true;
    } else if (reserve(text, (size_t)length)) {
        vsnprintf(text->data + text->length, (size_t)length + 1, format, arguments);
        text->length += (size_t)length;
    }
    va_end(arguments);
}

void ss_text_repeat(ss_text *text, const char *piece, int count) {
    const size_t length = strlen(piece);
    for (int i = 0; i < count && !text->failed; i++) {
        ss_text_add_bytes(text, piece, length);
    }
}

/*
 * Decodes one UTF-8 character of `text` (terminated, not at its end). Returns its bytes and sets *code, or
 * returns 0 for what is malformed: a stray or missing continuation, an overlong form, a surrogate, beyond
 * 10FFFF.
 */
static size_t decode(const unsigned char *text, uint32_t *code) {
    static const uint32_t least[5] = {0, 0, 0x80, 0x800, 0x10000};
    const unsigned char lead = text[0];
    if (lead < 0x80U) {
        *code = lead;
        return 1;
    }
    const size_t length = lead >= 0xF0U && lead < 0xF8U ? 4 : lead >= 0xE0U ? 3 : 2;
    if (lead < 0xC0U || lead >= 0xF8U) {
        return 0;
    }
    uint32_t value = lead & (0xFFU >> (length + 1));
    for (size_t i = 1; i < length; i++) {
        /* The terminator is no continuation, so this never reads past it. */
        if ((text[i] & 0xC0U) != 0x80U) {
            return 0;
        }
        value = (value << 6) | (text[i] & 0x3FU);
    }
    if (value < least[length] || value > 0x10FFFFU || (value >= 0xD800U && value <= 0xDFFFU)) {
        return 0;
    }
    *code = value;
    return length;
}

/* Controls (both sets), and what turns the direction of writing, breaks lines, or is not seen at all. */
static bool steers(uint32_t code) {
    return code < 0x20U || (code >= 0x7FU && code <= 0x9FU) || code == 0x061CU || code == 0x200BU ||
           code == 0x200EU || code == 0x200FU || (code >= 0x2028U && code <= 0x202EU) ||
           (code >= 0x2060U && code <= 0x206FU) || code == 0xFEFFU || (code >= 0xFFF9U && code <= 0xFFFBU) ||
           (code >= 0xE0000U && code <= 0xE007FU);
}

void ss_text_add_plain(ss_text *text, const char *piece) {
    const unsigned char *at = (const unsigned char *)piece;
    while (*at != '\0' && !text->failed) {
        uint32_t code = 0;
        const size_t length = decode(at, &code);
        if (*at == '\n' || *at == '\t' || *at == '\r') {
            ss_text_add_bytes(text, " ", 1);
        } else if (length == 0 || steers(code)) {
            ss_text_add_bytes(text, "?", 1);
        } else {
            ss_text_add_bytes(text, (const char *)at, length);
        }
        at += length == 0 ? 1 : length;
    }
}

void ss_text_destroy(ss_text *text) {
    if (text == NULL) {
        return;
    }
    ss_free(text->data);
    *text = (ss_text){0};
}

int ss_text_width(const char *piece) {
    int width = 0;
    for (const char *at = piece; *at != '\0'; at++) {
        if (((unsigned char)*at & 0xC0U) != 0x80U) {
            width++;
        }
    }
    return width;
}
