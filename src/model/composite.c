/* composite.c - a steel section and the concrete that acts with it, as one elastic section of steel. */
#include "sillspan/composite.h"

#include <math.h>

/* Height of the steel's centroid; NaN when it is not known. */
static double steel_centroid(const ss_section_properties *steel) {
    if (steel->z_centroid > 0.0) {
        return steel->z_centroid;
    }
    if (steel->S_bottom > 0.0) {
        return steel->I / steel->S_bottom;
    }
    return steel->S_top > 0.0 && steel->depth > 0.0 ? steel->depth - steel->I / steel->S_top : (double)NAN;
}

/* A modulus of the section at a height; INFINITY at the axis itself. */
static double modulus(double I, double z, double at) {
    const double arm = fabs(at - z);
    return arm > 1e-9 * (fabs(at) + fabs(z)) ? I / arm : (double)INFINITY;
}

ss_status ss_composite_at(const ss_section_properties *steel, const ss_slab_flange *flange, bool cracked,
                          ss_composite_properties *out, ss_error *error) {
    const double zs = steel_centroid(steel);
    if (!(steel->A > 0.0) || !(steel->I > 0.0) || !(steel->depth > 0.0) || isnan(zs)) {
        return ss_error_set(error, SS_ERROR_DESCRIPTION,
                            "a section that acts with a slab needs its area, I, depth and a section modulus");
    }
    const double under = steel->depth + flange->haunch, top = under + flange->thickness;
    const double b = cracked ? 0.0 : flange->width / flange->n;
    const double area[] = {steel->A, b * flange->thickness, flange->top, flange->bottom};
    const double z[] = {zs, 0.5 * (under + top), top - flange->top_depth, top - flange->bottom_depth};
    ss_composite_properties p = {.depth = top};
    double moment = 0.0;
    for (int i = 0; i < 4; i++) {
        p.A += area[i];
        moment += area[i] * z[i];
    }
    p.z = moment / p.A;
    p.I = steel->I + b * flange->thickness * flange->thickness * flange->thickness / 12.0;
    for (int i = 0; i < 4; i++) {
        p.I += area[i] * (z[i] - p.z) * (z[i] - p.z);
        p.Q += i == 0 ? 0.0 : area[i] * (z[i] - p.z);
    }
    p.J = steel->J + b * flange->thickness * flange->thickness * flange->thickness / 6.0;
    p.S_bottom = modulus(p.I, p.z, 0.0);
    p.S_top = modulus(p.I, p.z, steel->depth);
    p.S_slab = cracked ? (double)INFINITY : modulus(p.I, p.z, top);
    p.S_bars = (double)INFINITY;
    for (int i = 2; i < 4; i++) {
        p.S_bars = area[i] > 0.0 ? fmin(p.S_bars, modulus(p.I, p.z, z[i])) : p.S_bars;
    }
    *out = p;
    return SS_OK;
}
