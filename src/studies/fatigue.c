/* fatigue.c - stress ranges of described details under single passages of the fatigue truck. */
#include "sillspan/fatigue.h"

#include <math.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/composite.h"
#include "sillspan/memory.h"

/* What the study shares. */
typedef struct study {
    ss_variant variant; /* the bridge with each line and direction as a run of its own */
    ss_effect *effects; /* of each detail */
    ss_envelope envelope;
    ss_fatigue_results made;
    ss_error *error;
} study;

/* ---- one run a passage ------------------------------------------------------------------------------ */

/* Details are probes, so that they have stations; nothing else is placed on the bridge. */
static ss_status ask_details(study *s) {
    ss_bridge *const bridge = &s->variant.bridge;
    const int count = bridge->fatigue.spot_count;
    ss_probe *const probes = ss_arena_alloc(&bridge->arena, (size_t)count, sizeof *probes);
    if (probes == NULL) {
        return ss_no_memory(s->error);
    }
    for (int i = 0; i < count; i++) {
        probes[i] = bridge->fatigue.spots[i].at;
    }
    bridge->probes = probes;
    bridge->probe_count = count;
    bridge->placed_count = bridge->case_count = 0;
    return SS_OK;
}

/* The lines along which a truck that roams has extremes, each direction of each as a run. */
static ss_status make_runs(study *s) {
    ss_bridge *const bridge = &s->variant.bridge;
    ss_crossing alone = {
        .kind = SS_CROSSING_ALONE, .vehicle = bridge->fatigue.vehicle, .beside = -1, .lanes = 1};
    ss_placements roaming = {0};
    ss_status status = SS_OK;
    bridge->crossings = &alone;
    bridge->crossing_count = 1;
    bridge->run_count = 0;
    SS_TRY(ss_placements_build(&s->variant.mesh, &roaming, s->error));
    bridge->runs = ss_arena_alloc(&bridge->arena, (size_t)roaming.track_count + 1, sizeof *bridge->runs);
    SS_TRY(bridge->runs == NULL ? ss_no_memory(s->error) : SS_OK);
    for (int i = 0; i < roaming.track_count; i++) {
        const ss_track *const track = &roaming.tracks[i];
        bridge->runs[bridge->run_count++] = (ss_run){.name = "passage",
                                                     .vehicle = alone.vehicle,
                                                     .y = track->y,
                                                     .forward = !track->backward,
                                                     .backward = track->backward};
    }
done:
    ss_placements_destroy(&roaming);
    bridge->crossings = NULL;
    bridge->crossing_count = 0;
    bridge->rated_vehicle_count = 0;
    return status;
}

static ss_status roll(study *s) {
    const ss_bridge *const bridge = &s->variant.bridge;
    const ss_envelope_options options = {
        .factors = {1.0, 1.0}, .live_factor = 1.0 + SS_FATIGUE_ALLOWANCE, .extent = SS_EXTENT_AXLES};
    const int count = bridge->fatigue.spot_count;
    ss_status status = SS_OK;
    SS_TRY(ss_variant_loads(&s->variant, s->error));
    s->effects = ss_alloc((size_t)count, sizeof *s->effects);
    SS_TRY(s->effects == NULL ? ss_no_memory(s->error) : SS_OK);
    for (int i = 0; i < count; i++) {
        const ss_probe *const at = &bridge->fatigue.spots[i].at;
        SS_TRY(ss_mesh_effect(&s->variant.mesh, at->member, at->index, at->at, at->before, at->effect,
                              &s->effects[i], s->error));
    }
    SS_TRY(ss_envelope_compute(&s->variant.permanent, &s->variant.placements, s->effects, count, &options,
                               &s->envelope, s->error));
done:
    return status;
}

/* ---- one detail ------------------------------------------------------------------------------------- */

/* Stress of a face of steel under a unit of sagging moment (1/m3), tension positive, with what of a slab acts
 * in a stage; NaN when it is not known. */
static ss_status face_stress(const ss_bridge *bridge, const ss_fatigue_spot *spot, ss_slab_stage stage,
                             double *out) {
    const ss_probe *const at = &spot->at;
    ss_section_properties section = {0};
    ss_slab_flange flange;
    ss_composite_properties whole;
    ss_status status = SS_OK;
    const bool line = at->member == SS_MEMBER_LINE;
    if (line) {
        SS_TRY(ss_bridge_line_section(bridge, at->index, at->at, at->before, &section));
    } else {
        SS_TRY(ss_bridge_beam_section(bridge, at->index, at->at, at->before, &section));
    }
    if (line && ss_slab_flange_at(bridge, at->index, at->at, at->before, stage, &flange)) {
        SS_TRY(ss_composite_at(&section, &flange, false, &whole, NULL));
        *out = (whole.z - (spot->top ? section.depth : 0.0)) / whole.I;
        return SS_OK;
    }
    const double modulus = spot->top ? -section.S_top : section.S_bottom;
    *out = modulus != 0.0 ? 1.0 / modulus : SS_NAN;
done:
    return status;
}

/* What an effect is divided by to give a stress, with the sign of it under sagging. */
static ss_status find_divisor(const ss_bridge *bridge, const ss_fatigue_spot *spot, double *out) {
    double unit = 0.0;
    if (spot->at.member == SS_MEMBER_JOINT) {
        *out = isnan(spot->weld_length) ? spot->throat : spot->throat * spot->weld_length;
        return SS_OK;
    }
    const ss_status status = face_stress(bridge, spot, ss_slab_finished(&bridge->slab), &unit);
    *out = unit != 0.0 ? 1.0 / unit : SS_INFINITY; /* the face is the axis */
    return status;
}

/* Of the dead load as it came, each part on the section of its time. */
static ss_status find_dead_stress(const study *s, int spot, double divisor, double *out) {
    const ss_bridge *const bridge = &s->variant.bridge;
    const ss_permanent *const permanent = &s->variant.permanent;
    ss_status status = SS_OK;
    *out = s->envelope.dead[spot] / divisor;
    if (permanent->stage_count == 0 || bridge->fatigue.spots[spot].at.member != SS_MEMBER_LINE) {
        return SS_OK;
    }
    *out = 0.0;
    for (int i = 0; i < permanent->stage_count; i++) {
        double unit = 0.0;
        SS_TRY(face_stress(bridge, &bridge->fatigue.spots[spot], permanent->stages[i].slab, &unit));
        *out += unit * ss_permanent_added(permanent, i, &s->effects[spot]);
    }
done:
    return status;
}

/* The passage with the largest range; the first of those that tie by more than rounding. */
static void find_passage(const study *s, int spot, bool sagging_pulls, ss_fatigue_result *out) {
    const ss_placements *const placements = &s->variant.placements;
    const ss_envelope *const e = &s->envelope;
    const double factor = 1.0 + SS_FATIGUE_ALLOWANCE;
    double tension = 0.0;
    out->y = out->x[0] = out->x[1] = SS_NAN;
    for (int t = 0; t < e->traffic_count; t++) {
        const ss_extreme *const pair =
            &e->extremes[((size_t)spot * (size_t)e->traffic_count + (size_t)t) * 2];
        const double least = factor * ss_min(pair[0].value, 0.0);
        const double most = factor * ss_max(pair[1].value, 0.0);
        tension = ss_max(tension, sagging_pulls ? most : -least);
        if (!(most - least > (out->live[1] - out->live[0]) * (1.0 + 1e-9))) {
            continue;
        }
        out->live[0] = least;
        out->live[1] = most;
        out->x[0] = least < 0.0 ? pair[0].position.x : SS_NAN;
        out->x[1] = most > 0.0 ? pair[1].position.x : SS_NAN;
        const ss_run *const run = &s->variant.bridge.runs[placements->traffic[t].run];
        out->y = run->y;
        out->backward = run->backward;
    }
    out->tension = tension / out->divisor;
}

/* LRFD 6.6.1.2.1 (from memory): where the unfactored dead load compresses a place more than Fatigue I can
 * pull on it, nothing is checked. The shear of a weld has no such side. */
static bool stays_compressed(const ss_bridge *bridge, const ss_fatigue_result *r) {
    const double factor = ss_fatigue_load_factor(bridge->fatigue.edition, true);
    return bridge->fatigue.spots[r->spot].at.member != SS_MEMBER_JOINT && r->dead_stress < 0.0 &&
           factor * r->tension < -r->dead_stress;
}

static void judge(const ss_bridge *bridge, ss_fatigue_result *r) {
    const ss_fatigue_settings *const asked = &bridge->fatigue;
    const double per_truck = ss_fatigue_cycles_per_truck(r->member, r->length);
    r->detail = (ss_fatigue_detail){.category = asked->spots[r->spot].category,
                                    .range = (r->live[1] - r->live[0]) / r->divisor,
                                    /* Where no span is known, as many as the book has. */
                                    .cycles_per_truck = isnan(per_truck) ? 5.0 : per_truck,
                                    .adtt = asked->adtt,
                                    .years = asked->years,
                                    .growth = asked->growth,
                                    .used = asked->used,
                                    .edition = asked->edition,
                                    .level = asked->level};
    r->life = ss_fatigue_life_of(&r->detail, NULL);
    r->compressed = stays_compressed(bridge, r);
    if (r->compressed && r->life.why == NULL) {
        r->life.infinite = true;
        r->life.total = r->life.remaining = SS_INFINITY;
        r->life.verdict = "stays in compression: not checked";
    }
}

static ss_status judge_all(study *s) {
    const ss_bridge *const bridge = &s->variant.bridge;
    const int count = bridge->fatigue.spot_count;
    ss_fatigue_results *const made = &s->made;
    ss_status status = SS_OK;
    made->items = ss_arena_alloc(&made->arena, (size_t)count, sizeof *made->items);
    SS_TRY(made->items == NULL ? ss_no_memory(s->error) : SS_OK);
    for (int i = 0; i < count; i++) {
        const ss_fatigue_spot *const spot = &bridge->fatigue.spots[i];
        ss_fatigue_result *const r = &made->items[i];
        *r = (ss_fatigue_result){.spot = i, .dead = s->envelope.dead[i]};
        SS_TRY(find_divisor(bridge, spot, &r->divisor));
        SS_TRY(find_dead_stress(s, i, r->divisor, &r->dead_stress));
        const bool sagging_pulls = !(r->divisor < 0.0);
        r->divisor = fabs(r->divisor);
        find_passage(s, i, sagging_pulls, r);
        r->member = ss_fatigue_member_of(bridge, spot, &r->length);
        judge(bridge, r);
    }
    made->count = count;
done:
    return status;
}

/* ---- the study -------------------------------------------------------------------------------------- */

static ss_status compute(study *s) {
    ss_status status = SS_OK;
    SS_TRY(ask_details(s));
    SS_TRY(ss_variant_structure(&s->variant, s->error));
    SS_TRY(make_runs(s));
    s->made.passages = s->variant.bridge.run_count;
    if (s->made.passages == 0) {
        s->made.failure = "the roadway has no room for the fatigue truck";
        return SS_OK;
    }
    SS_TRY(roll(s));
    if (s->envelope.tips) {
        s->made.failure = "the fatigue truck tips the bridge, so that its passage has no range";
        return SS_OK;
    }
    SS_TRY(judge_all(s));
done:
    return status;
}

ss_status ss_fatigue_compute(const ss_description *description, const ss_bridge *bridge,
                             ss_fatigue_results *out, ss_error *error) {
    ss_diag_list diags = {0};
    study s = {.error = error};
    ss_status status = SS_OK;
    *out = (ss_fatigue_results){0};
    if (bridge->fatigue.spot_count == 0) {
        return SS_OK;
    }
    SS_TRY(ss_bridge_resolve(description, &s.variant.bridge, &diags));
    SS_TRY(compute(&s));
    *out = s.made;
    s.made = (ss_fatigue_results){0};
done:
    ss_diag_destroy(&diags);
    ss_fatigue_destroy(&s.made);
    ss_envelope_destroy(&s.envelope);
    ss_free(s.effects);
    ss_variant_destroy(&s.variant);
    return status;
}

void ss_fatigue_destroy(ss_fatigue_results *results) {
    if (results == NULL) {
        return;
    }
    ss_arena_destroy(&results->arena);
    *results = (ss_fatigue_results){0};
}
