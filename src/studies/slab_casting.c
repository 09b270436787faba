/* slab_casting.c - what the stages of casting a slab leave in girders and bearings. */
#include "sillspan/slab_casting.h"

#include <math.h>
#include <string.h>

#include "base/numeric.h"
#include "base/try.h"
#include "response/permanent_parts.h"
#include "sillspan/composite.h"
#include "studies/slab_casting_parts.h"

ss_status ss_casting_no_memory(ss_error *error) {
    return ss_error_set(error, SS_ERROR_MEMORY, "%s", ss_status_text(SS_ERROR_MEMORY));
}

double ss_casting_node_sag(const ss_casting *c, int stage, int node) {
    const ss_permanent_stage *const own = &c->permanent->stages[stage];
    return own->state.u[3 * node] - (stage > 0 ? own[-1].state.u[3 * node] : 0.0);
}

/* ---- stresses ---------------------------------------------------------------------------------------- */

/* Stress of 1 N m at the faces of the steel, on the section of a stage. */
typedef struct unit_stress {
    double bottom, top;
    bool composite;
} unit_stress;

static unit_stress stress_of(const ss_bridge *bridge, const ss_effect *effect, ss_slab_stage stage,
                             bool hogs) {
    ss_section_properties steel;
    ss_slab_flange flange;
    ss_composite_properties whole;
    unit_stress out = {SS_NAN, SS_NAN, false};
    if (ss_bridge_line_section(bridge, effect->index, effect->at, effect->before, &steel) != SS_OK) {
        return out;
    }
    if (ss_slab_flange_at(bridge, effect->index, effect->at, effect->before, stage, &flange)) {
        out.composite = true;
        if (ss_composite_at(&steel, &flange, hogs, &whole, NULL) == SS_OK) {
            out.bottom = whole.z / whole.I;
            out.top = -(steel.depth - whole.z) / whole.I;
        }
        return out;
    }
    out.bottom = steel.S_bottom > 0.0 ? 1.0 / steel.S_bottom : SS_NAN;
    out.top = steel.S_top > 0.0 ? -1.0 / steel.S_top : SS_NAN;
    return out;
}

/* Moment in the end, of which the sense says whether the slab is cracked. */
static double moment_of(const ss_casting *c, const ss_effect *effect) {
    double sum = 0.0;
    for (int i = 0; i < c->permanent->stage_count; i++) sum += ss_permanent_added(c->permanent, i, effect);
    return sum;
}

/* The steps at a place into `steps` (may be NULL); the largest stress in the end, or the moment where no
 * modulus is known. */
static double walk(const ss_casting *c, const ss_effect *effect, ss_casting_step *steps) {
    const bool hogs = moment_of(c, effect) < 0.0;
    ss_casting_step sum = {0};
    for (int i = 0; i < c->permanent->stage_count; i++) {
        const double moment = ss_permanent_added(c->permanent, i, effect);
        const unit_stress unit = stress_of(c->bridge, effect, c->permanent->stages[i].slab, hogs);
        sum.moment_sum += moment;
        sum.bottom_sum += moment * unit.bottom;
        sum.top_sum += moment * unit.top;
        if (steps != NULL) {
            steps[i].stage = i;
            steps[i].composite = unit.composite;
            steps[i].moment = moment;
            steps[i].bottom = moment * unit.bottom;
            steps[i].top = moment * unit.top;
            steps[i].moment_sum = sum.moment_sum;
            steps[i].bottom_sum = sum.bottom_sum;
            steps[i].top_sum = sum.top_sum;
        }
    }
    /* fmax leaves out what is not known. */
    const double stress = fmax(fabs(sum.bottom_sum), fabs(sum.top_sum));
    return isnan(stress) ? fabs(sum.moment_sum) : stress;
}

/* ---- sets -------------------------------------------------------------------------------------------- */

static int find_set(const ss_slab_casting *out, const char *name) {
    for (int i = 0; i < out->set_count; i++) {
        if (strcmp(out->sets[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

static void name_sets(ss_casting *c) {
    for (int i = 0; i < c->bridge->line_count; i++) {
        const ss_line *const line = &c->bridge->lines[i];
        if (line->role != SS_ROLE_STRINGER && find_set(c->out, line->set) < 0) {
            c->out->sets[c->out->set_count++] =
                (ss_casting_set){.name = line->set, .line = -1, .sag_line = -1};
        }
    }
}

/* The most stressed place of every set; both sides of a station where the section changes. */
static ss_status place_sets(ss_casting *c, double *most) {
    const ss_mesh *const mesh = ss_casting_mesh(c, 0);
    for (int i = 0; i < c->out->set_count; i++) most[i] = -1.0;
    for (int n = 0; n < mesh->element_count; n++) {
        const ss_element *const e = &mesh->element[n];
        const int set = e->across ? -1 : find_set(c->out, c->bridge->lines[e->member].set);
        for (int end = 0; end < 2 && set >= 0; end++) {
            const double x = mesh->station[mesh->node_station[end == 0 ? e->a : e->b]];
            ss_effect effect;
            const ss_status status = ss_mesh_effect(mesh, SS_MEMBER_LINE, e->member, x, end == 1,
                                                    SS_EFFECT_MOMENT, &effect, c->error);
            if (status != SS_OK) {
                return status;
            }
            const double stress = walk(c, &effect, NULL);
            /* Rounding must not choose among places that are stressed alike. */
            if (stress > most[set] * (1.0 + 1e-9) + 1e-9) {
                most[set] = stress;
                c->out->sets[set].line = e->member;
                c->out->sets[set].x = x;
                c->out->sets[set].before = end == 1;
            }
        }
    }
    return SS_OK;
}

static ss_status step_set(ss_casting *c, int set) {
    ss_slab_casting *const out = c->out;
    const ss_casting_set *const s = &out->sets[set];
    const ss_mesh *const mesh = ss_casting_mesh(c, 0);
    ss_casting_step *const steps = &out->steps[out->step_count];
    ss_status status = SS_OK;
    ss_effect moment, sag;
    double sum = 0.0;
    if (s->line < 0) {
        return SS_OK;
    }
    SS_TRY(
        ss_mesh_effect(mesh, SS_MEMBER_LINE, s->line, s->x, s->before, SS_EFFECT_MOMENT, &moment, c->error));
    SS_TRY(
        ss_mesh_effect(mesh, SS_MEMBER_LINE, s->line, s->x, s->before, SS_EFFECT_DEFLECTION, &sag, c->error));
    (void)walk(c, &moment, steps);
    for (int i = 0; i < c->permanent->stage_count; i++) {
        steps[i].set = set;
        steps[i].sag = ss_permanent_added(c->permanent, i, &sag);
        sum += steps[i].sag;
        steps[i].sag_sum = sum;
    }
    out->step_count += c->permanent->stage_count;
done:
    return status;
}

static ss_status make_sets(ss_casting *c) {
    const size_t lines = (size_t)c->bridge->line_count;
    ss_slab_casting *const out = c->out;
    ss_status status = SS_OK;
    out->sets = ss_arena_alloc(c->arena, lines + 1, sizeof *out->sets);
    double *const most = ss_arena_alloc(c->arena, lines + 1, sizeof *most);
    SS_TRY(out->sets == NULL || most == NULL ? ss_casting_no_memory(c->error) : SS_OK);
    name_sets(c);
    out->steps = ss_arena_alloc(c->arena, (size_t)(out->set_count * c->permanent->stage_count) + 1,
                                sizeof *out->steps);
    SS_TRY(out->steps == NULL ? ss_casting_no_memory(c->error) : SS_OK);
    SS_TRY(place_sets(c, most));
    for (int i = 0; i < out->set_count; i++) SS_TRY(step_set(c, i));
done:
    return status;
}

/* ---- bearings ---------------------------------------------------------------------------------------- */

/* Opening of a bearing in a state; a pad is open when both of its sides are. */
static double opening_of(const ss_mesh *mesh, const ss_state *state, int spring) {
    const int second = mesh->spring[spring].pair;
    const double own = state->opening[spring];
    return second >= 0 ? ss_min(own, state->opening[second]) : own;
}

static ss_status add_bearing(ss_casting *c, int index) {
    const ss_permanent *const p = c->permanent;
    const ss_mesh *const mesh = ss_casting_mesh(c, 0);
    ss_casting_bearing *const b = &c->out->bearings[c->out->bearing_count];
    ss_effect e;
    ss_error none = {0};
    if (ss_mesh_effect(mesh, SS_MEMBER_BEARING, index, c->bridge->bearings[index].x, false,
                       SS_EFFECT_REACTION, &e, &none) != SS_OK) {
        return SS_OK; /* it holds no weight */
    }
    *b = (ss_casting_bearing){.bearing = index, .opens = -1};
    b->before = ss_state_effect(mesh, &p->today, &e);
    b->after = ss_state_effect(ss_grillage_mesh(p->grillage), &p->present, &e);
    b->opening = opening_of(mesh, &p->today, e.spring);
    b->open_today = b->opening > 0.0;
    bool open = b->open_today;
    for (int i = 0; i < p->stage_count; i++) {
        const double opening = opening_of(mesh, &p->stages[i].state, e.spring);
        b->opening = ss_max(b->opening, opening);
        b->opens = b->opens < 0 && opening > 0.0 && !open ? i : b->opens;
        open = opening > 0.0;
    }
    c->out->bearing_count++;
    return SS_OK;
}

/* Beside the largest reaction, less than this is rounding. */
static void clean_bearings(ss_slab_casting *out) {
    double most = 0.0;
    for (int i = 0; i < out->bearing_count; i++) {
        most = ss_max(most, ss_max(fabs(out->bearings[i].before), fabs(out->bearings[i].after)));
    }
    for (int i = 0; i < out->bearing_count; i++) {
        ss_casting_bearing *const b = &out->bearings[i];
        b->before = fabs(b->before) < 1e-8 * most ? 0.0 : b->before;
        b->after = fabs(b->after) < 1e-8 * most ? 0.0 : b->after;
    }
}

/* What the props carry; they are bearings after those of the bridge. */
static ss_status weigh_props(ss_casting *c) {
    const ss_permanent *const p = c->permanent;
    c->out->prop = -1;
    for (int i = 0; i < p->stage_count; i++) {
        for (int k = 0; p->stages[i].propped && k < c->bridge->slab.shore_count; k++) {
            ss_effect e;
            const ss_status status =
                ss_mesh_effect(p->stages[i].mesh, SS_MEMBER_BEARING, c->bridge->bearing_count + k,
                               c->bridge->slab.shores[k].x, false, SS_EFFECT_REACTION, &e, c->error);
            if (status != SS_OK) {
                return status;
            }
            const double force = ss_state_effect(p->stages[i].mesh, &p->stages[i].state, &e);
            if (force > c->out->prop_force * (1.0 + 1e-9) && force > 0.0) {
                c->out->prop_force = force;
                c->out->prop = k;
            }
        }
    }
    return SS_OK;
}

/* Weight of the dead loads that `which` names. */
static ss_status weigh(ss_casting *c, int which, double *out) {
    ss_load load = {0};
    ss_status status = SS_OK;
    SS_TRY(ss_load_create(ss_grillage_mesh(c->permanent->grillage), &load, c->error));
    for (int k = 0; k < 2; k++) {
        SS_TRY(ss_permanent_dead_loads(&load, c->bridge, k == 0 ? SS_COMPONENT_DC : SS_COMPONENT_DW, which,
                                       UINT32_MAX, c->error));
    }
    *out = load.total;
done:
    ss_load_destroy(&load);
    return status;
}

static ss_status make_bearings(ss_casting *c) {
    ss_slab_casting *const out = c->out;
    double later = 0.0;
    ss_status status = SS_OK;
    out->bearings = ss_arena_alloc(c->arena, (size_t)c->bridge->bearing_count + 1, sizeof *out->bearings);
    SS_TRY(out->bearings == NULL ? ss_casting_no_memory(c->error) : SS_OK);
    for (int i = 0; i < c->bridge->bearing_count; i++) SS_TRY(add_bearing(c, i));
    clean_bearings(out);
    SS_TRY(weigh_props(c));
    SS_TRY(weigh(c, 1 << SS_DEAD_REMOVED, &out->removed));
    SS_TRY(weigh(c, 1 << SS_DEAD_WET, &out->wet));
    SS_TRY(weigh(c, 1 << SS_DEAD_LATER, &later));
    out->added = out->wet + later;
done:
    return status;
}

/* ---- all --------------------------------------------------------------------------------------------- */

ss_status ss_slab_casting_compute(const ss_permanent *permanent, ss_arena *arena, ss_slab_checks *checks,
                                  ss_slab_casting *out, ss_error *error) {
    ss_slab_casting made = {.permanent = permanent};
    ss_casting c = {.permanent = permanent,
                    .bridge = ss_grillage_mesh(permanent->grillage)->bridge,
                    .arena = arena,
                    .checks = checks,
                    .out = &made,
                    .error = error};
    ss_status status = SS_OK;
    if (permanent->stage_count > 0) {
        SS_TRY(make_sets(&c));
        SS_TRY(make_bearings(&c));
        SS_TRY(ss_casting_members(&c));
        SS_TRY(ss_casting_sag(&c));
        SS_TRY(ss_casting_formwork(&c));
    }
    *out = made;
done:
    return status;
}
