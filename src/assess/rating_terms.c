/* rating_terms.c - all terms of a rating once its section, position and factor are known. */
#include "assess/rating_terms.h"

#include <math.h>

#include "assess/rating_equation.h"
#include "base/numeric.h"
#include "base/try.h"

/* A US ton of force, 2000 lbf, in N (the pound and standard gravity are exact). */
#define TON (2000.0 * 4.4482216152605)

/* How far, of capacity and dead effect together, the effect under the rated load may be beyond the capacity.
 */
#define BEYOND 1e-6

/* A tipping load itself has no certain state; this much less has one. */
#define SHORT_OF_TIPPING 1e-6

void ss_rating_terms_destroy(ss_rating_terms *terms) {
    ss_state_destroy(&terms->factored[0]);
    ss_state_destroy(&terms->factored[1]);
    ss_state_destroy(&terms->dc);
    ss_state_destroy(&terms->both);
}

ss_status ss_rating_terms_init(ss_rating_terms *terms, const ss_rating_search *search,
                               const ss_rating_rule *rule, ss_error *error) {
    ss_status status = SS_OK;
    ss_rating_terms made = {.search = search, .rule = rule};
    const ss_permanent *const permanent = search->permanent;
    for (int i = 0; i < search->dead_count; i++) {
        SS_TRY(ss_permanent_state(permanent, true, search->factors[i], NULL, 0.0, &made.factored[i], error));
    }
    SS_TRY(ss_permanent_state(permanent, true, (ss_dead_factors){1.0, 0.0}, NULL, 0.0, &made.dc, error));
    SS_TRY(ss_permanent_state(permanent, true, (ss_dead_factors){1.0, 1.0}, NULL, 0.0, &made.both, error));
    *terms = made;
    made = (ss_rating_terms){0};
done:
    ss_rating_terms_destroy(&made);
    return status;
}

/* ---- the live part ------------------------------------------------------------------------------ */

/* Whether a truck acts within the effect's own element away from its ends: then a state does not tell the
 * effect there. */
static bool hidden(const ss_effect *effect, const ss_load *load) {
    if (effect->element < 0 || effect->s == 0.0 || effect->s == 1.0) {
        return false;
    }
    for (int i = 0; i < 6; i++) {
        if (load->clamped[6 * (size_t)effect->element + (size_t)i] != 0.0) {
            return true;
        }
    }
    return false;
}

/* Two states of the bridge, without and with the truck, and how many trucks that is. */
typedef struct live_states {
    const ss_mesh *mesh;
    const ss_state *dead, *total;
    double multiple;
} live_states;

static double live_of(const live_states *states, const ss_effect *effect) {
    return (ss_state_effect(states->mesh, states->total, effect) -
            ss_state_effect(states->mesh, states->dead, effect)) /
           states->multiple;
}

static const ss_concurrent nothing_known = {(double)NAN, (double)NAN, (double)NAN, (double)NAN};

/* The other effects at the place of `effect`, as far as the member has them. */
static ss_concurrent concurrent(const live_states *states, const ss_effect *effect) {
    static const ss_effect_kind kinds[4] = {SS_EFFECT_MOMENT, SS_EFFECT_SHEAR, SS_EFFECT_TORSION,
                                            SS_EFFECT_DEFLECTION};
    double value[4];
    const int count = effect->member == SS_MEMBER_JOINT ? 2 : 4;
    for (int i = 0; i < 4; i++) {
        ss_effect other;
        /* A hinged joint passes no moment: it has none to tell. */
        const bool there =
            i < count && ss_mesh_effect(states->mesh, effect->member, effect->index, effect->at,
                                        effect->before, kinds[i], &other, NULL) == SS_OK;
        value[i] = there ? live_of(states, &other) : (double)NAN;
    }
    return (ss_concurrent){value[0], value[1], value[2], value[3]};
}

/* Multiple of the plain truck at which its effect is told. */
static double told_at(const ss_rating *rating, double multiplier) {
    if (!(rating->rf > 0.0) || isinf(rating->rf)) {
        return multiplier;
    }
    return rating->rf * multiplier * (rating->tips ? 1.0 - SHORT_OF_TIPPING : 1.0);
}

static ss_status check_capacity(const ss_rating *rating, double effect, ss_error *error) {
    const double beyond = rating->most ? effect - rating->capacity : rating->capacity - effect;
    if (!(beyond > BEYOND * (fabs(rating->capacity) + fabs(rating->dead)))) {
        return SS_OK;
    }
    return ss_error_set(error, SS_ERROR_CHECK,
                        "a rated section is beyond its capacity under the load that it was rated for");
}

/* Live effect and its companions from the state under the rated load. */
static ss_status fill_live(const ss_rating_terms *terms, double multiplier, ss_rating *out, ss_error *error) {
    ss_status status = SS_OK;
    ss_load load = {0};
    ss_state total = {0};
    const ss_permanent *const permanent = terms->search->permanent;
    const int dead = out->minimum_dead ? 1 : 0;
    const bool filled = out->rf > 0.0 && isfinite(out->rf) && !out->tips;
    live_states states = {ss_grillage_mesh(permanent->grillage), &terms->factored[dead], &total,
                          told_at(out, multiplier)};
    SS_TRY(ss_placements_load(states.mesh, terms->search->placements, &out->position, &load, error));
    status = ss_permanent_state(permanent, true, terms->search->factors[dead], &load, states.multiple, &total,
                                error);
    if (status == SS_ERROR_TIPPING && !filled) {
        /* One factored truck tips what dead load alone fills: there is no live effect to tell. */
        status = SS_OK;
        out->live = (double)NAN;
        goto done;
    }
    SS_TRY(status);
    if (!hidden(&out->effect, &load)) {
        out->with = concurrent(&states, &out->effect);
        if (filled) {
            SS_TRY(check_capacity(out, ss_state_effect(states.mesh, &total, &out->effect), error));
        }
    }
    if (filled) {
        out->live = (out->capacity - out->dead) / states.multiple;
    } else {
        out->live = hidden(&out->effect, &load) ? (double)NAN : live_of(&states, &out->effect);
    }
done:
    ss_state_destroy(&total);
    ss_load_destroy(&load);
    return status;
}

/* ---- the rest ----------------------------------------------------------------------------------- */

/* Where the bridge tips before the section is full, that is the factor. */
static void apply_tipping(const ss_rating_tip *tip, double multiplier, ss_rating *out) {
    const double factor = tip->multiple / multiplier;
    if (factor < out->rf * (1.0 - SS_RATING_TIE)) {
        out->rf = factor;
        out->tips = true;
        out->minimum_dead = tip->dead == 1;
        out->position = tip->position;
    }
}

ss_status ss_rating_terms_fill(const ss_rating_terms *terms, int rated, int traffic, bool most,
                               ss_rating *out, ss_error *error) {
    const ss_rating_search *const search = terms->search;
    const ss_mesh *const mesh = ss_grillage_mesh(search->permanent->grillage);
    const ss_rated *const section = &search->rated->items[rated];
    const ss_rating_case *const found = ss_rating_case_at(search, rated, traffic, most);
    const size_t at = ss_rating_at(search, rated, traffic);
    const ss_vehicle *const vehicle = &mesh->bridge->vehicles[search->placements->traffic[traffic].vehicle];
    ss_status status = SS_OK;
    ss_rating rating = {.rule = terms->rule,
                        .effect = section->effect,
                        .most = most,
                        .traffic = traffic,
                        .rf = found->rf,
                        .rf_linear = found->rf_linear,
                        .tips = found->tips,
                        .minimum_dead = found->dead == 1,
                        .nominal = section->nominal,
                        .capacity = ss_rating_target(search->capacity[at], most),
                        .position = found->position,
                        .with = nothing_known};
    apply_tipping(&search->tips[traffic], search->multiplier[at], &rating);
    const int dead = rating.minimum_dead ? 1 : 0;
    terms->rule->factors(mesh->bridge, vehicle, &section->effect, &rating.factors);
    rating.factors.dc = search->factors[dead].dc;
    rating.factors.dw = search->factors[dead].dw;
    rating.dead = search->dead[(size_t)dead * (size_t)search->rated->count + (size_t)rated];
    rating.dead_dc = ss_state_effect(mesh, &terms->dc, &section->effect);
    rating.dead_dw = ss_state_effect(mesh, &terms->both, &section->effect) - rating.dead_dc;
    if (rating.position.track >= 0) {
        SS_TRY(fill_live(terms, search->multiplier[at], &rating, error));
    }
    rating.tons = rating.rf * ss_vehicle_gross(vehicle) / TON;
    *out = rating;
done:
    return status;
}
