/* numeric.c - Gauss-Legendre points and the sorting of stations. */
#include "base/numeric.h"

#include <assert.h>
#include <stdlib.h>

/*
 * The upper half of each rule on [-1,1], from the middle outward: roots of the Legendre polynomial P_n and
 * the weights 2 / ((1 - x^2) P_n'(x)^2), computed with 60 digits and rounded. The same figures to 15 digits
 * are in Abramowitz and Stegun, Handbook of Mathematical Functions (1964), table 25.4.
 */
typedef struct gauss_pair {
    double x;
    double weight;
} gauss_pair;

static const gauss_pair half_rules[SS_GAUSS_MOST][SS_GAUSS_MOST / 2] = {
    {{0.0, 2.0}},
    {{0.57735026918962576451, 1.0}},
    {{0.0, 0.88888888888888888889}, {0.77459666924148337704, 0.55555555555555555556}},
    {{0.3399810435848562648, 0.65214515486254614263}, {0.86113631159405257522, 0.34785484513745385737}},
    {{0.0, 0.56888888888888888889},
     {0.53846931010568309104, 0.47862867049936646804},
     {0.9061798459386639928, 0.23692688505618908751}},
    {{0.23861918608319690863, 0.46791393457269104739},
     {0.66120938646626451366, 0.36076157304813860757},
     {0.93246951420315202781, 0.17132449237917034504}},
    {{0.0, 0.41795918367346938776},
     {0.40584515137739716691, 0.38183005050511894495},
     {0.74153118559939443986, 0.2797053914892766679},
     {0.94910791234275852453, 0.12948496616886969327}},
    {{0.18343464249564980494, 0.36268378337836198297},
     {0.52553240991632898582, 0.31370664587788728734},
     {0.79666647741362673959, 0.22238103445337447054},
     {0.96028985649753623168, 0.10122853629037625915}},
};

void ss_gauss_points(int count, double *points, double *weights) {
    assert(count >= 1 && count <= SS_GAUSS_MOST);
    const gauss_pair *rule = half_rules[count - 1];
    const int half = (count + 1) / 2;
    for (int i = 0; i < half; i++) {
        const int upper = count / 2 + i;
        const int lower = count - 1 - upper;
        /* For an odd count both are the middle. */
        points[lower] = 0.5 * (1.0 - rule[i].x);
        points[upper] = 0.5 * (1.0 + rule[i].x);
        weights[lower] = 0.5 * rule[i].weight;
        weights[upper] = 0.5 * rule[i].weight;
    }
}

static int compare(const void *a, const void *b) {
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

void ss_sort_unique(double *x, int *count, double tolerance) {
    if (*count < 2) {
        return;
    }
    qsort(x, (size_t)*count, sizeof *x, compare);
    int kept = 1;
    for (int i = 1; i < *count; i++) {
        if (x[i] - x[kept - 1] > tolerance) {
            x[kept++] = x[i];
        }
    }
    *count = kept;
}
