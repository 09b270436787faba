/* replay_files.c - feeds a fuzz harness whole files and seeded mutations of them, the same in each run. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/random.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define MOST_SEEDS 64
#define MOST_BYTES 16384

typedef struct seed {
    uint8_t bytes[MOST_BYTES];
    size_t size;
} seed;

static size_t insert(seed *s, size_t at, const uint8_t *piece, size_t more) {
    if (more > MOST_BYTES - s->size) {
        more = MOST_BYTES - s->size;
    }
    memmove(s->bytes + at + more, s->bytes + at, s->size - at);
    memcpy(s->bytes + at, piece, more);
    s->size += more;
    return more;
}

/* One change: a byte, a word that the notation turns on, a cut, or a piece of another seed. */
static void mutate(seed *s, const seed *seeds, size_t count, uint64_t *state) {
    static const char *const words[] = {
        "{",       "}",     "(",    ")",     "[",     "]",        "\"",   ",",
        ";",       "=",     "\n",   "/*",    "*/",    "//",       "#",    "@include",
        "\\",      "\\x00", "true", "0x1FL", "1e999", ".",        "-",    "name = ",
        " 12 in ", "\"\"",  "*a",   "[ [",   "( { ",  "\xC3\xB8", "\xFF", "99999999999999999999",
        ":"};
    const size_t at = next_below(state, s->size + 1);
    const char *word = words[next_below(state, sizeof words / sizeof words[0])];
    const seed *other = &seeds[next_below(state, count)];
    const size_t from = next_below(state, other->size + 1);
    uint8_t piece[MOST_BYTES];
    size_t length = next_below(state, 200);
    switch (next_below(state, 6)) {
    case 0:
        if (at < s->size) {
            s->bytes[at] = next_byte(state);
        }
        break;
    case 1:
    case 2: insert(s, at, (const uint8_t *)word, strlen(word)); break;
    case 3:
    case 4:
        length = next_below(state, 4) > 0 ? next_below(state, 4) + 1 : length;
        if (length > s->size - at) {
            length = s->size - at;
        }
        memmove(s->bytes + at, s->bytes + at + length, s->size - at - length);
        s->size -= length;
        break;
    default:
        if (length > other->size - from) {
            length = other->size - from;
        }
        memcpy(piece, other->bytes + from, length);
        insert(s, at, piece, length);
        break;
    }
}

static int load(const char *path, seed *s) {
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        fprintf(stderr, "%s cannot be read\n", path);
        return 0;
    }
    s->size = fread(s->bytes, 1, MOST_BYTES, file);
    fclose(file);
    return 1;
}

int main(int argc, char **argv) {
    if (argc < 3 || argc - 2 > MOST_SEEDS) {
        fputs("use: fuzz_NAME inputs seed-file...\n", stderr);
        return 2;
    }
    const long inputs = strtol(argv[1], NULL, 10);
    const size_t count = (size_t)argc - 2;
    seed *seeds = calloc(count + 1, sizeof *seeds);
    if (seeds == NULL) {
        return 2;
    }
    int result = 0;
    for (size_t i = 0; i < count && result == 0; i++) {
        result = load(argv[i + 2], &seeds[i]) ? 0 : 2;
        if (result == 0) {
            LLVMFuzzerTestOneInput(seeds[i].bytes, seeds[i].size);
        }
    }
    uint64_t state = UINT64_C(0x5111597A2026);
    seed *work = &seeds[count];
    for (long i = 0; i < inputs && result == 0; i++) {
        *work = seeds[next_below(&state, count)];
        for (size_t changes = next_below(&state, 6) + 1; changes > 0; changes--) {
            mutate(work, seeds, count, &state);
        }
        LLVMFuzzerTestOneInput(work->bytes, work->size);
    }
    free(seeds);
    return result;
}
