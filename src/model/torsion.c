/* torsion.c - St Venant torsion constants of cells and rectangles, and battens as an equivalent plate. */
#include "sillspan/section.h"

#include <math.h>

#include "base/numeric.h"

/* Sum of 1/n^5 over odd n = 31/32 zeta(5). */
#define SUM_ODD_FIFTH 1.00452376279513961613

/* tanh is 1 to the last bit from the twelfth odd term on, also for a square. */
#define SERIES_TERMS 12

/* A rectangle in shear is 6/5 times as flexible as its area says. */
#define SHEAR_FORM 1.2

double ss_torsion_closed(double area, double sum) {
    return 4.0 * area * area / sum;
}

/*
 * Timoshenko and Goodier, art. 109, with b the short side and a the long one:
 *   J = a b^3 / 3 (1 - 192/pi^5 (b/a) S),  S = sum over odd n of tanh(n pi a / 2b) / n^5.
 * S is taken as the closed sum of 1/n^5 less the rest, (1 - tanh)/n^5, which dies out like exp(-n pi a/b).
 */
double ss_torsion_rectangle(double long_side, double short_side) {
    const double a = fmax(long_side, short_side);
    const double b = fmin(long_side, short_side);
    if (!(b > 0.0)) {
        return 0.0;
    }
    double sum = SUM_ODD_FIFTH;
    for (int i = SERIES_TERMS - 1; i >= 0; i--) {
        const double n = 2.0 * i + 1.0;
        sum -= 2.0 / (exp(n * SS_PI * a / b) + 1.0) / (n * n * n * n * n);
    }
    const double loss = 192.0 / (SS_PI * SS_PI * SS_PI * SS_PI * SS_PI) * (b / a) * sum;
    return a * b * b * b / 3.0 * (1.0 - loss);
}

/*
 * Shear flow q along the car puts V = q * spacing on each batten, a beam as deep as `width` that is guided
 * (does not turn) at both ends of `reach`. Its ends shift by V reach^3 / (12 E I) + 1.2 V reach / (G width
 * thickness), I = thickness width^3 / 12. A plate of thickness t lets them shift by q reach / (G t); equal
 * shifts give t. The chords that hold the battens are taken as stiff.
 */
double ss_torsion_batten_thickness(double width, double thickness, double spacing, double reach,
                                   double E_over_G) {
    const double bending = reach * reach / (E_over_G * width * width * width);
    const double shear = SHEAR_FORM / width;
    return thickness / (spacing * (bending + shear));
}
