/* joint_bolts.c - stiffness of a bolted connector: each bolt in shear and bearing, and the two groups. */
#include "model/joint_estimate.h"

#define SOURCE "EN 1993-1-8 Table 6.11, half of a row of two (from memory)"
#define STATICS "both groups in series, the connector rigid"

/* Nominal diameter of an M16 bolt, to which the table refers. */
#define M16 0.016

#define KB_MOST 1.25
#define KT_MOST 2.5

static double secant(const ss_joint_detail *d, double k, ss_working *working) {
    if (!ss_joint_size(d->slip)) {
        return k;
    }
    const double effective = d->slip_force / (d->slip + d->slip_force / k);
    ss_working_add(working, "slip", "of a bolt in its holes before it bears", d->slip, SS_DIM_SMALL_LENGTH,
                   NULL);
    ss_working_add(working, "F", "force of a bolt at which the secant is taken", d->slip_force, SS_DIM_FORCE,
                   NULL);
    ss_working_add(working, "k_e", "secant F / (slip + F / k), in place of k", effective, SS_DIM_SPRING,
                   NULL);
    return effective;
}

double ss_joint_bolt_stiffness(const ss_joint_detail *d, ss_working *working) {
    const double positive[] = {d->diameter, d->tensile, d->thickness, d->fu, d->clear};
    for (size_t i = 0; i < sizeof positive / sizeof positive[0]; i++) {
        if (!ss_joint_size(positive[i])) {
            return SS_NAN;
        }
    }
    if ((d->planes != 1 && d->planes != 2) || (d->count > 1 && !ss_joint_size(d->spacing)) ||
        (ss_joint_size(d->slip) && !ss_joint_size(d->slip_force))) {
        return SS_NAN;
    }
    const double shear = (double)d->planes * 8.0 * d->diameter * d->diameter * d->tensile / M16;
    double kb = ss_min(KB_MOST, 0.5 + 0.25 * (d->clear + 0.5 * d->diameter) / d->diameter);
    if (d->count > 1) {
        kb = ss_min(kb, 0.375 + 0.25 * d->spacing / d->diameter);
    }
    const double kt = ss_min(KT_MOST, 1.5 * d->thickness / M16);
    const double bearing = 12.0 * kb * kt * d->diameter * d->fu;
    if (!ss_joint_size(shear) || !ss_joint_size(bearing)) {
        return SS_NAN;
    }
    const double k = 1.0 / (1.0 / shear + 2.0 / bearing);
    ss_working_add(working, "k_v", "a bolt in shear, 8 d^2 f_ub / d_M16 a plane", shear, SS_DIM_SPRING,
                   SOURCE);
    ss_working_add(working, "k_b", "0.5 + 0.25 e/d, 0.375 + 0.25 p/d, at most 1.25; e = clear + d/2", kb,
                   SS_DIM_NUMBER, SOURCE);
    ss_working_add(working, "k_t", "1.5 t / d_M16, at most 2.5", kt, SS_DIM_NUMBER, SOURCE);
    ss_working_add(working, "k_p", "its bearing on one part, 12 k_b k_t d f_u", bearing, SS_DIM_SPRING,
                   SOURCE);
    ss_working_add(working, "k", "of a bolt, 1 / (1 / k_v + 2 / k_p): shear, bearing on both parts", k,
                   SS_DIM_SPRING, SOURCE);
    return k > 0.0 ? secant(d, k, working) : SS_NAN;
}

ss_joint_stiffness ss_joint_of_bolts(const ss_joint_detail *d, ss_working *working) {
    const double k = ss_joint_bolt_stiffness(d, working);
    if (!ss_joint_size(k) || d->count < 1 || !(d->arm >= 0.0)) {
        return ss_joint_stiffness_none("the sizes of the bolts are not known, or out of range");
    }
    const double n = (double)d->count;
    /* Bolts one above the other, evenly: sum of z^2 about their middle. */
    const double squares = d->count > 1 ? d->spacing * d->spacing * n * (n * n - 1.0) / 12.0 : 0.0;
    const double move = n * k;
    const double turn = k * squares;
    ss_working_add(working, "n k", "of a group against a shift", move, SS_DIM_SPRING, STATICS);
    ss_working_add(working, "k sum z^2", "of a group against turning", turn, SS_DIM_ROTATION_SPRING, STATICS);
    ss_working_add(working, "a", "from the middle of the gap to the bolts", d->arm, SS_DIM_SMALL_LENGTH,
                   NULL);
    ss_joint_stiffness out = {.rotation = 0.5 * turn};
    if (d->arm > 0.0 && !(turn > 0.0)) {
        out.note = "a single bolt on each car: the connector turns, no stiffness";
    } else {
        out.shear = 1.0 / (2.0 / move + (d->arm > 0.0 ? 2.0 * d->arm * d->arm / turn : 0.0));
    }
    ss_working_add(working, "k_s",
                   out.note != NULL ? out.note : "against a step, 1 / (2 / (n k) + 2 a^2 / (k sum z^2))",
                   out.shear, SS_DIM_SPRING, STATICS);
    ss_working_add(working, "k_f", "against a fold, (k sum z^2) / 2", out.rotation, SS_DIM_ROTATION_SPRING,
                   STATICS);
    return ss_joint_stiffness_checked(out);
}
