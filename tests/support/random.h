/* random.h - numbers that look random and are the same in each run. */
#ifndef TEST_RANDOM_H
#define TEST_RANDOM_H

#include <stddef.h>
#include <stdint.h>

/** 64 bits (xorshift64*, Vigna 2016). */
static inline uint64_t next_random(uint64_t *state) {
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    return *state * UINT64_C(2685821657736338717);
}

/** -1 to 1. */
static inline double next_signed(uint64_t *state) {
    return (double)(int64_t)next_random(state) / 9223372036854775808.0;
}

/** 0 to limit - 1; 0 when the limit is 0. From the upper bits, which are the better ones. */
static inline size_t next_below(uint64_t *state, size_t limit) {
    return limit == 0 ? 0 : (size_t)((next_random(state) >> 11) % limit);
}

static inline uint8_t next_byte(uint64_t *state) {
    return (uint8_t)(next_random(state) >> 11);
}

#endif
