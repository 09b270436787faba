/* test_slab_casting.c - a slab while it is cast, against beams that are solved by hand. */
#include <string.h>

#include "sillspan/composite.h"
#include "sillspan/memory.h"
#include "sillspan/slab_casting.h"
#include "support/make_bridge.h"
#include "support/suite.h"

#define I_BARE 1.7e-3
#define S_BOTTOM (I_BARE / 0.28)
#define S_TOP (I_BARE / 0.22)
#define FY 2.5e8
#define PEOPLE 2.4e3
#define TOLERANCE 1e-9

/* Beams of weightless steel under a slab, one or two cars of one line or two. */
typedef struct cast_bridge {
    made_bridge made;
    ss_slab_line lines[4];
    ss_pour pours[2];
    ss_slab_casting casting;
    ss_slab_checks checks;
    ss_arena arena;
    double length;
} cast_bridge;

static void start(cast_bridge *d, double length) {
    memset(d, 0, sizeof *d);
    made_start(&d->made, 0.7);
    ss_bridge *const b = &d->made.bridge;
    const int section = hand_section(b, I_BARE, 2.2e-4, 0.0, 0.0);
    b->sections[section].set_S_bottom = S_BOTTOM;
    b->sections[section].set_S_top = S_TOP;
    b->roadway_left = -1.0;
    b->roadway_right = 1.0;
    d->length = length;
    d->checks.arena = &d->arena;
    b->slab = (ss_slab){.given = true,
                        .x1 = length,
                        .thickness = 0.16,
                        .fc = 2.8e7,
                        .density = 2.4e4,
                        .E = 2.5e10,
                        .n = (double)NAN,
                        .long_factor = 3.0,
                        .construction = PEOPLE,
                        .joint = SS_SLAB_JOINT_OPEN,
                        .joints_hold_wet = true,
                        .joint_left = (double)NAN,
                        .pours = d->pours,
                        .pour_count = 1,
                        .lines = d->lines};
}

/* A car from y to y + 2.4; the slab reaches to its right edge. */
static void add_car(cast_bridge *d, const char *name, double y) {
    ss_slab *const slab = &d->made.bridge.slab;
    hand_car(&d->made.bridge, name, 0.0, d->length, y, y + 2.4);
    slab->y1 = y + 2.4;
    d->pours[0] = (ss_pour){"all", 0.0, d->length, slab->y0, slab->y1};
}

static int add_line(cast_bridge *d, double y, double width) {
    const int line = hand_line(&d->made.bridge, SS_ROLE_MAIN, "girder", y, 0);
    d->lines[line] =
        (ss_slab_line){.composite = true, .width = width, .y0 = y - 0.5 * width, .y1 = y + 0.5 * width};
    return line;
}

static void load(cast_bridge *d, ss_dead_when when, double w, double y) {
    ss_bridge *const b = &d->made.bridge;
    b->dead_loads[b->dead_load_count++] =
        (ss_dead_load){"load", SS_COMPONENT_DC, false, w, 0.0, d->length, y, y, when, 0};
}

static void solve(cast_bridge *d) {
    ss_error error = {0};
    CHECK_OK(made_solve(&d->made), &d->made.error);
    CHECK_OK(ss_slab_casting_compute(&d->made.permanent, &d->arena, &d->checks, &d->casting, &error), &error);
}

static void finish(cast_bridge *d) {
    ss_arena_destroy(&d->arena);
    made_free(&d->made);
}

/* One car of one line in the middle, on two supports. */
static void start_span(cast_bridge *d, double length, double from, double to) {
    start(d, length);
    add_car(d, "north", 0.0);
    add_line(d, 1.2, 2.4);
    hand_pad(&d->made.bridge, 0, from, 0.5);
    hand_pad(&d->made.bridge, 0, to, 0.5);
}

static double EI(const cast_bridge *d) {
    return d->made.bridge.steels[0].E * I_BARE;
}

static const ss_casting_member *bent(const cast_bridge *d) {
    for (int i = 0; i < d->casting.member_count; i++) {
        if (d->casting.members[i].effect.kind == SS_EFFECT_MOMENT) {
            return &d->casting.members[i];
        }
    }
    CU_FAIL_FATAL("no member is bent");
    return NULL;
}

/* ---- simple span --------------------------------------------------------------------------------------- */

static void test_stages(void) {
    const double L = 14.0, w[3] = {2.3e3, 9.1e3, 3.7e3};
    cast_bridge d;
    start_span(&d, L, 0.0, L);
    load(&d, SS_DEAD_STAYS, w[0], 1.2);
    load(&d, SS_DEAD_WET, w[1], 1.2);
    load(&d, SS_DEAD_LATER, w[2], 1.2);
    load(&d, SS_DEAD_REMOVED, 1.9e3, 1.2);
    solve(&d);
    ss_section_properties steel;
    ss_slab_flange flange;
    ss_composite_properties whole;
    ss_error error;
    const ss_bridge *const b = &d.made.bridge;
    const ss_slab_stage later = {1, true};
    CHECK_OK(ss_bridge_line_section(b, 0, 7.0, false, &steel), &error);
    CU_ASSERT_TRUE_FATAL(ss_slab_flange_at(b, 0, 7.0, false, later, &flange));
    CHECK_OK(ss_composite_at(&steel, &flange, false, &whole, &error), &error);
    CU_ASSERT_EQUAL_FATAL(d.casting.set_count, 1);
    CU_ASSERT_EQUAL_FATAL(d.casting.step_count, 3);
    CHECK_CLOSE(d.casting.sets[0].x, 0.5 * L, TOLERANCE);
    double moment = 0.0, bottom = 0.0, top = 0.0;
    for (int i = 0; i < 3; i++) {
        const ss_casting_step *const s = &d.casting.steps[i];
        const double M = w[i] * L * L / 8.0;
        const double I = i == 2 ? whole.I : I_BARE;
        CU_ASSERT_EQUAL(s->composite, i == 2);
        CHECK_CLOSE(s->moment, M, TOLERANCE);
        CHECK_CLOSE(s->bottom, i == 2 ? M * whole.z / I : M / S_BOTTOM, TOLERANCE);
        CHECK_CLOSE(s->top, i == 2 ? -M * (0.5 - whole.z) / I : -M / S_TOP, TOLERANCE);
        CHECK_CLOSE(s->sag, 5.0 * w[i] * pow(L, 4.0) / (384.0 * b->steels[0].E * I), TOLERANCE);
        moment += M;
        bottom += s->bottom;
        top += s->top;
        CHECK_CLOSE(s->moment_sum, moment, TOLERANCE);
        CHECK_CLOSE(s->bottom_sum, bottom, TOLERANCE);
        CHECK_CLOSE(s->top_sum, top, TOLERANCE);
    }
    CHECK_CLOSE(d.casting.sets[0].sag, d.casting.steps[1].sag, TOLERANCE);
    CHECK_CLOSE(d.casting.sets[0].camber, d.casting.steps[1].sag + d.casting.steps[2].sag, TOLERANCE);
    CHECK_CLOSE(d.casting.removed, 1.9e3 * L, TOLERANCE);
    CHECK_CLOSE(d.casting.added, (w[1] + w[2]) * L, TOLERANCE);
    CHECK_CLOSE(d.casting.wet, w[1] * L, TOLERANCE);
    CU_ASSERT_EQUAL_FATAL(d.casting.bearing_count, 2);
    for (int i = 0; i < 2; i++) {
        CHECK_CLOSE(d.casting.bearings[i].before, (w[0] + 1.9e3) * L / 2.0, TOLERANCE);
        CHECK_CLOSE(d.casting.bearings[i].after, (w[0] + w[1] + w[2]) * L / 2.0, TOLERANCE);
        CU_ASSERT_EQUAL(d.casting.bearings[i].opens, -1);
    }
    finish(&d);
}

/* 1.25 of the dead load and 1.5 of people over 2.4 m of width, against the yield moment; the web's area is
 * not known. */
static void test_wet_members(void) {
    const double L = 14.0, old = 2.3e3, wet = 9.1e3;
    cast_bridge d;
    start_span(&d, L, 0.0, L);
    load(&d, SS_DEAD_STAYS, old, 1.2);
    load(&d, SS_DEAD_WET, wet, 1.2);
    d.made.bridge.rating.condition = 0.9;
    solve(&d);
    const ss_casting_member *const m = bent(&d);
    const double dead = 1.25 * (old + wet) * L * L / 8.0, people = 1.5 * PEOPLE * 2.4 * L * L / 8.0;
    CHECK_CLOSE(m->dead, dead, TOLERANCE);
    CHECK_CLOSE(m->people, people, TOLERANCE);
    CHECK_CLOSE(m->demand, dead + people, TOLERANCE);
    CHECK_CLOSE(m->capacity, 0.9 * FY * S_BOTTOM, TOLERANCE);
    CU_ASSERT_TRUE(m->sags && !m->composite);
    CHECK_CLOSE(m->effect.at, 0.5 * L, TOLERANCE);
    const ss_slab_check *const worst = ss_slab_checks_worst(&d.checks, SS_SLAB_PART_CASTING);
    CU_ASSERT_PTR_NOT_NULL_FATAL(worst);
    CHECK_CLOSE(ss_slab_check_use(worst), m->demand / m->capacity, TOLERANCE);
    CU_ASSERT_STRING_EQUAL(worst->where, "girder of car north at 7 m, slab wet");
    CU_ASSERT_EQUAL(ss_slab_checks_unknown(&d.checks), 1);
    finish(&d);
}

/* A level surface over the sag w L4 / (120 EI), in the mean. */
static void test_thicker(void) {
    const double L = 12.6, wet = 8.7e3;
    cast_bridge d;
    start_span(&d, L, 0.0, L);
    load(&d, SS_DEAD_WET, wet, 1.2);
    solve(&d);
    const double mean = wet * pow(L, 4.0) / (120.0 * EI(&d));
    CHECK_CLOSE(d.casting.cars[0].area, 2.4 * L, TOLERANCE);
    CHECK_CLOSE(d.casting.thicker, mean, TOLERANCE);
    CHECK_CLOSE(d.casting.ponded, 2.4e4 * 2.4 * L * mean, TOLERANCE);
    const double share = d.casting.ponded / (wet * L);
    CHECK_CLOSE(d.casting.ponded_more, d.casting.ponded / (1.0 - share), TOLERANCE);
    CHECK_CLOSE(d.casting.sets[0].sag, 5.0 * wet * pow(L, 4.0) / (384.0 * EI(&d)), TOLERANCE);
    CHECK_CLOSE(d.casting.sets[0].sag_x, 0.5 * L, TOLERANCE);
    CU_ASSERT_EQUAL(d.casting.cars[0].tilt_stage, -1);
    finish(&d);
}

/* Part of that with shear deformation: w L2 / (12 GA) more. */
static void test_thicker_by_shear(void) {
    const double L = 9.1, wet = 8.7e3, area = 0.004;
    cast_bridge d;
    start_span(&d, L, 0.0, L);
    d.made.bridge.sections[0].set_shear_area = area;
    load(&d, SS_DEAD_WET, wet, 1.2);
    solve(&d);
    const double GA = d.made.bridge.steels[0].G * area;
    CHECK_CLOSE(d.casting.thicker, wet * pow(L, 4.0) / (120.0 * EI(&d)) + wet * L * L / (12.0 * GA),
                TOLERANCE);
    finish(&d);
}

/* ---- patterns ------------------------------------------------------------------------------------------ */

/* Over a span with an overhang people stand in the span alone for its moment, and on the overhang for the
 * moment over the support. */
static void test_people_are_adverse(void) {
    const double L = 15.4, at = 11.2, q = 1.5 * PEOPLE * 2.4;
    cast_bridge d;
    start_span(&d, L, 0.0, at);
    solve(&d);
    CHECK_CLOSE(bent(&d)->people, q * at * at / 8.0, TOLERANCE);
    CU_ASSERT_TRUE(bent(&d)->sags);
    finish(&d);
    start_span(&d, L, 0.0, 7.0);
    solve(&d);
    const ss_casting_member *const m = bent(&d);
    CHECK_CLOSE(m->people, -q * (L - 7.0) * (L - 7.0) / 2.0, TOLERANCE);
    CHECK_CLOSE(m->demand, q * (L - 7.0) * (L - 7.0) / 2.0, TOLERANCE);
    CU_ASSERT_FALSE(m->sags);
    CHECK_CLOSE(m->effect.at, 7.0, TOLERANCE);
    finish(&d);
}

/* Two lines that nothing ties together: people on one half of the car come to one of them. */
static void test_half_of_a_car(void) {
    const double L = 11.2;
    cast_bridge d;
    start(&d, L);
    add_car(&d, "north", 0.0);
    for (int i = 0; i < 2; i++) {
        const int line = add_line(&d, 0.6 + 1.2 * i, 1.2);
        hand_pad(&d.made.bridge, line, 0.0, 0.3);
        hand_pad(&d.made.bridge, line, L, 0.3);
    }
    load(&d, SS_DEAD_WET, 5.0e3, 1.8);
    solve(&d);
    /* Each half has its middle at a line, so that by the lever nothing of it comes to the other. */
    CHECK_CLOSE(bent(&d)->people, 1.5 * PEOPLE * 1.2 * L * L / 8.0, TOLERANCE);
    const double sag = 5.0 * 5.0e3 * pow(L, 4.0) / (384.0 * EI(&d));
    CHECK_CLOSE(d.casting.cars[0].tilt, sag / 1.2, TOLERANCE);
    CHECK_CLOSE(d.casting.cars[0].tilt_x, 0.5 * L, TOLERANCE);
    finish(&d);
}

/* ---- pours -----------------------------------------------------------------------------------------------
 */

/* Two cars side by side, one after the other: the step between them is the sag of the first, and is gone. */
static void test_step_between_cars(void) {
    const double L = 12.6, wet = 8.1e3;
    cast_bridge d;
    start(&d, L);
    for (int i = 0; i < 2; i++) {
        add_car(&d, i == 0 ? "north" : "south", 2.5 * i);
        const int line = add_line(&d, 1.2 + 2.5 * i, 2.4);
        hand_pad(&d.made.bridge, line, 0.0, 0.5);
        hand_pad(&d.made.bridge, line, L, 0.5);
    }
    ss_bridge *const b = &d.made.bridge;
    b->slab.pour_count = 2;
    for (int i = 0; i < 2; i++) {
        d.pours[i] = (ss_pour){i == 0 ? "first" : "second", 0.0, L, i == 0 ? 0.0 : 2.45, i == 0 ? 2.45 : 4.9};
        load(&d, SS_DEAD_WET, wet, 1.2 + 2.5 * i);
        b->dead_loads[i].pour = i;
    }
    solve(&d);
    const double sag = 5.0 * wet * pow(L, 4.0) / (384.0 * EI(&d));
    CU_ASSERT_EQUAL_FATAL(d.casting.gap_count, 1);
    CHECK_CLOSE(d.casting.gaps[0].step, -sag, TOLERANCE);
    CHECK_CLOSE(d.casting.gaps[0].x, 0.5 * L, TOLERANCE);
    CU_ASSERT_STRING_EQUAL(d.made.permanent.stages[d.casting.gaps[0].stage].name, "first");
    CHECK_CLOSE(d.casting.thicker, wet * pow(L, 4.0) / (120.0 * EI(&d)), TOLERANCE);
    finish(&d);
}

/* Of two equal spans the first is cast by itself: the far end lifts when 7/16, -1/16 of w l and 3/8 of what
 * was there leave nothing. */
static void test_bearing_opens(void) {
    const double L = 16.8, old = 1.0e3, wet = 9.0e3, l = L / 2.0;
    cast_bridge d;
    start_span(&d, L, 0.0, l);
    hand_pad(&d.made.bridge, 0, L, 0.5);
    ss_bridge *const b = &d.made.bridge;
    for (int i = 0; i < 3; i++) b->bearings[i].contact = true;
    b->slab.pour_count = 2;
    d.pours[0].x1 = l;
    d.pours[1] = (ss_pour){"second", l, L, 0.0, 2.4};
    load(&d, SS_DEAD_STAYS, old, 1.2);
    load(&d, SS_DEAD_WET, wet, 1.2);
    load(&d, SS_DEAD_WET, wet, 1.2);
    b->dead_loads[1].x1 = b->dead_loads[2].x0 = l;
    b->dead_loads[2].pour = 1;
    solve(&d);
    const ss_casting_bearing *const far = &d.casting.bearings[2];
    CHECK_CLOSE(far->before, 0.375 * old * l, TOLERANCE);
    CU_ASSERT_EQUAL(far->opens, 1);
    CU_ASSERT_TRUE(far->opening > 0.0 && !far->open_today);
    CU_ASSERT_EQUAL(d.casting.bearings[0].opens, -1);
    double after = 0.0;
    for (int i = 0; i < 3; i++) after += d.casting.bearings[i].after;
    CHECK_CLOSE(after, (old + wet) * L, TOLERANCE);
    finish(&d);
}

/* A second pour beside the first, which has hardened on the line: first yield with what the first has left in
 * the bare steel, on the section of load that stays. */
static void test_second_pour(void) {
    const double L = 12.6, first = 4.0e3, second = 2.2e4;
    cast_bridge d;
    start_span(&d, L, 0.0, L);
    ss_bridge *const b = &d.made.bridge;
    b->slab.y1 = 3.0;
    b->slab.pour_count = 2;
    d.pours[1] = (ss_pour){"edge", 0.0, L, 2.4, 3.0};
    load(&d, SS_DEAD_WET, first, 1.2);
    load(&d, SS_DEAD_WET, second, 1.2);
    b->dead_loads[1].pour = 1;
    solve(&d);
    ss_section_properties steel;
    ss_slab_flange flange;
    ss_composite_properties whole;
    ss_error error;
    CHECK_OK(ss_bridge_line_section(b, 0, 6.0, false, &steel), &error);
    CU_ASSERT_TRUE_FATAL(ss_slab_flange_at(b, 0, 6.0, false, (ss_slab_stage){1, true}, &flange));
    CHECK_OK(ss_composite_at(&steel, &flange, false, &whole, &error), &error);
    const double M = 1.25 * first * L * L / 8.0;
    const double bottom = M + (FY - M / S_BOTTOM) * whole.I / whole.z;
    const double top = M + (FY - M / S_TOP) * whole.I / fabs(0.5 - whole.z);
    const ss_casting_member *const m = bent(&d);
    CU_ASSERT_TRUE(m->composite);
    CHECK_CLOSE(m->dead, M + 1.25 * second * L * L / 8.0, TOLERANCE);
    CHECK_CLOSE(m->people, 1.5 * PEOPLE * 3.0 * L * L / 8.0, TOLERANCE);
    CHECK_CLOSE(m->capacity, fmin(bottom, top), TOLERANCE);
    finish(&d);
}

/* A prop in the middle has 5/8 of the wet concrete, and there is less sag. */
static void test_prop(void) {
    const double L = 12.6, wet = 8.1e3;
    ss_shore shore = {.line = 0, .x = 0.5 * L};
    cast_bridge d;
    start_span(&d, L, 0.0, L);
    d.made.bridge.slab.shores = &shore;
    d.made.bridge.slab.shore_count = 1;
    load(&d, SS_DEAD_STAYS, 2.0e3, 1.2);
    load(&d, SS_DEAD_WET, wet, 1.2);
    solve(&d);
    CU_ASSERT_EQUAL(d.casting.prop, 0);
    CHECK_CLOSE(d.casting.prop_force, 0.625 * wet * L, TOLERANCE);
    /* Two spans l: w l5 / (120 EI) under each, less M l3 / (24 EI) of the moment w l2 / 8 over the prop. */
    const double l = 0.5 * L;
    CHECK_CLOSE(d.casting.thicker, wet * pow(l, 4.0) * (1.0 / 120.0 - 1.0 / 192.0) / EI(&d), TOLERANCE);
    finish(&d);
}

/* ---- formwork ------------------------------------------------------------------------------------------ */

static void test_formwork(void) {
    const double L = 11.9, t = 0.008, span = 1.2, weight = 600.0;
    cast_bridge d;
    start(&d, L);
    add_car(&d, "north", 0.0);
    for (int i = 0; i < 2; i++) {
        const int line = add_line(&d, 0.6 + span * i, 1.2);
        hand_pad(&d.made.bridge, line, 0.0, 0.3);
        hand_pad(&d.made.bridge, line, L, 0.3);
    }
    d.made.bridge.slab.form = (ss_slab_form){.name = "plate", .thickness = t, .steel = 0, .weight = weight};
    solve(&d);
    const double wet = 0.16 * 2.4e4 + weight;
    const ss_casting_form *const f = &d.casting.form;
    CU_ASSERT_TRUE(d.casting.has_form);
    CHECK_CLOSE(f->span, span, TOLERANCE);
    CHECK_CLOSE(f->moment, (1.25 * wet + 1.5 * PEOPLE) * span * span / 8.0, TOLERANCE);
    CHECK_CLOSE(f->capacity, FY * t * t / 6.0, TOLERANCE);
    CHECK_CLOSE(f->sag, 5.0 * wet * pow(span, 4.0) / (384.0 * 2.0e11 * t * t * t / 12.0), TOLERANCE);
    finish(&d);
    start_span(&d, L, 0.0, L);
    d.made.bridge.slab.form = (ss_slab_form){.name = "plate", .steel = -1};
    solve(&d);
    CU_ASSERT_TRUE(d.casting.has_form);
    CU_ASSERT_PTR_NOT_NULL(d.casting.form.why);
    CU_ASSERT_TRUE(ss_slab_checks_unknown(&d.checks) >= 2);
    finish(&d);
}

/* ---- memory -------------------------------------------------------------------------------------------- */

static void test_out_of_memory(void) {
    const double L = 11.9;
    cast_bridge d;
    start_span(&d, L, 0.0, L);
    load(&d, SS_DEAD_WET, 5.0e3, 1.2);
    CHECK_OK(made_solve(&d.made), &d.made.error);
    const long live = ss_memory_live();
    ss_status status = SS_ERROR_MEMORY;
    for (long n = 0; status != SS_OK && n < 2000; n++) {
        ss_arena arena = {0};
        ss_slab_checks checks = {.arena = &arena};
        ss_slab_casting out = {0};
        ss_error error = {0};
        ss_memory_fail_from(n);
        status = ss_slab_casting_compute(&d.made.permanent, &arena, &checks, &out, &error);
        ss_memory_fail_from(-1);
        CU_ASSERT(status == SS_OK || (status == SS_ERROR_MEMORY && out.set_count == 0));
        ss_arena_destroy(&arena);
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    finish(&d);
}

/* Without a slab there is nothing to look at. */
static void test_no_slab(void) {
    cast_bridge d;
    start_span(&d, 12.0, 0.0, 12.0);
    d.made.bridge.slab = (ss_slab){0};
    solve(&d);
    CU_ASSERT_EQUAL(d.casting.set_count + d.casting.member_count + d.checks.count, 0);
    finish(&d);
}

int main(void) {
    static const test_case cases[] = {{"stages", test_stages},
                                      {"members while it is wet", test_wet_members},
                                      {"what a level surface adds", test_thicker},
                                      {"the same with shear", test_thicker_by_shear},
                                      {"people are adverse", test_people_are_adverse},
                                      {"half of a car", test_half_of_a_car},
                                      {"step between cars", test_step_between_cars},
                                      {"a bearing opens", test_bearing_opens},
                                      {"a second pour", test_second_pour},
                                      {"a prop", test_prop},
                                      {"formwork", test_formwork},
                                      {"out of memory", test_out_of_memory},
                                      {"no slab", test_no_slab}};
    return RUN_SUITE("slab casting", cases);
}
