/* random_contact.h - reproducible random contact problems for tests. */
#ifndef TEST_RANDOM_CONTACT_H
#define TEST_RANDOM_CONTACT_H

#include <stdint.h>

enum { TEST_CONTACT_MOST = 8 };

/** splitmix64 (S. Vigna, public domain), as a number in [-1, 1). */
static inline double random_signed(uint64_t *seed) {
    uint64_t z = (*seed += UINT64_C(0x9e3779b97f4a7c15));
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    z ^= z >> 31;
    return (double)(z >> 11) / 4503599627370496.0 - 1.0;
}

static inline int random_int(uint64_t *seed, int below) {
    const int value = (int)((random_signed(seed) + 1.0) * 0.5 * (double)below);
    return value < below ? value : below - 1;
}

/** S = B' B with B rank x n, some columns zero, in the scale of stiffnesses (N/m). Whole numbers in B give
 * exact ties. */
static inline void random_stiffness(uint64_t *seed, int n, int rank, int whole, double *S) {
    double B[TEST_CONTACT_MOST][TEST_CONTACT_MOST];
    for (int j = 0; j < n; j++) {
        const int zero = random_int(seed, 6) == 0;
        for (int i = 0; i < rank; i++) {
            B[i][j] = zero ? 0.0 : whole ? (double)(random_int(seed, 5) - 2) : random_signed(seed);
        }
    }
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
            double sum = 0.0;
            for (int k = 0; k < rank; k++) sum += B[k][i] * B[k][j];
            S[i * n + j] = 3.7e6 * sum;
        }
    }
}

#endif
