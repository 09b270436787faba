/* test_tile_kernel.c - the kernels for tiles of effects: the same bits on every instruction set, and what
 * they are to compute. */
#include "response/tile_kernel.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "support/random.h"
#include "support/suite.h"

enum { ROWS = 29, TERMS = 11 };

typedef struct data {
    double rows[ROWS * SS_TILE];
    ss_term terms[TERMS];
    int index[TERMS];
    double value[TERMS];
    double threshold[2 * SS_TILE];
} data;

static double next(uint64_t *state) {
    return next_signed(state) * pow(10.0, next_signed(state) * 4.0);
}

static void fill(data *d, uint64_t seed) {
    uint64_t state = seed;
    for (int i = 0; i < ROWS * SS_TILE; i++) d->rows[i] = next(&state);
    for (int i = 0; i < TERMS; i++) {
        d->index[i] = (i * 7 + 3) % ROWS;
        d->value[i] = next(&state);
        d->terms[i] = (ss_term){d->value[i], d->rows + d->index[i] * SS_TILE};
    }
    for (int i = 0; i < 2 * SS_TILE; i++) d->threshold[i] = 1e300;
}

/* Each lane by itself, in the order of the terms. */
static void test_sums(void) {
    static data d;
    for (uint64_t seed = 1; seed < 9; seed++) {
        fill(&d, seed);
        double expected[SS_TILE];
        for (int lane = 0; lane < SS_TILE; lane++) {
            expected[lane] = 0.0;
            for (int i = 0; i < TERMS; i++)
                expected[lane] += d.value[i] * d.rows[d.index[i] * SS_TILE + lane];
        }
        for (int k = 0; ss_tile_kernel_at(k) != NULL; k++) {
            const ss_tile_kernel *kernel = ss_tile_kernel_at(k);
            double sum[SS_TILE], lists[SS_TILE];
            const ss_rows first = {{4, d.index, d.value}, d.rows};
            const ss_rows rest = {{TERMS - 4, d.index + 4, d.value + 4}, d.rows};
            kernel->sum(d.terms, TERMS, sum);
            kernel->lists(&first, &rest, lists);
            CU_ASSERT_EQUAL(memcmp(sum, expected, sizeof sum), 0);
            CU_ASSERT_EQUAL(memcmp(lists, expected, sizeof lists), 0);
        }
    }
}

/* One lane and side at a time is set so that its value just reaches it, and just does not. */
static void test_thresholds(void) {
    static data d;
    fill(&d, 77);
    const double *const values = d.rows;
    for (int k = 0; ss_tile_kernel_at(k) != NULL; k++) {
        const ss_tile_kernel *kernel = ss_tile_kernel_at(k);
        CU_ASSERT_EQUAL(kernel->reaches(values, d.threshold), 0);
        for (int i = 0; i < 2 * SS_TILE; i++) {
            const double at = i < SS_TILE ? -values[i] : values[i - SS_TILE];
            d.threshold[i] = at;
            CU_ASSERT_NOT_EQUAL(kernel->reaches(values, d.threshold), 0);
            d.threshold[i] = nextafter(at, 1e300);
            CU_ASSERT_EQUAL(kernel->reaches(values, d.threshold), 0);
            d.threshold[i] = 1e300;
        }
    }
}

static void check_bounds(const ss_tile_kernel *kernel, const data *d, float *bound) {
    const double *const start = d->rows, *const end = start + SS_TILE;
    double slack[SS_TILE];
    for (int lane = 0; lane < SS_TILE; lane++) slack[lane] = fabs(d->rows[2 * SS_TILE + lane]);
    CU_ASSERT_EQUAL(kernel->bound(start, end, slack, d->threshold, bound), 0);
    for (int lane = 0; lane < SS_TILE; lane++) {
        const double high = fmax(start[lane], end[lane]) + slack[lane];
        const double low = slack[lane] - fmin(start[lane], end[lane]);
        CU_ASSERT((double)bound[lane] >= low && (double)bound[lane] <= low + 2e-6 * fabs(low));
        CU_ASSERT((double)bound[SS_TILE + lane] >= high &&
                  (double)bound[SS_TILE + lane] <= high + 2e-6 * fabs(high));
    }
}

/* As floats bounds stay above what they bound; two together, and slack, are compared lane by lane. */
static void test_bounds(void) {
    static data d;
    fill(&d, 5);
    float bound[2 * SS_TILE], plain[2 * SS_TILE], nothing[2 * SS_TILE];
    double slack[SS_TILE];
    for (int i = 0; i < 2 * SS_TILE; i++) nothing[i] = -1e30f;
    for (int lane = 0; lane < SS_TILE; lane++) slack[lane] = 0.37 * (1 + lane);
    check_bounds(ss_tile_kernel_at(0), &d, plain);
    for (int k = 0; ss_tile_kernel_at(k) != NULL; k++) {
        const ss_tile_kernel *kernel = ss_tile_kernel_at(k);
        check_bounds(kernel, &d, bound);
        CU_ASSERT_EQUAL(memcmp(bound, plain, sizeof bound), 0);
        for (int i = 0; i < 2 * SS_TILE; i++) {
            const double at = (double)bound[i] + slack[i % SS_TILE];
            d.threshold[i] = at;
            CU_ASSERT_NOT_EQUAL(kernel->joint(bound, nothing, slack, d.threshold), 0);
            CU_ASSERT_NOT_EQUAL(kernel->joint(nothing, bound, slack, d.threshold), 0);
            d.threshold[i] = nextafter(at, 1e300);
            CU_ASSERT_EQUAL(kernel->joint(bound, nothing, slack, d.threshold), 0);
            d.threshold[i] = 1e300;
        }
    }
}

/* The second derivative of a cubic is largest at an end. */
static void test_curves(void) {
    static data d;
    fill(&d, 31);
    double plain[SS_TILE], curve[SS_TILE];
    ss_tile_kernel_at(0)->curve(d.rows, plain);
    for (int k = 0; ss_tile_kernel_at(k) != NULL; k++) {
        ss_tile_kernel_at(k)->curve(d.rows, curve);
        CU_ASSERT_EQUAL(memcmp(curve, plain, sizeof curve), 0);
    }
    for (int lane = 0; lane < SS_TILE; lane++) {
        const double start = 2.0 * d.rows[2 * SS_TILE + lane];
        const double end = start + 6.0 * d.rows[3 * SS_TILE + lane];
        CU_ASSERT_EQUAL(curve[lane], fmax(fabs(start), fabs(end)));
    }
}

/* The widest kernel is the last of the list. */
static void test_choice(void) {
    int count = 0;
    while (ss_tile_kernel_at(count) != NULL) count++;
    CU_ASSERT_EQUAL(strcmp(ss_tile_kernel_at(0)->name, "baseline"), 0);
    CU_ASSERT_EQUAL(ss_tile_kernel_best(), ss_tile_kernel_at(count - 1));
}

int main(void) {
    static const test_case cases[] = {
        {"sums have the same bits", test_sums},
        {"thresholds are reached exactly", test_thresholds},
        {"bounds", test_bounds},
        {"curves", test_curves},
        {"choice", test_choice},
    };
    return RUN_SUITE("tile_kernel", cases);
}
