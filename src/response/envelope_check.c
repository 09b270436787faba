/* envelope_check.c - governing positions solved again as plain loads, to see that influence lines, search and
 * contact agree with them. */
#include <float.h>
#include <stdio.h>

#include "base/numeric.h"
#include "base/try.h"
#include "mechanics/mesh_parts.h"
#include "response/contact_tableau.h"
#include "response/envelope_tile.h"
#include "response/state.h"
#include "sillspan/text.h"

enum { CHECKS_MOST = 64, CHECKS_LEAST = 6, SHARE = 50 };

/*
 * Largest difference that passes, relative to what the value is a sum of. At usual stations influence fields
 * agree with a refined solution to 1e-10 of their largest value. With stations some millimetres apart effects
 * between them are small differences of displacements, and only what the condition of the matrix leaves can
 * be asked for.
 */
#define AGREEMENT 1e-7

/* The value of another place may be a sum of terms as large as the largest of its kind, and have their
 * rounding. */
#define LEAST_OF_KIND 0.1

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

/* What every difference is measured against at least. */
typedef struct kind_scales {
    double of[SS_MEMBER_BEARING + 1][SS_EFFECT_WEB_MINUS + 1];
} kind_scales;

static kind_scales find_scales(const ss_envelope *e, double live_factor) {
    kind_scales scales = {{{0}}};
    for (int i = 0; i < e->effect_count; i++) {
        double *const scale = &scales.of[e->effects[i].member][e->effects[i].kind];
        *scale = ss_max(*scale, fabs(e->dead[i]));
        for (int k = 0; k < 2 * e->traffic_count; k++) {
            const double live = e->extremes[ss_envelope_at(e, i, k / 2, k % 2)].value;
            *scale = ss_max(*scale, live_factor * fabs(live));
        }
    }
    return scales;
}

typedef struct check_task {
    const ss_contact_model *model;
    const ss_placements *placements;
    const ss_envelope_options *options;
    kind_scales scales;
} check_task;

/*
 * What both values may differ by however they are computed: what the search drops as nothing; the rounding of
 * an effect as a sum over displacements, which grows as members get short; and with contact that of the parts
 * which openings take off again.
 */
static double rounding_of(const check_task *task, const ss_envelope *e, size_t at, const ss_state *state) {
    const ss_mesh *mesh = ss_grillage_mesh(task->model->permanent->grillage);
    const double live = task->options->live_factor;
    const size_t index = at / 2 / (size_t)e->traffic_count;
    const ss_effect *effect = &e->effects[index];
    const ss_extreme *extreme = &e->extremes[at];
    const ss_track *track = &task->placements->tracks[extreme->position.track];
    const double gross = ss_vehicle_gross(&task->placements->trains[track->train]);
    const double nothing = effect->kind == SS_EFFECT_DEFLECTION ? SS_NOTHING_DEFLECTION : SS_NOTHING_FORCE;
    double sum = live * nothing * gross;
    if (!ss_effect_of_spring(effect)) {
        ss_row row;
        ss_mesh_effect_row(mesh, effect, &row);
        for (int i = 0; i < row.count; i++) sum += DBL_EPSILON * fabs(row.value[i] * state->u[row.dof[i]]);
    }
    return sum + SS_CONTACT_NOTHING *
                     (fabs(ss_contact_model_dead(task->model, effect)) + live * fabs(extreme->closed));
}

static const char *member_words(const ss_mesh *mesh, const ss_effect *e, char *buffer, size_t size) {
    const ss_bridge *b = mesh->bridge;
    switch (e->member) {
    case SS_MEMBER_LINE: return ss_mesh_line_words(b, e->index, buffer, size);
    case SS_MEMBER_BEAM:
        snprintf(buffer, size, "%s%s of car %s", b->floor_beams[e->index].strip > 0.0 ? "" : "floor beam ",
                 b->floor_beams[e->index].name, b->cars[b->floor_beams[e->index].car].name);
        break;
    case SS_MEMBER_JOINT: snprintf(buffer, size, "joint %s", b->joints[e->index].name); break;
    case SS_MEMBER_BEARING: snprintf(buffer, size, "bearing %s", b->bearings[e->index].name); break;
    }
    return buffer;
}

static ss_status refuse(const check_task *task, const ss_effect *effect, const ss_position *position,
                        double difference, ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(task->model->permanent->grillage);
    char share[32], member[160], at[48], front[48];
    return ss_error_set(
        error, SS_ERROR_CHECK,
        "an extreme found by influence lines and the same position solved directly differ by %s of it: %s of "
        "%s at %s under truck %s with its front axle at x = %s",
        ss_text_significant(share, sizeof share, difference, 2), ss_effect_name(effect->kind),
        member_words(mesh, effect, member, sizeof member),
        ss_mesh_x_words(mesh->bridge->units, effect->at, at, sizeof at),
        task->placements->trains[task->placements->tracks[position->track].train].name,
        ss_mesh_x_words(mesh->bridge->units, position->x, front, sizeof front));
}

static ss_status check_one(const check_task *task, ss_envelope *e, size_t at, ss_error *error) {
    const ss_mesh *mesh = ss_grillage_mesh(task->model->permanent->grillage);
    const ss_envelope_options *options = task->options;
    const size_t index = at / 2 / (size_t)e->traffic_count;
    const ss_effect *effect = &e->effects[index];
    const ss_extreme *extreme = &e->extremes[at];
    ss_status status = SS_OK;
    ss_load load = {0};
    ss_state state = {0};
    SS_TRY(ss_extreme_load_make(mesh, task->placements, extreme, &load, error));
    SS_TRY(ss_permanent_state(task->model->permanent, true, options->factors, &load, options->live_factor,
                              &state, error));
    e->accuracy = ss_max(e->accuracy, state.equilibrium);
    e->checked_count++;
    if (comparable(effect, &load)) {
        const double total = ss_state_effect(mesh, &state, effect);
        const double expected = e->dead[index] + options->live_factor * extreme->value;
        const double least = LEAST_OF_KIND * task->scales.of[effect->member][effect->kind];
        const double scale = ss_max(ss_max(fabs(total), fabs(e->dead[index])), least);
        const double difference = fabs(total - expected);
        const double share =
            ss_max(AGREEMENT, DBL_EPSILON / ss_grillage_trust(task->model->permanent->grillage)->rcond);
        if (!(difference <= share * scale + rounding_of(task, e, at, &state))) {
            status = refuse(task, effect, &extreme->position, difference / scale, error);
        }
    }
done:
    ss_state_destroy(&state);
    ss_load_destroy(&load);
    return status;
}

ss_status ss_envelope_check(const ss_contact_model *model, const ss_placements *placements,
                            const ss_envelope_options *options, ss_envelope *envelope, ss_error *error) {
    const check_task task = {model, placements, options, find_scales(envelope, options->live_factor)};
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
        const ss_status status = check_one(&task, envelope, at, error);
        if (status != SS_OK) {
            return status;
        }
    }
    return SS_OK;
}
