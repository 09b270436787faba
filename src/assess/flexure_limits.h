/* flexure_limits.h - stresses and moments at which a steel section yields or buckles in bending; each a pure
 * function named after its article, so that it can be followed with a pencil. */
#ifndef SS_ASSESS_FLEXURE_LIMITS_H
#define SS_ASSESS_FLEXURE_LIMITS_H

#include <stdbool.h>

/* Clauses are AASHTO LRFD (9th edition) unless said, all from memory. Stresses Pa, lengths m, moments N m;
 * slenderness is width over thickness. Rh is 1: one steel. */

/* ---- plastic_moment.c ------------------------------------------------------------------------------- */

/** Fy Z, at most `most` times Fy S of the weaker face. */
double ss_plastic_moment(double Z, double S, double fy, double most);

/* ---- flange_buckling.c ------------------------------------------------------------------------------ */

/** 0.38 sqrt(E / Fy), to which a free flange is compact, 6.10.8.2.2. */
double ss_flange_compact(double E, double fy);

/** 0.56 sqrt(E / 0.7 Fy), from which it buckles elastically, 6.10.8.2.2. */
double ss_flange_noncompact(double E, double fy);

/** Stress of a free flange, Fnc / Rb of 6.10.8.2.2; beyond the noncompact limit 0.7 Fy (limit /
 * slenderness)^2, which is 0.9 E kc / slenderness^2 with kc 0.35 (AISC 360 F3). */
double ss_flange_stress(double slenderness, double E, double fy);

/** Stress of a tee's stem of `slenderness` depth over thickness, in compression, 6.12.2.2.4. */
double ss_stem_stress(double slenderness, double E, double fy);

/** 0.84 sqrt(E / Fy), to which a stem yields. */
double ss_stem_compact(double E, double fy);

/** Stress of an angle's leg in compression (AISC 360 F10.3), at most Fy. */
double ss_leg_stress(double slenderness, double E, double fy);

/* ---- box_flange.c ----------------------------------------------------------------------------------- */

/** Limits of the slenderness of a flange between two webs, and what torsion leaves of it, 6.11.8.2.2. */
typedef struct ss_box_flange {
    double compact, noncompact;
    double stress; /**< Fnc / Rb */
} ss_box_flange;

/** Plate of clear width over thickness `slenderness` between two webs, buckling coefficient k (4 without
 * stiffeners), under St Venant shear stress `shear` (0: no torsion). */
ss_box_flange ss_box_flange_stress(double slenderness, double k, double shear, double E, double fy);

/** 1.12 sqrt(E / Fy), to which such a plate is compact (6.12.2.2.2, AISC 360 table B4.1b). */
double ss_box_flange_compact(double E, double fy);

/* ---- web_bending.c ---------------------------------------------------------------------------------- */

/** Twice the web in compression over the flange in compression, 2 Dc tw / Afc; infinite without a flange. */
double ss_web_area_ratio(double Dc, double web_total, double flange_area);

/** Slenderness 2 Dc / tw from which a web sheds load, lambda_rw of 6.10.1.10.2: 3.1 + 5.0 / awc, 4.6 to 5.7,
 * times sqrt(E / Fy). */
double ss_web_noncompact(double awc, double E, double fy);

/** Rb of 6.10.1.10.2 for `slenderness` 2 Dc / tw; 0 to 1. */
double ss_web_shedding(double slenderness, double awc, double limit);

/** Fcrw = 0.9 E k / (D / t)^2, k = 9 (D / Dc)^2, at most Fy, 6.10.1.9. `slenderness` is Dc / t. */
double ss_web_bend_buckling(double slenderness, double E, double fy);

/** Largest 2 Dcp / tw of a compact web, A6.2.1, for Mp and My. */
double ss_web_compact(double Mp, double My, double E, double fy);

/* ---- lateral_buckling.c ----------------------------------------------------------------------------- */

/** Steel, and how far apart the section is held. */
typedef struct ss_bracing {
    double E, G, fy; /**< Pa */
    double length;   /**< m, positive and finite */
    double Cb;
} ss_bracing;

/** Lengths between the branches, m, and what lies beyond: a stress or a moment. */
typedef struct ss_lateral {
    double Lp, Lr;
    double value;
} ss_lateral;

/** Fnc / Rb of 6.10.8.2.3 for a flange with radius of gyration rt. */
ss_lateral ss_lateral_flange(const ss_bracing *b, double rt);

/** A channel's properties; S is that of the compressed face. */
typedef struct ss_channel {
    double S, Z, Iy, ry, Cw, J, ho;
} ss_channel;

/** sqrt(sqrt(Iy Cw) / S). */
double ss_channel_radius(const ss_channel *channel);

/** Nominal moment, at most Fy Z, 6.12.2.2.5 (AISC 360 F2). */
ss_lateral ss_lateral_channel(const ss_bracing *b, const ss_channel *channel);

/** Elastic moment of a tee or angle of depth d, 6.12.2.2.4. */
double ss_lateral_tee(const ss_bracing *b, double Iy, double J, double d, bool stem_compressed);

/** Moment of an angle with elastic moment Me and yield moment My, at most My (AISC 360 F10.2). */
double ss_lateral_angle(double Me, double My);

/** Moment of a bar d deep and t thick, at most Mp, 6.12.2.2.7 (AISC 360 F11). Lp and Lr are where the
 * branches meet. */
ss_lateral ss_lateral_bar(const ss_bracing *b, double d, double t, double My, double Mp);

/** Moment of a closed box, My (1 - My / 4 Mcr), Mcr = pi sqrt(E Iy G J) / L; elastic from My = 2 Mcr on.
 * This is 6.12.2.2.2 of the editions before the 9th, written with J. */
double ss_lateral_box(const ss_bracing *b, double Iy, double J, double My);

/* ---- standard_flexure.c ----------------------------------------------------------------------------- */

/** Stress of a free flange, (2200 / slenderness)^2 psi, at most Fy: Standard Specifications 10.48.2.1 with
 * b / t twice the slenderness of the free half. */
double ss_standard_flange_stress(double slenderness, double E, double fy);

/** Allowable stress of it, (1625 / slenderness)^2 psi at share 0.55 of Fy and in proportion to the share, at
 * most the share: 10.34.2. */
double ss_standard_flange_allowable(double slenderness, double E, double fy, double share);

/** Stress of a flange between webs, Standard Specifications 10.51.5. */
double ss_standard_box_stress(double slenderness, double E, double fy);

/** Section for the formula of lateral buckling. */
typedef struct ss_standard_section {
    double Iyc, J, d, S;
} ss_standard_section;

/** Elastic moment 91e6 Cb Iyc / L sqrt(0.772 J / Iyc + 9.87 (d / L)^2) psi units, not limited: Standard
 * Specifications 10.48.4.1, MBE table 6B.5.2.1. */
double ss_standard_lateral(const ss_bracing *b, const ss_standard_section *s);

/** The same for slender webs, 10.48.4.1: without J, and at most Fy S; r of the compressed flange. */
ss_lateral ss_standard_lateral_slender(const ss_bracing *b, const ss_standard_section *s, double r);

/** Dc / tw from which 10.48.4.1 counts a web as slender, at stress f: 15 400 / sqrt(f), 12 500 when more than
 * half of the web is compressed. */
double ss_standard_web_limit(bool mostly_compressed, double E, double f);

/** Rb of 10.48.4.1, 0 to 1; `share` is Dc tw / Afc. */
double ss_standard_shedding(double slenderness, double share, double limit);

/** Largest allowable stress by the web, (23 000 tw / D)^2 psi, 10.34.3. `slenderness` is D / tw; 0: infinite.
 */
double ss_standard_web_allowable(double slenderness, double E);

#endif
