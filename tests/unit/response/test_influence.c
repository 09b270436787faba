/* test_influence.c - influence surfaces against direct analyses of a unit force, statics and closed forms. */
#include "sillspan/influence.h"

#include <string.h>

#include "response/state.h"
#include "sillspan/memory.h"
#include "support/make_bridge.h"
#include "support/suite.h"

static ss_influence surface_of(made_bridge *m, const ss_effect *effect) {
    ss_influence surface = {0};
    CHECK_OK(ss_influence_compute(&m->permanent, effect, &surface, &m->error), &m->error);
    return surface;
}

/* ---- direct analyses ---------------------------------------------------------------------------- */

/* What loads within a bay take off its section, from its left end to there: values of a section within a bay
 * come from the forces at its ends. */
static double passed(const made_bridge *m, const ss_effect *effect, double x, double y) {
    ss_beam_share share[4];
    double value = 0.0;
    if (effect->member != SS_MEMBER_BEAM || !m->bridge.deck.along) {
        return 0.0;
    }
    const int count = ss_mesh_deck_along(&m->mesh, x, y, share);
    for (int i = 0; i < count; i++) {
        if (share[i].element == effect->element && share[i].s > 0.0 && share[i].s < effect->s) {
            const double arm = (effect->s - share[i].s) * m->mesh.element[effect->element].length;
            value += share[i].weight * (effect->kind == SS_EFFECT_MOMENT ? arm : 1.0);
        }
    }
    return value;
}

/* The effect of 1 N at a place, with all bearings there, from an analysis of that load alone. */
static double direct(made_bridge *m, const ss_effect *effect, double x, double y) {
    double *const u = ss_alloc((size_t)m->mesh.order, sizeof *u);
    double *const force = ss_alloc((size_t)m->mesh.spring_count, sizeof *force);
    ss_load load = {0};
    CU_ASSERT_TRUE_FATAL(u != NULL && force != NULL);
    CHECK_OK(ss_load_create(&m->mesh, &load, &m->error), &m->error);
    CHECK_OK(ss_load_force(&load, x, y, 1.0, &m->error), &m->error);
    CHECK_OK(ss_grillage_respond(m->grillage, NULL, load.nodal, NULL, u, force, &m->error), &m->error);
    double value = 0.0;
    if (ss_effect_of_spring(effect)) {
        const int second = ss_effect_second_spring(&m->mesh, effect);
        value = force[effect->spring] + (second >= 0 ? force[second] : 0.0);
        value *= ss_effect_spring_factor(&m->mesh, effect);
    } else {
        value = ss_mesh_effect_value(&m->mesh, effect, u, &load) - passed(m, effect, x, y);
    }
    ss_load_destroy(&load);
    ss_free(force);
    ss_free(u);
    return value;
}

/* Corners of every so manyeth cell, from just within it. */
static void compare_cells(made_bridge *m, const ss_influence *s, const char *what) {
    double largest = 0.0;
    int looked = 0;
    for (int i = 0; i < s->point_count; i++) {
        largest = fmax(largest, fabs(s->points[i].value));
    }
    CU_ASSERT_TRUE_FATAL(largest > 0.0);
    for (int c = 0; c < s->cell_count; c += 7) {
        const ss_influence_point *const a = &s->points[s->cells[c][0]];
        const ss_influence_point *const b = &s->points[s->cells[c][2]];
        for (int i = 0; i < 4; i++) {
            const ss_influence_point *const p = &s->points[s->cells[c][i]];
            const double x = p->x + 1e-7 * (0.5 * (a->x + b->x) - p->x);
            const double y = p->y + 1e-7 * (0.5 * (a->y + b->y) - p->y);
            check_near(what, p->value, direct(m, &s->effect, x, y), 1e-6, largest);
            looked++;
        }
    }
    CU_ASSERT_TRUE(looked > 100);
}

/* Every kind of effect of every kind of member, a deck that spans across and one that spans along. */
static void compare_all(bool along) {
    made_bridge m;
    made_two_cars(&m, false, 1.1);
    m.bridge.deck.along = along;
    hand_probe(&m.bridge, 3, 5.37);
    CHECK_OK(made_solve(&m), &m.error);
    const double beam_y = 0.5 * (m.bridge.lines[2].y + m.bridge.lines[3].y);
    const struct {
        const char *name;
        ss_member_kind member;
        int index;
        double at;
        bool before;
        ss_effect_kind kind;
    } asked[] = {
        {"moment of a line", SS_MEMBER_LINE, 3, 5.37, false, SS_EFFECT_MOMENT},
        {"shear before a section", SS_MEMBER_LINE, 3, 5.37, true, SS_EFFECT_SHEAR},
        {"shear after a section", SS_MEMBER_LINE, 3, 5.37, false, SS_EFFECT_SHEAR},
        {"torsion of a line", SS_MEMBER_LINE, 3, 5.37, false, SS_EFFECT_TORSION},
        {"deflection of a line", SS_MEMBER_LINE, 3, 5.37, false, SS_EFFECT_DEFLECTION},
        {"moment within a bay", SS_MEMBER_BEAM, 1, beam_y, false, SS_EFFECT_MOMENT},
        {"shear within a bay", SS_MEMBER_BEAM, 1, beam_y, true, SS_EFFECT_SHEAR},
        {"force of a joint", SS_MEMBER_JOINT, 0, 5.37, false, SS_EFFECT_SHEAR},
        {"reaction", SS_MEMBER_BEARING, 0, m.bridge.bearings[0].x, false, SS_EFFECT_REACTION},
    };
    for (int i = 0; i < ENTRIES(asked); i++) {
        ss_effect effect;
        CHECK_OK(ss_mesh_effect(&m.mesh, asked[i].member, asked[i].index, asked[i].at, asked[i].before,
                                asked[i].kind, &effect, &m.error),
                 &m.error);
        ss_influence s = surface_of(&m, &effect);
        CU_ASSERT_EQUAL(s.open, 0);
        compare_cells(&m, &s, asked[i].name);
        ss_influence_destroy(&s);
    }
    made_free(&m);
}

static void test_equals_direct_analyses(void) {
    compare_all(false);
}

static void test_equals_direct_analyses_along(void) {
    compare_all(true);
}

/* ---- statics ------------------------------------------------------------------------------------ */

/* Reactions of all bearings hold a unit force wherever it stands, and its moment about the abutment; bearings
 * that are clear take no part. */
static void check_statics(bool contact) {
    made_bridge m;
    made_two_cars(&m, contact, 1.1);
    CHECK_OK(made_solve(&m), &m.error);
    double *sum = NULL;
    double *turn = NULL;
    ss_influence first = {0};
    int open = 0;
    for (int i = 0; i < m.bridge.bearing_count; i++) {
        const ss_bearing *const b = &m.bridge.bearings[i];
        const ss_effect asked = {
            .kind = SS_EFFECT_REACTION, .member = SS_MEMBER_BEARING, .index = i, .at = b->x};
        ss_influence s = surface_of(&m, &asked);
        open = s.open;
        if (i == 0) {
            sum = ss_alloc((size_t)s.cell_count * 4, sizeof *sum);
            turn = ss_alloc((size_t)s.cell_count * 4, sizeof *turn);
            CU_ASSERT_TRUE_FATAL(sum != NULL && turn != NULL);
        }
        for (int k = 0; k < 4 * s.cell_count; k++) {
            const double value = s.points[s.cells[k / 4][k % 4]].value;
            sum[k] += value;
            turn[k] += value * b->x;
        }
        if (i == 0) {
            first = s;
        } else {
            CU_ASSERT_EQUAL(s.cell_count, first.cell_count);
            ss_influence_destroy(&s);
        }
    }
    for (int k = 0; k < 4 * first.cell_count; k++) {
        check_near("sum of reactions", sum[k], 1.0, 1e-6, 1.0);
        check_near("moment of reactions", turn[k], first.points[first.cells[k / 4][k % 4]].x, 1e-6, 10.0);
    }
    CU_ASSERT_EQUAL(open > 0, contact);
    ss_influence_destroy(&first);
    ss_free(sum);
    ss_free(turn);
    made_free(&m);
}

static void test_statics(void) {
    check_statics(false);
}

static void test_statics_with_clear_bearings(void) {
    check_statics(true);
}

/* Half of a span of 8 m carries P L / 4 = 2 N m under 1 N at its middle, less in line with the distance; the
 * shear jumps by 1 there. */
static void test_simple_span(void) {
    made_bridge m;
    made_start(&m, 0.9);
    const int section = hand_section(&m.bridge, 2e-3, 1e-4, 0.0, 0.0);
    hand_car(&m.bridge, "north", 0.0, 8.0, -1.0, 1.0);
    const int line = hand_line(&m.bridge, SS_ROLE_MAIN, "line", 0.0, section);
    hand_pad(&m.bridge, line, 0.0, 0.4);
    hand_pad(&m.bridge, line, 8.0, 0.4);
    hand_probe(&m.bridge, line, 4.0);
    CHECK_OK(made_solve(&m), &m.error);
    ss_effect asked = {.kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_LINE, .index = line, .at = 4.0};
    ss_influence s = surface_of(&m, &asked);
    double area = 0.0;
    for (int i = 0; i < s.point_count; i++) {
        const ss_influence_point *const p = &s.points[i];
        check_near("moment at midspan", p->value, 0.5 * fmin(p->x, 8.0 - p->x), 1e-6, 2.0);
    }
    for (int i = 0; i < s.cell_count; i++) {
        const ss_influence_point *const a = &s.points[s.cells[i][0]];
        const ss_influence_point *const b = &s.points[s.cells[i][2]];
        area += (b->x - a->x) * (b->y - a->y);
    }
    CHECK_CLOSE(area, 16.0, 1e-9); /* the whole deck, 8 m x 2 m, once */
    ss_influence_destroy(&s);
    asked.kind = SS_EFFECT_SHEAR;
    s = surface_of(&m, &asked);
    bool sides[2] = {false, false};
    for (int i = 0; i < s.point_count; i++) {
        const ss_influence_point *const p = &s.points[i];
        sides[0] = sides[0] || (p->x == 4.0 && fabs(p->value - 0.5) < 1e-6);
        sides[1] = sides[1] || (p->x == 4.0 && fabs(p->value + 0.5) < 1e-6);
    }
    CU_ASSERT_TRUE(sides[0] && sides[1]);
    ss_influence_destroy(&s);
    made_free(&m);
}

/* ---- failures ----------------------------------------------------------------------------------- */

static void test_no_such_effect(void) {
    made_bridge m;
    made_two_cars(&m, true, 1.1);
    CHECK_OK(made_solve(&m), &m.error);
    const ss_effect asked = {.kind = SS_EFFECT_REACTION, .member = SS_MEMBER_LINE, .index = 0, .at = 0.0};
    ss_influence s = {0};
    CU_ASSERT_EQUAL(ss_influence_compute(&m.permanent, &asked, &s, &m.error), SS_ERROR_DESCRIPTION);
    CU_ASSERT_PTR_NULL(s.points);
    made_free(&m);
}

static void test_memory(void) {
    made_bridge m;
    made_two_cars(&m, true, 2.5);
    CHECK_OK(made_solve(&m), &m.error);
    const ss_effect asked = {
        .kind = SS_EFFECT_REACTION, .member = SS_MEMBER_BEARING, .index = 1, .at = m.bridge.bearings[1].x};
    ss_status status = SS_ERROR_MEMORY;
    const long live = ss_memory_live();
    for (long n = 0; status == SS_ERROR_MEMORY && n < 200; n++) {
        ss_influence s = {0};
        ss_memory_fail_from(n);
        status = ss_influence_compute(&m.permanent, &asked, &s, &m.error);
        ss_memory_fail_from(-1);
        if (status == SS_OK) {
            CU_ASSERT_TRUE(n > 3);
            ss_influence_destroy(&s);
        }
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    made_free(&m);
}

static const test_case cases[] = {
    {"values equal direct analyses of a unit force", test_equals_direct_analyses},
    {"the same where floor beams carry the deck", test_equals_direct_analyses_along},
    {"reactions hold the force and its moment", test_statics},
    {"the same with bearings that are clear", test_statics_with_clear_bearings},
    {"a simple span by hand", test_simple_span},
    {"an effect that is not there", test_no_such_effect},
    {"no memory", test_memory},
};

int main(void) {
    return RUN_SUITE("influence", cases);
}
