/* random.c - counter-based random numbers and Latin hypercubes without a state. */
#include "base/random.h"

#include "base/numeric.h"

#define ROUNDS 10

/* Multipliers and key steps of Philox4x32 (Salmon et al. 2011, and the Random123 library). */
#define M0 0xD2511F53U
#define M1 0xCD9E8D57U
#define W0 0x9E3779B9U
#define W1 0xBB67AE85U

/* Enough rounds that even halves of two bits are well mixed. */
#define FEISTEL_ROUNDS 12

/* What the last counter word says a number is for, so that no two uses share one. */
enum { FOR_UNIT = 1, FOR_PLACE = 2 };

void ss_philox(const uint32_t counter[4], const uint32_t key[2], uint32_t out[4]) {
    uint32_t c[4] = {counter[0], counter[1], counter[2], counter[3]};
    uint32_t k0 = key[0];
    uint32_t k1 = key[1];
    for (int round = 0; round < ROUNDS; round++) {
        const uint64_t p0 = (uint64_t)M0 * c[0];
        const uint64_t p1 = (uint64_t)M1 * c[2];
        const uint32_t next0 = (uint32_t)(p1 >> 32) ^ c[1] ^ k0;
        const uint32_t next2 = (uint32_t)(p0 >> 32) ^ c[3] ^ k1;
        c[0] = next0;
        c[1] = (uint32_t)p1;
        c[2] = next2;
        c[3] = (uint32_t)p0;
        k0 += W0;
        k1 += W1;
    }
    for (int i = 0; i < 4; i++) {
        out[i] = c[i];
    }
}

static void words(uint64_t seed, uint32_t stream, uint32_t use, uint64_t i, uint32_t out[4]) {
    const uint32_t key[2] = {(uint32_t)seed, (uint32_t)(seed >> 32)};
    const uint32_t counter[4] = {(uint32_t)i, (uint32_t)(i >> 32), stream, use};
    ss_philox(counter, key, out);
}

double ss_random_unit(uint64_t seed, uint32_t stream, uint64_t i) {
    uint32_t word[4];
    words(seed, stream, FOR_UNIT, i, word);
    /* 52 bits and a half: with one bit more the last of them would round to 1. */
    const uint64_t bits = ((uint64_t)word[0] << 32 | word[1]) >> 12;
    return ((double)bits + 0.5) * 0x1p-52;
}

uint32_t ss_random_place(uint64_t seed, uint32_t stream, uint32_t count, uint32_t i) {
    int half = 1;
    while (half < 15 && (UINT32_C(1) << (2 * half)) < count) {
        half++;
    }
    const uint32_t mask = (UINT32_C(1) << half) - 1;
    uint32_t at = i;
    do {
        uint32_t left = at >> half;
        uint32_t right = at & mask;
        for (uint32_t round = 0; round < FEISTEL_ROUNDS; round++) {
            uint32_t word[4];
            words(seed, stream, FOR_PLACE, (uint64_t)round << 32 | right, word);
            const uint32_t next = left ^ (word[0] & mask);
            left = right;
            right = next;
        }
        at = left << half | right;
    } while (at >= count);
    return at;
}

void ss_draw(uint64_t seed, int count, int dimension, int i, double *out) {
    for (int j = 0; j < dimension; j++) {
        const double stratum = (double)ss_random_place(seed, (uint32_t)j, (uint32_t)count, (uint32_t)i);
        const double within = ss_random_unit(seed, (uint32_t)j, (uint64_t)i);
        /* The sum may round up to the end of the last part. */
        out[j] = ss_min((stratum + within) / count, 1.0 - 0x1p-53);
    }
}
