/* bearing_stiffener.c - bearing stiffeners: their fitted ends, and the column that they make with the web. */
#include <math.h>
#include <stddef.h>

#include "assess/rule.h"
#include "sillspan/bearing_web.h"

#define BEARING "bearing of the fitted stiffeners (AASHTO LRFD 6.10.11.2.3)"
#define COLUMN "bearing stiffeners as a column (AASHTO LRFD 6.10.11.2.4)"
#define SOURCE_BEARING "AASHTO LRFD 6.10.11.2.3 (from memory)"
#define SOURCE_COLUMN "AASHTO LRFD 6.10.11.2.4 (from memory)"
#define SOURCE_AXIAL "AASHTO LRFD 6.9.4.1 (from memory)"

/* Resistance factors of LRFD 6.5.4.2: bearing on fitted ends, and axial compression since 2015 (0.90
 * before). */
#define PHI_BEARING 1.00
#define PHI_COLUMN 0.95

/* Web on either side of the plates that acts with them, over its thickness. */
#define STRIP_MOST 9.0

enum { PAIRS_MOST = 100 };

static const char *fault_of(const ss_bearing_stiffener *s) {
    if (s->pairs < 1 || s->pairs > PAIRS_MOST) {
        return "the number of pairs of stiffeners is not 1 to 100";
    }
    if (!ss_rule_positive(s->width) || !ss_rule_positive(s->thickness) ||
        !ss_rule_positive(s->web_thickness) || !ss_rule_positive(s->web_height)) {
        return "a size of its stiffeners or web is not known";
    }
    if (!ss_rule_not_negative(s->clip) || s->clip >= s->width || !ss_rule_not_negative(s->web_strip) ||
        !ss_rule_not_negative(s->pair_spacing)) {
        return "the clip, the strip of web or the spacing of its stiffeners makes no sense";
    }
    if (!ss_rule_positive(s->fy) || !ss_rule_positive(s->E)) {
        return "its yield stress or modulus is not positive";
    }
    if (s->width > 0.48 * s->thickness * sqrt(s->E / s->fy)) {
        return "its stiffeners are wider than 0.48 t sqrt(E/Fy) and would buckle (AASHTO LRFD 6.10.11.2.2)";
    }
    return NULL;
}

/* Axial resistance of a column that yields at `yield` and buckles at `elastic`. */
static double axial(double yield, double elastic) {
    if (!ss_rule_positive(yield)) {
        return SS_NAN;
    }
    const double ratio = elastic / yield;
    return ratio >= 0.44 ? pow(0.658, 1.0 / ratio) * yield : 0.877 * elastic;
}

static ss_resistance column_of(const ss_bearing_stiffener *s, ss_working *working) {
    const double strip =
        ss_min(s->web_strip, s->pair_spacing + s->thickness + 2.0 * STRIP_MOST * s->web_thickness);
    const double across = 2.0 * s->width + s->web_thickness;
    const double area = 2.0 * (double)s->pairs * s->width * s->thickness + strip * s->web_thickness;
    const double web_cubed = s->web_thickness * s->web_thickness * s->web_thickness;
    const double inertia =
        ((double)s->pairs * s->thickness * (across * across * across - web_cubed) + strip * web_cubed) / 12.0;
    const double length = 0.75 * s->web_height;
    ss_working_add(working, "A", "plates and at most 9 t of web on either side of them", area, SS_DIM_AREA,
                   SOURCE_COLUMN);
    ss_working_add(working, "I", "of those about the middle of the web", inertia, SS_DIM_SECOND_MOMENT, NULL);
    ss_working_add(working, "0.75 D", "effective length", length, SS_DIM_SMALL_LENGTH, SOURCE_COLUMN);
    const double yield = s->fy * area;
    const double elastic = SS_PI * SS_PI * s->E * inertia / length / length;
    ss_working_add(working, "Po", "Fy A", yield, SS_DIM_FORCE, SOURCE_AXIAL);
    ss_working_add(working, "Pe", "elastic buckling, pi^2 E I / (0.75 D)^2", elastic, SS_DIM_FORCE,
                   SOURCE_AXIAL);
    const ss_resistance found = ss_rule_value(axial(yield, elastic), COLUMN);
    ss_working_add(working, "Pn", "0.658^(Po/Pe) Po, or 0.877 Pe below Pe = 0.44 Po", found.value,
                   SS_DIM_FORCE, SOURCE_AXIAL);
    return found;
}

ss_bearing_stiffener_strength ss_bearing_stiffener_resistance(const ss_bearing_stiffener *stiffener,
                                                              ss_working *working) {
    const char *const fault = fault_of(stiffener);
    if (fault != NULL) {
        return (ss_bearing_stiffener_strength){.bearing = ss_rule_none(BEARING, fault),
                                               .column = ss_rule_none(COLUMN, fault),
                                               .factored = SS_NAN,
                                               .governs = "nothing: not known"};
    }
    const double fitted =
        2.0 * (double)stiffener->pairs * (stiffener->width - stiffener->clip) * stiffener->thickness;
    ss_working_add(working, "Apn", "area of the stiffeners' ends outside the flange's weld", fitted,
                   SS_DIM_AREA, SOURCE_BEARING);
    ss_bearing_stiffener_strength out = {.bearing = ss_rule_value(1.4 * fitted * stiffener->fy, BEARING)};
    ss_working_add(working, "Rn", "1.4 Apn Fy", out.bearing.value, SS_DIM_FORCE, SOURCE_BEARING);
    out.column = column_of(stiffener, working);
    const double bearing = PHI_BEARING * out.bearing.value;
    const double column = PHI_COLUMN * out.column.value;
    if (isnan(bearing) || isnan(column)) {
        out.factored = SS_NAN;
        out.governs = "nothing: not known";
        return out;
    }
    out.factored = ss_min(bearing, column);
    out.governs = bearing <= column ? "bearing of the fitted ends" : "the column of stiffeners and web";
    return out;
}
