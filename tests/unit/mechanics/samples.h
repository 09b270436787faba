/* samples.h - small bridges built by hand for the tests of mechanics. */
#ifndef SS_TEST_MECHANICS_SAMPLES_H
#define SS_TEST_MECHANICS_SAMPLES_H

#include <CUnit/Basic.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sillspan/grillage.h"

#define ENTRIES(table) ((int)(sizeof(table) / sizeof((table)[0])))

typedef struct test_case {
    const char *name;
    void (*run)(void);
} test_case;

static inline int run_cases(const char *name, const test_case *cases, int count) {
    if (CU_initialize_registry() != CUE_SUCCESS) {
        return 2;
    }
    CU_pSuite suite = CU_add_suite(name, NULL, NULL);
    bool ready = suite != NULL;
    for (int i = 0; ready && i < count; i++) {
        ready = CU_add_test(suite, cases[i].name, cases[i].run) != NULL;
    }
    if (ready) {
        CU_basic_set_mode(CU_BRM_NORMAL);
        CU_basic_run_tests();
    }
    const bool good = ready && CU_get_number_of_failures() == 0;
    CU_cleanup_registry();
    return good ? 0 : 1;
}

/** Asserts |obtained - expected| <= tolerance * scale and prints both on failure. */
static inline void check_near(const char *what, double obtained, double expected, double tolerance,
                              double scale) {
    const bool good = fabs(obtained - expected) <= tolerance * fabs(scale);
    if (!good) {
        printf("\n  %s: %.17g, expected %.17g (error %.2e of the scale)", what, obtained, expected,
               fabs(obtained - expected) / fabs(scale));
    }
    CU_ASSERT_TRUE(good);
}

static inline void check_relative(const char *what, double obtained, double expected, double tolerance) {
    check_near(what, obtained, expected, tolerance, expected);
}

static inline void check_ok(const char *what, ss_status status, const ss_error *error) {
    if (status != SS_OK) {
        printf("\n  %s: %s", what, error->message);
    }
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
}

/** Numbers in -1 to 1 that look random and are the same in each run (xorshift64*, Vigna 2016). */
static inline double next_random(uint64_t *state) {
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    return (double)(int64_t)(*state * UINT64_C(2685821657736338717)) / 9223372036854775808.0;
}

/* ---- a bridge in the making --------------------------------------------------------------------- */

enum { SAMPLE_MOST = 192 };

typedef struct sample {
    ss_bridge bridge;
    ss_steel steels[4];
    ss_section sections[8];
    ss_car cars[4];
    ss_line lines[SAMPLE_MOST];
    ss_line_piece pieces[SAMPLE_MOST];
    ss_floor_beam beams[SAMPLE_MOST];
    ss_beam_part parts[SAMPLE_MOST];
    int hinges[SAMPLE_MOST];
    ss_joint joints[4];
    double connectors[SAMPLE_MOST];
    ss_bearing bearings[SAMPLE_MOST];
    ss_probe probes[SAMPLE_MOST];
} sample;

/** Stations everywhere `spacing` apart or closer; one steel. */
static inline void sample_start(sample *s, double E, double G, double spacing) {
    memset(s, 0, sizeof *s);
    ss_bridge *b = &s->bridge;
    b->steels = s->steels;
    b->sections = s->sections;
    b->cars = s->cars;
    b->lines = s->lines;
    b->pieces = s->pieces;
    b->floor_beams = s->beams;
    b->parts = s->parts;
    b->hinges = s->hinges;
    b->joints = s->joints;
    b->connectors = s->connectors;
    b->bearings = s->bearings;
    b->probes = s->probes;
    b->station_spacing = spacing;
    b->deck.name = "planks";
    s->steels[b->steel_count++] = (ss_steel){.name = "steel", .E = E, .G = G, .density = 77000.0};
    b->x0 = (double)INFINITY;
    b->x1 = -(double)INFINITY;
}

/** A section of given properties; shear_area 0: no shear deformation. */
static inline int sample_section(sample *s, double I, double J, double shear_area, double weight) {
    s->sections[s->bridge.section_count] = (ss_section){.name = "given",
                                                        .shape = SS_SHAPE_GIVEN,
                                                        .depth = 0.5,
                                                        .set_A = 0.01,
                                                        .set_I = I,
                                                        .set_J = J,
                                                        .set_shear_area = shear_area,
                                                        .set_S_top = (double)NAN,
                                                        .set_S_bottom = (double)NAN,
                                                        .set_Z = (double)NAN,
                                                        .set_weight = weight};
    return s->bridge.section_count++;
}

/** A rectangle, which tapers. */
static inline int sample_rectangle(sample *s, double width, double depth) {
    ss_section *section = &s->sections[s->bridge.section_count];
    *section = (ss_section){
        .name = "rectangle", .shape = SS_SHAPE_PLATES, .depth = depth, .plate_count = 1, .E_over_G = 2.6};
    section->plates[0] = (ss_plate){"web", -0.5 * width, 0.5 * width, 0.0, depth, true};
    section->set_A = section->set_I = section->set_J = section->set_shear_area = (double)NAN;
    section->set_S_top = section->set_S_bottom = section->set_Z = section->set_weight = (double)NAN;
    return s->bridge.section_count++;
}

static inline int sample_car(sample *s, const char *name, double x0, double x1, double y_left,
                             double y_right) {
    ss_bridge *b = &s->bridge;
    s->cars[b->car_count] = (ss_car){.name = name,
                                     .type = "flat",
                                     .x0 = x0,
                                     .x1 = x1,
                                     .y_left = y_left,
                                     .y_right = y_right,
                                     .wheel_truck = {(double)NAN, (double)NAN},
                                     .first_line = b->line_count,
                                     .first_beam = b->floor_beam_count,
                                     .weight_factor = 1.0};
    b->x0 = fmin(b->x0, x0);
    b->x1 = fmax(b->x1, x1);
    return b->car_count++;
}

/** A level line of the last car from its end to its end. */
static inline int sample_line(sample *s, const char *name, double y, int section) {
    ss_bridge *b = &s->bridge;
    ss_car *car = &s->cars[b->car_count - 1];
    s->pieces[b->piece_count] =
        (ss_line_piece){car->x0, car->x1, section, s->sections[section].depth, s->sections[section].depth};
    s->lines[b->line_count] = (ss_line){.name = name,
                                        .set = name,
                                        .car = b->car_count - 1,
                                        .y = y,
                                        .x0 = car->x0,
                                        .x1 = car->x1,
                                        .first_piece = b->piece_count++,
                                        .piece_count = 1};
    car->line_count++;
    return b->line_count++;
}

/** A floor beam of the last car. */
static inline int sample_beam(sample *s, double x, int section) {
    ss_bridge *b = &s->bridge;
    ss_car *car = &s->cars[b->car_count - 1];
    s->parts[b->part_count] = (ss_beam_part){car->y_left, car->y_right, section};
    s->beams[b->floor_beam_count] = (ss_floor_beam){.name = "bearer",
                                                    .set = "bearer",
                                                    .car = b->car_count - 1,
                                                    .x = x,
                                                    .first_part = b->part_count++,
                                                    .part_count = 1};
    car->beam_count++;
    return b->floor_beam_count++;
}

/** A rigid two-way point. */
static inline int sample_bearing(sample *s, int line, double x) {
    ss_bridge *b = &s->bridge;
    s->bearings[b->bearing_count] = (ss_bearing){
        .name = "support", .car = s->lines[line].car, .line = line, .x = x, .spring = (double)INFINITY};
    return b->bearing_count++;
}

/** A rigid two-way point that holds the twist as well, through a pad. */
static inline int sample_pad(sample *s, int line, double x, double width) {
    const int i = sample_bearing(s, line, x);
    s->bearings[i].pad_width = width;
    return i;
}

static inline int sample_joint(sample *s, ss_joint_kind kind, int left, double x0, double x1) {
    ss_bridge *b = &s->bridge;
    s->joints[b->joint_count] = (ss_joint){.name = "seam",
                                           .kind = kind,
                                           .left = left,
                                           .y = 0.5 * (s->cars[left].y_right + s->cars[left + 1].y_left),
                                           .x0 = x0,
                                           .x1 = x1,
                                           .shear = (double)INFINITY,
                                           .rotation = kind == SS_JOINT_RIGID ? (double)INFINITY : 0.0};
    return b->joint_count++;
}

/** A station wherever a test looks. */
static inline void sample_look(sample *s, int line, double x) {
    s->probes[s->bridge.probe_count++] =
        (ss_probe){.name = "look", .member = SS_MEMBER_LINE, .index = line, .at = x};
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
    check_ok("mesh",
             ss_mesh_build(&s->bridge, (ss_mesh_options){.joints = true, .refine = 1}, &a->mesh, &error),
             &error);
    check_ok("grillage", ss_grillage_create(&a->mesh, &a->grillage, &error), &error);
    check_ok("load", ss_load_create(&a->mesh, &a->load, &error), &error);
    a->u = calloc((size_t)a->mesh.order, sizeof *a->u);
    a->force = calloc((size_t)a->mesh.spring_count + 1, sizeof *a->force);
}

/** Solves for the load, with offsets or NULL, and checks equilibrium. */
static inline void analysis_solve(analysis *a, const ss_update *update, const double *offset) {
    ss_error error = {0};
    check_ok("respond",
             ss_grillage_respond(a->grillage, update, a->load.nodal, offset, a->u, a->force, &error), &error);
    check_near("equilibrium", ss_grillage_equilibrium(a->grillage, &a->load, a->force), 0.0, 1e-12, 1.0);
}

static inline double effect_at(const analysis *a, ss_member_kind member, int index, double at, bool before,
                               ss_effect_kind kind) {
    ss_error error = {0};
    ss_effect effect;
    check_ok("effect", ss_mesh_effect(&a->mesh, member, index, at, before, kind, &effect, &error), &error);
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
