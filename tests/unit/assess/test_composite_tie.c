/* test_composite_tie.c - partial composite action from the pitch of connectors: what they tie by hand, and
 * the strengths that follow. */
#include "assess/composite_tie.h"

#include "sillspan/connector.h"
#include "unit/assess/composite_samples.h"

/* phi Qn of a stud of 3/4 in in concrete of 4 ksi, which its own strength limits (AASHTO LRFD 6.10.10.4.3,
 * from memory): 0.85 60 ksi pi/4 0.5625. */
#define STUD (0.85 * 60.0 * 0.25 * 3.14159265358979324 * 0.5625)

/* 60 ft of W21x50 under 60 x 8 in, studs in pairs. */
typedef struct tied {
    ss_section section;
    ss_slab_flange flange;
    ss_composite_case given;
    ss_line line;
    ss_bearing bearings[3];
    ss_bridge bridge;
} tied;

static void make(const double *bearings, int count, double pitch, tied *t) {
    *t = (tied){.line = {.x1 = 60.0 * FOOT}};
    sample_w21(&t->section);
    t->flange = sample_slab(60.0, 8.0, 0.0, 8.0, 4.0);
    t->given = sample_composite(&t->section, 50.0, true, &t->flange);
    for (int i = 0; i < count; i++) t->bearings[i].x = bearings[i] * FOOT;
    t->bridge.lines = &t->line;
    t->bridge.line_count = 1;
    t->bridge.bearings = t->bearings;
    t->bridge.bearing_count = count;
    t->bridge.slab = (ss_slab){.given = true,
                               .x1 = 60.0 * FOOT,
                               .thickness = 8.0 * INCH,
                               .fc = 4.0 * KSI,
                               .E = 3644.0 * KSI,
                               .connectors = {.diameter = 0.75 * INCH,
                                              .height = 4.0 * INCH,
                                              .tensile = 60.0 * KSI,
                                              .per_row = 2,
                                              .pitch = pitch * INCH,
                                              .partial = true}};
}

static bool tie_at(const tied *t, double x, bool before, ss_composite_tie *out) {
    const ss_effect effect = {
        .kind = SS_EFFECT_MOMENT, .member = SS_MEMBER_LINE, .at = x * FOOT, .before = before};
    return ss_composite_tie_at(&t->bridge, &effect, &t->given, out);
}

/* Rows in half of 60 ft, and in 0.4 of the 30 ft of one of two spans. */
static void test_counts(void) {
    static const double simple[2] = {0.0, 60.0};
    static const double two[3] = {0.0, 30.0, 60.0};
    static const struct {
        const double *bearings;
        int count;
        double pitch, x;
        bool before;
        int rows;
    } row[] = {{simple, 2, 24.0, 30.0, false, 15}, {simple, 2, 24.0, 3.0, false, 15},
               {simple, 2, 25.0, 30.0, false, 14}, {simple, 0, 24.0, 30.0, false, 15},
               {two, 3, 24.0, 10.0, false, 6},     {two, 3, 24.0, 30.0, true, 6},
               {two, 3, 24.0, 30.0, false, 6},     {two, 2, 40.0, 50.0, false, 3}};
    for (int i = 0; i < ENTRIES(row); i++) {
        tied t;
        ss_composite_tie tie = {0};
        make(row[i].bearings, row[i].count, row[i].pitch, &t);
        CU_ASSERT(tie_at(&t, row[i].x, row[i].before, &tie));
        CHECK_CLOSE(tie.tied, 2.0 * row[i].rows * STUD * KIP, 1e-9);
    }
}

/* Not where it is not asked for, where no pitch is given, where it hogs, or where all is tied: 735 kip of
 * steel take 33 studs, 34 in whole rows; 17 rows in 30 ft. */
static void test_full(void) {
    static const double simple[2] = {0.0, 60.0};
    tied t;
    ss_composite_tie tie;
    make(simple, 2, 24.0, &t);
    CU_ASSERT(tie_at(&t, 30.0, false, &tie));
    CHECK_CLOSE(tie.whole, 50.0 * (2.0 * 6.53 * 0.535 + (20.8 - 1.07) * 0.38) * KIP, 1e-9);
    t.bridge.slab.connectors.pitch = 30.0 * 12.0 / 17.0 * INCH;
    CU_ASSERT(!tie_at(&t, 30.0, false, &tie));
    t.bridge.slab.connectors.pitch = 30.0 * 12.0 / 15.9 * INCH;
    CU_ASSERT(tie_at(&t, 30.0, false, &tie));
    t.given.sagging = false;
    CU_ASSERT(!tie_at(&t, 30.0, false, &tie));
    t.given.sagging = true;
    t.bridge.slab.connectors.pitch = 0.0;
    CU_ASSERT(!tie_at(&t, 30.0, false, &tie));
    t.bridge.slab.connectors.pitch = 24.0 * INCH;
    t.bridge.slab.connectors.partial = false;
    CU_ASSERT(!tie_at(&t, 30.0, false, &tie));
}

/* The plastic moment by strips of the plates, and in service between steel and full action. */
static void test_strength(void) {
    static const double simple[2] = {0.0, 60.0};
    tied t;
    ss_composite_tie tie;
    make(simple, 2, 36.0, &t);
    CU_ASSERT_FATAL(tie_at(&t, 30.0, false, &tie));
    const ss_resistance full = composite_plastic(&t.given);
    ss_resistance out = full;
    CU_ASSERT_EQUAL(ss_composite_take_tie(&t.given, &tie, SS_STRENGTH_LRFD, false, &out, NULL), SS_OK);
    CHECK_CLOSE(out.value, plastic_by_strips(&t.section, 50.0 * KSI, &t.flange, tie.tied), 1e-5);
    CU_ASSERT(out.value < full.value);
    /* Never up. */
    ss_resistance less = {.value = 0.5 * out.value};
    CU_ASSERT_EQUAL(ss_composite_take_tie(&t.given, &tie, SS_STRENGTH_LRFD, false, &less, NULL), SS_OK);
    CHECK_CLOSE(less.value, 0.5 * out.value, 0.0);
    /* Service, and first yield where that is asked for. */
    const ss_resistance yield = composite_yield(&t.given, 1.0);
    ss_section_properties steel;
    CU_ASSERT_EQUAL(ss_section_at(&t.section, t.section.depth, 0.0, &steel, NULL), SS_OK);
    const double bare = 50.0 * KSI * fmin(steel.S_top, steel.S_bottom);
    const double expected = bare + sqrt(tie.tied / tie.whole) * (yield.value - bare);
    out = yield;
    CU_ASSERT_EQUAL(ss_composite_take_tie(&t.given, &tie, SS_STRENGTH_SERVICE, false, &out, NULL), SS_OK);
    CHECK_CLOSE(out.value, expected, 1e-12);
    out = yield;
    CU_ASSERT_EQUAL(ss_composite_take_tie(&t.given, &tie, SS_STRENGTH_LRFD, true, &out, NULL), SS_OK);
    CHECK_CLOSE(out.value, expected, 1e-12);
    CU_ASSERT_PTR_NOT_NULL(strstr(out.rule, "steel buildings"));
}

/* Nothing tied is the bare steel, in both. */
static void test_none(void) {
    static const double simple[2] = {0.0, 60.0};
    tied t;
    make(simple, 2, 36.0, &t);
    const ss_composite_tie none = {.tied = 0.0, .whole = 1e6};
    ss_section_properties steel;
    CU_ASSERT_EQUAL(ss_section_at(&t.section, t.section.depth, 0.0, &steel, NULL), SS_OK);
    ss_resistance out = composite_plastic(&t.given);
    CU_ASSERT_EQUAL(ss_composite_take_tie(&t.given, &none, SS_STRENGTH_LRFD, false, &out, NULL), SS_OK);
    CHECK_CLOSE(out.value, 50.0 * KSI * steel.Z, 1e-9);
    out = composite_yield(&t.given, 1.0);
    CU_ASSERT_EQUAL(ss_composite_take_tie(&t.given, &none, SS_STRENGTH_SERVICE, false, &out, NULL), SS_OK);
    CHECK_CLOSE(out.value, 50.0 * KSI * fmin(steel.S_top, steel.S_bottom), 1e-12);
    ss_resistance unknown = {.value = (double)NAN, .why = "not known"};
    CU_ASSERT_EQUAL(ss_composite_take_tie(&t.given, &none, SS_STRENGTH_SERVICE, false, &unknown, NULL),
                    SS_OK);
    CU_ASSERT(isnan(unknown.value));
}

int main(void) {
    static const test_case cases[] = {
        {"counts", test_counts},
        {"full action", test_full},
        {"strength", test_strength},
        {"nothing tied", test_none},
    };
    return RUN_SUITE("composite action in part", cases);
}
