/* replay.c - feeds a fuzz harness its corpus and seeded mutations of it, the same in each run. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/random.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define MOST_LINES 256
#define MOST_BYTES 512

typedef struct corpus {
    uint8_t lines[MOST_LINES][MOST_BYTES];
    size_t sizes[MOST_LINES];
    size_t count;
} corpus;

static int read_corpus(const char *path, corpus *result) {
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return 0;
    }
    char line[MOST_BYTES];
    while (result->count < MOST_LINES && fgets(line, sizeof line, file) != NULL) {
        const size_t size = strcspn(line, "\n");
        memcpy(result->lines[result->count], line, size);
        result->sizes[result->count++] = size;
    }
    fclose(file);
    return result->count > 0;
}

/* Puts `more` bytes into `data` at `at`, as far as there is room. */
static size_t insert(uint8_t *data, size_t size, size_t at, const uint8_t *piece, size_t more) {
    if (more > MOST_BYTES - size) {
        more = MOST_BYTES - size;
    }
    memmove(data + at + more, data + at, size - at);
    memcpy(data + at, piece, more);
    return size + more;
}

/* Changes `data` once: a byte, a cut, a doubled piece, or a piece of another line. */
static size_t mutate(const corpus *lines, uint64_t *state, uint8_t *data, size_t size) {
    /* The letters that the grammar turns on are met far more often than by chance. */
    static const char telling[] = "0123456789 .,-+/'\"*^%eEftinkplbNmrad\xC2\xB7\xB2\t";
    const size_t at = next_below(state, size + 1);
    uint8_t piece[MOST_BYTES];
    switch (next_below(state, 6)) {
    case 0:
        if (at < size) {
            data[at] = next_byte(state);
        }
        return size;
    case 1:
        if (at < size) {
            data[at] = (uint8_t)telling[next_below(state, sizeof telling - 1)];
        }
        return size;
    case 2:
        piece[0] = (uint8_t)telling[next_below(state, sizeof telling - 1)];
        return insert(data, size, at, piece, 1);
    case 3: {
        const size_t length = next_below(state, size - at + 1);
        memmove(data + at, data + at + length, size - at - length);
        return size - length;
    }
    case 4: {
        const size_t length = next_below(state, size - at + 1);
        memcpy(piece, data + at, length);
        return insert(data, size, at, piece, length);
    }
    default: {
        const size_t other = next_below(state, lines->count);
        const size_t from = next_below(state, lines->sizes[other] + 1);
        return insert(data, size, at, lines->lines[other] + from, lines->sizes[other] - from);
    }
    }
}

int main(int argc, char **argv) {
    static corpus lines;
    const long inputs = argc == 3 ? strtol(argv[2], NULL, 10) : 0;
    if (inputs <= 0 || !read_corpus(argv[1], &lines)) {
        fprintf(stderr, "usage: %s CORPUS INPUTS\n", argv[0]);
        return 2;
    }
    for (size_t i = 0; i < lines.count; i++) {
        LLVMFuzzerTestOneInput(lines.lines[i], lines.sizes[i]);
    }
    uint64_t state = UINT64_C(20260417);
    for (long i = 0; i < inputs; i++) {
        uint8_t data[MOST_BYTES];
        const size_t seed = next_below(&state, lines.count);
        size_t size = lines.sizes[seed];
        memcpy(data, lines.lines[seed], size);
        const size_t changes = 1 + next_below(&state, 6);
        for (size_t j = 0; j < changes; j++) {
            size = mutate(&lines, &state, data, size);
        }
        /* An exact heap copy, so that a sanitizer sees one byte too far. */
        uint8_t *exact = malloc(size == 0 ? 1 : size);
        if (exact == NULL) {
            return 2;
        }
        memcpy(exact, data, size);
        LLVMFuzzerTestOneInput(exact, size);
        free(exact);
    }
    printf("%zu corpus lines and %ld mutations\n", lines.count, inputs);
    return 0;
}
