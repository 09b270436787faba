/* slab_across.c - the slab between its lines under every wheel of the rated vehicles. */
#include "sillspan/slab_across.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/state.h"
#include "sillspan/slab_connectors.h"
#include "studies/slab_across_parts.h"

#define INCH 0.0254

/* Width of a wheel's area across (LRFD 3.6.1.2.5, from memory). */
#define TYRES (20.0 * INCH)

/* LRFD Tables 3.4.1-1, 3.4.1-2, 3.6.2.1-1 (from memory). */
static const ss_slab_factors lrfd = {.name = "AASHTO LRFD Strength I (from memory)",
                                     .dc = 1.25,
                                     .dw = 1.50,
                                     .live = 1.75,
                                     .allowance = 0.33,
                                     .shear = SS_PHI_SLAB_SHEAR};

/* Standard Specifications 3.22, 3.8.2 and 8.16.1.2.2 (from memory). */
static const ss_slab_factors standard = {
    .name = "load factor design of the AASHTO Standard Specifications (from memory)",
    .dc = 1.30,
    .dw = 1.30,
    .live = 1.30 * 5.0 / 3.0,
    .allowance = 0.30,
    .shear = 0.85};

/* ---- what there is --------------------------------------------------------------------------------------
 */

static ss_slab_factors factors_of(const ss_bridge *bridge) {
    const bool new = ss_method_asked(bridge, SS_METHOD_LRFR);
    ss_slab_factors out = new ? lrfd : standard;
    for (int i = 0; i < 2; i++) {
        out.presence[i] = ss_method_presence(new ? SS_METHOD_LRFR : SS_METHOD_LFR, i + 1);
    }
    return out;
}

ss_slab_section ss_slab_across_section(const ss_bridge *bridge) {
    return ss_slab_section_of(&bridge->slab, false, bridge->steels[bridge->lines[0].steel].E);
}

/* Its own weight, and what comes on it later over the roadway. */
static void find_dead(const ss_bridge *bridge, ss_slab_across *out) {
    out->dc = bridge->slab.density * bridge->slab.thickness;
    for (int i = 0; i < bridge->dead_load_count; i++) {
        const ss_dead_load *const load = &bridge->dead_loads[i];
        if (load->area && load->when == SS_DEAD_LATER && load->w > 0.0) {
            *(load->component == SS_COMPONENT_DW ? &out->dw : &out->dc) += load->w;
        }
    }
}

/* Later loads along a line beyond the one that an overhang hangs on: barriers and rails. */
static void edge_loads(const ss_bridge *bridge, const ss_slab_strip *strip, const double factor[2],
                       double *moment, double *shear) {
    const int line = strip->from >= 0 ? strip->from : strip->to;
    const bool edge = strip->kind == SS_SLAB_SPAN_OVERHANG && (strip->from == -1 || strip->to == -1);
    for (int i = 0; i < bridge->dead_load_count && edge; i++) {
        const ss_dead_load *const load = &bridge->dead_loads[i];
        const double beyond = (load->y0 - bridge->lines[line].y) * (strip->from >= 0 ? 1.0 : -1.0);
        if (!load->area && load->when == SS_DEAD_LATER && beyond > 0.0) {
            const double w = load->w * factor[load->component == SS_COMPONENT_DW ? 1 : 0];
            *moment += w * beyond;
            *shear += w;
        }
    }
}

/* ---- wheels ---------------------------------------------------------------------------------------------
 */

static double nearer(double a, double b) {
    return !(a > 0.0) ? b : !(b > 0.0) ? a : ss_min(a, b);
}

ss_slab_span ss_slab_across_span(const ss_bridge *bridge, const ss_slab_strip *strip,
                                 const ss_vehicle *loading, int axle, bool abreast) {
    const ss_vehicle *const v = loading;
    const double gauge = ss_vehicle_gauge(v, axle);
    const double beside = gauge > 0.0 ? gauge : 0.0;
    return (ss_slab_span){.kind = strip->kind,
                          .span = strip->span,
                          .reach = strip->reach,
                          .wheel = v->axle_N[axle] * (gauge > 0.0 ? 0.5 : 1.0),
                          .patch = TYRES + bridge->slab.thickness,
                          .next_wheel = abreast ? nearer(beside, bridge->lanes.between_wheels) : beside,
                          .axle_spacing = nearer(axle > 0 ? v->spacing_m[axle - 1] : 0.0,
                                                 axle + 1 < v->axle_count ? v->spacing_m[axle] : 0.0)};
}

/* What a metre carries, beside what a wheel and the dead load ask of it. */
static double use_of(double demand, double strength) {
    return demand <= 0.0 ? 0.0 : strength > 0.0 ? demand / strength : SS_INFINITY;
}

/* Takes a wheel of `live` effects; whether it governs now. */
static bool take(const ss_slab_across *all, ss_slab_strip *strip, const double live[3]) {
    static const char *const names[] = {"sagging", "hogging"};
    const double dead[2] = {strip->sagging_dead, strip->hogging_dead};
    const double strength[2] = {all->sagging, all->hogging};
    double *const most[2] = {&strip->sagging, &strip->hogging};
    bool governs = false;
    strip->shear = ss_max(strip->shear, strip->shear_dead + live[2]);
    for (int i = 0; i < 2; i++) {
        *most[i] = ss_max(*most[i], dead[i] + live[i]);
        const double use = use_of(dead[i] + live[i], strength[i]);
        if (strip->governs == NULL || use > strip->use * (1.0 + 1e-9)) {
            strip->use = use;
            strip->governs = names[i];
            governs = true;
        }
    }
    return governs;
}

static void add_dead(const ss_bridge *bridge, const ss_slab_across *all, ss_slab_strip *strip) {
    const ss_slab_span still = {.kind = strip->kind,
                                .span = strip->span,
                                .reach = ss_min(strip->reach, strip->span),
                                .patch = TYRES,
                                .dead = 1.0};
    const ss_slab_demand one = ss_slab_strip_demand(&still, NULL);
    const ss_slab_factors *const f = &all->factors;
    const double factored[2] = {f->dc, f->dw};
    const double plain[2] = {1.0, 1.0};
    double shear = 0.0;
    if (one.why != NULL) {
        strip->why = one.why;
        return;
    }
    const double w = f->dc * all->dc + f->dw * all->dw;
    strip->sagging_dead = w * one.sagging_dead;
    strip->hogging_dead = w * one.hogging_dead;
    strip->shear_dead = w * one.shear_dead;
    strip->service_sagging = (all->dc + all->dw) * one.sagging_dead;
    strip->service_hogging = (all->dc + all->dw) * one.hogging_dead;
    edge_loads(bridge, strip, factored, &strip->hogging_dead, &strip->shear_dead);
    edge_loads(bridge, strip, plain, &strip->service_hogging, &shear);
    const double none[3] = {0.0, 0.0, 0.0};
    (void)take(all, strip, none);
}

/* One wheel, of one truck or with the next of a truck beside it. */
static void add_wheel(const ss_bridge *bridge, const ss_slab_across *all, ss_slab_strip *strip,
                      const ss_vehicle *loading, int axle, bool abreast) {
    const ss_slab_span span = ss_slab_across_span(bridge, strip, loading, axle, abreast);
    const ss_slab_demand d = ss_slab_strip_demand(&span, NULL);
    if (d.why != NULL) {
        strip->why = d.why;
        return;
    }
    const double moving = (1.0 + all->factors.allowance) * all->factors.presence[abreast ? 1 : 0];
    const double factor = all->factors.live * moving;
    const double live[3] = {factor * d.sagging_live, factor * d.hogging_live, factor * d.shear_live};
    if (take(all, strip, live)) {
        strip->loading = loading;
        strip->axle = axle;
        strip->wheel = span.wheel;
        strip->strip = strcmp(strip->governs, "sagging") == 0 ? d.sagging_strip : d.hogging_strip;
        strip->abreast = abreast;
    }
    strip->live_sagging = ss_max(strip->live_sagging, moving * d.sagging_live);
    strip->live_hogging = ss_max(strip->live_hogging, moving * d.hogging_live);
}

static void load_strip(const ss_bridge *bridge, const ss_slab_across *all, ss_slab_strip *strip) {
    add_dead(bridge, all, strip);
    for (int v = 0; v < bridge->rated_vehicle_count; v++) {
        /* Loads of a lane that are for some effects only stand for trucks, not for wheels. */
        for (const ss_vehicle *one = &bridge->vehicles[v]; one != NULL; one = one->also) {
            for (int a = 0; one->use == SS_USE_ALL && a < one->axle_count; a++) {
                for (int l = 0; l < 2 && l < bridge->lanes.count && strip->why == NULL; l++) {
                    add_wheel(bridge, all, strip, one, a, l == 1);
                }
            }
        }
    }
    strip->service_sagging += strip->live_sagging;
    strip->service_hogging += strip->live_hogging;
}

/* ---- once for the slab ----------------------------------------------------------------------------------
 */

static void find_punching(const ss_bridge *bridge, ss_slab_across *all) {
    const ss_slab *const slab = &bridge->slab;
    all->wheel_vehicle = -1;
    for (int v = 0; v < bridge->rated_vehicle_count; v++) {
        for (const ss_vehicle *one = &bridge->vehicles[v]; one != NULL; one = one->also) {
            for (int a = 0; one->use == SS_USE_ALL && a < one->axle_count; a++) {
                const double wheel = one->axle_N[a] * (ss_vehicle_gauge(one, a) > 0.0 ? 0.5 : 1.0);
                if (wheel > all->wheel * (1.0 + 1e-9)) {
                    all->wheel = wheel;
                    all->wheel_vehicle = v;
                }
            }
        }
    }
    all->wheel_factored =
        all->wheel * all->factors.live * (1.0 + all->factors.allowance) * all->factors.presence[0];
    const bool bars = slab->bottom_across.spacing > 0.0 && slab->bottom_along.spacing > 0.0;
    /* Without bars below, plain concrete: its whole thickness. */
    const double depth =
        bars ? 0.5 * (slab->bottom_across.depth + slab->bottom_along.depth) : slab->thickness;
    const ss_resistance found =
        ss_slab_punching(ss_wheel_patch_of(SS_PATCH_LRFD, all->wheel), depth, slab->fc, NULL);
    all->punching = all->factors.shear * found.value;
    all->punching_why = all->wheel_vehicle < 0 ? "there is no rated vehicle" : found.why;
}

static void find_worst(ss_slab_across *all) {
    all->worst = -1;
    for (int i = 0; i < all->count; i++) {
        const ss_slab_strip *const s = &all->strips[i];
        if (s->why == NULL && (all->worst < 0 || s->use > all->strips[all->worst].use * (1.0 + 1e-9))) {
            all->worst = i;
        }
    }
}

/* ---- all ------------------------------------------------------------------------------------------------
 */

const char *ss_slab_across_where(const ss_bridge *bridge, const ss_slab_strip *strip, ss_arena *arena) {
    const char *const from = strip->from >= 0 ? ss_slab_line_name(bridge, strip->from, arena) : "";
    const char *const to = strip->to >= 0 ? ss_slab_line_name(bridge, strip->to, arena) : "";
    if (from == NULL || to == NULL) {
        return NULL;
    }
    const bool gap = strip->from == -2 || strip->to == -2;
    if (strip->from < 0 || strip->to < 0) {
        return ss_arena_printf(arena, "from %s to %s", strip->from >= 0 ? from : to,
                               gap ? "the gap" : "the edge of the slab");
    }
    if (bridge->lines[strip->from].car != bridge->lines[strip->to].car) {
        return ss_arena_printf(arena, "over the gap, %s to %s", from, to);
    }
    return ss_arena_printf(arena, "between %s and %s", bridge->lines[strip->from].name, to);
}

void ss_slab_across_work(const ss_bridge *bridge, const ss_slab_across *all, const ss_slab_strip *strip,
                         ss_working *working) {
    const ss_slab_section section = ss_slab_across_section(bridge);
    const bool sagging = strip->governs != NULL && strcmp(strip->governs, "sagging") == 0;
    ss_slab_span span = {.kind = strip->kind, .span = strip->span, .reach = strip->reach, .patch = TYRES};
    if (strip->loading != NULL) {
        span = ss_slab_across_span(bridge, strip, strip->loading, strip->axle, strip->abreast);
    }
    span.dead = all->dc + all->dw;
    (void)ss_slab_strip_demand(&span, working);
    (void)ss_slab_moment_of(&section, sagging, working);
}

static ss_status compute(const ss_permanent *permanent, const ss_ratings *ratings, ss_arena *arena,
                         ss_slab_checks *checks, ss_slab_across *all, ss_error *error) {
    const ss_mesh *const mesh = ss_grillage_mesh(permanent->grillage);
    const ss_bridge *const bridge = mesh->bridge;
    const ss_slab_section section = ss_slab_across_section(bridge);
    const ss_slab_moment sags = ss_slab_moment_of(&section, true, NULL);
    const ss_slab_moment hogs = ss_slab_moment_of(&section, false, NULL);
    all->factors = factors_of(bridge);
    all->sagging = sags.phi * sags.nominal.value;
    all->hogging = hogs.phi * hogs.nominal.value;
    all->shear = all->factors.shear * ss_min(ss_slab_shear(&section, true, NULL).value,
                                             ss_slab_shear(&section, false, NULL).value);
    all->exposure = 1.0;
    ss_status status = SS_OK;
    SS_TRY(ss_slab_across_spans(mesh, arena, all) ? SS_OK : ss_no_memory(error));
    find_dead(bridge, all);
    for (int i = 0; i < all->count; i++) load_strip(bridge, all, &all->strips[i]);
    find_punching(bridge, all);
    SS_TRY(ss_slab_across_global(permanent, ratings, all, error));
    find_worst(all);
    SS_TRY(ss_slab_across_check(bridge, all, checks) ? SS_OK : ss_no_memory(error));
done:
    return status;
}

ss_status ss_slab_across_compute(const ss_permanent *permanent, const ss_ratings *ratings, ss_arena *arena,
                                 ss_slab_checks *checks, ss_slab_across *out, ss_error *error) {
    const ss_mesh *const mesh = ss_grillage_mesh(permanent->grillage);
    ss_slab_across made = {.worst = -1, .wheel_vehicle = -1};
    ss_status status = SS_OK;
    if (mesh->bridge->slab.given && mesh->bridge->slab.thickness > 0.0) {
        status = compute(permanent, ratings, arena, checks, &made, error);
    }
    if (status == SS_OK) {
        *out = made;
    }
    return status;
}
