/* test_mechanics_load.c - line, area and self-weight loads, effects within members, tapers. */
#include "samples.h"

static const double E = 2.05e11;
static const double G = 7.9e10;

/* One car of two girders and floor beams, with a deck either way. */
static void car(sample *s, bool along) {
    sample_start(s, E, G, 1.3);
    s->bridge.deck.along = along;
    const int girder = hand_section(&s->bridge, 3e-4, 1.4e-6, 5e-3, 840.0);
    const int cross = hand_section(&s->bridge, 1e-4, 1e-6, 3e-3, 310.0);
    hand_car(&s->bridge, "north", 0.0, 12.6, 0.0, 2.7);
    hand_line(&s->bridge, SS_ROLE_MAIN, "left", 0.3, girder);
    hand_line(&s->bridge, SS_ROLE_MAIN, "right", 2.3, girder);
    for (int i = 0; i < 4; i++) {
        hand_beam(&s->bridge, 4.2 * i, cross);
    }
    for (int l = 0; l < 2; l++) {
        hand_bearing(&s->bridge, l, 0.0);
        hand_bearing(&s->bridge, l, 12.6);
    }
}

static void check_same(const analysis *a, const ss_load *x, const ss_load *y, double tolerance,
                       double scale) {
    for (int i = 0; i < a->mesh.order; i++) {
        check_near("nodal", x->nodal[i], y->nodal[i], tolerance, scale);
    }
    for (int i = 0; i < 6 * a->mesh.element_count; i++) {
        check_near("clamped", x->clamped[i], y->clamped[i], tolerance, scale);
    }
    check_near("total", x->total, y->total, tolerance, scale);
    check_near("moment about x", x->moment_x, y->moment_x, tolerance, 10.0 * scale);
    check_near("moment about y", x->moment_y, y->moment_y, tolerance, 10.0 * scale);
}

/* A line load and an area load are the limits of many forces; one that falls beyond the end of a member is
 * off by up to half its size, 1 / (2 N). */
static void test_distributed_is_many_forces(void) {
    enum { N = 2000, M = 50 };
    for (int along = 0; along < 2; along++) {
        sample s;
        analysis a;
        ss_load many;
        car(&s, along != 0);
        analysis_start(&a, &s);
        CU_ASSERT_EQUAL_FATAL(ss_load_create(&a.mesh, &many, NULL), SS_OK);
        const double x0 = 2.17;
        const double x1 = 9.41;
        CU_ASSERT_EQUAL(ss_load_line(&a.load, x0, x1, 1.1, 5400.0, NULL), SS_OK);
        for (int i = 0; i < N; i++) {
            ss_load_force(&many, x0 + (x1 - x0) * (i + 0.5) / N, 1.1, 5400.0 * (x1 - x0) / N, NULL);
        }
        check_same(&a, &a.load, &many, 3e-4, 5400.0 * 7.24);
        analysis_end(&a);
        ss_load_destroy(&many);
        analysis_start(&a, &s);
        CU_ASSERT_EQUAL_FATAL(ss_load_create(&a.mesh, &many, NULL), SS_OK);
        CU_ASSERT_EQUAL(ss_load_area(&a.load, x0, x1, 0.05, 2.55, 2100.0, NULL), SS_OK);
        for (int i = 0; i < N; i++) {
            for (int j = 0; j < M; j++) {
                ss_load_force(&many, x0 + (x1 - x0) * (i + 0.5) / N, 0.05 + 2.5 * (j + 0.5) / M,
                              2100.0 * (x1 - x0) * 2.5 / N / M, NULL);
            }
        }
        check_same(&a, &a.load, &many, 3e-4, 2100.0 * 2.5 * 7.24);
        check_relative("all of it", a.load.total, 2100.0 * 2.5 * 7.24, 1e-12);
        analysis_end(&a);
        ss_load_destroy(&many);
    }
}

/* On a floor beam alone: a deck that spans along under an area load between lines makes a uniform load, and
 * values within the bay are exact. */
static void test_uniform_within_bay(void) {
    sample s;
    analysis a;
    car(&s, true);
    /* Hinged at both lines, the bay is a simple beam of 2 m. */
    s.bridge.hinges[0] = 0;
    s.bridge.hinges[1] = 1;
    s.bridge.hinge_count = 2;
    for (int i = 0; i < 4; i++) {
        s.bridge.floor_beams[i].hinge_count = 2;
    }
    /* Without bending across, only bearings under both lines hold each line's twist: pads. */
    for (int i = 0; i < 4; i++) {
        s.bridge.bearings[i].pad_width = 0.3;
    }
    analysis_start(&a, &s);
    const double q = 3300.0;
    CU_ASSERT_EQUAL(ss_load_area(&a.load, 0.0, 12.6, 0.3, 2.3, q, NULL), SS_OK);
    analysis_solve(&a, NULL, NULL);
    const double w = q * 4.2; /* an inner beam's share */
    const double t = 0.7;     /* from the left line */
    check_relative("moment", effect_at(&a, SS_MEMBER_BEAM, 1, 0.3 + t, true, SS_EFFECT_MOMENT),
                   w * t * (2.0 - t) / 2.0, 1e-9);
    check_relative("shear", effect_at(&a, SS_MEMBER_BEAM, 1, 0.3 + t, true, SS_EFFECT_SHEAR), w * (1.0 - t),
                   1e-9);
    check_relative("end shear", effect_at(&a, SS_MEMBER_BEAM, 1, 0.3, false, SS_EFFECT_SHEAR), w, 1e-9);
    check_near("hinge", effect_at(&a, SS_MEMBER_BEAM, 1, 0.3, false, SS_EFFECT_MOMENT), 0.0, 1e-9, w);
    const double sag = effect_at(&a, SS_MEMBER_BEAM, 1, 1.3, true, SS_EFFECT_DEFLECTION) -
                       line_effect(&a, 0, 4.2, true, SS_EFFECT_DEFLECTION);
    check_relative("sag", sag, 5.0 * w * 16.0 / (384.0 * E * 1e-4) + w * 4.0 / (8.0 * G * 3e-3), 1e-9);
    analysis_end(&a);
}

/* A force within the effect's own element, and everywhere else: row . u plus the local part against a mesh
 * with a station there. */
static void test_local_parts(void) {
    static const ss_effect_kind kinds[] = {SS_EFFECT_MOMENT, SS_EFFECT_SHEAR, SS_EFFECT_DEFLECTION,
                                           SS_EFFECT_TORSION};
    sample s;
    analysis a;
    ss_error error = {0};
    sample_start(&s, E, G, 2.0);
    const int sill = hand_section(&s.bridge, 7e-4, 2e-4, 6e-3, 1500.0);
    hand_car(&s.bridge, "south", 0.0, 12.0, 0.0, 2.6);
    hand_line(&s.bridge, SS_ROLE_MAIN, "sill", 1.3, sill);
    hand_pad(&s.bridge, 0, 0.0, 0.5);
    hand_pad(&s.bridge, 0, 12.0, 0.5);
    analysis_start(&a, &s);
    const double P = 35000.0;
    const double y = 1.9;
    const double e = y - 1.3;
    double *tile = calloc((size_t)a.mesh.order * SS_TILE, sizeof *tile);
    double *work = calloc(ss_grillage_work(a.grillage, NULL), sizeof *work);
    for (int before = 0; before < 2; before++) {
        for (int k = 0; k < ENTRIES(kinds); k++) {
            ss_effect effect;
            ss_row row;
            double cubic[4];
            CHECK_OK(ss_mesh_effect(&a.mesh, SS_MEMBER_LINE, 0, 6.0, before != 0, kinds[k], &effect, &error),
                     &error);
            ss_mesh_effect_row(&a.mesh, &effect, &row);
            ss_mesh_effect_local_cubic(&a.mesh, &effect, cubic);
            memset(tile, 0, (size_t)a.mesh.order * SS_TILE * sizeof *tile);
            for (int i = 0; i < row.count; i++) {
                tile[(size_t)row.dof[i] * SS_TILE] = row.value[i];
            }
            ss_grillage_solve(a.grillage, NULL, tile, work);
            for (double x = 0.1; x < 12.0; x += 0.37) {
                ss_row wheel;
                CU_ASSERT_EQUAL(ss_mesh_wheel(&a.mesh, x, y, &wheel), SS_OK);
                double value = 0.0;
                for (int i = 0; i < wheel.count; i++) {
                    value += wheel.value[i] * tile[(size_t)wheel.dof[i] * SS_TILE];
                }
                const int interval = (int)(x / 2.0);
                if (a.mesh.line_element[interval] == effect.element) {
                    const double t = x / 2.0 - interval;
                    const double local = ss_mesh_effect_local(&a.mesh, &effect, t);
                    check_near("cubic", local, cubic[0] + t * (cubic[1] + t * (cubic[2] + t * cubic[3])),
                               1e-12, 1.0);
                    value += local + e * ss_mesh_effect_local_torque(&a.mesh, &effect, t);
                }
                /* Simple span of 12 m with the section at 6 m. */
                double exact = 0.0;
                switch (kinds[k]) {
                case SS_EFFECT_MOMENT: exact = 0.5 * fmin(x, 12.0 - x); break;
                case SS_EFFECT_SHEAR: exact = x < 6.0 ? -x / 12.0 : 1.0 - x / 12.0; break;
                case SS_EFFECT_TORSION: exact = e * (x < 6.0 ? -x / 12.0 : 1.0 - x / 12.0); break;
                default: {
                    const double b = fmin(x, 12.0 - x);
                    exact = b * (3.0 * 144.0 - 4.0 * b * b) / (48.0 * E * 7e-4) + 0.5 * b / (G * 6e-3);
                }
                }
                check_near("influence", P * value, P * exact, 1e-9,
                           kinds[k] == SS_EFFECT_DEFLECTION ? P * 1e-7 : P);
            }
        }
    }
    free(tile);
    free(work);
    analysis_end(&a);
}

/* Local values exactly at the section follow its side. */
static void test_sides(void) {
    sample s;
    analysis a;
    ss_effect effect;
    car(&s, false);
    analysis_start(&a, &s);
    CU_ASSERT_EQUAL(ss_mesh_effect(&a.mesh, SS_MEMBER_LINE, 0, 4.2, false, SS_EFFECT_SHEAR, &effect, NULL),
                    SS_OK);
    CU_ASSERT_EQUAL(effect.s, 0.0);
    check_near("after, the force before it", ss_mesh_effect_local(&a.mesh, &effect, 0.0), 0.0, 1e-13, 1.0);
    check_near("just inside", ss_mesh_effect_local(&a.mesh, &effect, 1e-9), 1.0, 1e-8, 1.0);
    CU_ASSERT_EQUAL(ss_mesh_effect(&a.mesh, SS_MEMBER_LINE, 0, 4.2, true, SS_EFFECT_SHEAR, &effect, NULL),
                    SS_OK);
    CU_ASSERT_EQUAL(effect.s, 1.0);
    check_near("before, the force after it", ss_mesh_effect_local(&a.mesh, &effect, 1.0), 0.0, 1e-13, 1.0);
    check_near("just inside", ss_mesh_effect_local(&a.mesh, &effect, 1.0 - 1e-9), -1.0, 1e-8, 1.0);
    /* Within a bay: a jump of one at the section. */
    CU_ASSERT_EQUAL(ss_mesh_effect(&a.mesh, SS_MEMBER_BEAM, 1, 1.1, true, SS_EFFECT_SHEAR, &effect, NULL),
                    SS_OK);
    check_near("jump",
               ss_mesh_effect_local(&a.mesh, &effect, effect.s + 1e-9) -
                   ss_mesh_effect_local(&a.mesh, &effect, effect.s - 1e-9),
               1.0, 1e-7, 1.0);
    /* No element on that side; a place that is no station; an effect that the member has not. */
    ss_error error = {0};
    CU_ASSERT_EQUAL(ss_mesh_effect(&a.mesh, SS_MEMBER_LINE, 0, 0.0, true, SS_EFFECT_SHEAR, &effect, &error),
                    SS_ERROR_DESCRIPTION);
    CU_ASSERT_STRING_EQUAL(error.message, "line left of car north: there is nothing just before x = 0.00 m");
    CU_ASSERT_EQUAL(ss_mesh_effect(&a.mesh, SS_MEMBER_LINE, 0, 4.27, true, SS_EFFECT_SHEAR, &effect, &error),
                    SS_ERROR_INTERNAL);
    CU_ASSERT_EQUAL(
        ss_mesh_effect(&a.mesh, SS_MEMBER_LINE, 0, 4.2, true, SS_EFFECT_REACTION, &effect, &error),
        SS_ERROR_DESCRIPTION);
    CU_ASSERT_EQUAL(ss_mesh_effect(&a.mesh, SS_MEMBER_BEAM, 1, 2.3, false, SS_EFFECT_MOMENT, &effect, &error),
                    SS_ERROR_DESCRIPTION);
    CU_ASSERT_EQUAL(
        ss_mesh_effect(&a.mesh, SS_MEMBER_BEARING, 2, 0.0, false, SS_EFFECT_REACTION, &effect, &error),
        SS_OK);
    CU_ASSERT_EQUAL(a.mesh.spring[effect.spring].index, 2);
    CU_ASSERT_EQUAL(
        ss_mesh_effect(&a.mesh, SS_MEMBER_BEARING, 2, 0.0, false, SS_EFFECT_MOMENT, &effect, &error),
        SS_ERROR_DESCRIPTION);
    analysis_end(&a);
}

/* Weight of steel: lines by their length, floor beams between the lines, times the car's factor. */
static void test_self_weight(void) {
    sample s;
    analysis a;
    car(&s, false);
    s.bridge.cars[0].weight_factor = 1.13;
    analysis_start(&a, &s);
    CU_ASSERT_EQUAL(ss_load_self_weight(&a.load, NULL), SS_OK);
    const double weight = 1.13 * (2.0 * 840.0 * 12.6 + 4.0 * 310.0 * 2.0);
    check_relative("weight", a.load.total, weight, 1e-12);
    check_relative("middle", a.load.moment_y, weight * 6.3, 1e-12);
    check_relative("middle", a.load.moment_x, weight * 1.3, 1e-12);
    analysis_solve(&a, NULL, NULL);
    double sum = 0.0;
    for (int i = 0; i < 4; i++) {
        sum += reaction(&a, i);
    }
    check_relative("reactions", sum, weight, 1e-11);
    /* The middle of an inner bay, hanging from the girders: w l^2 / 8 above the mean of its ends. */
    const double ends = 0.5 * (effect_at(&a, SS_MEMBER_BEAM, 1, 0.3, false, SS_EFFECT_MOMENT) +
                               effect_at(&a, SS_MEMBER_BEAM, 1, 2.3, true, SS_EFFECT_MOMENT));
    check_relative("bay", effect_at(&a, SS_MEMBER_BEAM, 1, 1.3, true, SS_EFFECT_MOMENT) - ends,
                   1.13 * 310.0 * 4.0 / 8.0, 1e-9);
    analysis_end(&a);
}

/* A cantilever whose depth grows in proportion to the distance from a point: I = b d^3 / 12, integral of x^2
 * / (E I) from a to c in closed form. A tapered line converges to it with the square of the spacing. */
static void test_taper(void) {
    const double width = 0.037;
    const double d0 = 0.31;
    const double d1 = 0.84;
    const double L = 7.7;
    const double P = 20000.0;
    double error_before = 0.0;
    for (int refine = 1; refine <= 8; refine *= 2) {
        sample s;
        ss_mesh mesh;
        ss_grillage *grillage;
        ss_load load;
        sample_start(&s, E, G, 2.0);
        const int section = sample_rectangle(&s, width, d1);
        hand_car(&s.bridge, "north", 0.0, L, 0.0, 2.0);
        hand_line(&s.bridge, SS_ROLE_MAIN, "sill", 1.0, section);
        s.bridge.pieces[0].depth0 = d0;
        s.bridge.pieces[0].depth1 = d1;
        s.bridge.bearings[hand_pad(&s.bridge, 0, L, 0.3)].rotation = (double)INFINITY;
        CU_ASSERT_EQUAL_FATAL(
            ss_mesh_build(&s.bridge, (ss_mesh_options){.joints = true, .refine = refine}, &mesh, NULL),
            SS_OK);
        CU_ASSERT_EQUAL(mesh.station_count, 8 * refine + 1); /* half of the spacing where the depth varies */
        CU_ASSERT_EQUAL_FATAL(ss_grillage_create(&mesh, &grillage, NULL), SS_OK);
        CU_ASSERT_EQUAL_FATAL(ss_load_create(&mesh, &load, NULL), SS_OK);
        ss_load_force_on_line(&load, 0, 0.0, P, NULL);
        double *u = calloc((size_t)mesh.order, sizeof *u);
        double force[8];
        CU_ASSERT_EQUAL_FATAL(ss_grillage_respond(grillage, NULL, load.nodal, NULL, u, force, NULL), SS_OK);
        /* Depth d0 + g x: the integral of x^2 / d^3 is [ln d + 2 d0 / d - d0^2 / (2 d^2)] / g^3; shear adds
         * the integral of 1 / (G b d). */
        const double g = (d1 - d0) / L;
        const double upper = log(d1) + 2.0 * d0 / d1 - d0 * d0 / (2.0 * d1 * d1);
        const double lower = log(d0) + 2.0 - 0.5;
        const double exact =
            P * 12.0 / (E * width) * (upper - lower) / (g * g * g) + P / (G * width) * log(d1 / d0) / g;
        const double error = fabs(u[0] - exact) / exact;
        if (refine > 1) {
            CU_ASSERT_TRUE(error < 0.27 * error_before && error > 0.2 * error_before);
        }
        error_before = error;
        if (refine == 8) {
            CU_ASSERT_TRUE(error < 2.5e-4);
        } /* intervals of 0.12 m */
        /* Weight follows the depth: its mean times length, exactly. */
        ss_load_destroy(&load);
        CU_ASSERT_EQUAL_FATAL(ss_load_create(&mesh, &load, NULL), SS_OK);
        CU_ASSERT_EQUAL(ss_load_self_weight(&load, NULL), SS_OK);
        check_relative("weight", load.total, 77000.0 * width * 0.5 * (d0 + d1) * L, 1e-12);
        free(u);
        ss_load_destroy(&load);
        ss_grillage_destroy(grillage);
        ss_mesh_destroy(&mesh);
    }
}

/* Prismatic members are exact: cutting every interval in two changes nothing. */
static void test_halving(void) {
    double w[2] = {0};
    double M[2] = {0};
    for (int refine = 1; refine <= 2; refine++) {
        sample s;
        ss_mesh mesh;
        ss_grillage *grillage;
        ss_load load;
        car(&s, false);
        CU_ASSERT_EQUAL_FATAL(
            ss_mesh_build(&s.bridge, (ss_mesh_options){.joints = true, .refine = refine}, &mesh, NULL),
            SS_OK);
        CU_ASSERT_EQUAL_FATAL(ss_grillage_create(&mesh, &grillage, NULL), SS_OK);
        CU_ASSERT_EQUAL_FATAL(ss_load_create(&mesh, &load, NULL), SS_OK);
        ss_load_force(&load, 5.13, 0.9, 40000.0, NULL);
        ss_load_line(&load, 1.1, 7.9, 1.7, 2600.0, NULL);
        double *u = calloc((size_t)mesh.order, sizeof *u);
        double *force = calloc((size_t)mesh.spring_count, sizeof *force);
        CU_ASSERT_EQUAL_FATAL(ss_grillage_respond(grillage, NULL, load.nodal, NULL, u, force, NULL), SS_OK);
        ss_effect effect;
        CU_ASSERT_EQUAL(ss_mesh_effect(&mesh, SS_MEMBER_LINE, 1, 8.4, true, SS_EFFECT_MOMENT, &effect, NULL),
                        SS_OK);
        M[refine - 1] = ss_mesh_effect_value(&mesh, &effect, u, &load);
        effect.kind = SS_EFFECT_DEFLECTION;
        w[refine - 1] = ss_mesh_effect_value(&mesh, &effect, u, &load);
        free(u);
        free(force);
        ss_load_destroy(&load);
        ss_grillage_destroy(grillage);
        ss_mesh_destroy(&mesh);
    }
    check_relative("deflection", w[1], w[0], 1e-10);
    check_relative("moment", M[1], M[0], 1e-10);
}

int main(void) {
    static const test_case cases[] = {
        {"many forces", test_distributed_is_many_forces},
        {"within a bay", test_uniform_within_bay},
        {"local parts", test_local_parts},
        {"sides", test_sides},
        {"self weight", test_self_weight},
        {"taper", test_taper},
        {"halving", test_halving},
    };
    return RUN_SUITE("load", cases);
}
