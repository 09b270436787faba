/* dense.c - elimination with row pivoting. */
#include "verification/dense.h"

#include <math.h>

static void swap(double *x, double *y) {
    const double kept = *x;
    *x = *y;
    *y = kept;
}

bool dense_solve(int n, double *a, double *b) {
    double largest = 0.0;
    for (int i = 0; i < n * n; i++) {
        largest = fmax(largest, fabs(a[i]));
    }
    for (int k = 0; k < n; k++) {
        int pivot = k;
        for (int i = k + 1; i < n; i++) {
            if (fabs(a[i * n + k]) > fabs(a[pivot * n + k])) {
                pivot = i;
            }
        }
        if (fabs(a[pivot * n + k]) <= 1e-300 + 1e-15 * largest) {
            return false;
        }
        for (int j = k; j < n && pivot != k; j++) {
            swap(&a[k * n + j], &a[pivot * n + j]);
        }
        swap(&b[k], &b[pivot]);
        for (int i = k + 1; i < n; i++) {
            const double factor = a[i * n + k] / a[k * n + k];
            for (int j = k; j < n; j++) {
                a[i * n + j] -= factor * a[k * n + j];
            }
            b[i] -= factor * b[k];
        }
    }
    for (int k = n - 1; k >= 0; k--) {
        for (int j = k + 1; j < n; j++) {
            b[k] -= a[k * n + j] * b[j];
        }
        b[k] /= a[k * n + k];
    }
    return true;
}
