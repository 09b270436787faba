/* arena.c - blocks from which small pieces are cut, and which are freed all at once. */
#include "sillspan/memory.h"

#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* Payload of an ordinary block; a larger request gets a block of its own. */
#define BLOCK_BYTES ((size_t)16384)

struct ss_arena_block {
    struct ss_arena_block *next;
    size_t used;
    size_t size;
    max_align_t data[]; /* zeroed at birth and never handed out twice, so pieces need no clearing */
};

static size_t rounded_up(size_t bytes) {
    const size_t step = sizeof(max_align_t);
    return (bytes + step - 1) / step * step;
}

void *ss_arena_alloc(ss_arena *arena, size_t count, size_t size) {
    if (size != 0 && count > ((size_t)PTRDIFF_MAX - BLOCK_BYTES) / size) {
        return NULL;
    }
    /* An empty piece still gets an address of its own. */
    const size_t wanted = count * size == 0 ? 1 : count * size;
    const size_t bytes = rounded_up(wanted);
    struct ss_arena_block *head = arena->head;
    if (head == NULL || head->size - head->used < bytes) {
        const size_t payload = bytes > BLOCK_BYTES ? bytes : BLOCK_BYTES;
        struct ss_arena_block *block = ss_alloc(1, sizeof *block + payload);
        if (block == NULL) {
            return NULL;
        }
        block->size = payload;
        if (head != NULL && bytes > BLOCK_BYTES) {
            /* A block that is full at once goes behind the head, whose room would be lost otherwise. */
            block->used = bytes;
            block->next = head->next;
            head->next = block;
            return block->data;
        }
        block->next = head;
        arena->head = block;
        head = block;
    }
    void *piece = (char *)head->data + head->used;
    head->used += bytes;
    return piece;
}

char *ss_arena_text(ss_arena *arena, const char *text, size_t length) {
    if (length == SIZE_MAX) {
        return NULL;
    }
    char *copy = ss_arena_alloc(arena, length + 1, 1);
    if (copy != NULL && length > 0) {
        memcpy(copy, text, length);
    }
    return copy;
}

char *ss_arena_vprintf(ss_arena *arena, const char *format, va_list arguments) {
    va_list again;
    va_copy(again, arguments);
    const int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    if (length < 0) {
        return NULL;
    }
    char *text = ss_arena_alloc(arena, (size_t)length + 1, 1);
    if (text != NULL) {
        vsnprintf(text, (size_t)length + 1, format, arguments);
    }
    return text;
}

char *ss_arena_printf(ss_arena *arena, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = ss_arena_vprintf(arena, format, arguments);
    va_end(arguments);
    return text;
}

void ss_arena_destroy(ss_arena *arena) {
    struct ss_arena_block *block = arena->head;
    while (block != NULL) {
        struct ss_arena_block *next = block->next;
        ss_free(block);
        block = next;
    }
    arena->head = NULL;
}
