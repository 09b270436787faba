/* tile_kernel.c - the loops over tiles of 32 effects; compiled several times, see tile_kernel.h. */
#include "response/tile_kernel.h"

#include <stddef.h>
#include <string.h>

#ifndef SS_KERNEL_SUFFIX
#define SS_KERNEL_SUFFIX baseline
#define SS_KERNEL_BYTES 16
#endif
#define JOIN_(a, b) a##b
#define JOIN(a, b) JOIN_(a, b)
#define TEXT_(a) #a
#define TEXT(a) TEXT_(a)

/* Products are never fused with sums (-ffp-contract=off), so that the results have the same bits on every
 * instruction set. Vectors wider than the set has are split badly by gcc. */
typedef double vector __attribute__((vector_size(SS_KERNEL_BYTES), aligned(8), may_alias));
typedef long long mask __attribute__((vector_size(SS_KERNEL_BYTES)));

enum { LANES = SS_KERNEL_BYTES / 8, PARTS = SS_TILE / LANES };

/* As floats bounds are rounded up by more than the rounding of a float. */
#define ROUND_UP 1e-6

static int any_of(mask m) {
    long long any = 0;
    for (int i = 0; i < LANES; i++) any |= m[i];
    return any != 0;
}

static vector larger(vector a, vector b) {
    const mask keep = a > b;
    return (vector)(((mask)a & keep) | ((mask)b & ~keep));
}

static void sum(const ss_term *terms, int count, double *out) {
    vector acc[PARTS];
    memset(acc, 0, sizeof acc);
    for (int i = 0; i < count; i++) {
        const double weight = terms[i].weight;
        const vector *const row = (const vector *)terms[i].row;
        for (int p = 0; p < PARTS; p++) acc[p] += weight * row[p];
    }
    memcpy(out, acc, sizeof acc);
}

static void lists(const ss_rows *a, const ss_rows *b, double *out) {
    vector acc[PARTS];
    memset(acc, 0, sizeof acc);
    for (int i = 0; i < a->list.count; i++) {
        const double weight = a->list.value[i];
        const vector *const row = (const vector *)(a->base + (size_t)a->list.index[i] * SS_TILE);
        for (int p = 0; p < PARTS; p++) acc[p] += weight * row[p];
    }
    for (int i = 0; i < b->list.count; i++) {
        const double weight = b->list.value[i];
        const vector *const row = (const vector *)(b->base + (size_t)b->list.index[i] * SS_TILE);
        for (int p = 0; p < PARTS; p++) acc[p] += weight * row[p];
    }
    memcpy(out, acc, sizeof acc);
}

static int reaches(const double *values, const double *threshold) {
    const vector *const v = (const vector *)values, *const least = (const vector *)threshold;
    const vector *const most = least + PARTS;
    mask any = {0};
    for (int p = 0; p < PARTS; p++) any |= (mask)(-v[p] >= least[p]) | (mask)(v[p] >= most[p]);
    return any_of(any);
}

static int bound(const double *start, const double *end, const double *slack, const double *threshold,
                 float *out) {
    int any = 0;
    for (int i = 0; i < SS_TILE; i++) {
        const double high = (start[i] > end[i] ? start[i] : end[i]) + slack[i];
        const double low = slack[i] - (start[i] < end[i] ? start[i] : end[i]);
        any |= (low >= threshold[i]) | (high >= threshold[SS_TILE + i]);
        out[i] = (float)(low + ROUND_UP * (low < 0.0 ? -low : low));
        out[SS_TILE + i] = (float)(high + ROUND_UP * (high < 0.0 ? -high : high));
    }
    return any;
}

static int joint(const float *a, const float *b, const double *slack, const double *threshold) {
    int any = 0;
    for (int i = 0; i < SS_TILE; i++) {
        const float low = a[i] > b[i] ? a[i] : b[i];
        const float high = a[SS_TILE + i] > b[SS_TILE + i] ? a[SS_TILE + i] : b[SS_TILE + i];
        any |= ((double)low + slack[i] >= threshold[i]) | ((double)high + slack[i] >= threshold[SS_TILE + i]);
    }
    return any;
}

static void curve(const double *cubic, double *out) {
    const vector *const c2 = (const vector *)(cubic + 2 * SS_TILE);
    const vector *const c3 = (const vector *)(cubic + 3 * SS_TILE);
    for (int p = 0; p < PARTS; p++) {
        const vector start = 2.0 * c2[p];
        const vector end = start + 6.0 * c3[p];
        const vector most = larger(larger(start, -start), larger(end, -end));
        memcpy(out + p * LANES, &most, sizeof most);
    }
}

extern const ss_tile_kernel JOIN(ss_tile_kernel_, SS_KERNEL_SUFFIX);
const ss_tile_kernel JOIN(ss_tile_kernel_, SS_KERNEL_SUFFIX) = {.name = TEXT(SS_KERNEL_SUFFIX),
                                                                .sum = sum,
                                                                .lists = lists,
                                                                .reaches = reaches,
                                                                .bound = bound,
                                                                .joint = joint,
                                                                .curve = curve};
