/* test_section_form.c - forms of sections, their flanges, webs and neutral axes, against figures by hand. */
#include "base/numeric.h"
#include "form_samples.h"
#include "support/random.h"

/* ---- kinds ------------------------------------------------------------------------------------------ */

static void test_kinds(void) {
    for (int i = 0; i < ENTRIES(sketches); i++) {
        ss_section s;
        sample_sketch(&s, &sketches[i]);
        const ss_section_form f = sample_form(&s, s.depth);
        CHECK_ROW(f.form == sketches[i].form, sketches[i].name);
        CU_ASSERT(strlen(ss_form_name(f.form)) > 2);
    }
    ss_section given;
    sample_start(&given, SS_TORSION_OPEN);
    given.shape = SS_SHAPE_GIVEN;
    CU_ASSERT_EQUAL(sample_form(&given, 1.0).form, SS_FORM_UNKNOWN);
}

/* Turned upside down every section keeps its form, and top and bottom change places. */
static void test_upside_down(void) {
    for (int i = 0; i < ENTRIES(sketches); i++) {
        ss_section s;
        sample_sketch(&s, &sketches[i]);
        ss_section turned = s;
        for (int k = 0; k < s.plate_count; k++) {
            turned.plates[k].z0 = s.depth - s.plates[k].z1;
            turned.plates[k].z1 = s.depth - s.plates[k].z0;
        }
        const ss_section_form f = sample_form(&s, s.depth);
        const ss_section_form g = sample_form(&turned, s.depth);
        CHECK_ROW(f.form == g.form, sketches[i].name);
        CHECK_ROW(ss_close(f.top.rt, g.bottom.rt, 1e-9), sketches[i].name);
        CHECK_ROW(ss_close(f.top.outstand_ratio, g.bottom.outstand_ratio, 1e-9), sketches[i].name);
        CHECK_ROW(ss_close(f.bottom.clear_ratio, g.top.clear_ratio, 1e-9), sketches[i].name);
        CHECK_ROW(ss_close(f.bottom.Dc, g.top.Dc, 1e-9) || f.bottom.Dc < 1e-12, sketches[i].name);
        CHECK_ROW(ss_close(f.top.area, g.bottom.area, 1e-9), sketches[i].name);
        CHECK_ROW(ss_close(f.Cw, g.Cw, 1e-9) && ss_close(f.oblique, g.oblique, 1e-9), sketches[i].name);
        CHECK_ROW(ss_close(f.z_elastic, s.depth - g.z_elastic, 1e-9), sketches[i].name);
    }
}

/* ---- flanges by hand -------------------------------------------------------------------------------- */

/* Sill of four plates with a cover plate under the bottom and one on top that is narrower than the webs'
 * distance. Webs 5/16 in, 12-7/8 in clear. */
static void test_stacked_box(void) {
    ss_section s;
    sample_start(&s, SS_TORSION_CLOSED);
    sample_plate(&s, 22.0, 0.375, 0.0, 0.0);
    sample_plate(&s, 18.0, 0.75, 0.0, 0.375);
    sample_plate(&s, 0.3125, 24.75, -6.59375, 1.125);
    sample_plate(&s, 0.3125, 24.75, 6.59375, 1.125);
    sample_plate(&s, 20.0, 0.5, 0.0, 25.875);
    sample_plate(&s, 9.0, 0.625, 0.0, 26.375);
    sample_end(&s);
    const ss_section_form f = sample_form(&s, s.depth);
    CU_ASSERT_EQUAL(f.form, SS_FORM_BOX);
    CU_ASSERT_EQUAL(f.webs, 2);
    CHECK_CLOSE(f.bottom.width / INCH, 22.0, 1e-9);
    CHECK_CLOSE(f.bottom.thickness / INCH, 1.125, 1e-9);
    CHECK_CLOSE(f.bottom.area / INCH2, 22.0 * 0.375 + 18.0 * 0.75, 1e-9);
    CHECK_CLOSE(f.bottom.outstand / INCH, 11.0 - 6.75, 1e-9);
    /* each plate by itself: the thin cover plate reaches out furthest and spans the same width */
    CHECK_CLOSE(f.bottom.outstand_ratio, 4.25 / 0.375, 1e-9);
    CHECK_CLOSE(f.bottom.clear / INCH, 12.875, 1e-9);
    CHECK_CLOSE(f.bottom.clear_ratio, 12.875 / 0.375, 1e-9);
    CHECK_CLOSE(f.bottom.Iy / INCH4, (pow(22.0, 3.0) * 0.375 + pow(18.0, 3.0) * 0.75) / 12.0, 1e-9);
    CU_ASSERT(f.top.spans && f.bottom.spans);
    CHECK_CLOSE(f.top.outstand / INCH, 3.25, 1e-9);
    CHECK_CLOSE(f.top.outstand_ratio, 6.5, 1e-9);
    CHECK_CLOSE(f.top.clear_ratio, 12.875 / 0.5, 1e-9);
    CHECK_CLOSE(f.web_clear / INCH, 24.75, 1e-9);
    CHECK_CLOSE(f.web_total / INCH, 0.625, 1e-9);
    const double Dc = 25.875 - f.z_elastic / INCH;
    CHECK_CLOSE(f.top.Dc / INCH, Dc, 1e-9);
    CHECK_CLOSE((f.top.Dc + f.bottom.Dc) / INCH, 24.75, 1e-9);
    const double Iy = (pow(20.0, 3.0) * 0.5 + pow(9.0, 3.0) * 0.625) / 12.0;
    CHECK_CLOSE(f.top.rt / INCH, sqrt(Iy / (10.0 + 5.625 + Dc * 0.625 / 3.0)), 1e-9);
}

/* AASHTO LRFD 6.10.8.2.3: rt = bfc / sqrt(12 (1 + Dc tw / (3 bfc tfc))), written out. */
static void test_radius_of_i(void) {
    ss_section s;
    sample_uneven_i(&s, (double[]){18.0, 1.375}, (double[]){0.5, 69.0}, (double[]){16.0, 1.0});
    const ss_section_form f = sample_form(&s, s.depth);
    const double Dc = f.top.Dc / INCH;
    CHECK_CLOSE(f.top.rt / INCH, 16.0 / sqrt(12.0 * (1.0 + Dc * 0.5 / (3.0 * 16.0 * 1.0))), 1e-9);
    /* Centroid by hand: 75.25 in2, 31.74 in. */
    CU_ASSERT_DOUBLE_EQUAL(Dc, 38.63, 0.01);
}

/* Two strips below: each with its own web, a third of the compressed part. */
static void test_strips(void) {
    ss_section s;
    sample_sketch(&s, &sketches[12]);
    const ss_section_form f = sample_form(&s, s.depth);
    CU_ASSERT_FALSE(f.bottom.spans);
    CU_ASSERT(f.top.spans);
    const double Dc = f.bottom.Dc / INCH;
    CHECK_CLOSE(f.bottom.rt / INCH, sqrt(4.0 * 4.0 * 4.0 * 0.75 / 12.0 / (3.0 + 0.3125 * Dc / 3.0)), 1e-9);
    /* from the inner face of a web 6.44375 in out to 6 in in, from the outer one at 6.75625 to 10 */
    CHECK_CLOSE(f.bottom.outstand / INCH, 10.0 - 6.75625, 1e-9);
    CHECK_CLOSE(f.bottom.outstand_ratio, 3.24375 / 0.75, 1e-9);
    CU_ASSERT_EQUAL(f.bottom.clear_ratio, 0.0);
}

/* A lip at the edge counts by its own height, and a plate that carries another on at its edge is as wide as
 * both. */
static void test_lips_and_edges(void) {
    ss_section s;
    sample_start(&s, SS_TORSION_OPEN);
    sample_plate(&s, 8.0, 0.5, 0.0, 0.0);
    sample_plate(&s, 0.375, 11.0, 0.0, 0.5);
    sample_plate(&s, 6.0, 0.25, 0.0, 11.5);
    sample_plate(&s, 1.5, 0.25, 3.75, 11.5);
    sample_plate(&s, 1.5, 0.25, -3.75, 11.5);
    sample_plate(&s, 0.1, 2.0, 4.45, 9.5);
    sample_plate(&s, 0.1, 2.0, -4.45, 9.5);
    sample_end(&s);
    const ss_section_form f = sample_form(&s, s.depth);
    CU_ASSERT_EQUAL(f.form, SS_FORM_I);
    CHECK_CLOSE(f.top.outstand / INCH, 4.5 - 0.1875, 1e-9);
    CHECK_CLOSE(f.top.outstand_ratio, 2.0 / 0.1, 1e-9);
    CHECK_CLOSE(f.top.area / INCH2, 9.0 * 0.25 + 0.4, 1e-9);
}

/* ---- neutral axes, depth, faults --------------------------------------------------------------------- */

/* Both axes by filling the section in strips of 1/1000 of its depth from below. */
static void test_axes_by_strips(void) {
    for (int i = 0; i < ENTRIES(sketches); i++) {
        ss_section s;
        sample_sketch(&s, &sketches[i]);
        const ss_section_form f = sample_form(&s, s.depth);
        double area = 0.0;
        double moment = 0.0;
        double below = 0.0;
        enum { STRIPS = 20000 };
        for (int k = 0; k < STRIPS; k++) {
            const double z = (k + 0.5) * s.depth / STRIPS;
            double width = 0.0;
            for (int p = 0; p < s.plate_count; p++) {
                if (z > s.plates[p].z0 && z < s.plates[p].z1) {
                    width += s.plates[p].y1 - s.plates[p].y0;
                }
            }
            area += width * s.depth / STRIPS;
            moment += width * z * s.depth / STRIPS;
            below += z < f.z_plastic ? width * s.depth / STRIPS : 0.0;
        }
        CHECK_ROW(fabs(f.A / area - 1.0) < 1e-3, sketches[i].name);
        CHECK_ROW(fabs(f.z_elastic - moment / area) < 1e-3 * s.depth, sketches[i].name);
        CHECK_ROW(fabs(below / area - 0.5) < 1e-3, sketches[i].name);
    }
}

/* At another depth the form is that of a section drawn at that depth. */
static void test_taper(void) {
    const sample_box deep = {26.0, 20.0, 0.5, 18.0, 0.75, 13.2, 0.3125};
    sample_box shallow = deep;
    shallow.depth = 14.3;
    ss_section s;
    ss_section t;
    sample_box_section(&s, deep, SS_TORSION_CLOSED);
    sample_box_section(&t, shallow, SS_TORSION_CLOSED);
    const ss_section_form f = sample_form(&s, 14.3 * INCH);
    const ss_section_form g = sample_form(&t, 14.3 * INCH);
    CU_ASSERT_EQUAL(f.form, SS_FORM_BOX);
    CHECK_CLOSE(f.top.Dc, g.top.Dc, 1e-9);
    CHECK_CLOSE(f.top.rt, g.top.rt, 1e-9);
    CHECK_CLOSE(f.Iy, g.Iy, 1e-9);
    CHECK_CLOSE(f.web_clear / INCH, 13.05, 1e-9);
}

static void test_faults(void) {
    ss_section s;
    sample_i_beam(&s, 12.0, 8.0, 0.375, 0.375);
    ss_section_form form;
    memset(&form, 0x55, sizeof form);
    const ss_section_form before = form;
    ss_error error = {SS_OK, ""};
    CU_ASSERT_EQUAL(ss_section_form_at(&s, 0.7 * INCH, &form, &error), SS_ERROR_DESCRIPTION);
    CU_ASSERT_STRING_EQUAL(error.message, "the plates of section \"sample\" do not fit within the depth");
    CU_ASSERT_EQUAL(ss_section_form_at(&s, (double)NAN, &form, NULL), SS_ERROR_DESCRIPTION);
    s.plate_count = 0;
    CU_ASSERT_EQUAL(ss_section_form_at(&s, s.depth, &form, NULL), SS_ERROR_DESCRIPTION);
    s.plate_count = SS_PLATES_MAX + 1;
    CU_ASSERT_EQUAL(ss_section_form_at(&s, s.depth, &form, NULL), SS_ERROR_DESCRIPTION);
    CU_ASSERT_EQUAL(memcmp(&form, &before, sizeof form), 0);
    sample_i_beam(&s, 12.0, 8.0, 0.375, 0.375);
    s.plates[0].y1 = s.plates[0].y0;
    CU_ASSERT_EQUAL(sample_form(&s, s.depth).form, SS_FORM_OTHER);
    CU_ASSERT_EQUAL(sample_form(&s, s.depth).A, 0.0);
    s.plates[0].y1 = (double)NAN;
    CU_ASSERT_EQUAL(sample_form(&s, s.depth).A, 0.0);
}

/* Whatever rectangles come: every figure is a finite number, and nothing is larger than the section. */
static void test_any_plates(void) {
    uint64_t seed = 0x5ec710f0;
    int drawn = 0;
    for (int round = 0; round < 20000; round++) {
        ss_section s;
        sample_start(&s, (ss_torsion)next_below(&seed, 3));
        const int count = 1 + (int)next_below(&seed, 8);
        for (int i = 0; i < count; i++) {
            sample_plate(&s, 0.25 * (double)(1 + next_below(&seed, 40)),
                         0.25 * (double)(1 + next_below(&seed, 40)), 0.25 * (double)next_below(&seed, 60),
                         0.25 * (double)next_below(&seed, 60));
        }
        s.plates[0].z1 -= s.plates[0].z0;
        s.plates[0].z0 = 0.0;
        sample_end(&s);
        ss_section_form f;
        if (ss_section_form_at(&s, s.depth, &f, NULL) != SS_OK) {
            continue;
        }
        drawn++;
        const ss_form_flange *const flanges[2] = {&f.top, &f.bottom};
        bool good = isfinite(f.A) && isfinite(f.Cw) && isfinite(f.J) && f.Iy_least <= f.Iy * (1.0 + 1e-12) &&
                    f.oblique > 0.0 && f.oblique <= 1.0 && f.web_clear <= s.depth;
        for (int k = 0; k < 2; k++) {
            good = good && isfinite(flanges[k]->rt) && flanges[k]->rt >= 0.0 && flanges[k]->Dc >= 0.0 &&
                   flanges[k]->Dc <= s.depth && isfinite(flanges[k]->outstand_ratio) &&
                   flanges[k]->area <= f.A * (1.0 + 1e-12);
        }
        CU_ASSERT(good);
    }
    CU_ASSERT(drawn > 2000);
}

int main(void) {
    static const test_case cases[] = {
        {"kinds", test_kinds},
        {"upside down", test_upside_down},
        {"stacked box", test_stacked_box},
        {"radius of i", test_radius_of_i},
        {"strips", test_strips},
        {"lips and edges", test_lips_and_edges},
        {"axes by strips", test_axes_by_strips},
        {"taper", test_taper},
        {"faults", test_faults},
        {"any plates", test_any_plates},
    };
    return RUN_SUITE("section form", cases);
}
