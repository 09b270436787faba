/* composite_samples.h - steel sections with slabs that several tests build, in inches, kips and feet. */
#ifndef COMPOSITE_SAMPLES_H
#define COMPOSITE_SAMPLES_H

#include "sillspan/composite_flexure.h"
#include "unit/assess/flexure_samples.h"

/** A slab without bars: width, thickness and haunch in inches, modular ratio, f'c in ksi. */
static inline ss_slab_flange sample_slab(double width, double thickness, double haunch, double n, double fc) {
    return (ss_slab_flange){.width = width * INCH,
                            .thickness = thickness * INCH,
                            .haunch = haunch * INCH,
                            .n = n,
                            .fc = fc * KSI,
                            .E = STEEL_E / n,
                            .bar_fy = 60.0 * KSI};
}

/** A case without dead load. */
static inline ss_composite_case sample_composite(const ss_section *section, double fy_ksi, bool sagging,
                                                 const ss_slab_flange *slab) {
    return (ss_composite_case){
        .steel = bend(section, fy_ksi, sagging, 0.0), .flange = *slab, .sagging = sagging};
}

/** The stringer of AASHTO MBE example A1: W33x130 by its plates and a cover plate 10.5 x 5/8 in. */
static inline void sample_a1(ss_section *s) {
    sample_start(s, SS_TORSION_OPEN);
    sample_plate(s, 10.5, 0.625, 0.0, 0.0);
    sample_plate(s, 11.51, 0.855, 0.0, 0.625);
    sample_plate(s, 0.58, 33.09 - 2.0 * 0.855, 0.0, 0.625 + 0.855);
    sample_plate(s, 11.51, 0.855, 0.0, 0.625 + 33.09 - 0.855);
    sample_end(s);
}

/** W21x50 by its plates: 20.8 in deep, flanges 6.53 x 0.535, web 0.380. */
static inline void sample_w21(ss_section *s) {
    sample_i_beam(s, 20.8, 6.53, 0.535, 0.38);
}

static inline ss_resistance composite_yield(const ss_composite_case *c, double share) {
    ss_resistance out = {.value = -1.0, .rule = NULL, .why = NULL};
    CU_ASSERT_EQUAL(ss_composite_yield(c, share, &out, NULL), SS_OK);
    return out;
}

static inline ss_resistance composite_plastic(const ss_composite_case *c) {
    ss_resistance out = {.value = -1.0, .rule = NULL, .why = NULL};
    CU_ASSERT_EQUAL(ss_composite_plastic(c, &out, NULL), SS_OK);
    return out;
}

/** Plastic moment (N m) by strips of the plates and the slab, apart from the library: bisection of the axis,
 * then forces times arms. `force` (N) is what the slab may take. */
static inline double plastic_by_strips(const ss_section *s, double fy, const ss_slab_flange *slab,
                                       double force) {
    enum { STRIPS = 2000 };
    const double top = s->depth + slab->haunch + slab->thickness;
    const double line = 0.85 * slab->fc * slab->width;
    double low = 0.0;
    double high = top;
    double moment = 0.0;
    for (int pass = 0; pass < 60; pass++) {
        const double axis = 0.5 * (low + high);
        const double in_slab = top - axis < slab->thickness ? top - axis : slab->thickness;
        double C = line * in_slab;
        C = C < force ? C : force;
        const double block = line > 0.0 ? C / line : 0.0;
        double sum = -C; /* tension positive */
        moment = C * (top - 0.5 * block);
        for (int i = 0; i < s->plate_count; i++) {
            const ss_plate *const p = &s->plates[i];
            const double dz = (p->z1 - p->z0) / STRIPS;
            for (int k = 0; k < STRIPS; k++) {
                const double z0 = p->z0 + dz * k;
                double below = (axis - z0) / dz; /* share of the strip that is pulled */
                below = below < 0.0 ? 0.0 : below > 1.0 ? 1.0 : below;
                const double f = fy * (p->y1 - p->y0) * dz;
                sum += f * (2.0 * below - 1.0);
                moment -=
                    f * (below * (z0 + 0.5 * dz * below) - (1.0 - below) * (z0 + 0.5 * dz * (1.0 + below)));
            }
        }
        if (sum > 0.0) {
            high = axis;
        } else {
            low = axis;
        }
    }
    return moment;
}

#endif
