/* web_shear.c - shear resistance of webs, with and without transverse stiffeners, and the share of inclined
 * flanges. */
#include "sillspan/web_shear.h"

#include <math.h>
#include <stddef.h>

#include "assess/rule.h"

/* Shear-buckling coefficient of a web without stiffeners (AASHTO LRFD 6.10.9.2). */
#define UNSTIFFENED 5.0

/* Shear yield over tensile yield, 1 / sqrt(3) as the specification rounds it. */
#define SHEAR_YIELD 0.58

/* Widest panels that count as stiffened, d0 / D (6.10.9.1, 6.10.9.3.3). */
#define INTERIOR_MOST 3.0
#define END_MOST 1.5

/* Most of twice the web over the flanges for a full tension field (6.10.9.3.2-1). */
#define FLANGES_ENOUGH 2.5

#define SOURCE "AASHTO LRFD 6.10.9.2 (from memory)"
#define SOURCE_PANEL "AASHTO LRFD 6.10.9.3.2 (from memory)"

double ss_resistance_shear_ratio(double slenderness, double E, double k, double fy) {
    if (!ss_rule_not_negative(slenderness) || !ss_rule_positive(E) || !(k > 0.0) || !ss_rule_positive(fy)) {
        return SS_NAN;
    }
    const double stiffness = E * k / fy;
    const double yield_limit = 1.12 * sqrt(stiffness);
    if (slenderness <= yield_limit) {
        return 1.0;
    }
    if (slenderness <= 1.40 * sqrt(stiffness)) {
        return yield_limit / slenderness;
    }
    return 1.57 * stiffness / slenderness / slenderness;
}

ss_resistance ss_resistance_web_shear(const ss_section_properties *section, double fy, double E) {
    return ss_web_shear_panel(section, fy, E, NULL, NULL);
}

/* Spacing over depth, or NaN where the web counts as unstiffened. */
static double aspect_of(const ss_web_panel *panel, double depth) {
    if (panel == NULL || !ss_rule_positive(panel->spacing)) {
        return SS_NAN;
    }
    const double aspect = panel->spacing / depth;
    return aspect <= (panel->interior ? INTERIOR_MOST : END_MOST) ? aspect : SS_NAN;
}

static double coefficient_of(double aspect) {
    /* Spacings so small that the square vanishes still give a finite coefficient. */
    return isnan(aspect) ? UNSTIFFENED : UNSTIFFENED + UNSTIFFENED / ss_max(aspect * aspect, 1e-12);
}

/* What the tension field adds to C, and the words for the whole. */
static double tension_field(const ss_web_panel *panel, double web_area, double aspect, double ratio,
                            const char **rule, ss_working *working) {
    const double flanges = panel->flange_compression + panel->flange_tension;
    const bool known = ss_rule_positive(panel->flange_compression) && ss_rule_positive(panel->flange_tension);
    if (known) {
        ss_working_add(working, "2 D t / (Afc + Aft)", "web against flanges: up to 2.5 the field is full",
                       2.0 * web_area / flanges, SS_DIM_NUMBER, SOURCE_PANEL);
    } else {
        ss_working_add(working, "Afc, Aft", "flange areas are not known: the reduced tension field is used",
                       SS_NAN, SS_DIM_NUMBER, SOURCE_PANEL);
    }
    const double diagonal = sqrt(1.0 + aspect * aspect);
    const bool full = known && 2.0 * web_area <= FLANGES_ENOUGH * flanges;
    *rule = full ? "web shear of a stiffened interior panel with tension field (AASHTO LRFD 6.10.9.3.2-2)"
                 : "web shear of a stiffened interior panel with reduced tension field (AASHTO LRFD "
                   "6.10.9.3.2-8)";
    const double field = 0.87 * (1.0 - ratio) / (full ? diagonal : diagonal + aspect);
    ss_working_add(working, "0.87 (1 - C) / ...",
                   full ? "tension field, over sqrt(1 + (d0/D)^2)"
                        : "reduced tension field, over sqrt(1 + (d0/D)^2) + d0/D",
                   field, SS_DIM_NUMBER, SOURCE_PANEL);
    return field;
}

static const char *plain_rule(double ratio, double aspect) {
    if (isnan(aspect)) {
        return ratio < 1.0 ? "web shear with buckling, C 0.58 Fy A_w (AASHTO LRFD 6.10.9.2, k = 5)"
                           : "web shear yield, 0.58 Fy A_w (AASHTO LRFD 6.10.9.2, C = 1)";
    }
    return ratio < 1.0 ? "web shear with buckling of a stiffened panel, C 0.58 Fy A_w (AASHTO LRFD 6.10.9.3)"
                       : "web shear yield of a stiffened panel, 0.58 Fy A_w (AASHTO LRFD 6.10.9.3, C = 1)";
}

/* Tells the panel's place in the rules. */
static void tell_panel(const ss_web_panel *panel, double aspect, double k, ss_working *working) {
    if (panel != NULL && ss_rule_positive(panel->spacing)) {
        ss_working_add(working, "d0", "spacing of transverse stiffeners", panel->spacing, SS_DIM_SMALL_LENGTH,
                       NULL);
        if (isnan(aspect)) {
            ss_working_add(working, "d0 / D",
                           panel->interior ? "more than 3: the panel counts as unstiffened"
                                           : "more than 1.5 in an end panel: the panel counts as unstiffened",
                           SS_NAN, SS_DIM_NUMBER, "AASHTO LRFD 6.10.9.1, 6.10.9.3.3 (from memory)");
        } else {
            ss_working_add(working, "d0 / D", "spacing over depth of the web", aspect, SS_DIM_NUMBER, NULL);
        }
    }
    ss_working_add(working, "k", isnan(aspect) ? "shear-buckling coefficient, 5" : "5 + 5 / (d0/D)^2", k,
                   SS_DIM_NUMBER, isnan(aspect) ? SOURCE : SOURCE_PANEL);
}

ss_resistance ss_web_shear_panel(const ss_section_properties *section, double fy, double E,
                                 const ss_web_panel *panel, ss_working *working) {
    static const char none[] = "web shear (AASHTO LRFD 6.10.9.2)";
    if (!ss_rule_positive(section->shear_area)) {
        return ss_rule_none(none, "its web area is not known");
    }
    if (!ss_rule_positive(fy) || !ss_rule_positive(E)) {
        return ss_rule_none(none, "its yield stress or modulus is not positive");
    }
    const double plastic = SHEAR_YIELD * fy * section->shear_area;
    ss_working_add(working, "Vp", "shear at yield of all webs, 0.58 Fy A_w", plastic, SS_DIM_FORCE, SOURCE);
    if (!ss_rule_positive(section->web_clear) || !ss_rule_positive(section->web_thin)) {
        return ss_rule_value(plastic, SS_RESISTANCE_SHEAR_UNCHECKED);
    }
    const double slenderness = section->web_clear / section->web_thin;
    ss_working_add(working, "D / t", "clear depth over the thinnest web", slenderness, SS_DIM_NUMBER, NULL);
    const double aspect = aspect_of(panel, section->web_clear);
    const double k = coefficient_of(aspect);
    tell_panel(panel, aspect, k, working);
    const double ratio = ss_resistance_shear_ratio(slenderness, E, k, fy);
    ss_working_add(working, "C", "shear buckling over shear yield", ratio, SS_DIM_NUMBER, SOURCE_PANEL);
    const char *rule = plain_rule(ratio, aspect);
    double field = 0.0;
    if (panel != NULL && !isnan(aspect) && panel->interior && ratio < 1.0) {
        field = tension_field(panel, section->shear_area, aspect, ratio, &rule, working);
    }
    const ss_resistance found = ss_rule_value((ratio + field) * plastic, rule);
    ss_working_add(working, "Vn", field > 0.0 ? "(C + tension field) Vp" : "C Vp", found.value, SS_DIM_FORCE,
                   field > 0.0 ? SOURCE_PANEL : SOURCE);
    return found;
}

double ss_web_shear_with_moment(double moment) {
    if (!(moment >= 0.0 && moment <= 1.0)) {
        return SS_NAN;
    }
    return moment <= 0.75 ? 1.0 : 2.2 - 1.6 * moment;
}

double ss_web_shear_of_flanges(double moment, double depth, double slope) {
    if (!ss_rule_positive(depth)) {
        return SS_NAN;
    }
    const double carried = moment / depth * slope;
    return isfinite(carried) ? carried : SS_NAN;
}

double ss_web_shear_tapered(double shear, double of_flanges) {
    const double web = shear - of_flanges;
    if (isnan(web)) {
        return SS_NAN;
    }
    return fabs(web) > fabs(shear) ? web : shear;
}
