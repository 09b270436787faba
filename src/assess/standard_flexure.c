/* standard_flexure.c - bending by the Standard Specifications, on which load factor and allowable stress
 * rating rest. */
#include "assess/flexure_limits.h"

#include <math.h>

#include "base/numeric.h"

/* The Standard Specifications write numbers for psi. Each is turned into a multiple of E, or of its root, by
 * the modulus that they take, 29 000 000 psi. */
#define MODULUS 29.0e6
#define BY_ROOT(number) ((number) / sqrt(MODULUS))

double ss_standard_flange_stress(double slenderness, double E, double fy) {
    if (!(slenderness > 0.0)) {
        return fy;
    }
    const double root = BY_ROOT(2200.0) / slenderness;
    return ss_min(root * root * E, fy);
}

double ss_standard_flange_allowable(double slenderness, double E, double fy, double share) {
    if (!(slenderness > 0.0)) {
        return share * fy;
    }
    const double root = BY_ROOT(1625.0) / slenderness;
    return share * ss_min(root * root * E / 0.55, fy);
}

/*
 * 10.51.5: Fy to 6140 / sqrt(Fy); 0.592 Fy (1 + 0.687 sin(c pi / 2)), c = (13 300 - (b/t) sqrt(Fy)) / 7160,
 * to 13 300 / sqrt(Fy); 105.6e6 (t / b)^2 beyond, here not above the end of the curve (0.8 percent lower).
 */
double ss_standard_box_stress(double slenderness, double E, double fy) {
    const double relative = slenderness / sqrt(E / fy);
    const double from = BY_ROOT(6140.0);
    const double to = BY_ROOT(13300.0);
    if (relative <= from) {
        return fy;
    }
    if (relative <= to) {
        const double c = (to - relative) / BY_ROOT(7160.0);
        return 0.592 * fy * (1.0 + 0.687 * sin(0.5 * SS_PI * c));
    }
    return ss_min(105.6e6 / MODULUS / (relative * relative), 0.592) * fy;
}

/* 91e6 psi is pi E; 0.772 is 2 G / E; 9.87 is pi^2: the elastic moment of an I with two flanges like the
 * compressed one. */
double ss_standard_lateral(const ss_bracing *b, const ss_standard_section *s) {
    if (!(s->Iyc > 0.0)) {
        return 0.0;
    }
    const double ratio = s->d / b->length;
    return 91.0e6 / MODULUS * b->E * b->Cb * s->Iyc / b->length *
           sqrt(0.772 * s->J / s->Iyc + 9.87 * ratio * ratio);
}

/* Lp = 9500 r / sqrt(Fy), Lr = sqrt(572e6 Iyc d / (Fy S)); Cb Fy S (1 - 0.5 (L - Lp) / (Lr - Lp)) between, Cb
 * Fy S / 2 (Lr / L)^2 beyond. */
ss_lateral ss_standard_lateral_slender(const ss_bracing *b, const ss_standard_section *s, double r) {
    const double My = b->fy * s->S;
    ss_lateral out = {.Lp = BY_ROOT(9500.0) * r * sqrt(b->E / b->fy),
                      .Lr = sqrt(572.0e6 / MODULUS * b->E * s->Iyc * s->d / My)};
    if (b->length <= out.Lp) {
        out.value = My;
    } else if (b->length <= out.Lr) {
        out.value = ss_min(b->Cb * My * (1.0 - 0.5 * (b->length - out.Lp) / (out.Lr - out.Lp)), My);
    } else {
        const double ratio = out.Lr / b->length;
        out.value = ss_min(0.5 * b->Cb * My * ss_min(ratio * ratio, 1.0), My);
    }
    return out;
}

double ss_standard_web_limit(bool mostly_compressed, double E, double f) {
    return BY_ROOT(mostly_compressed ? 12500.0 : 15400.0) * sqrt(E / f);
}

/* 1 - 0.002 (Dc tw / Afc) (Dc / tw - limit) */
double ss_standard_shedding(double slenderness, double share, double limit) {
    if (slenderness <= limit) {
        return 1.0;
    }
    return ss_clamp(1.0 - 0.002 * share * (slenderness - limit), 0.0, 1.0);
}

double ss_standard_web_allowable(double slenderness, double E) {
    if (!(slenderness > 0.0)) {
        return SS_INFINITY;
    }
    const double root = BY_ROOT(23000.0) / slenderness;
    return root * root * E;
}
