/* sweep_closed.c - all points of a sweep of joints out of one factorisation. */
#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/joint_out.h"
#include "sillspan/memory.h"
#include "sillspan/spring_sweep.h"
#include "studies/changes.h"
#include "studies/sweep_parts.h"
#include "studies/trial_parts.h"
#include "studies/watch_sweep.h"

/* What all points share. */
typedef struct closed {
    ss_sweep *sweep;
    ss_description description; /* with the joints at `reference` */
    ss_variant variant;
    double reference; /* value of the axis at which k is 1 */
    ss_watch_sweep *modes;
    bool *swept;        /* joint_count */
    ss_variant without; /* with the swept joints out */
    ss_watch_value *without_values;
    bool has_without;
} closed;

/* ---- the bridge at the reference -------------------------------------------------------------------- */

/* A value in the middle of those that are stiffnesses. */
static double reference_of(const ss_sweep_axis *axis) {
    double low = SS_INFINITY;
    double high = 0.0;
    for (int i = 0; i < axis->count; i++) {
        if (axis->value[i] > 0.0 && isfinite(axis->value[i])) {
            low = ss_min(low, axis->value[i]);
            high = ss_max(high, axis->value[i]);
        }
    }
    return high > 0.0 ? sqrt(low * high) : 1.0;
}

static ss_status stand_at_reference(const ss_sweep_plan *plan, closed *c, ss_diag_list *diags,
                                    ss_error *error) {
    const ss_sweep_axis *const axis = &c->sweep->axis[0];
    const ss_unknown_set one = {.items = (ss_unknown *)axis->unknown, .count = 1};
    ss_status status = SS_OK;
    c->reference = reference_of(axis);
    SS_TRY(ss_change_copy(plan->base, &c->description));
    SS_TRY(ss_unknowns_apply(&one, &c->reference, &c->description, diags));
    SS_TRY(ss_bridge_resolve(&c->description, &c->variant.bridge, diags));
    SS_TRY(ss_variant_structure(&c->variant, error));
    SS_TRY(ss_permanent_compute(&c->variant.bridge, c->variant.grillage, &c->variant.permanent, error));
    SS_TRY(ss_trial_traffic(&c->sweep->trials.watch, &c->variant, error));
done:
    return status;
}

static ss_status find_modes(const ss_sweep_plan *plan, closed *c, ss_error *error) {
    ss_status status = SS_OK;
    ss_sweep_joints joints = {.joint =
                                  ss_alloc((size_t)c->variant.bridge.joint_count + 1, sizeof *joints.joint)};
    int *const springs = ss_alloc((size_t)c->variant.mesh.spring_count + 1, sizeof *springs);
    SS_TRY(joints.joint == NULL || springs == NULL ? ss_no_memory(error) : SS_OK);
    SS_TRY(ss_sweep_joints_of(&c->variant.bridge, plan->unknown[0], &joints)
               ? SS_OK
               : ss_error_set(error, SS_ERROR_LIMIT, "no joints are swept"));
    const int count = ss_sweep_springs(&c->variant.mesh, &joints, springs);
    const ss_sweep_task size = {.swept_count = count,
                                .load_count = c->sweep->trials.watch.stand_count,
                                .reading_count = c->sweep->trials.watch.effect_count};
    SS_TRY(count > 0 &&
                   (plan->whole || c->sweep->count >= ss_spring_sweep_pays_from(c->variant.grillage, &size))
               ? SS_OK
               : ss_error_set(error, SS_ERROR_LIMIT, "an analysis of each point takes less time"));
    SS_TRY(ss_watch_sweep_create(&c->sweep->trials.watch, &c->variant, count, springs, &c->modes, error));
done:
    ss_free(joints.joint);
    ss_free(springs);
    return status;
}

/* ---- without the joints ----------------------------------------------------------------------------- */

/* Whatever stiffness the swept joints have, without them the bridge is the same: it is rated once. What keeps
 * it from that is said where a point asks for it. */
static ss_status rate_without(closed *c, const ss_description *description) {
    const ss_watch *const watch = &c->sweep->trials.watch;
    ss_diag_list diags = {0};
    ss_error ignored = {0};
    ss_variant *const v = &c->without;
    ss_status status = SS_OK;
    c->without_values = ss_alloc((size_t)watch->item_count + 1, sizeof *c->without_values);
    SS_TRY(c->without_values == NULL ? SS_ERROR_MEMORY : SS_OK);
    SS_TRY(ss_bridge_resolve(description, &v->bridge, &diags));
    SS_TRY(ss_variant_structure(v, &ignored));
    SS_TRY(ss_permanent_compute(&v->bridge, v->grillage, &v->permanent, &ignored));
    SS_TRY(ss_watch_compute(watch, v, c->without_values, &ignored));
    c->has_without = true;
done:
    ss_diag_destroy(&diags);
    return status == SS_ERROR_MEMORY ? status : SS_OK;
}

static ss_status find_without(closed *c, ss_error *error) {
    ss_description changed = {0};
    const ss_bridge *const bridge = &c->variant.bridge;
    ss_sweep_joints joints = {.joint = ss_alloc((size_t)bridge->joint_count + 1, sizeof *joints.joint)};
    ss_status status = joints.joint == NULL ? SS_ERROR_MEMORY : SS_OK;
    SS_TRY(status);
    c->swept = joints.joint;
    (void)ss_sweep_joints_of(bridge, c->sweep->axis[0].unknown, &joints);
    SS_TRY(ss_change_copy(&c->description, &changed));
    for (int j = 0; j < bridge->joint_count; j++) {
        SS_TRY(!joints.joint[j] || ss_change_take_joint(&changed, bridge, j) ? SS_OK : SS_ERROR_MEMORY);
    }
    SS_TRY(rate_without(c, &changed));
done:
    ss_description_destroy(&changed);
    return status == SS_OK ? SS_OK : ss_no_memory(error);
}

/* A point whose bridge is wanted without joints. */
typedef struct closed_point {
    const closed *c;
    int index;
    uint64_t without; /* see ss_trial */
} closed_point;

/* The description at the reference, some joints taken out of it, as it is at a point. */
static ss_status set_point(const closed_point *p, const ss_description *description, ss_description *out,
                           ss_diag_list *diags) {
    const ss_status status = ss_change_copy(description, out);
    return status == SS_OK ? ss_sweep_change(p->c->sweep, p->index, out, diags) : status;
}

/* See ss_joint_out_rater. Where other joints than those swept are full, the bridge is analysed. */
static ss_status rate_joints_out(void *context, const ss_description *description, const bool *taken,
                                 ss_variant *out, ss_diag_list *diags, ss_error *error) {
    closed_point *const p = context;
    const closed *const c = p->c;
    const ss_watch *const watch = &c->sweep->trials.watch;
    ss_description here = {0};
    ss_watch_value *values = NULL;
    ss_status status = SS_OK;
    *out = (ss_variant){0};
    p->without = ss_trial_out_bits(taken, c->variant.bridge.joint_count);
    if (c->has_without && memcmp(taken, c->swept, (size_t)c->variant.bridge.joint_count) == 0) {
        return ss_watch_ratings(watch, &c->without, c->without_values, &out->ratings, error);
    }
    values = ss_alloc((size_t)watch->item_count + 1, sizeof *values);
    SS_TRY(values == NULL ? ss_no_memory(error) : SS_OK);
    SS_TRY(set_point(p, description, &here, diags));
    SS_TRY(ss_bridge_resolve(&here, &out->bridge, diags));
    SS_TRY(ss_variant_structure(out, error));
    SS_TRY(ss_permanent_compute(&out->bridge, out->grillage, &out->permanent, error));
    SS_TRY(ss_watch_compute(watch, out, values, error));
    SS_TRY(ss_watch_ratings(watch, out, values, &out->ratings, error));
done:
    ss_free(values);
    ss_description_destroy(&here);
    if (status != SS_OK) {
        ss_variant_destroy(out);
    }
    return status;
}

/* A joint without any stiffness is no joint, so that nothing of it is full; it carries nothing. */
static void leave_out(const closed *c, ss_watch_value *values) {
    const ss_watch *const watch = &c->sweep->trials.watch;
    const ss_bridge *const bridge = &c->variant.bridge;
    for (int i = 0; i < watch->item_count; i++) {
        const ss_watched_effect *const effect = &watch->effects[watch->items[i].effect];
        const bool rated = watch->items[i].check != SS_WATCH_LIVE;
        for (int j = 0; j < bridge->joint_count && rated && effect->member == SS_MEMBER_JOINT; j++) {
            if (c->swept[j] && strcmp(effect->name, bridge->joints[j].name) == 0) {
                values[i] = (ss_watch_value){.value = SS_NAN, .dead = SS_NAN};
            }
        }
    }
}

/* ---- one point -------------------------------------------------------------------------------------- */

static ss_status rate_point(closed *c, int index, ss_arena *arena, ss_trial *out, ss_error *error) {
    const ss_trials *const trials = &c->sweep->trials;
    const double value = c->sweep->axis[0].value[index];
    closed_point point = {c, index, 0};
    const ss_joint_out_rater rater = {rate_joints_out, &point};
    ss_variant here = c->variant; /* but for its ratings, and what reading them adds to its placements */
    ss_joint_out joints = {0};
    ss_status status = SS_OK;
    ss_watch_value *const values = ss_alloc((size_t)trials->watch.item_count + 1, sizeof *values);
    here.ratings = (ss_ratings){0};
    here.placements.tracks = NULL;
    SS_TRY(values == NULL ? ss_no_memory(error) : SS_OK);
    SS_TRY(ss_watch_sweep_at(c->modes, value / c->reference, values, error));
    if (value == 0.0) {
        leave_out(c, values);
    }
    SS_TRY(ss_watch_ratings(&trials->watch, &here, values, &here.ratings, error));
    SS_TRY(ss_joint_out_compute_by(&rater, &c->description, &here, &joints, error));
    SS_TRY(ss_trial_sum_up(trials, &here, values, arena, out, error));
    out->without = point.without;
done:
    ss_joint_out_destroy(&joints);
    ss_ratings_destroy(&here.ratings);
    ss_free(here.placements.tracks);
    ss_free(values);
    return status;
}

static ss_status compute(void *context, int index, ss_text *out, ss_error *error) {
    closed *const c = context;
    const ss_trials *const trials = &c->sweep->trials;
    const ss_diag_list none = {0};
    ss_arena arena = {0};
    ss_error why = {0};
    ss_trial trial;
    ss_status status = rate_point(c, index, &arena, &trial, &why);
    if (status != SS_OK && status != SS_ERROR_MEMORY) {
        status = ss_trial_fail(trials, status, &why, &none, &arena, &trial);
    }
    if (status == SS_OK && !ss_trial_pack(trials, &trial, out)) {
        status = SS_ERROR_MEMORY;
    }
    ss_arena_destroy(&arena);
    return status == SS_OK ? SS_OK : ss_no_memory(error);
}

static ss_status take(void *context, int index, const ss_text *result, ss_error *error) {
    ss_sweep *const sweep = ((closed *)context)->sweep;
    if (!ss_trial_unpack(&sweep->trials, result, &sweep->arena, &sweep->points[index])) {
        return ss_no_memory(error);
    }
    sweep->done = index + 1;
    return SS_OK;
}

static bool stops(void *context) {
    const ss_trial_options *const options = &((closed *)context)->sweep->trials.options;
    return options->stop != NULL && options->stop(options->context);
}

ss_status ss_sweep_closed(const ss_sweep_plan *plan, ss_sweep *sweep, ss_error *error) {
    closed c = {.sweep = sweep};
    ss_diag_list diags = {0};
    ss_status status = SS_OK;
    if (plan->bridge->slab.given) {
        return ss_error_set(error, SS_ERROR_LIMIT,
                            "stages of a slab depend on the joints: a joint from none to rigid is not gone "
                            "through beside one; name a range with --vary PATH=LOW..HIGH, or put the slab "
                            "aside with --set slab.in_use=false");
    }
    SS_TRY(stand_at_reference(plan, &c, &diags, error));
    SS_TRY(find_modes(plan, &c, error));
    SS_TRY(find_without(&c, error));
    const ss_work work = {
        .count = sweep->count, .item = compute, .taken = take, .stop = stops, .context = &c};
    SS_TRY(ss_work_run(sweep->trials.options.workers, &work, error));
    sweep->closed = true;
done:
    ss_watch_sweep_destroy(c.modes);
    ss_variant_destroy(&c.variant);
    ss_variant_destroy(&c.without);
    ss_free(c.without_values);
    ss_free(c.swept);
    ss_description_destroy(&c.description);
    ss_diag_destroy(&diags);
    return status;
}
