/* fourier.h - spine beams joined side by side, by a Fourier series along the span: a method of its own. */
#ifndef VERIFICATION_FOURIER_H
#define VERIFICATION_FOURIER_H

#include <stdbool.h>

enum { FOURIER_BEAMS = 9 };

/** Equal beams on simple supports that hold twist, joined edge to edge; any consistent units. */
typedef struct fourier_beams {
    int count;
    double span, width;
    double EI, GJ;
    double shear;    /**< joint stiffness per length; INFINITY is a hinge without slip */
    double rotation; /**< joint stiffness against folding, per length; 0 is free, INFINITY rigid */
} fourier_beams;

/** A point load P on the middle line of beam `loaded` at x. */
typedef struct fourier_load {
    int loaded;
    double x, P;
} fourier_load;

/**
 * Bending moment of each beam at the load. Of the loaded beam it is what statics leaves after the others,
 * whose series converge fast; `terms` harmonics are summed.
 */
bool fourier_moments(const fourier_beams *beams, const fourier_load *load, int terms, double *moment);

/** Amplitudes of deflection of all beams under the load p sin(m pi x / L) on beam `loaded`. */
bool fourier_harmonic(const fourier_beams *beams, int loaded, int m, double p, double *w);

#endif
