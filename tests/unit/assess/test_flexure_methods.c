/* test_flexure_methods.c - sections in bending by the older methods, given properties, overriding values, and
 * what cannot be told. */
#include "flexure_samples.h"
#include "model/section_loss.h"

/* ---- older methods ----------------------------------------------------------------------------------- */

/* W24x76 held every 18 ft, by hand from 10.48.4.1: Iyc 0.68 x 8.99^3 / 12 = 41.17, J 2.525 (as drawn),
 * d 23.92, L 216: 91e6 x 41.17 / 216 x sqrt(0.772 x 2.525 / 41.17 + 9.87 x (23.92 / 216)^2) = 91e6 x 0.19060
 * x 0.41065 = 7122 kip-in, more than 36 x 175; every 30 ft 91e6 x 0.11436 x sqrt(0.04735 + 0.04358) = 3138
 * kip-in. Over FS 1.82: 1724; over 1.34: 2342. */
static void test_older_lateral(void) {
    ss_section s;
    sample_i_beam(&s, 23.92, 8.99, 0.680, 0.440);
    ss_flexure_case c = bend(&s, 36.0, true, 18.0);
    expect(3, &c, 36.0 * 175.0, 0.01, "yield");
    expect(4, &c, 0.55 * 36.0 * 175.0, 0.01, "share of Fy");
    c.unbraced = 30.0 * FOOT;
    expect(3, &c, 3138.0, 0.001, "10.48.4.1");
    expect(4, &c, 1724.0, 0.001, "6B.5.2.1");
    ss_resistance found;
    CU_ASSERT_EQUAL(ss_flexure_asr(&c, 0.75, &found, NULL), SS_OK);
    CHECK_CLOSE(found.value / (KIP * INCH), 2342.0, 0.001);
}

/* Plate girder held all along, 50 ksi, by hand: Dc / tw 77.26; lambda 12 500 as Dc is more than half of D: 12
 * 500 / sqrt(50 000) = 55.90; Dc tw / Afc 1.207: Rb = 1 - 0.002 x 1.207 x (77.26 - 55.90) = 0.9484.
 * Allowable: 2 Dc / tw 154.5, so (23 000 / 154.5)^2 = 22 157 psi, less than 27 500. */
static void test_older_web(void) {
    ss_section s;
    sample_uneven_i(&s, (double[]){18.0, 1.375}, (double[]){0.5, 69.0}, (double[]){16.0, 1.0});
    const ss_flexure_case c = bend(&s, 50.0, true, 0.0);
    expect(3, &c, 0.9484 * 50.0 * 1580.8, 0.002, "less what the web sheds");
    expect(4, &c, 22.157 * 1580.8, 0.002, "10.34.3");
}

/* 10.48.4.1 does not reach a flange with less than a tenth of Iy: the rule of LRFD takes its place. */
static void test_older_uneven(void) {
    ss_section s;
    sample_uneven_i(&s, (double[]){16.0, 0.75}, (double[]){0.5, 20.0}, (double[]){6.0, 0.75});
    const ss_flexure_case c = bend(&s, 36.0, true, 25.0);
    CU_ASSERT_PTR_NOT_NULL(strstr(resist(3, &c).rule, "6.10.8.2.3"));
    CHECK_CLOSE(resist(3, &c).value, resist(0, &c).value, 0.05);
    CHECK_CLOSE(resist(4, &c).value, 0.55 * resist(0, &c).value, 0.05);
}

/* ---- what cannot be told ----------------------------------------------------------------------------- */

static void test_given_properties(void) {
    ss_section s;
    sample_start(&s, SS_TORSION_OPEN);
    s.shape = SS_SHAPE_GIVEN;
    s.set_I = 900.0 * INCH4;
    s.set_J = 2.0 * INCH4;
    s.set_S_top = 91.3 * INCH3;
    s.set_S_bottom = 84.7 * INCH3;
    s.set_Z = 101.0 * INCH3;
    const ss_flexure_case c = bend(&s, 36.0, true, 25.0);
    for (int method = 0; method < METHODS; method++) {
        const ss_resistance found = resist(method, &c);
        if (method == 1) {
            CU_ASSERT(isnan(found.value));
            CU_ASSERT_PTR_NOT_NULL(strstr(found.why, "plates are not known"));
            continue;
        }
        CHECK_CLOSE(found.value / (KIP * INCH), (method == 4 ? 0.55 : 1.0) * 36.0 * 84.7, 1e-9);
        CU_ASSERT_STRING_EQUAL(found.rule, SS_FLEXURE_UNCHECKED);
    }
    s.set_S_top = (double)NAN;
    for (int method = 0; method < METHODS; method++) {
        CU_ASSERT(isnan(resist(method, &c).value));
        CU_ASSERT_PTR_NOT_NULL(strstr(resist(method, &c).why, "section moduli"));
    }
}

/* Overriding values are what counts: S, Z and J. */
static void test_overrides(void) {
    ss_section s;
    sample_sill(&s, SS_TORSION_CLOSED);
    s.set_S_top = 251.0 * INCH3;
    ss_flexure_case c = bend(&s, 36.0, true, 0.0);
    expect(0, &c, 36.0 * 251.0, 1e-9, "Fy S_c");
    c.unbraced = 54.0 * FOOT;
    const double stiff = resist(0, &c).value;
    s.set_J = 20.0 * INCH4;
    CU_ASSERT(resist(0, &c).value < 0.95 * stiff);
    c.unbraced = 0.0;
    c.depth = 13.0 * INCH;
    s.set_Z = 300.0 * INCH3;
    ss_section_properties p;
    CU_ASSERT_EQUAL(ss_section_at(&s, c.depth, 0.0, &p, NULL), SS_OK);
    expect(1, &c, 36.0 * p.Z / INCH3, 1e-9, "plastic");
}

/* ---- as found ---------------------------------------------------------------------------------------- */

/* Plates that got thinner are the same as plates drawn thinner: the top plate of the sill loses a quarter
 * from above, of a stacked bottom the inner plate loses an eighth of an inch. */
static void test_thinned_plates(void) {
    ss_section found;
    ss_section drawn;
    sample_sill(&found, SS_TORSION_CLOSED);
    bool picked[SS_PLATES_MAX] = {false};
    picked[1] = true;
    CU_ASSERT_EQUAL(ss_section_thin(&found, picked, 0.75), SS_OK);
    sample_box_section(&drawn, (sample_box){25.875, 20.0, 0.375, 18.0, 0.75, 13.1875, 0.3125},
                       SS_TORSION_CLOSED);
    for (int method = 0; method < METHODS; method++) {
        for (int sagging = 0; sagging < 2; sagging++) {
            const ss_flexure_case a = bend(&found, 36.0, sagging == 1, 20.0);
            const ss_flexure_case b = bend(&drawn, 36.0, sagging == 1, 20.0);
            const ss_resistance left = resist(method, &a);
            const ss_resistance right = resist(method, &b);
            CU_ASSERT(isnan(left.value) ? isnan(right.value) : fabs(left.value / right.value - 1.0) < 1e-9);
        }
    }
    sample_start(&found, SS_TORSION_OPEN);
    sample_plate(&found, 10.0, 0.5, 0.0, 0.0);
    sample_plate(&found, 8.0, 0.75, 0.0, 0.5);
    sample_plate(&found, 0.375, 14.0, 0.0, 1.25);
    sample_plate(&found, 8.0, 0.75, 0.0, 15.25);
    sample_end(&found);
    memset(picked, 0, sizeof picked);
    picked[1] = true;
    picked[2] = true;
    CU_ASSERT_EQUAL(ss_section_thin(&found, picked, 0.625 / 0.75), SS_OK);
    CU_ASSERT_EQUAL(sample_form(&found, found.depth).form, SS_FORM_I);
    CHECK_CLOSE(sample_form(&found, found.depth).bottom.outstand_ratio, 5.0 / 0.5, 1e-9);
}

/* A fifth of the whole section gone: within 2 percent of an I drawn with four fifths of each thickness, about
 * the same middle lines; what is gone of the stiffness lowers an elastic buckling moment in proportion. */
static void test_lost_shares(void) {
    ss_section whole;
    ss_section drawn;
    sample_uneven_i(&whole, (double[]){11.0, 0.60}, (double[]){0.25, 24.0}, (double[]){9.0, 0.40});
    sample_uneven_i(&drawn, (double[]){11.0, 0.48}, (double[]){0.20, 24.1}, (double[]){9.0, 0.32});
    whole.loss = 0.2;
    for (int method = 0; method < METHODS; method++) {
        for (double feet = 0.0; feet < 30.0; feet += 7.0) {
            const ss_flexure_case a = bend(&whole, 36.0, true, feet);
            const ss_flexure_case b = bend(&drawn, 36.0, true, feet);
            const ss_resistance left = resist(method, &a);
            const ss_resistance right = resist(method, &b);
            CU_ASSERT(isnan(left.value) ? isnan(right.value) : fabs(left.value / right.value - 1.0) < 0.02);
        }
    }
    whole.loss = 0.0;
    const ss_flexure_case far = bend(&whole, 36.0, true, 60.0);
    const double sound = resist(0, &far).value;
    whole.stiffness_loss = 0.3;
    CHECK_CLOSE(resist(0, &far).value, 0.7 * sound, 1e-9);
    whole.strength_loss = 0.5;
    CHECK_CLOSE(resist(0, &far).value, 0.7 * sound, 1e-9);
}

static void check_unknown(const ss_flexure_case *given, const char *why) {
    for (int method = 0; method < METHODS; method++) {
        const ss_resistance found = resist(method, given);
        CHECK_ROW(isnan(found.value), method_names[method]);
        CHECK_ROW(found.why != NULL && strstr(found.why, why) != NULL, found.why);
        CU_ASSERT_PTR_NOT_NULL(found.rule);
    }
}

static void test_what_cannot_be_told(void) {
    ss_section s;
    sample_sill(&s, SS_TORSION_CLOSED);
    const ss_flexure_case good = bend(&s, 36.0, true, 10.0);
    ss_flexure_case c = good;
    c.fy = 0.0;
    check_unknown(&c, "yield stress");
    c.fy = (double)NAN;
    check_unknown(&c, "yield stress");
    c = good;
    c.E = -1.0;
    check_unknown(&c, "moduli of elasticity");
    c = good;
    c.G = (double)INFINITY;
    check_unknown(&c, "moduli of elasticity");
    c = good;
    c.unbraced = -1.0;
    check_unknown(&c, "lateral supports");
    c.unbraced = (double)INFINITY;
    check_unknown(&c, "lateral supports");
    ss_section thin;
    sample_i_beam(&thin, 12.0, 8.0, 0.375, 0.375);
    thin.plates[2].y0 = thin.plates[2].y1;
    c = bend(&thin, 36.0, true, 10.0);
    check_unknown(&c, "no width");
    for (int method = 0; method < METHODS; method++) {
        ss_resistance out = {.value = 77.0, .rule = NULL, .why = NULL};
        ss_flexure_case shallow = good;
        shallow.depth = 1.0 * INCH;
        CU_ASSERT_EQUAL(bend_by(method, &shallow, &out, NULL), SS_ERROR_DESCRIPTION);
        CU_ASSERT_EQUAL(out.value, 77.0);
    }
    ss_resistance out;
    CU_ASSERT_EQUAL(ss_flexure_asr(&good, 0.0, &out, NULL), SS_OK);
    CU_ASSERT(isnan(out.value) && out.why != NULL);
    CU_ASSERT_EQUAL(ss_flexure_service(&good, 1.5, &out, NULL), SS_OK);
    CU_ASSERT(isnan(out.value) && out.why != NULL);
}

int main(void) {
    static const test_case cases[] = {
        {"older lateral", test_older_lateral}, {"older web", test_older_web},
        {"older uneven", test_older_uneven},   {"given properties", test_given_properties},
        {"overrides", test_overrides},         {"thinned plates", test_thinned_plates},
        {"lost shares", test_lost_shares},     {"what cannot be told", test_what_cannot_be_told},
    };
    return RUN_SUITE("flexure methods", cases);
}
