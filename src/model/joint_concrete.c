/* joint_concrete.c - stiffness of a concrete beam between two cars: its rods as dowels and as ties. */
#include "model/joint_estimate.h"

#define KSI 6894757.2931683608
#define INCH 0.0254

#define STEEL_E (29000.0 * KSI)

/* Bed of a dowel, force per area and settlement: 300 to 1500 kip/in3 for dowels of pavements. */
#define BED (300.0 * KSI / INCH)

#define SOURCE_E "ACI 318 19.2.2.1, normal weight (from memory)"
#define SOURCE_DOWEL "Timoshenko, Friberg: dowel on a bed of 300 kip/in3 (from memory)"
#define SOURCE_CRACKED "cracked section, rods stretching between their nuts (statics)"

double ss_joint_dowel_stiffness(double diameter, double width) {
    const double EI = STEEL_E * SS_PI * diameter * diameter * diameter * diameter / 64.0;
    if (!(EI > 0.0)) {
        return SS_NAN;
    }
    const double beta = sqrt(sqrt(BED * diameter / (4.0 * EI)));
    const double x = 0.5 * beta * width;
    if (!(x > 0.0)) {
        return 0.0;
    }
    /* End of a beam pushed up at one end and down at the other, over that of an endless one. */
    double share = 1.0;
    if (x < 1e-3) {
        share = 1.5 / x;
    } else if (x < 20.0) {
        share = (sinh(x) * sinh(x) + sin(x) * sin(x)) / (sinh(x) * cosh(x) - sin(x) * cos(x));
    }
    return beta * beta * beta * EI / share;
}

/* Against a fold that opens the face at the rods, d from the pressed face, per length. */
static double fold(const ss_joint_detail *d, double depth, double rods, double concrete) {
    /* Rods stretch over their grip, the concrete shortens over the width: x^2/2 = m (d - x). */
    const double m = STEEL_E / concrete * rods * d->width / d->grip;
    if (!(depth > 0.0)) {
        return 0.0;
    }
    const double root = sqrt(m);
    const double x = 2.0 * depth * root / (root + sqrt(m + 2.0 * depth));
    return STEEL_E * rods / d->grip * (depth - x) * (depth - x / 3.0);
}

static double step_of_dowels(const ss_joint_detail *d, double rotation, ss_working *working) {
    const double dowels = ss_joint_dowel_stiffness(d->diameter, d->width) / d->spacing;
    const double tilt = 4.0 * rotation / d->width / d->width;
    ss_working_add(working, "k_d", "rods as dowels at both faces, per length; friction is not counted",
                   dowels, SS_DIM_SPRING_PER_LENGTH, SOURCE_DOWEL);
    ss_working_add(working, "4 k_f / w^2", "the beam turns between the cars, held by its rods", tilt,
                   SS_DIM_SPRING_PER_LENGTH, SOURCE_CRACKED);
    if (isnan(dowels) || isnan(tilt)) {
        return SS_NAN;
    }
    return tilt > 0.0 && dowels > 0.0 ? 1.0 / (1.0 / dowels + 1.0 / tilt) : 0.0;
}

ss_joint_stiffness ss_joint_of_concrete(const ss_joint_detail *d, ss_working *working) {
    const double positive[] = {d->depth, d->fc, d->diameter, d->spacing, d->cover, d->width, d->grip};
    for (size_t i = 0; i < sizeof positive / sizeof positive[0]; i++) {
        if (!ss_joint_size(positive[i])) {
            return ss_joint_stiffness_none("the sizes of the concrete beam or of its rods are not known");
        }
    }
    const double concrete = 57.0 * KSI * sqrt(1000.0 * d->fc / KSI);
    const double rods = 0.25 * SS_PI * d->diameter * d->diameter / d->spacing;
    const double down = fold(d, d->cover, rods, concrete);
    const double up = fold(d, d->depth - d->cover, rods, concrete);
    ss_joint_stiffness out = {.rotation = ss_min(down, up)};
    ss_working_add(working, "E_c", "57 ksi sqrt(fc / psi)", concrete, SS_DIM_STRESS, SOURCE_E);
    ss_working_add(working, "k_f", "against a fold that opens below, A E (d - x) (d - x/3) / L", down,
                   SS_DIM_ROTATION_SPRING_PER_LENGTH, SOURCE_CRACKED);
    ss_working_add(working, "k_f", "against a fold that opens above; the less of both is taken", up,
                   SS_DIM_ROTATION_SPRING_PER_LENGTH, SOURCE_CRACKED);
    if (d->whole) {
        /* Poisson's ratio 0.2. */
        const ss_joint_span span = ss_joint_span_of_plate(d->depth, d->width, concrete, concrete / 2.4);
        const ss_joint_stiffness uncracked = ss_joint_span_stiffness(&span, working);
        ss_working_add(working, "tight", "the step meets the whole beam, the fold the cracked one", SS_NAN,
                       SS_DIM_NUMBER, NULL);
        out.shear = uncracked.shear;
    } else {
        out.shear = step_of_dowels(d, out.rotation, working);
        ss_working_add(working, "k_s", "against a step, both in series", out.shear, SS_DIM_SPRING_PER_LENGTH,
                       NULL);
    }
    if (!(out.shear > 0.0)) {
        out.note = "the rods lie at a face: no stiffness";
    }
    return ss_joint_stiffness_checked(out);
}
