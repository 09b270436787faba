/* deck_rating.c - the deck under the wheels of a truck: each wheel with its neighbours, factors by the check.
 */
#include "sillspan/deck_rating.h"

#include <math.h>
#include <stddef.h>

#include "assess/method_parts.h"
#include "assess/rule.h"
#include "sillspan/deck_strength.h"

/* Least factor of condition, as of members (MBE 6A.4.2.1, from memory); there is none of the system. */
#define CONDITION_LEAST 0.85

/* LRFD 3.6.2.3: wood has half of the allowance (from memory). */
#define TIMBER_SHARE 0.5

/* A wheel and what stands beside it. */
typedef struct deck_wheel {
    double load;
    double next; /**< m to the next wheel on the same span; 0: none */
    double room; /**< m to the next wheel at right angles to the span: what its strip has at most */
} deck_wheel;

/* ---- wheels ------------------------------------------------------------------------------------- */

/* The smaller of two distances of which 0 means none. */
static double nearer(double a, double b) {
    return !(a > 0.0) ? b : !(b > 0.0) ? a : ss_min(a, b);
}

static deck_wheel wheel_of(const ss_bridge *bridge, const ss_vehicle *vehicle, int axle, int lanes) {
    const double gauge = ss_vehicle_gauge(vehicle, axle);
    double across = gauge > 0.0 ? gauge : 0.0;
    if (lanes > 1) {
        across = nearer(across, bridge->lanes.between_wheels);
    }
    const double ahead = axle > 0 ? vehicle->spacing_m[axle - 1] : 0.0;
    const double behind = axle + 1 < vehicle->axle_count ? vehicle->spacing_m[axle] : 0.0;
    const double along = nearer(ahead, behind);
    const bool spans_along = bridge->deck.along;
    return (deck_wheel){.load = vehicle->axle_N[axle] * (gauge > 0.0 ? 0.5 : 1.0),
                        .next = spans_along ? along : across,
                        .room = spans_along ? across : along};
}

/* ---- strength ----------------------------------------------------------------------------------- */

static double strip_of(const ss_bridge *bridge, const deck_wheel *wheel, double by_rule) {
    const double given = bridge->deck.wheel.spread;
    const double strip = given > 0.0 ? given : by_rule;
    return wheel->room > 0.0 ? ss_min(strip, wheel->room) : strip;
}

static ss_deck_check strength_of(const ss_bridge *bridge, const ss_deck_span *span, const deck_wheel *wheel) {
    const ss_deck_wheel *const given = &bridge->deck.wheel;
    switch (bridge->deck.made_of) {
    case SS_DECK_STEEL_PLATE: {
        const bool known = given->steel >= 0 && given->steel < bridge->steel_count;
        const ss_deck_plate plate = {.thickness = given->thickness,
                                     .fy = known ? bridge->steels[given->steel].fy : 0.0,
                                     .strip = strip_of(bridge, wheel, ss_deck_plate_strip(span))};
        return ss_deck_plate_check(span, &plate, NULL);
    }
    case SS_DECK_GRATING: {
        const ss_deck_grating grating = {.moment = given->moment_capacity,
                                         .strip = strip_of(bridge, wheel, span->patch_side),
                                         .wheel = given->wheel_capacity};
        return ss_deck_grating_check(span, &grating, NULL);
    }
    case SS_DECK_TIMBER:
    case SS_DECK_CONCRETE: break;
    }
    const double width = given->plank_width > 0.0 ? given->plank_width : given->spread;
    const ss_deck_planks planks = {.width = width,
                                   .thickness = given->thickness,
                                   .spread = strip_of(bridge, wheel, width),
                                   .Fb = given->bending_stress,
                                   .Fv = given->shear_stress,
                                   .load_duration = given->load_duration,
                                   .wet_bending = given->wet_bending,
                                   .wet_shear = given->wet_shear,
                                   .other_bending = 1.0};
    return ss_deck_planks_check(span, &planks, NULL);
}

/* ---- factors ------------------------------------------------------------------------------------ */

static void set_allowance(const ss_bridge *bridge, const ss_check *check, const ss_method_factors *factors,
                          ss_deck_rating *out) {
    out->allowance = factors->allowance;
    out->allowance_basis = factors->allowance_basis;
    if (!isnan(bridge->rating.dynamic_allowance) || !(factors->allowance > 0.0)) {
        return;
    }
    if (bridge->deck.made_of != SS_DECK_TIMBER) {
        out->allowance_basis = "full: steel deck";
    } else if (check->method == SS_METHOD_LRFR) {
        out->allowance *= TIMBER_SHARE;
        out->allowance_basis = "half of the full: timber (AASHTO LRFD 3.6.2.3, from memory)";
    } else {
        out->allowance = 0.0;
        out->allowance_basis = "none: timber (Standard Specifications 3.8.1, from memory)";
    }
}

static void set_factors(const ss_bridge *bridge, const ss_check *check, const ss_vehicle *vehicle,
                        const ss_crossing_facts *crossing, ss_deck_rating *out) {
    /* As a short member that is no line: full allowance whatever the span. */
    const ss_effect effect = {.kind = SS_EFFECT_SHEAR, .member = SS_MEMBER_JOINT};
    ss_method_factors factors;
    ss_check_factors(bridge, check, vehicle, crossing, &effect, &factors);
    set_allowance(bridge, check, &factors, out);
    out->allowable = bridge->deck.made_of != SS_DECK_STEEL_PLATE;
    out->resistance = 1.0;
    if (out->allowable) {
        out->dc = out->dw = out->live_factor = 1.0;
        out->live_basis = "none: allowable values";
        out->presence = ss_method_presence(SS_METHOD_ASR, crossing->lanes);
        out->presence_basis = "Standard Specifications 3.12.1";
        return;
    }
    out->dc = factors.dc;
    out->dw = factors.dw;
    out->live_factor = factors.live;
    out->live_basis = factors.live_basis;
    out->presence = factors.presence;
    out->presence_basis = factors.presence_basis;
    if (check->method == SS_METHOD_LRFR) {
        out->resistance = ss_max(CONDITION_LEAST, bridge->rating.condition);
    }
}

/* The nominal strength of a plate as far as the check lets it count. */
static void scale_strength(const ss_check *check, const ss_deck_rating *rating, ss_deck_check *strength) {
    const ss_check_row *const row = ss_check_row_of(check);
    if (rating->allowable || strength->why != NULL) {
        return;
    }
    const double bending = row == NULL || isnan(row->bending) ? 1.0 : row->bending;
    const double shear = row == NULL || isnan(row->shear) ? 1.0 : row->shear;
    strength->moment_capacity *= rating->resistance * bending;
    strength->shear_capacity *= rating->resistance * shear;
    strength->wheel = ss_min(strength->moment_capacity / strength->moment_demand,
                             strength->shear_demand > 0.0 ? strength->shear_capacity / strength->shear_demand
                                                          : SS_INFINITY);
}

/* ---- one wheel ---------------------------------------------------------------------------------- */

/* Largest dead load moment and shear of the strip: of two equal spans, the worst of continuous ones, in a
 * continuous deck. */
static void dead_of(const ss_deck_layout *layout, const ss_deck_rating *rating, const ss_deck_wheel *given,
                    double shear_from, double *moment, double *shear) {
    const double L = layout->span;
    const double w = (rating->dc * layout->dc + rating->dw * layout->dw) * rating->strip;
    *moment = w * L * L / 8.0;
    *shear = w * ss_max((given->continuous ? 0.625 : 0.5) * L - shear_from, 0.0);
}

static const char *name_of(const ss_bridge *bridge, bool bending) {
    switch (bridge->deck.made_of) {
    case SS_DECK_STEEL_PLATE: return bending ? "bending of the deck plate" : "shear of the deck plate";
    case SS_DECK_GRATING: return bending ? "bending of the grating" : "the wheel allowed on the grating";
    case SS_DECK_TIMBER:
    case SS_DECK_CONCRETE: break;
    }
    return bending ? "bending of the planks" : "horizontal shear of the planks";
}

/* Which of bending, shear and a stated wheel leaves least, and its terms. */
static void set_terms(const ss_bridge *bridge, const ss_deck_check *strength, double moment, double shear,
                      double scale, ss_deck_rating *out) {
    const double left = ss_deck_wheel_left(strength, moment, shear);
    const double of_moment = (strength->moment_capacity - moment) / strength->moment_demand;
    out->bending = !isnan(strength->moment_capacity) && of_moment <= left * (1.0 + 1e-12) + 1e-12;
    const bool by_shear = !out->bending && !isnan(strength->shear_capacity);
    out->governs = name_of(bridge, out->bending);
    out->capacity = out->bending ? strength->moment_capacity
                    : by_shear   ? strength->shear_capacity
                                 : strength->wheel;
    out->dead = out->bending ? moment : by_shear ? shear : 0.0;
    out->live = scale * out->wheel *
                (out->bending ? strength->moment_demand
                 : by_shear   ? strength->shear_demand
                              : 1.0);
    out->rf = ss_max(left, 0.0) / (scale * out->wheel);
}

static ss_deck_rating rate_wheel(const ss_bridge *bridge, const ss_deck_layout *layout, const ss_check *check,
                                 const deck_wheel *wheel, ss_deck_rating rating) {
    const ss_wheel_patch patch = ss_wheel_patch_of(SS_PATCH_LRFD, wheel->load);
    const bool along = bridge->deck.along;
    const ss_deck_span span = {.span = layout->span,
                               .continuous = bridge->deck.wheel.continuous,
                               .patch_span = along ? patch.along : patch.across,
                               .patch_side = along ? patch.across : patch.along,
                               .next_wheel = wheel->next < layout->span ? wheel->next : 0.0};
    ss_deck_check strength = strength_of(bridge, &span, wheel);
    rating.wheel = wheel->load;
    rating.strip = strength.strip;
    rating.why = strength.why;
    rating.rf = SS_NAN;
    const double scale = rating.live_factor * rating.presence * (1.0 + rating.allowance);
    if (rating.why != NULL) {
        return rating;
    }
    if (!ss_rule_positive(scale * wheel->load)) {
        rating.why = "the factored wheel is not positive";
        return rating;
    }
    double moment = 0.0, shear = 0.0;
    const bool timber = bridge->deck.made_of == SS_DECK_TIMBER;
    dead_of(layout, &rating, &bridge->deck.wheel, timber ? bridge->deck.wheel.thickness : 0.0, &moment,
            &shear);
    scale_strength(check, &rating, &strength);
    set_terms(bridge, &strength, moment, shear, scale, &rating);
    if (isnan(rating.rf)) {
        rating.why = "the figures of the deck are out of range";
    }
    return rating;
}

ss_deck_rating ss_deck_rating_of(const ss_bridge *bridge, const ss_deck_layout *layout, const ss_check *check,
                                 const ss_vehicle *vehicle, const ss_crossing_facts *crossing) {
    ss_deck_rating factors = {.rf = SS_NAN, .why = "the vehicle has no axle"};
    if (layout->why != NULL) {
        factors.why = layout->why;
        return factors;
    }
    set_factors(bridge, check, vehicle, crossing, &factors);
    ss_deck_rating worst = factors;
    for (const ss_vehicle *one = vehicle; one != NULL; one = one->also) {
        /* Loads of a lane that are for some effects only stand for trucks, not for wheels. */
        for (int a = 0; one->use == SS_USE_ALL && a < one->axle_count; a++) {
            const deck_wheel wheel = wheel_of(bridge, one, a, crossing->lanes);
            const ss_deck_rating rating = rate_wheel(bridge, layout, check, &wheel, factors);
            if (rating.why != NULL) {
                return rating;
            }
            if (worst.why != NULL || rating.rf < worst.rf) {
                worst = rating;
            }
        }
    }
    return worst;
}
