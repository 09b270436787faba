/* test_bracing.c - what holds a compressed flange sideways, on a car built by hand. */
#include "assess/bracing.h"

#include <string.h>

#include "support/hand_bridge.h"
#include "support/suite.h"

typedef struct car {
    ss_bridge bridge;
    hand_room room;
    int sill, stringer, edge;
} car;

/* 20 m long: a sill 1 m deep in the middle, a stringer and an edge, floor beams 0.4 m deep at 3, 8 and 15 m,
 * and bearings under the sill at 2 and 18 m. */
static void build(car *c) {
    memset(c, 0, sizeof *c);
    ss_bridge *const b = &c->bridge;
    hand_start(b, &c->room, 2.0e11, 8.0e10, 1.0);
    const int deep = hand_section(b, 1e-3, 1e-4, 0.01, 900.0);
    b->sections[deep].depth = 1.0;
    const int cross = hand_section(b, 1e-4, 1e-5, 0.005, 300.0);
    b->sections[cross].depth = 0.4;
    hand_car(b, "lone", 0.0, 20.0, 0.0, 3.0);
    c->edge = hand_line(b, SS_ROLE_EXTERIOR, "edge", 0.2, cross);
    c->stringer = hand_line(b, SS_ROLE_STRINGER, "stringer", 0.9, cross);
    c->sill = hand_line(b, SS_ROLE_MAIN, "sill", 1.5, deep);
    hand_beam(b, 3.0, cross);
    hand_beam(b, 8.0, cross);
    hand_beam(b, 15.0, cross);
    hand_bearing(b, c->sill, 2.0);
    hand_bearing(b, c->sill, 18.0);
    for (int i = 0; i < b->line_count; i++) {
        b->lines[i].unbraced = (double)NAN;
        b->lines[i].Cb = 1.0;
    }
}

static double line_length(const car *c, int line, double x, bool before, bool top) {
    const ss_effect effect = {
        .member = SS_MEMBER_LINE, .index = line, .at = x, .before = before, .kind = SS_EFFECT_MOMENT};
    return ss_bracing_at(&c->bridge, &effect, top).length;
}

static void test_top_flange_of_lines(void) {
    car c;
    build(&c);
    CHECK_CLOSE(line_length(&c, c.stringer, 5.0, false, true), 5.0, 1e-12);
    CHECK_CLOSE(line_length(&c, c.stringer, 8.0, true, true), 5.0, 1e-12);
    CHECK_CLOSE(line_length(&c, c.stringer, 8.0, false, true), 7.0, 1e-12);
    /* To the end beyond the last of them; a bearing holds the line that rests on it. */
    CHECK_CLOSE(line_length(&c, c.stringer, 17.0, false, true), 5.0, 1e-12);
    CHECK_CLOSE(line_length(&c, c.sill, 17.0, false, true), 3.0, 1e-12);
    CHECK_CLOSE(line_length(&c, c.sill, 19.0, false, true), 2.0, 1e-12);
    CHECK_CLOSE(line_length(&c, c.sill, 2.5, false, true), 1.0, 1e-12);
}

/* A floor beam of 0.4 m does not hold the foot of a sill 1 m deep, and does that of a stringer. */
static void test_bottom_flange_of_lines(void) {
    car c;
    build(&c);
    CHECK_CLOSE(line_length(&c, c.sill, 9.0, false, false), 16.0, 1e-12);
    CHECK_CLOSE(line_length(&c, c.stringer, 9.0, false, false), 7.0, 1e-12);
}

static void test_deck_and_given_lengths(void) {
    car c;
    build(&c);
    c.bridge.deck.holds_lines = true;
    CU_ASSERT_EQUAL(line_length(&c, c.stringer, 9.0, false, true), 0.0);
    CHECK_CLOSE(line_length(&c, c.stringer, 9.0, false, false), 7.0, 1e-12);
    /* One that spans to floor beams does not lie on the lines. */
    c.bridge.deck.along = true;
    CHECK_CLOSE(line_length(&c, c.stringer, 9.0, false, true), 7.0, 1e-12);
    c.bridge.lines[c.stringer].unbraced = 1.3;
    c.bridge.lines[c.stringer].Cb = 1.14;
    const ss_effect effect = {
        .member = SS_MEMBER_LINE, .index = c.stringer, .at = 9.0, .kind = SS_EFFECT_MOMENT};
    const ss_bracing_stretch held = ss_bracing_at(&c.bridge, &effect, true);
    CU_ASSERT_EQUAL(held.length, 1.3);
    CU_ASSERT_EQUAL(held.Cb, 1.14);
    CU_ASSERT_STRING_EQUAL(held.held, "as given");
}

/* Lines hold the top of a floor beam, girders its foot. */
static void test_floor_beams(void) {
    car c;
    build(&c);
    const ss_effect effect = {.member = SS_MEMBER_BEAM, .index = 1, .at = 1.0, .kind = SS_EFFECT_MOMENT};
    CHECK_CLOSE(ss_bracing_at(&c.bridge, &effect, true).length, 0.6, 1e-12);
    CHECK_CLOSE(ss_bracing_at(&c.bridge, &effect, false).length, 1.3, 1e-12);
}

int main(void) {
    static const test_case cases[] = {
        {"top flange of lines", test_top_flange_of_lines},
        {"bottom flange of lines", test_bottom_flange_of_lines},
        {"deck and given lengths", test_deck_and_given_lengths},
        {"floor beams", test_floor_beams},
    };
    return RUN_SUITE("bracing", cases);
}
