/* test_mechanics_band.c - our band solve against LAPACK's on random matrices, and the same bits from every
 * instruction set. */
#include <lapacke.h>
#undef I

#include "samples.h"
#include "sillspan/memory.h"
#include "support/random.h"

#include "mechanics/band.h"

typedef struct band_case {
    int n, kd;
} band_case;

static const band_case band_cases[] = {{1, 0},   {2, 1},    {7, 3},    {40, 0},
                                       {61, 11}, {200, 26}, {333, 38}, {90, 89}};

/* Random, diagonally dominant by a little, with rows of very different sizes, as stiffnesses are. */
static void random_band(ss_band *band, int n, int kd, uint64_t *state) {
    CU_ASSERT_EQUAL_FATAL(ss_band_create(band, n, kd, NULL), SS_OK);
    for (int j = 0; j < n; j++) {
        for (int i = j + 1; i <= j + kd && i < n; i++) {
            const double v = next_signed(state);
            band->ab[ss_band_at(band, i, j)] = v;
            band->ab[ss_band_at(band, i, i)] += fabs(v);
            band->ab[ss_band_at(band, j, j)] += fabs(v);
        }
        band->ab[ss_band_at(band, j, j)] += 0.01;
    }
    for (int j = 0; j < n; j++) {
        for (int i = j; i <= j + kd && i < n; i++) {
            band->ab[ss_band_at(band, i, j)] *= pow(10.0, (i % 3) * 2) * pow(10.0, (j % 3) * 2);
        }
    }
}

static void test_against_lapack(void) {
    uint64_t state = 2024;
    for (int c = 0; c < ENTRIES(band_cases); c++) {
        const int n = band_cases[c].n;
        const int kd = band_cases[c].kd;
        ss_band band;
        ss_factor factor;
        double rcond;
        random_band(&band, n, kd, &state);
        double *scale = ss_alloc((size_t)n, sizeof *scale);
        for (int i = 0; i < n; i++) {
            scale[i] = 1.0 / sqrt(band.ab[ss_band_at(&band, i, i)]);
        }
        CU_ASSERT_EQUAL_FATAL(ss_factor_create(&band, scale, &factor, &rcond, NULL), SS_OK);
        CU_ASSERT_TRUE(rcond > 1e-6 && rcond <= 1.0);
        const size_t size = (size_t)n * SS_TILE;
        double *x = ss_alloc(size, sizeof *x);
        double *wide = ss_alloc(size, sizeof *wide);
        double *reference = ss_alloc(size, sizeof *reference);
        double *one = ss_alloc((size_t)n, sizeof *one);
        const int skip = n / 3; /* leading zeros, which the forward sweep may leave out */
        for (int lane = 0; lane < SS_TILE; lane++) {
            for (int i = skip; i < n; i++) {
                x[(size_t)i * SS_TILE + (size_t)lane] = reference[(size_t)lane * (size_t)n + (size_t)i] =
                    next_signed(&state) * pow(10.0, (i % 3) * 2);
            }
        }
        memcpy(wide, x, size * sizeof *x);
        for (int i = 0; i < n; i++) {
            one[i] = x[(size_t)i * SS_TILE + 5];
        }
        double *start = ss_alloc(size, sizeof *start);
        memcpy(start, x, size * sizeof *x);
        ss_factor_solve_tile_as(&factor, 0, x);
        ss_factor_solve_tile(&factor, wide);
        ss_factor_solve(&factor, one);
        CU_ASSERT_EQUAL(memcmp(x, wide, size * sizeof *x), 0);
        for (int width = 32; width <= ss_tile_width(); width *= 2) {
            memcpy(wide, start, size * sizeof *x);
            ss_factor_solve_tile_as(&factor, width, wide);
            CU_ASSERT_EQUAL(memcmp(x, wide, size * sizeof *x), 0);
        }
        ss_free(start);
        CU_ASSERT_EQUAL_FATAL(
            LAPACKE_dpbsv(LAPACK_COL_MAJOR, 'L', n, kd, SS_TILE, band.ab, kd + 1, reference, n), 0);
        for (int i = 0; i < n; i++) {
            for (int lane = 0; lane < SS_TILE; lane++) {
                const double expected = reference[(size_t)lane * (size_t)n + (size_t)i];
                check_near("tile", x[(size_t)i * SS_TILE + (size_t)lane], expected, 1e-11,
                           pow(10.0, -(i % 3) * 2));
            }
            CU_ASSERT_EQUAL(one[i], x[(size_t)i * SS_TILE + 5]);
        }
        ss_free(scale);
        ss_free(x);
        ss_free(wide);
        ss_free(reference);
        ss_free(one);
        ss_factor_destroy(&factor);
        ss_band_destroy(&band);
    }
}

static void test_product(void) {
    enum { ROWS = 37, COLUMNS = 11 };
    uint64_t state = 99;
    double a[ROWS * COLUMNS];
    static double x[COLUMNS * SS_TILE];
    static double y[ROWS * SS_TILE];
    static double z[ROWS * SS_TILE];
    static double start[ROWS * SS_TILE];
    static double expected[ROWS * SS_TILE];
    for (int i = 0; i < ROWS * COLUMNS; i++) {
        a[i] = next_signed(&state);
    }
    for (int i = 0; i < COLUMNS * SS_TILE; i++) {
        x[i] = next_signed(&state);
    }
    for (int i = 0; i < ROWS * SS_TILE; i++) {
        y[i] = expected[i] = next_signed(&state);
    }
    for (int i = 0; i < ROWS; i++) {
        for (int j = 0; j < COLUMNS; j++) {
            for (int lane = 0; lane < SS_TILE; lane++) {
                expected[i * SS_TILE + lane] -= a[i * COLUMNS + j] * x[j * SS_TILE + lane];
            }
        }
    }
    memcpy(start, y, sizeof y);
    ss_tile_subtract(ROWS, COLUMNS, a, x, y);
    CU_ASSERT_EQUAL(memcmp(y, expected, sizeof y), 0);
    for (int width = 0; width <= ss_tile_width(); width += 32) {
        memcpy(z, start, sizeof z);
        ss_tile_subtract_as(ROWS, COLUMNS, a, x, width, z);
        CU_ASSERT_EQUAL(memcmp(z, expected, sizeof y), 0);
    }
}

/* A matrix that is not positive definite is told by rcond = 0, not by an error. */
static void test_indefinite(void) {
    ss_band band;
    ss_factor factor = {0};
    double rcond = 1.0;
    static const double ones[3] = {1.0, 1.0, 1.0};
    CU_ASSERT_EQUAL_FATAL(ss_band_create(&band, 3, 1, NULL), SS_OK);
    for (int i = 0; i < 3; i++) {
        band.ab[ss_band_at(&band, i, i)] = 1.0;
    }
    band.ab[ss_band_at(&band, 1, 0)] = 1.5;
    CU_ASSERT_EQUAL(ss_factor_create(&band, ones, &factor, &rcond, NULL), SS_OK);
    CU_ASSERT_EQUAL(rcond, 0.0);
    CU_ASSERT_PTR_NULL(factor.rows);
    double y[3];
    ss_band_multiply(&band, (const double[]){2.0, 3.0, 5.0}, y);
    check_near("product", y[0], 6.5, 1e-15, 1.0);
    check_near("product", y[1], 6.0, 1e-15, 1.0);
    check_near("product", y[2], 5.0, 1e-15, 1.0);
    ss_band_destroy(&band);
}

int main(void) {
    static const test_case cases[] = {
        {"against LAPACK", test_against_lapack},
        {"tile product", test_product},
        {"not positive definite", test_indefinite},
    };
    return RUN_SUITE("band", cases);
}
