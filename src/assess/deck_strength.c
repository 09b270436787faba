/* deck_strength.c - the deck between two supports under a wheel. */
#include "sillspan/deck_strength.h"

#include <math.h>
#include <stddef.h>

#include "assess/rule.h"

/* Moment of a continuous deck over that of a simple span (AASHTO Standard Specifications 3.24.3.1, from
 * memory). */
#define CONTINUOUS 0.8

/* Equal spans by three-moment equations, loads as points, over load times span: moment in the end span under
 * one wheel (at most 0.2023 with six spans), and with another wheel two spans away (0.2113); two wheels on
 * the end span over their moment on a simple one (0.820); moment over a support from a wheel beside it
 * (0.1031), which adds to the shear. */
#define END_SPAN 0.205
#define END_SPAN_OF_TWO 0.212
#define CONTINUOUS_OF_TWO 0.825
#define BESIDE_SUPPORT 0.1035

#define SHEAR_YIELD 0.58

#define STATICS "statics"
#define SOURCE_NDS "NDS 3.3, 3.4 (from memory)"
#define NOT_KNOWN "nothing: not known"

static ss_deck_demand no_demand(const char *why) {
    return (ss_deck_demand){.moment = SS_NAN, .shear = SS_NAN, .why = why};
}

/* Largest moment of one wheel of area `c` in the middle of a simple span. */
static double moment_of_one(double span, double c) {
    return c <= span ? span / 4.0 - c / 8.0 : span * span / (8.0 * c);
}

/* Shear of one wheel that begins at `from`; what hangs over the far support is not on the span. */
static double shear_of_one(double span, double c, double from) {
    if (from >= span) {
        return 0.0;
    }
    if (c <= span - from) {
        return 1.0 - (from + 0.5 * c) / span;
    }
    return (span - from) / c * (span - from) / (2.0 * span);
}

/* Largest moment on simple spans of two wheels as points, the first of them beyond the middle. */
static double moment_of_two(double span, double next) {
    return span > next ? (span - 0.5 * next) * (span - 0.5 * next) / (2.0 * span) : 0.0;
}

static double moment_of(const ss_deck_span *span, bool two) {
    const double L = span->span;
    const double one = moment_of_one(L, span->patch_span);
    const double both = two ? moment_of_two(L, span->next_wheel) : 0.0;
    if (!span->continuous) {
        return ss_max(one, both);
    }
    const double blunt = span->patch_span / 8.0;
    const double alone = ss_max(CONTINUOUS * one, END_SPAN * L - blunt);
    if (!two) {
        return alone;
    }
    /* One wheel on either side of a support. */
    const double beside = L > 0.5 * span->next_wheel ? 2.0 * BESIDE_SUPPORT * L : 0.0;
    return ss_max(ss_max(alone, beside), ss_max(CONTINUOUS_OF_TWO * both, END_SPAN_OF_TWO * L - blunt));
}

ss_deck_demand ss_deck_demand_of(const ss_deck_span *span, double shear_from) {
    if (!ss_rule_positive(span->span)) {
        return no_demand("the span of the deck is not known");
    }
    if (!ss_rule_positive(span->patch_span) || !ss_rule_positive(span->patch_side)) {
        return no_demand("the contact area of the wheel is not known");
    }
    if (!ss_rule_not_negative(shear_from)) {
        return no_demand("the place of the critical section for shear is not known");
    }
    const double L = span->span;
    const double next = span->next_wheel;
    const bool two = ss_rule_positive(next);
    if (two && L > 2.0 * next) {
        return no_demand("more than two wheels can stand on one span of the deck");
    }
    const double moment = moment_of(span, two);
    double shear = shear_of_one(L, span->patch_span, shear_from);
    if (two) {
        /* The next wheel is a point, its distance taken from the middle of the first. */
        shear += ss_max(1.0 - (shear_from + 0.5 * span->patch_span + next) / L, 0.0);
    }
    if (span->continuous) {
        shear += BESIDE_SUPPORT * (two ? 2.0 : 1.0);
    }
    if (!ss_rule_positive(moment) || !isfinite(shear)) {
        return no_demand("the sizes of the deck are out of range");
    }
    return (ss_deck_demand){.moment = moment, .shear = shear};
}

static ss_deck_check no_check(const char *why) {
    return (ss_deck_check){.strip = SS_NAN,
                           .moment_demand = SS_NAN,
                           .moment_capacity = SS_NAN,
                           .shear_demand = SS_NAN,
                           .shear_capacity = SS_NAN,
                           .wheel = SS_NAN,
                           .governs = NOT_KNOWN,
                           .why = why};
}

double ss_deck_wheel_left(const ss_deck_check *check, double moment, double shear) {
    if (check->why != NULL || isnan(moment) || isnan(shear)) {
        return SS_NAN;
    }
    double left = check->wheel;
    if (!isnan(check->moment_capacity)) {
        left = ss_min(left, (check->moment_capacity - fabs(moment)) / check->moment_demand);
    }
    if (!isnan(check->shear_capacity) && check->shear_demand > 0.0) {
        left = ss_min(left, (check->shear_capacity - fabs(shear)) / check->shear_demand);
    }
    return left;
}

/* Fills in the wheel and what governs it, from bending and shear where they are asked for. */
static ss_deck_check finish(ss_deck_check check, const char *bending, const char *shear,
                            ss_working *working) {
    check.wheel = SS_INFINITY;
    check.governs = NOT_KNOWN;
    if (!isnan(check.moment_capacity)) {
        check.wheel = check.moment_capacity / check.moment_demand;
        check.governs = bending;
    }
    if (!isnan(check.shear_capacity) && check.shear_demand > 0.0 &&
        check.shear_capacity / check.shear_demand < check.wheel) {
        check.wheel = check.shear_capacity / check.shear_demand;
        check.governs = shear;
    }
    if (!isfinite(check.wheel)) {
        return no_check("the figures of the deck are out of range");
    }
    ss_working_add(working, "P", "wheel that fills the strip with nothing else on it", check.wheel,
                   SS_DIM_FORCE, NULL);
    return check;
}

static void tell_demand(const ss_deck_span *span, const ss_deck_demand *demand, double strip,
                        ss_working *working) {
    ss_working_add(working, "L", "span of the deck", span->span, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(working, "c", "wheel's area in the direction of the span", span->patch_span,
                   SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(working, "b", "width of deck that carries the wheel", strip, SS_DIM_SMALL_LENGTH, NULL);
    ss_working_add(
        working, "M / P",
        span->continuous
            ? "largest moment over one wheel, 0.8 of a simple span and no less than equal spans have"
            : "largest moment over one wheel, L/4 - c/8 or that of two wheels",
        demand->moment, SS_DIM_SMALL_LENGTH,
        span->continuous ? "AASHTO Standard Specifications 3.24.3.1 (from memory)" : STATICS);
    ss_working_add(working, "V / P", "shear at the critical section over the wheel", demand->shear,
                   SS_DIM_NUMBER, STATICS);
}

double ss_deck_plate_strip(const ss_deck_span *span) {
    if (!ss_rule_positive(span->span) || !ss_rule_positive(span->patch_span) ||
        !ss_rule_positive(span->patch_side)) {
        return SS_NAN;
    }
    const double L = span->span;
    const double u = ss_min(span->patch_span, L);
    const double v = span->patch_side;
    return v + ss_max(0.5 * L + 0.3 * u - (0.2 + 0.15 * u / L) * v, 0.0);
}

ss_deck_check ss_deck_plate_check(const ss_deck_span *span, const ss_deck_plate *plate, ss_working *working) {
    if (!ss_rule_positive(plate->thickness) || !ss_rule_positive(plate->fy)) {
        return no_check("the thickness or yield stress of the deck plate is not known");
    }
    const ss_deck_demand demand = ss_deck_demand_of(span, 0.0);
    if (demand.why != NULL) {
        return no_check(demand.why);
    }
    const double t = plate->thickness;
    const double strip = ss_rule_positive(plate->strip) ? plate->strip : ss_deck_plate_strip(span);
    tell_demand(span, &demand, strip, working);
    const double modulus = strip * t * t / (plate->plastic ? 4.0 : 6.0);
    const double shear_side = ss_min(strip, span->patch_side);
    const ss_deck_check check = {.strip = strip,
                                 .moment_demand = demand.moment,
                                 .moment_capacity = plate->fy * modulus,
                                 .shear_demand = demand.shear,
                                 .shear_capacity = SHEAR_YIELD * plate->fy * t * shear_side};
    ss_working_add(working, "Mn",
                   plate->plastic ? "plastic moment of the strip, Fy b t^2 / 4"
                                  : "first yield of the strip, Fy b t^2 / 6",
                   check.moment_capacity, SS_DIM_MOMENT, STATICS);
    ss_working_add(working, "Vn", "shear yield, 0.58 Fy t over the wheel's own side", check.shear_capacity,
                   SS_DIM_FORCE, "AASHTO LRFD 6.13.5.3 (from memory)");
    return finish(check, "bending of the deck plate", "shear of the deck plate", working);
}

/* Why the planks' figures cannot be used, or NULL. */
static const char *fault_of(const ss_deck_planks *planks) {
    if (!ss_rule_positive(planks->width) || !ss_rule_positive(planks->thickness)) {
        return "the size of the planks is not known";
    }
    if (!ss_rule_positive(planks->Fb) || !ss_rule_positive(planks->Fv)) {
        return "the stresses of the planks are not known";
    }
    if (!ss_rule_positive(planks->load_duration) || !ss_rule_positive(planks->wet_bending) ||
        !ss_rule_positive(planks->wet_shear) || !ss_rule_positive(planks->other_bending)) {
        return "a factor on the stresses of the planks is not positive";
    }
    return NULL;
}

ss_deck_check ss_deck_planks_check(const ss_deck_span *span, const ss_deck_planks *planks,
                                   ss_working *working) {
    const char *const fault = fault_of(planks);
    if (fault != NULL) {
        return no_check(fault);
    }
    const double d = planks->thickness;
    const ss_deck_demand demand = ss_deck_demand_of(span, d);
    if (demand.why != NULL) {
        return no_check(demand.why);
    }
    const double strip = ss_rule_positive(planks->spread) ? planks->spread : planks->width;
    tell_demand(span, &demand, strip, working);
    const double bending = planks->Fb * planks->load_duration * planks->wet_bending * planks->other_bending;
    const double shear = planks->Fv * planks->load_duration * planks->wet_shear;
    ss_working_add(working, "Fb'", "bending stress with all its factors", bending, SS_DIM_STRESS, SOURCE_NDS);
    ss_working_add(working, "Fv'", "shear stress with all its factors", shear, SS_DIM_STRESS, SOURCE_NDS);
    const ss_deck_check check = {.strip = strip,
                                 .moment_demand = demand.moment,
                                 .moment_capacity = bending * strip * d * d / 6.0,
                                 .shear_demand = demand.shear,
                                 .shear_capacity = shear * strip * d / 1.5};
    ss_working_add(working, "M", "Fb' b d^2 / 6", check.moment_capacity, SS_DIM_MOMENT, SOURCE_NDS);
    ss_working_add(working, "V", "Fv' b d / 1.5, the wheel d from the support", check.shear_capacity,
                   SS_DIM_FORCE, SOURCE_NDS);
    return finish(check, "bending of the planks", "horizontal shear of the planks", working);
}

ss_deck_check ss_deck_grating_check(const ss_deck_span *span, const ss_deck_grating *grating,
                                    ss_working *working) {
    const bool by_moment = ss_rule_positive(grating->moment);
    const bool by_wheel = ss_rule_positive(grating->wheel);
    if (!by_moment && !by_wheel) {
        return no_check("nothing is stated of what the grating can carry");
    }
    const ss_deck_demand demand = ss_deck_demand_of(span, 0.0);
    if (demand.why != NULL) {
        return no_check(demand.why);
    }
    const double strip = ss_rule_positive(grating->strip) ? grating->strip : span->patch_side;
    tell_demand(span, &demand, strip, working);
    ss_deck_check check = {.strip = strip,
                           .moment_demand = demand.moment,
                           .moment_capacity = by_moment ? grating->moment * strip : SS_NAN,
                           .shear_demand = demand.shear,
                           .shear_capacity = SS_NAN};
    const double of_moment = by_moment ? check.moment_capacity / demand.moment : SS_INFINITY;
    const bool wheel_governs = by_wheel && !(of_moment <= grating->wheel);
    check.wheel = wheel_governs ? grating->wheel : of_moment;
    check.governs = wheel_governs ? "the wheel that is allowed on the grating" : "bending of the grating";
    if (!isfinite(check.wheel)) {
        return no_check("the figures of the deck are out of range");
    }
    ss_working_add(working, "P", check.governs, check.wheel, SS_DIM_FORCE, "as stated of the grating");
    return check;
}
