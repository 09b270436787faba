/* bench_rates.c - what the machine can do at most: matrix products and copying, on one core. */
#include <cblas.h>
#include <string.h>
#undef I

#include "bench.h"
#include "sillspan/memory.h"

enum { ORDER = 768, RUNS = 7 };

/* Larger than any cache that one core has to itself. */
static const size_t copied = (size_t)192 << 20;

static double product_flops(void) {
    const size_t size = (size_t)ORDER * ORDER;
    double *const a = ss_alloc(size, sizeof *a), *const b = ss_alloc(size, sizeof *b);
    double *const c = ss_alloc(size, sizeof *c);
    double least = 1e300;
    openblas_set_num_threads(1);
    for (size_t i = 0; a != NULL && b != NULL && i < size; i++) {
        a[i] = 1.0 + (double)(i % 17);
        b[i] = 1.0 - (double)(i % 13);
    }
    for (int run = 0; a != NULL && b != NULL && c != NULL && run < RUNS; run++) {
        const double start = bench_now();
        cblas_dgemm(CblasRowMajor, CblasNoTrans, CblasNoTrans, ORDER, ORDER, ORDER, 1.0, a, ORDER, b, ORDER,
                    0.0, c, ORDER);
        const double taken = bench_now() - start;
        least = taken < least ? taken : least;
    }
    ss_free(a);
    ss_free(b);
    ss_free(c);
    return 2.0 * ORDER * ORDER * ORDER / least;
}

static double copy_bytes(void) {
    char *const from = ss_alloc(copied, 1), *const to = ss_alloc(copied, 1);
    double least = 1e300;
    if (from != NULL) {
        memset(from, 1, copied);
    }
    for (int run = 0; from != NULL && to != NULL && run < RUNS; run++) {
        const double start = bench_now();
        memcpy(to, from, copied);
        const double taken = bench_now() - start;
        least = taken < least ? taken : least;
    }
    ss_free(from);
    ss_free(to);
    return 2.0 * (double)copied / least;
}

bench_rates bench_rates_measure(void) {
    return (bench_rates){product_flops(), copy_bytes()};
}
