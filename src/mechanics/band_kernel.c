/* band_kernel.c - triangular sweeps and products on tiles of 32 right-hand sides; compiled several times, see
 * band_kernel.h. */
#include "mechanics/band_kernel.h"

#include <string.h>

#include "sillspan/grillage.h"

#ifndef SS_KERNEL_SUFFIX
#define SS_KERNEL_SUFFIX baseline
#define SS_KERNEL_BYTES 32
#endif
#define JOIN_(a, b) a##b
#define JOIN(a, b) JOIN_(a, b)
#define NAME(verb) JOIN(ss_band_kernel_##verb##_, SS_KERNEL_SUFFIX)

/*
 * Accumulators hold the 32 lanes of one row in registers: eight of 32 bytes with AVX2, four of 64 with
 * AVX-512 (vectors wider than the set has are split badly by gcc, performance drops 35 times). Each lane sees
 * the same operations in the same order whatever the width, and products are never fused with sums
 * (-ffp-contract=off, no -mfma): the results have the same bits on every instruction set.
 */
typedef double vector __attribute__((vector_size(SS_KERNEL_BYTES), aligned(8), may_alias));

enum { LANES = SS_KERNEL_BYTES / 8, PARTS = SS_TILE / LANES };

/* acc -= l * row */
#define SUBTRACT(acc, l, row)                                                                                \
    for (int part_ = 0; part_ < PARTS; part_++) {                                                            \
        (acc)[part_] -= (l) * (row)[part_];                                                                  \
    }

void NAME(solve)(const ss_factor *factor, int first, double *x) {
    const int n = factor->n;
    const int kd = factor->kd;
    const double *inverse = factor->inverse;
    vector *tile = (vector *)x;
    for (int i = first; i < n; i++) {
        vector acc[PARTS];
        vector *own = tile + (size_t)i * PARTS;
        memcpy(acc, own, sizeof acc);
        const int low = i - kd > first ? i - kd : first;
        const double *l = factor->rows + (size_t)i * (size_t)kd + (size_t)(low - i + kd);
        for (int j = low; j < i; j++, l++) {
            const vector *other = tile + (size_t)j * PARTS;
            SUBTRACT(acc, *l, other)
        }
        for (int p = 0; p < PARTS; p++) {
            own[p] = acc[p] * inverse[i];
        }
    }
    for (int j = n - 1; j >= 0; j--) {
        vector acc[PARTS];
        vector *own = tile + (size_t)j * PARTS;
        memcpy(acc, own, sizeof acc);
        const int high = j + kd < n - 1 ? j + kd : n - 1;
        const double *l = factor->columns + (size_t)j * (size_t)kd + (size_t)(high - j);
        for (int i = high; i > j; i--) {
            l--;
            const vector *other = tile + (size_t)i * PARTS;
            SUBTRACT(acc, *l, other)
        }
        for (int p = 0; p < PARTS; p++) {
            own[p] = acc[p] * inverse[j];
        }
    }
}

void NAME(subtract)(int rows, int columns, const double *a, const double *x, double *y) {
    const vector *tile = (const vector *)x;
    for (int i = 0; i < rows; i++) {
        vector acc[PARTS];
        vector *own = (vector *)y + (size_t)i * PARTS;
        memcpy(acc, own, sizeof acc);
        const double *l = a + (size_t)i * (size_t)columns;
        for (int j = 0; j < columns; j++, l++) {
            const vector *other = tile + (size_t)j * PARTS;
            SUBTRACT(acc, *l, other)
        }
        memcpy(own, acc, sizeof acc);
    }
}
