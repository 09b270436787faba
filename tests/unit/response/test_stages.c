/* test_stages.c - a slab cast on a beam, stage by stage, against beams that are solved by hand. */
#include <string.h>

#include "sillspan/composite.h"
#include "sillspan/memory.h"
#include "support/make_bridge.h"
#include "support/suite.h"

#define I_BARE 1.7e-3
#define J_BARE 2.2e-4

/* One line with a slab on it, of weightless steel. */
typedef struct decked {
    made_bridge made;
    ss_slab_line line;
    ss_pour pours[3];
    ss_shore shores[3];
    double length, EI, EI_short, EI_long;
} decked;

static double stiffness(const decked *d, ss_slab_stage stage) {
    const ss_bridge *const b = &d->made.bridge;
    ss_section_properties steel;
    ss_slab_flange flange;
    ss_composite_properties whole;
    ss_error error;
    CHECK_OK(ss_bridge_line_section(b, 0, 1.0, false, &steel), &error);
    CU_ASSERT_TRUE_FATAL(ss_slab_flange_at(b, 0, 1.0, false, stage, &flange));
    CHECK_OK(ss_composite_at(&steel, &flange, false, &whole, &error), &error);
    return b->steels[0].E * whole.I;
}

static void start(decked *d, double length) {
    memset(d, 0, sizeof *d);
    made_start(&d->made, 0.7);
    ss_bridge *const b = &d->made.bridge;
    const int section = hand_section(b, I_BARE, J_BARE, 0.0, 0.0);
    b->sections[section].set_S_bottom = I_BARE / 0.3;
    hand_car(b, "north", 0.0, length, -1.2, 1.2);
    hand_line(b, SS_ROLE_MAIN, "line", 0.0, section);
    hand_probe(b, 0, length / 2.0);
    b->roadway_left = -1.0;
    b->roadway_right = 1.0;
    d->length = length;
    d->EI = b->steels[0].E * I_BARE;
    d->line = (ss_slab_line){.composite = true, .width = 2.4, .y0 = -1.2, .y1 = 1.2};
    d->pours[0] = (ss_pour){"all", 0.0, length, -1.2, 1.2};
    b->slab = (ss_slab){.given = true,
                        .x1 = length,
                        .y0 = -1.2,
                        .y1 = 1.2,
                        .thickness = 0.16,
                        .fc = 2.8e7,
                        .density = 2.4e4,
                        .E = 2.5e10,
                        .n = (double)NAN,
                        .long_factor = 3.0,
                        .joints_hold_wet = true,
                        .joint_left = (double)NAN,
                        .pours = d->pours,
                        .pour_count = 1,
                        .shores = d->shores,
                        .lines = &d->line};
    const ss_slab_stage now = ss_slab_finished(&b->slab), later = {now.hard, true};
    d->EI_short = stiffness(d, now);
    d->EI_long = stiffness(d, later);
}

static void support(decked *d, double x) {
    ss_bearing *const b = hand_contact(&d->made.bridge, 0, x);
    b->contact = false;
    b->pad_width = 0.5;
}

static void load(decked *d, ss_dead_when when, ss_component component, double w) {
    ss_bridge *const b = &d->made.bridge;
    b->dead_loads[b->dead_load_count++] =
        (ss_dead_load){"load", component, false, w, 0.0, d->length, 0.0, 0.0, when, 0};
}

static double added(decked *d, int stage, ss_effect_kind kind, double x) {
    ss_effect e;
    CHECK_OK(ss_mesh_effect(&d->made.mesh, SS_MEMBER_LINE, 0, x, true, kind, &e, &d->made.error),
             &d->made.error);
    return ss_permanent_added(&d->made.permanent, stage, &e);
}

static double present(decked *d, ss_effect_kind kind, double x) {
    ss_effect e;
    CHECK_OK(ss_mesh_effect(&d->made.mesh, SS_MEMBER_LINE, 0, x, true, kind, &e, &d->made.error),
             &d->made.error);
    return ss_state_effect(&d->made.mesh, &d->made.permanent.present, &e);
}

/* Value under the dead load and a force on top, less that of the dead load. */
static double live(decked *d, double P, ss_effect_kind kind, double x) {
    made_bridge *const m = &d->made;
    ss_load force;
    ss_state state;
    ss_effect e;
    CHECK_OK(ss_mesh_effect(&m->mesh, SS_MEMBER_LINE, 0, x, true, kind, &e, &m->error), &m->error);
    CHECK_OK(ss_load_create(&m->mesh, &force, &m->error), &m->error);
    CHECK_OK(ss_load_force_on_line(&force, 0, d->length / 2.0, P, &m->error), &m->error);
    CHECK_OK(
        ss_permanent_state(&m->permanent, true, (ss_dead_factors){1.0, 1.0}, &force, 1.0, &state, &m->error),
        &m->error);
    const double value = ss_state_effect(&m->mesh, &state, &e) - present(d, kind, x);
    ss_state_destroy(&state);
    ss_load_destroy(&force);
    return value;
}

/* The section that the slab makes is stiffer than the steel, and less so in the long term. */
static void test_simple_span(void) {
    const double L = 14.7, wet = 9.1e3, old = 2.3e3, rail = 1.1e3, course = 3.7e3, P = 6.1e4;
    decked d;
    start(&d, L);
    support(&d, 0.0);
    support(&d, L);
    load(&d, SS_DEAD_REMOVED, SS_COMPONENT_DW, 1.9e3);
    load(&d, SS_DEAD_STAYS, SS_COMPONENT_DC, old);
    load(&d, SS_DEAD_WET, SS_COMPONENT_DC, wet);
    load(&d, SS_DEAD_LATER, SS_COMPONENT_DC, rail);
    load(&d, SS_DEAD_LATER, SS_COMPONENT_DW, course);
    CHECK_OK(made_solve(&d.made), &d.made.error);
    CU_ASSERT_EQUAL_FATAL(d.made.permanent.stage_count, 4);
    CU_ASSERT(d.EI < d.EI_long && d.EI_long < d.EI_short);
    const double w[4] = {old, wet, rail, course}, EI[4] = {d.EI, d.EI, d.EI_long, d.EI_long};
    double moment = 0.0, sag = 0.0;
    for (int i = 0; i < 4; i++) {
        const double M = w[i] * L * L / 8.0, v = 5.0 * w[i] * pow(L, 4.0) / (384.0 * EI[i]);
        check_near("moment of a stage", added(&d, i, SS_EFFECT_MOMENT, L / 2.0), M, 1e-9, M);
        check_near("sag of a stage", added(&d, i, SS_EFFECT_DEFLECTION, L / 2.0), v, 1e-9, v);
        moment += M;
        sag += v;
    }
    check_near("moment in the end", present(&d, SS_EFFECT_MOMENT, L / 2.0), moment, 1e-9, moment);
    check_near("sag in the end", present(&d, SS_EFFECT_DEFLECTION, L / 2.0), sag, 1e-9, sag);
    check_near("sag under a force", live(&d, P, SS_EFFECT_DEFLECTION, L / 2.0),
               P * L * L * L / (48.0 * d.EI_short), 1e-9, sag);
    made_free(&d.made);
}

/* With a prop in the middle the wet slab bends a beam of two spans; taken out, its reaction 5/8 w L comes
 * onto the long-term section. */
static void test_prop(void) {
    const double L = 12.3, wet = 8.8e3, old = 2.0e3;
    decked d;
    start(&d, L);
    support(&d, 0.0);
    support(&d, L);
    load(&d, SS_DEAD_STAYS, SS_COMPONENT_DC, old);
    load(&d, SS_DEAD_WET, SS_COMPONENT_DC, wet);
    d.shores[0] = (ss_shore){0, L / 2.0};
    d.made.bridge.slab.shore_count = 1;
    CHECK_OK(made_solve(&d.made), &d.made.error);
    CU_ASSERT_EQUAL_FATAL(d.made.permanent.stage_count, 3);
    const double R = 0.625 * wet * L, whole = wet * L * L / 8.0;
    check_near("over the prop", added(&d, 1, SS_EFFECT_MOMENT, L / 2.0), -wet * L * L / 32.0, 1e-9, whole);
    check_near("at the prop", added(&d, 1, SS_EFFECT_DEFLECTION, L / 2.0), 0.0, 1e-9, 1.0);
    check_near("prop out", added(&d, 2, SS_EFFECT_MOMENT, L / 2.0), R * L / 4.0, 1e-9, whole);
    check_near("sag with the prop out", added(&d, 2, SS_EFFECT_DEFLECTION, L / 2.0),
               R * L * L * L / (48.0 * d.EI_long), 1e-9, 1.0);
    check_near("in the end", present(&d, SS_EFFECT_MOMENT, L / 2.0), whole + old * L * L / 8.0, 1e-9, whole);
    made_free(&d.made);
}

/* A beam of two spans with slab on the first of them: what is there stays, and a force on top finds the
 * stiffness of the end alone. The support moment under P in the middle of the first span follows from three
 * moments with both stiffnesses: M = -(3/16) P L / (1/2 (1 + k)), k = EI_1 / EI_2 for equal spans. */
static void test_two_spans(void) {
    const double L = 9.4, wet = 9.0e3, P = 7.0e4;
    decked d;
    start(&d, 2.0 * L);
    for (int i = 0; i < 3; i++) support(&d, i * L);
    d.made.bridge.slab.x1 = L;
    d.pours[0].x1 = L;
    load(&d, SS_DEAD_WET, SS_COMPONENT_DC, wet);
    d.made.bridge.dead_loads[0].x1 = L;
    d.length = L; /* the force stands in the middle of the first span */
    CHECK_OK(made_solve(&d.made), &d.made.error);
    const double own = -wet * L * L / 16.0;
    check_near("wet", added(&d, 1, SS_EFFECT_MOMENT, L), own, 1e-9, wet * L * L);
    check_near("in the end", present(&d, SS_EFFECT_MOMENT, L), own, 1e-9, wet * L * L);
    const double k = d.EI_short / d.EI, M = -(3.0 / 16.0) * P * L / (1.0 + k);
    check_near("under a force", live(&d, P, SS_EFFECT_MOMENT, L), M, 1e-9, P * L);
    made_free(&d.made);
}

/* A gap of today closes while the slab is wet; later load finds the bearing shut on the stiffer beam, and
 * what the bearing carries goes on from what it has. */
static void test_gap_through_stages(void) {
    const double L = 13.1, wet = 9.7e3, rail = 2.6e3;
    decked d;
    start(&d, L);
    support(&d, 0.0);
    support(&d, L);
    const double sag = 5.0 * wet * pow(L, 4.0) / (384.0 * d.EI), gap = 0.4 * sag;
    hand_contact(&d.made.bridge, 0, L / 2.0)->gap = gap;
    load(&d, SS_DEAD_WET, SS_COMPONENT_DC, wet);
    load(&d, SS_DEAD_LATER, SS_COMPONENT_DC, rail);
    CHECK_OK(made_solve(&d.made), &d.made.error);
    ss_effect e;
    CHECK_OK(
        ss_mesh_effect(&d.made.mesh, SS_MEMBER_BEARING, 2, 0.0, false, SS_EFFECT_REACTION, &e, &d.made.error),
        &d.made.error);
    const double R = (sag - gap) * 48.0 * d.EI / (L * L * L);
    check_near("bearing, wet", ss_permanent_added(&d.made.permanent, 1, &e), R, 1e-8, R);
    check_near("bearing, later", ss_permanent_added(&d.made.permanent, 2, &e), 0.625 * rail * L, 1e-8, R);
    check_near("in the end", ss_state_effect(&d.made.mesh, &d.made.permanent.present, &e),
               R + 0.625 * rail * L, 1e-8, R);
    made_free(&d.made);
}

/* Cast half by half: the second half bends a beam whose first half is stiff. The load of the first is on the
 * bare beam; all of it balances. */
static void test_pours(void) {
    const double L = 11.0, wet = 9.3e3;
    decked d;
    start(&d, L);
    support(&d, 0.0);
    support(&d, L);
    d.pours[0] = (ss_pour){"first half", 0.0, L / 2.0, -1.2, 1.2};
    d.pours[1] = (ss_pour){"second half", L / 2.0, L, -1.2, 1.2};
    d.made.bridge.slab.pour_count = 2;
    for (int i = 0; i < 2; i++) {
        load(&d, SS_DEAD_WET, SS_COMPONENT_DC, wet);
        ss_dead_load *const half = &d.made.bridge.dead_loads[i];
        half->pour = i;
        *(i == 0 ? &half->x1 : &half->x0) = L / 2.0;
    }
    CHECK_OK(made_solve(&d.made), &d.made.error);
    CU_ASSERT_EQUAL_FATAL(d.made.permanent.stage_count, 3);
    const double quarter = wet * L * L / 16.0;
    check_near("first half", added(&d, 1, SS_EFFECT_MOMENT, L / 2.0), quarter, 1e-9, quarter);
    check_near("second half", added(&d, 2, SS_EFFECT_MOMENT, L / 2.0), quarter, 1e-9, quarter);
    /* Sag in the middle by virtual work, m = x/2 from either end: w on the second half only. */
    const double a = L / 2.0, bare = 5.0 * wet * pow(L, 4.0) / (768.0 * d.EI);
    check_near("sag of the first half", added(&d, 1, SS_EFFECT_DEFLECTION, a), bare, 1e-9, bare);
    /* the unloaded half: M = w L x/8 */
    const double left = wet * L / 8.0 * 0.5 * pow(a, 3.0) / 3.0;
    /* the loaded half, from its end: M = 3/8 w L x - w x^2/2 */
    const double right = 0.375 * wet * L * 0.5 * pow(a, 3.0) / 3.0 - 0.25 * wet * pow(a, 4.0) / 4.0;
    check_near("sag of the second half", added(&d, 2, SS_EFFECT_DEFLECTION, a),
               left / d.EI_long + right / d.EI, 1e-9, bare);
    made_free(&d.made);
}

/* A slab of next to no thickness leaves the bare car. */
static void test_thin_slab(void) {
    const double L = 14.7, P = 6.1e4;
    decked d;
    start(&d, L);
    support(&d, 0.0);
    support(&d, L);
    d.made.bridge.slab.thickness = 1e-12;
    CHECK_OK(made_solve(&d.made), &d.made.error);
    const double v = P * L * L * L / (48.0 * d.EI);
    check_near("sag under a force", live(&d, P, SS_EFFECT_DEFLECTION, L / 2.0), v, 1e-9, v);
    made_free(&d.made);
}

/* Every allocation of the stages may fail; nothing is left behind. */
static void test_memory(void) {
    decked d;
    start(&d, 12.3);
    support(&d, 0.0);
    support(&d, 12.3);
    load(&d, SS_DEAD_WET, SS_COMPONENT_DC, 9e3);
    d.shores[0] = (ss_shore){0, 6.0};
    d.made.bridge.slab.shore_count = 1;
    CHECK_OK(made_solve(&d.made), &d.made.error);
    const long live_before = ss_memory_live();
    int failures = 0;
    ss_status status = SS_ERROR_MEMORY;
    for (long n = 0; status == SS_ERROR_MEMORY; n++) {
        ss_permanent out;
        ss_error error = {0};
        ss_memory_fail_from(n);
        status = ss_permanent_compute(&d.made.bridge, d.made.grillage, &out, &error);
        ss_memory_fail_from(-1);
        failures += status == SS_ERROR_MEMORY;
        if (status == SS_OK) {
            ss_permanent_destroy(&out);
        }
        CU_ASSERT_EQUAL_FATAL(ss_memory_live(), live_before);
    }
    CHECK_OK(status, &d.made.error);
    CU_ASSERT(failures > 100);
    made_free(&d.made);
}

/* A web of an open section: torsion shows in it. */
static void take_web(ss_section *s) {
    hand_unset(s);
    s->shape = SS_SHAPE_PLATES;
    s->depth = 0.7;
    s->plate_count = 3;
    s->plates[0] = (ss_plate){"bottom", -0.15, 0.15, 0.0, 0.02, false};
    s->plates[1] = (ss_plate){"web", -0.006, 0.006, 0.02, 0.68, true};
    s->plates[2] = (ss_plate){"top", -0.15, 0.15, 0.68, 0.70, false};
}

/* Wet concrete that lies off the middle twists bare steel, which keeps that torque; what comes later is
 * shared with the slab as GJ is. */
static void test_torque_of_the_steel(void) {
    const double L = 11.3, off = 0.4, w[2] = {8.3e3, 2.9e3}, x = L / 4.0;
    decked d;
    start(&d, L);
    support(&d, 0.0);
    support(&d, L);
    ss_bridge *const b = &d.made.bridge;
    take_web(&b->sections[0]);
    hand_probe(b, 0, x);
    load(&d, SS_DEAD_WET, SS_COMPONENT_DC, w[0]);
    load(&d, SS_DEAD_LATER, SS_COMPONENT_DC, w[1]);
    for (int i = 0; i < 2; i++) {
        ss_dead_load *const one = &b->dead_loads[i];
        one->x0 = 5.0;
        one->x1 = 6.0;
        one->y0 = one->y1 = off;
    }
    CHECK_OK(made_solve(&d.made), &d.made.error);
    ss_section_properties steel;
    ss_slab_flange flange;
    ss_composite_properties whole;
    const ss_slab_stage later = {ss_slab_finished(&b->slab).hard, true};
    CHECK_OK(ss_bridge_line_section(b, 0, x, false, &steel), &d.made.error);
    CU_ASSERT_TRUE_FATAL(ss_slab_flange_at(b, 0, x, false, later, &flange));
    CHECK_OK(ss_composite_at(&steel, &flange, false, &whole, &d.made.error), &d.made.error);
    CU_ASSERT(whole.J > 2.0 * steel.J);
    const double share = (L - 5.5) / L, V = (w[0] + w[1]) * share, T = V * off;
    const double own = (w[0] + w[1] * steel.J / whole.J) * off * share;
    check_near("torque of both", fabs(present(&d, SS_EFFECT_TORSION, x)), T, 1e-9, T);
    const double plus = present(&d, SS_EFFECT_WEB_PLUS, x), minus = present(&d, SS_EFFECT_WEB_MINUS, x);
    check_near("shear of the web", 0.5 * (plus + minus), V, 1e-9, V);
    check_near("torque of the web", 0.5 * fabs(plus - minus) / steel.torsion_shear, own, 1e-8, own);
    made_free(&d.made);
}

int main(void) {
    static const test_case cases[] = {
        {"simple span", test_simple_span},
        {"prop", test_prop},
        {"two spans", test_two_spans},
        {"gap through stages", test_gap_through_stages},
        {"pours", test_pours},
        {"thin slab", test_thin_slab},
        {"torque of the steel", test_torque_of_the_steel},
        {"memory", test_memory},
    };
    return RUN_SUITE("stages", cases);
}
