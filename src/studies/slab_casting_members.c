/* slab_casting_members.c - what lines and floor beams carry while a slab is wet, against their strength. */
#include <math.h>
#include <string.h>

#include "assess/composite_member.h"
#include "base/numeric.h"
#include "base/try.h"
#include "sillspan/envelope.h"
#include "sillspan/memory.h"
#include "sillspan/web_shear.h"
#include "studies/slab_casting_people.h"

/* Least factor of condition that counts (MBE 6A.4.2.1, from memory). */
#define CONDITION_LEAST 0.85

#define SOURCE "AASHTO LRFD 3.4.2.1, 6.10.3 (from memory)"

/* One stage that is looked at. */
typedef struct wet_stage {
    ss_casting *c;
    ss_bridge bare; /* no deck holds a flange */
    ss_casting_people people;
    int stage;
    double phi[2]; /* bending, shear; with condition */
} wet_stage;

static double given_or_one(double value) {
    return value > 0.0 ? value : 1.0;
}

static bool is_web(const ss_effect *effect) {
    return effect->kind == SS_EFFECT_WEB_PLUS ||
           (effect->kind == SS_EFFECT_WEB_MINUS && effect->torsion_shear != 0.0);
}

static bool is_looked_at(const ss_bridge *bridge, const ss_effect *effect) {
    const bool line = effect->member == SS_MEMBER_LINE;
    const bool beam = effect->member == SS_MEMBER_BEAM && !(bridge->floor_beams[effect->index].strip > 0.0);
    return (line || beam) && (effect->kind == SS_EFFECT_MOMENT || is_web(effect));
}

/* ---- demand ------------------------------------------------------------------------------------------ */

static double factor_of(const ss_permanent_stage *stage) {
    return stage->component == SS_COMPONENT_DC ? SS_CASTING_DC : SS_CASTING_DW;
}

/* The effect as a stage has it: a web's share of the torque hangs on whether a slab twists with the line. */
static ss_status in_stage(const wet_stage *w, int stage, const ss_effect *of, ss_effect *out) {
    const ss_mesh *const mesh = ss_casting_mesh(w->c, stage);
    *out = *of;
    if (!is_web(of)) {
        return SS_OK;
    }
    const ss_status status =
        ss_mesh_effect(mesh, of->member, of->index, of->at, of->before, of->kind, out, w->c->error);
    if (status == SS_OK && of->moment_shear != 0.0) {
        (void)ss_mesh_effect_taper(mesh, out);
    }
    return status;
}

static ss_status dead_of(const wet_stage *w, const ss_effect *effect, double *out) {
    double sum = 0.0, before = 0.0;
    for (int i = 0; i <= w->stage; i++) {
        const ss_permanent_stage *const stage = &w->c->permanent->stages[i];
        ss_effect own;
        const ss_status status = in_stage(w, i, effect, &own);
        if (status != SS_OK) {
            return status;
        }
        const double after = ss_state_effect(stage->mesh, &stage->state, &own);
        sum += factor_of(stage) * (after - before);
        before = after;
    }
    *out = sum;
    return SS_OK;
}

/* ---- strength ---------------------------------------------------------------------------------------- */

/* Where an earlier pour acts with the line: first yield, with what the stages before have left. */
static ss_status composite_strength(const wet_stage *w, const ss_effect *effect, const ss_member_place *place,
                                    const ss_slab_flange *flange, ss_casting_member *out,
                                    ss_resistance *resistance) {
    ss_staged_moment dead[SS_STAGES_MOST];
    const ss_permanent *const p = w->c->permanent;
    const int count = w->stage < (int)SS_STAGES_MOST ? w->stage : (int)SS_STAGES_MOST;
    for (int i = 0; i < count; i++) {
        const ss_permanent_stage *const stage = &p->stages[i];
        dead[i] = (ss_staged_moment){.name = stage->name};
        dead[i].moment = factor_of(stage) * ss_permanent_added(p, i, effect);
        dead[i].composite = ss_slab_flange_at(w->c->bridge, effect->index, effect->at, effect->before,
                                              stage->slab, &dead[i].flange);
    }
    const ss_composite_case given = {.steel = ss_member_flexure(&w->bare, effect, place, out->sags),
                                     .flange = *flange,
                                     .sagging = out->sags,
                                     .dead = dead,
                                     .dead_count = count};
    return ss_composite_yield(&given, 1.0, resistance, NULL);
}

static ss_status bending_strength(const wet_stage *w, ss_casting_member *out, ss_resistance *resistance) {
    const ss_effect *const effect = &out->effect;
    const ss_slab_stage slab = w->c->permanent->stages[w->stage].slab;
    ss_member_place place;
    ss_slab_flange flange;
    ss_status status = ss_member_place_at(w->c->bridge, effect, &place);
    if (status != SS_OK) {
        return status;
    }
    out->composite =
        effect->member == SS_MEMBER_LINE &&
        ss_slab_flange_at(w->c->bridge, effect->index, effect->at, effect->before, slab, &flange);
    if (out->composite) {
        status = composite_strength(w, effect, &place, &flange, out, resistance);
    } else {
        const ss_flexure_case given = ss_member_flexure(&w->bare, effect, &place, out->sags);
        status = ss_member_strength(&given, SS_STRENGTH_LRFD, 1.0, resistance, NULL);
    }
    resistance->value *= 1.0 - place.section->strength_loss;
    return status;
}

static ss_status shear_strength(const wet_stage *w, const ss_effect *effect, ss_resistance *resistance) {
    ss_member_place place;
    ss_section_properties section;
    ss_status status = ss_member_place_at(w->c->bridge, effect, &place);
    if (status == SS_OK) {
        status = ss_section_at(place.section, place.depth, 0.0, &section, NULL);
    }
    if (status == SS_OK) {
        const ss_web_panel panel = {.spacing = effect->member == SS_MEMBER_LINE
                                                   ? w->c->bridge->lines[effect->index].stiffeners
                                                   : 0.0};
        *resistance = ss_web_shear_panel(&section, place.steel->fy, place.steel->E, &panel, NULL);
        resistance->value *= 1.0 - section.strength_loss;
    }
    return status;
}

/* ---- the worst of a set ------------------------------------------------------------------------------ */

static const char *set_of(const ss_bridge *bridge, const ss_effect *effect) {
    return effect->member == SS_MEMBER_LINE ? bridge->lines[effect->index].set
                                            : bridge->floor_beams[effect->index].set;
}

static double use_of(const ss_casting_member *m) {
    return m->capacity > 0.0 ? m->demand / m->capacity : m->demand > 0.0 ? SS_INFINITY : 0.0;
}

static ss_casting_member *slot_of(ss_casting *c, const ss_effect *effect) {
    const char *const name = set_of(c->bridge, effect);
    const bool bending = effect->kind == SS_EFFECT_MOMENT;
    ss_slab_casting *const out = c->out;
    for (int i = 0; i < out->member_count; i++) {
        ss_casting_member *const m = &out->members[i];
        if (m->effect.member == effect->member && (m->effect.kind == SS_EFFECT_MOMENT) == bending &&
            strcmp(m->name, name) == 0) {
            return m;
        }
    }
    ss_casting_member *const made = &out->members[out->member_count++];
    *made = (ss_casting_member){.name = name, .effect = *effect, .stage = -1};
    return made;
}

/* What could not be told does not push out what is known, unless nothing is. */
static void keep_worse(ss_casting_member *kept, const ss_casting_member *found) {
    const bool known = !isnan(found->capacity);
    const bool had = kept->stage >= 0 && !isnan(kept->capacity);
    if (kept->stage < 0 || (known && !had) || (known && use_of(found) > use_of(kept) * (1.0 + 1e-9))) {
        *kept = *found;
    }
}

static ss_status look_at(wet_stage *w, const ss_effect *effect) {
    const bool bending = effect->kind == SS_EFFECT_MOMENT;
    ss_casting_member *const kept = slot_of(w->c, effect);
    double dead = 0.0, people[2];
    ss_effect own;
    ss_status status = dead_of(w, effect, &dead);
    if (status == SS_OK) {
        status = in_stage(w, w->stage, effect, &own);
    }
    if (status != SS_OK) {
        return status;
    }
    ss_casting_people_effect(&w->people, &own, people);
    for (int most = 0; most < 2; most++) {
        const double more = SS_CASTING_CONSTRUCTION * people[most];
        const double value = most == 1 ? dead + more : -(dead + more);
        ss_resistance resistance = {.value = SS_NAN};
        ss_casting_member found = {.name = kept->name,
                                   .effect = own,
                                   .stage = w->stage,
                                   .sags = most == 1,
                                   .dead = dead,
                                   .people = more,
                                   .demand = value};
        if (!(value > 0.0)) {
            continue;
        }
        status = bending ? bending_strength(w, &found, &resistance) : shear_strength(w, effect, &resistance);
        if (status != SS_OK) {
            return ss_error_set(w->c->error, status, "the cars under the wet slab: %s",
                                ss_status_text(status));
        }
        found.capacity = w->phi[bending ? 0 : 1] * resistance.value;
        found.rule = resistance.rule;
        found.why = !isnan(found.capacity)   ? NULL
                    : resistance.why != NULL ? resistance.why
                                             : "its strength is not known";
        keep_worse(kept, &found);
    }
    return SS_OK;
}

/* ---- checks ------------------------------------------------------------------------------------------ */

static const char *where_of(const ss_casting *c, const ss_casting_member *m) {
    const ss_bridge *const bridge = c->bridge;
    const bool line = m->effect.member == SS_MEMBER_LINE;
    const char *const name =
        line ? bridge->lines[m->effect.index].name : bridge->floor_beams[m->effect.index].name;
    const int car = line ? bridge->lines[m->effect.index].car : bridge->floor_beams[m->effect.index].car;
    char x[64];
    return ss_arena_printf(c->arena, "%s of car %s at %s, %s", name, bridge->cars[car].name,
                           ss_units_format(x, sizeof x,
                                           line ? m->effect.at : bridge->floor_beams[m->effect.index].x,
                                           SS_DIM_LENGTH, bridge->units, 4),
                           c->permanent->stages[m->stage].name);
}

static ss_status add_check(ss_casting *c, const ss_casting_member *m) {
    const bool bending = m->effect.kind == SS_EFFECT_MOMENT;
    if (m->stage < 0) {
        return SS_OK; /* nothing bends or shears it */
    }
    const ss_requirement r = {.name = bending ? "bending while the slab is wet"
                                              : "web shear while the slab is wet",
                              .found = m->why == NULL ? m->demand : SS_NAN,
                              .allowed = m->why == NULL ? ss_max(m->capacity, 0.0) : SS_NAN,
                              .dimension = bending ? SS_DIM_MOMENT : SS_DIM_FORCE,
                              .source = SOURCE,
                              .why = m->why};
    const char *const where = where_of(c, m);
    return where != NULL && ss_slab_check_add(c->checks, SS_SLAB_PART_CASTING, where, &r)
               ? SS_OK
               : ss_casting_no_memory(c->error);
}

/* ---- all --------------------------------------------------------------------------------------------- */

static ss_status look_at_stage(ss_casting *c, int stage, const ss_effect *effects, int count) {
    const ss_rating_settings *const settings = &c->bridge->rating;
    const double condition = ss_max(CONDITION_LEAST, given_or_one(settings->condition));
    wet_stage w = {.c = c,
                   .bare = *c->bridge,
                   .stage = stage,
                   .phi = {condition * given_or_one(settings->phi_flexure),
                           condition * given_or_one(settings->phi_shear)}};
    ss_status status = SS_OK;
    w.bare.deck.holds_lines = false;
    SS_TRY(ss_casting_people_make(c, stage, &w.people));
    for (int i = 0; i < count; i++) {
        if (is_looked_at(c->bridge, &effects[i])) {
            SS_TRY(look_at(&w, &effects[i]));
        }
    }
done:
    ss_casting_people_destroy(&w.people);
    return status;
}

ss_status ss_casting_members(ss_casting *c) {
    const size_t most = 2 * (size_t)(c->bridge->line_count + c->bridge->floor_beam_count) + 1;
    ss_status status = SS_OK;
    ss_effect *effects = NULL;
    int count = 0;
    c->out->members = ss_arena_alloc(c->arena, most, sizeof *c->out->members);
    SS_TRY(c->out->members == NULL ? ss_casting_no_memory(c->error) : SS_OK);
    /* Of the finished bridge, which has all joints that a probe may ask of; elements are the same in all
     * stages. */
    SS_TRY(ss_envelope_effects(ss_grillage_mesh(c->permanent->grillage), &effects, &count, c->error));
    for (int i = 0; i < c->permanent->stage_count; i++) {
        if (ss_casting_wet(c, i)) {
            SS_TRY(look_at_stage(c, i, effects, count));
        }
    }
    for (int i = 0; i < c->out->member_count; i++) SS_TRY(add_check(c, &c->out->members[i]));
done:
    ss_free(effects);
    return status;
}
