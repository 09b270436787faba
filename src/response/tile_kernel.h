/* tile_kernel.h - sums of rows of SS_TILE effects, and comparisons with what has been found; compiled once
 * for each instruction set with the same bits. */
#ifndef SS_RESPONSE_TILE_KERNEL_H
#define SS_RESPONSE_TILE_KERNEL_H

#include "response/sparse_lists.h"
#include "sillspan/grillage.h"

/** A row of SS_TILE values and what it counts. */
typedef struct ss_term {
    double weight;
    const double *row;
} ss_term;

/** Rows out of an array of them. */
typedef struct ss_rows {
    ss_sparse list;
    const double *base; /**< row i is base + i SS_TILE */
} ss_rows;

/**
 * Thresholds and bounds are 2 x SS_TILE: minus the least first, then the most. Every function does the same
 * operations in the same order on each lane, whatever the width of the vectors.
 */
typedef struct ss_tile_kernel {
    const char *name;
    /** out = sum of weight x row, in the order of the terms. */
    void (*sum)(const ss_term *terms, int count, double *out);
    /** out = sum of the rows of `a` and then `b` that their lists name, each times its number. */
    void (*lists)(const ss_rows *a, const ss_rows *b, double *out);
    /** Whether some value, or minus it, reaches its threshold. */
    int (*reaches)(const double *values, const double *threshold);
    /** bound: what lies between `start` and `end`, and as far beyond as `slack`; rounded up. Whether some
     * lane reaches its threshold. */
    int (*bound)(const double *start, const double *end, const double *slack, const double *threshold,
                 float *bound);
    /** Whether the larger of two bounds, and `slack`, reach some threshold. */
    int (*joint)(const float *a, const float *b, const double *slack, const double *threshold);
    /** curve: largest |second derivative| of the cubics (4 x SS_TILE) on [0, 1]. */
    void (*curve)(const double *cubic, double *curve);
} ss_tile_kernel;

/** The widest that this processor runs. */
const ss_tile_kernel *ss_tile_kernel_best(void);

/** Kernels that this processor runs, the plainest first; NULL beyond the last. */
const ss_tile_kernel *ss_tile_kernel_at(int index);

#endif
