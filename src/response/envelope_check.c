/* envelope_check.c - governing positions solved again as plain loads, to see that influence lines, search and
 * contact agree with them. */
#include "base/numeric.h"
#include "base/try.h"
#include "response/envelope_tile.h"
#include "response/state.h"
#include "sillspan/text.h"

enum { CHECKS_MOST = 64, CHECKS_LEAST = 6, SHARE = 50 };

/* Largest difference that passes, relative to the larger of the total and the live effect. Influence fields
 * are not refined: at the usual stations they agree to 1e-9, with hinged joints at stations a 240th of the
 * car apart to 2e-7. */
#define AGREEMENT 1e-6

/* A wheel within the bay of a section inside it is beyond ss_mesh_effect_value. */
static bool comparable(const ss_effect *effect, const ss_load *load) {
    if (effect->member != SS_MEMBER_BEAM || effect->s == 0.0 || effect->s == 1.0) {
        return true;
    }
    for (int i = 0; i < 6; i++) {
        if (load->clamped[6 * (size_t)effect->element + (size_t)i] != 0.0) {
            return false;
        }
    }
    return true;
}

/*
 * What a difference is measured against at least, so that a value next to nothing (a deflection over a rigid
 * bearing) is not asked for more digits than its sum has: a thousandth of the load, of the load times a
 * metre, or of the largest deflection.
 */
static double least_scale(const ss_mesh *mesh, const ss_effect *effect, const ss_state *state) {
    if (effect->kind != SS_EFFECT_DEFLECTION) {
        return 1e-3 * ss_max(fabs(state->load.total), 1.0);
    }
    double largest = 1e-9;
    for (int node = 0; node < mesh->node_count; node++) largest = ss_max(largest, fabs(state->u[3 * node]));
    return 1e-3 * largest;
}

static ss_status check_one(const ss_permanent *permanent, const ss_placements *placements,
                           const ss_envelope_options *options, ss_envelope *e, size_t at, ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(permanent->grillage);
    const size_t index = at / 2 / (size_t)e->traffic_count;
    const ss_effect *effect = &e->effects[index];
    const ss_extreme *extreme = &e->extremes[at];
    ss_status status = SS_OK;
    ss_load load = {0};
    ss_state state = {0};
    SS_TRY(ss_placements_load(mesh, placements, &extreme->position, &load, error));
    SS_TRY(ss_permanent_state(permanent, true, options->factors, &load, options->live_factor, &state, error));
    e->accuracy = ss_max(e->accuracy, state.equilibrium);
    e->checked_count++;
    if (comparable(effect, &load)) {
        const double total = ss_state_effect(mesh, &state, effect);
        const double expected = e->dead[index] + options->live_factor * extreme->value;
        const double scale =
            ss_max(ss_max(fabs(total), fabs(e->dead[index])), least_scale(mesh, effect, &state));
        if (!(fabs(total - expected) <= AGREEMENT * scale)) {
            char share[32];
            status = ss_error_set(error, SS_ERROR_CHECK,
                                  "an extreme found by influence lines and the same position solved directly "
                                  "differ by %s of it (effect %d, %s)",
                                  ss_text_significant(share, sizeof share, fabs(total - expected) / scale, 2),
                                  (int)index, ss_effect_name(effect->kind));
        }
    }
done:
    ss_state_destroy(&state);
    ss_load_destroy(&load);
    return status;
}

ss_status ss_envelope_check(const ss_permanent *permanent, const ss_placements *placements,
                            const ss_envelope_options *options, ss_envelope *envelope, ss_error *error) {
    const size_t all = (size_t)envelope->effect_count * (size_t)envelope->traffic_count * 2;
    size_t valid = 0, seen = 0;
    for (size_t at = 0; at < all; at++) valid += envelope->extremes[at].value != 0.0;
    if (valid == 0) {
        return SS_OK;
    }
    /* Spread evenly over all that there are; of a short list, a share of it. */
    const size_t wanted =
        valid / SHARE + CHECKS_LEAST < CHECKS_MOST ? valid / SHARE + CHECKS_LEAST : CHECKS_MOST;
    const size_t step = (valid + wanted - 1) / wanted;
    for (size_t at = 0; at < all; at++) {
        if (envelope->extremes[at].value == 0.0 || seen++ % step != 0) {
            continue;
        }
        const ss_status status = check_one(permanent, placements, options, envelope, at, error);
        if (status != SS_OK) {
            return status;
        }
    }
    return SS_OK;
}
