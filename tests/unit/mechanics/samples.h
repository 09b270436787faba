/* samples.h - small bridges built by hand for the tests of mechanics. */
#ifndef SS_TEST_MECHANICS_SAMPLES_H
#define SS_TEST_MECHANICS_SAMPLES_H

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "sillspan/grillage.h"
#include "support/hand_bridge.h"
#include "support/suite.h"

typedef struct sample {
    ss_bridge bridge;
    hand_room room;
} sample;

static inline void sample_start(sample *s, double E, double G, double spacing) {
    hand_start(&s->bridge, &s->room, E, G, spacing);
}

/** A rectangle, which tapers. */
static inline int sample_rectangle(sample *s, double width, double depth) {
    ss_section *section = &s->bridge.sections[s->bridge.section_count];
    *section = (ss_section){
        .name = "rectangle", .shape = SS_SHAPE_PLATES, .depth = depth, .plate_count = 1, .E_over_G = 2.6};
    section->plates[0] = (ss_plate){"web", -0.5 * width, 0.5 * width, 0.0, depth, true};
    hand_unset(section);
    return s->bridge.section_count++;
}

/** The mesh of a bridge that can be meshed, with its joints and not refined. */
static inline void sample_mesh(const sample *s, ss_mesh *mesh) {
    ss_error error = {0};
    CHECK_OK(ss_mesh_build(&s->bridge, (ss_mesh_options){.joints = true, .refine = 1}, mesh, &error), &error);
}

/* ---- an analysis -------------------------------------------------------------------------------- */

typedef struct analysis {
    ss_mesh mesh;
    ss_grillage *grillage;
    ss_load load;
    double *u, *force;
} analysis;

static inline void analysis_end(analysis *a) {
    free(a->u);
    free(a->force);
    ss_load_destroy(&a->load);
    ss_grillage_destroy(a->grillage);
    ss_mesh_destroy(&a->mesh);
    memset(a, 0, sizeof *a);
}

/** Mesh, grillage and an empty load. */
static inline void analysis_start(analysis *a, const sample *s) {
    ss_error error = {0};
    memset(a, 0, sizeof *a);
    sample_mesh(s, &a->mesh);
    CHECK_OK(ss_grillage_create(&a->mesh, &a->grillage, &error), &error);
    CHECK_OK(ss_load_create(&a->mesh, &a->load, &error), &error);
    a->u = calloc((size_t)a->mesh.order, sizeof *a->u);
    a->force = calloc((size_t)a->mesh.spring_count + 1, sizeof *a->force);
}

/** Solves for the load, with offsets or NULL, and checks equilibrium. */
static inline void analysis_solve(analysis *a, const ss_update *update, const double *offset) {
    ss_error error = {0};
    CHECK_OK(ss_grillage_respond(a->grillage, update, a->load.nodal, offset, a->u, a->force, &error), &error);
    check_near("equilibrium", ss_grillage_equilibrium(a->grillage, &a->load, a->force), 0.0, 1e-12, 1.0);
}

static inline double effect_at(const analysis *a, ss_member_kind member, int index, double at, bool before,
                               ss_effect_kind kind) {
    ss_error error = {0};
    ss_effect effect;
    CHECK_OK(ss_mesh_effect(&a->mesh, member, index, at, before, kind, &effect, &error), &error);
    return ss_mesh_effect_value(&a->mesh, &effect, a->u, &a->load);
}

static inline double line_effect(const analysis *a, int line, double x, bool before, ss_effect_kind kind) {
    return effect_at(a, SS_MEMBER_LINE, line, x, before, kind);
}

/** Sum of the vertical springs of a bearing. */
static inline double reaction(const analysis *a, int bearing) {
    double sum = 0.0;
    for (int i = 0; i < a->mesh.spring_count; i++) {
        const ss_spring *s = &a->mesh.spring[i];
        if (s->owner == SS_MEMBER_BEARING && s->index == bearing && s->kind == SS_SPRING_VERTICAL) {
            sum += a->force[i];
        }
    }
    return sum;
}

#endif
