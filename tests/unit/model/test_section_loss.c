/* test_section_loss.c - sections as found, against the same sections described anew. */
#include "model/section_loss.h"
#include "section_samples.h"
#include "support/suite.h"

static ss_section_properties at(const ss_section *section, double depth_in) {
    ss_section_properties p;
    memset(&p, 0, sizeof p);
    CU_ASSERT_EQUAL(ss_section_at(section, depth_in * INCH, 76973.0, &p, NULL), SS_OK);
    return p;
}

static ss_section demo_box(double t_bottom, double depth) {
    const sample_box box = {.depth = depth,
                            .top = 20.0,
                            .t_top = 0.5,
                            .bottom = 18.0,
                            .t_bottom = t_bottom,
                            .apart = 13.1875,
                            .t_web = 0.3125};
    ss_section s;
    sample_box_section(&s, box, SS_TORSION_CLOSED);
    return s;
}

static void same_strength(const ss_section_properties *found, const ss_section_properties *anew) {
    CHECK_CLOSE(found->A, anew->A, 1e-12);
    CHECK_CLOSE(found->I, anew->I, 1e-12);
    CHECK_CLOSE(found->J, anew->J, 1e-12);
    CHECK_CLOSE(found->S_top, anew->S_top, 1e-12);
    CHECK_CLOSE(found->S_bottom, anew->S_bottom, 1e-12);
    CHECK_CLOSE(found->Z, anew->Z, 1e-12);
    CHECK_CLOSE(found->shear_area, anew->shear_area, 1e-12);
}

/* A bottom plate with 0.61 in left of 0.75: the box 0.14 in shallower with a thinner plate, at the described
 * depth and where the sill tapers. */
static void test_thinned_flange_is_the_box_with_that_plate(void) {
    ss_section found = demo_box(0.75, 26.0);
    const ss_section anew = demo_box(0.61, 25.86);
    bool picked[SS_PLATES_MAX] = {false};
    found.plates[0].name = "bottom";
    CU_ASSERT_EQUAL(ss_section_pick(&found, "botom", picked), 0);
    CU_ASSERT_EQUAL(ss_section_pick(&found, "bottom", picked), 1);
    CU_ASSERT(picked[0]);
    CU_ASSERT_EQUAL(ss_section_thin(&found, picked, 0.61 / 0.75), SS_OK);
    CU_ASSERT_DOUBLE_EQUAL(found.depth_lost / INCH, 0.14, 1e-12);
    for (double depth = 26.0; depth > 13.0; depth -= 3.3) {
        const ss_section_properties p = at(&found, depth), q = at(&anew, depth - 0.14);
        same_strength(&p, &q);
    }
}

/* Webs lose from both faces: areas and slenderness follow. */
static void test_thinned_webs(void) {
    ss_section found = demo_box(0.75, 26.0);
    bool picked[SS_PLATES_MAX] = {false};
    CU_ASSERT_EQUAL(ss_section_pick(&found, "webs", picked), 2);
    CU_ASSERT_EQUAL(ss_section_thin(&found, picked, 0.8), SS_OK);
    const ss_section_properties p = at(&found, 26.0);
    CHECK_CLOSE(p.web_thin, 0.25 * INCH, 1e-12);
    CHECK_CLOSE(p.shear_area, 2.0 * 0.25 * 24.75 * INCH2, 1e-12);
    /* By hand: I of the sound box less 2 x 0.0625 x 24.75^3 / 12 about its middle, both about their own
     * centroids. */
    const double flanges = 20.0 * 0.5 + 18.0 * 0.75, web = 2.0 * 0.25 * 24.75;
    const double z = (10.0 * 25.75 + 13.5 * 0.375 + web * 13.125) / (flanges + web);
    const double I = 20.0 * 0.125 / 12.0 + 10.0 * (25.75 - z) * (25.75 - z) + 18.0 * 0.421875 / 12.0 +
                     13.5 * (z - 0.375) * (z - 0.375) + 0.5 * 24.75 * 24.75 * 24.75 / 12.0 +
                     web * (13.125 - z) * (13.125 - z);
    CHECK_CLOSE(p.I, I * INCH4, 1e-12);
}

/* A cover plate that came off leaves the section without it, which weighs as before; one that is thinned to
 * nothing is the same. */
static void test_loose_cover_plate(void) {
    ss_section with;
    ss_section without;
    sample_start(&with, SS_TORSION_OPEN);
    sample_plate(&with, 6.0, 0.5, 0.0, 0.0);
    sample_plate(&with, 8.0, 0.75, 0.0, 0.5);
    sample_plate(&with, 0.375, 12.0, 0.0, 1.25);
    sample_plate(&with, 8.0, 0.75, 0.0, 13.25);
    sample_end(&with);
    sample_start(&without, SS_TORSION_OPEN);
    sample_plate(&without, 8.0, 0.75, 0.0, 0.0);
    sample_plate(&without, 0.375, 12.0, 0.0, 0.75);
    sample_plate(&without, 8.0, 0.75, 0.0, 12.75);
    sample_end(&without);
    const double weight = at(&with, 14.0).weight;
    const ss_section_properties anew = at(&without, 13.5);
    for (int thin = 0; thin < 2; thin++) {
        ss_section found = with;
        bool picked[SS_PLATES_MAX] = {true};
        CU_ASSERT_EQUAL(thin ? ss_section_thin(&found, picked, 0.0) : ss_section_detach(&found, picked),
                        SS_OK);
        const ss_section_properties p = at(&found, 14.0);
        same_strength(&p, &anew);
        CHECK_CLOSE(p.weight, weight, 1e-12);
    }
}

/* A box without its bottom plate is no cell any more. */
static void test_box_without_bottom_opens(void) {
    ss_section found = demo_box(0.75, 26.0);
    bool picked[SS_PLATES_MAX] = {true};
    CU_ASSERT_EQUAL(ss_section_detach(&found, picked), SS_OK);
    CU_ASSERT_EQUAL(found.torsion, SS_TORSION_OPEN);
    const double J = (20.0 * 0.125 + 2.0 * 24.75 * 0.3125 * 0.3125 * 0.3125) / 3.0;
    CHECK_CLOSE(at(&found, 26.0).J, J * INCH4, 1e-12);
}

/* Sum of b t^3 / 3 of the four plates, by hand; bending is as before. */
static void test_open_weld(void) {
    const ss_section sound = demo_box(0.75, 26.0);
    ss_section found = sound;
    found.set_J = 2000.0 * INCH4;
    CU_ASSERT_EQUAL(ss_section_open(&found), SS_OK);
    const ss_section_properties p = at(&found, 26.0), q = at(&sound, 26.0);
    const double J = (20.0 * 0.125 + 18.0 * 0.421875 + 2.0 * 24.75 * 0.3125 * 0.3125 * 0.3125) / 3.0;
    CHECK_CLOSE(p.J, J * INCH4, 1e-12);
    CHECK_CLOSE(p.I, q.I, 1e-15);
    CU_ASSERT(q.J > 500.0 * p.J);
}

/* Overriding values keep their proportion to what plates say. */
static void test_overrides_follow(void) {
    ss_section bare = demo_box(0.75, 26.0);
    ss_section given = bare;
    given.set_I = 1.1 * at(&bare, 26.0).I;
    given.set_S_bottom = 0.9 * at(&bare, 26.0).S_bottom;
    bool picked[SS_PLATES_MAX] = {true};
    CU_ASSERT_EQUAL(ss_section_thin(&bare, picked, 0.5), SS_OK);
    CU_ASSERT_EQUAL(ss_section_thin(&given, picked, 0.5), SS_OK);
    const ss_section_properties p = at(&given, 26.0), q = at(&bare, 26.0);
    CHECK_CLOSE(p.I, 1.1 * q.I, 1e-12);
    CHECK_CLOSE(p.S_bottom, 0.9 * q.S_bottom, 1e-12);
    CHECK_CLOSE(p.A, q.A, 1e-15);
}

/* A share of the whole section goes from everything but its weight; a bent one says what strength it lost. */
static void test_loss_of_the_whole(void) {
    ss_section found = demo_box(0.75, 26.0);
    const ss_section_properties sound = at(&found, 26.0);
    found.loss = 0.2;
    found.stiffness_loss = 0.5;
    found.strength_loss = 0.3;
    const ss_section_properties p = at(&found, 26.0);
    CHECK_CLOSE(p.A, 0.8 * sound.A, 1e-15);
    CHECK_CLOSE(p.I, 0.4 * sound.I, 1e-15);
    CHECK_CLOSE(p.J, 0.4 * sound.J, 1e-15);
    CHECK_CLOSE(p.S_top, 0.8 * sound.S_top, 1e-15);
    CHECK_CLOSE(p.shear_area, 0.8 * sound.shear_area, 1e-15);
    CHECK_CLOSE(p.weight, sound.weight, 1e-15);
    CU_ASSERT_EQUAL(p.strength_loss, 0.3);
}

static void test_nothing_left(void) {
    ss_section found = demo_box(0.75, 26.0);
    bool all[SS_PLATES_MAX] = {true, true, true, true};
    CU_ASSERT_EQUAL(ss_section_detach(&found, all), SS_ERROR_DESCRIPTION);
}

int main(void) {
    static const test_case cases[] = {
        {"a thinned flange is the box with that plate", test_thinned_flange_is_the_box_with_that_plate},
        {"thinned webs", test_thinned_webs},
        {"a loose cover plate", test_loose_cover_plate},
        {"a box without its bottom is open", test_box_without_bottom_opens},
        {"an open weld", test_open_weld},
        {"overriding values follow", test_overrides_follow},
        {"loss of the whole section", test_loss_of_the_whole},
        {"nothing left", test_nothing_left},
    };
    return RUN_SUITE("sections as found", cases);
}
