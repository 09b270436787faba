/* test_flexure_any.c - what holds of bending for any section: bounds, symmetry, and that no change for the
 * worse makes it stronger. */
#include "base/numeric.h"
#include "flexure_samples.h"
#include "support/random.h"

/* ---- sections that nobody chose ---------------------------------------------------------------------- */

static double between(uint64_t *seed, double low, double high) {
    return low + (high - low) * 0.5 * (next_signed(seed) + 1.0);
}

typedef struct sizes {
    int kind;
    double depth, web, width[2], thickness[2], apart;
} sizes;

enum { KIND_I, KIND_CHANNEL, KIND_BOX, KIND_OPEN_BOX, KIND_TEE, KIND_TROUGH, KINDS };

static sizes random_sizes(uint64_t *seed, int kind) {
    return (sizes){.kind = kind,
                   .depth = between(seed, 8.0, 34.0),
                   .web = between(seed, 0.15, 0.7),
                   .width = {between(seed, 3.0, 16.0), between(seed, 3.0, 16.0)},
                   .thickness = {between(seed, 0.2, 1.1), between(seed, 0.2, 1.1)},
                   .apart = between(seed, 6.0, 14.0)};
}

static void build(ss_section *s, const sizes *z) {
    const double clear = z->depth - z->thickness[0] - z->thickness[1];
    switch (z->kind) {
    case KIND_I:
        sample_uneven_i(s, (double[]){z->width[0], z->thickness[0]}, (double[]){z->web, clear},
                        (double[]){z->width[1], z->thickness[1]});
        break;
    case KIND_CHANNEL:
        sample_channel(s, z->depth, z->web, z->width[0], z->thickness[0], z->width[1], z->thickness[1]);
        break;
    case KIND_TEE:
        sample_start(s, SS_TORSION_OPEN);
        sample_plate(s, z->web, z->depth - z->thickness[1], 0.0, 0.0);
        sample_plate(s, z->width[1], z->thickness[1], 0.0, z->depth - z->thickness[1]);
        sample_end(s);
        break;
    case KIND_TROUGH:
        sample_start(s, SS_TORSION_OPEN);
        sample_plate(s, z->apart + z->web, z->thickness[0], 0.0, 0.0);
        for (int k = -1; k <= 1; k += 2) {
            sample_plate(s, z->web, clear, 0.5 * k * z->apart, z->thickness[0]);
            sample_plate(s, 0.4 * z->width[1], z->thickness[1], 0.5 * k * z->apart,
                         z->depth - z->thickness[1]);
        }
        sample_end(s);
        break;
    default:
        sample_box_section(s,
                           (sample_box){.depth = z->depth,
                                        .top = z->apart + z->width[1],
                                        .t_top = z->thickness[1],
                                        .bottom = z->apart + z->width[0],
                                        .t_bottom = z->thickness[0],
                                        .apart = z->apart,
                                        .t_web = z->web},
                           z->kind == KIND_BOX ? SS_TORSION_CLOSED : SS_TORSION_OPEN);
        break;
    }
}

enum { ROUNDS = 400 };

/* ---- bounds ------------------------------------------------------------------------------------------ */

/* At most first yield (plastic 1.6 times), not negative, with a rule; or not-a-number and a sentence. */
static void check_bounds(const ss_flexure_case *c, const char *row) {
    ss_section_properties p;
    CU_ASSERT_EQUAL(ss_section_at(c->section, c->depth, 0.0, &p, NULL), SS_OK);
    const double My = c->fy * ss_min(p.S_top, p.S_bottom);
    for (int method = 0; method < METHODS; method++) {
        ss_working w = {.count = 0};
        ss_resistance found = {0};
        CU_ASSERT_EQUAL(bend_by(method, c, &found, &w), SS_OK);
        const ss_resistance silent = resist(method, c);
        CHECK_ROW(found.rule != NULL, row);
        CHECK_ROW(silent.value == found.value || (isnan(silent.value) && isnan(found.value)), row);
        CHECK_ROW(w.count > 4 && w.count <= SS_WORKING_MOST, row);
        if (isnan(found.value)) {
            CHECK_ROW(method == 1 && found.why != NULL, row);
            continue;
        }
        const double most = method == 1 ? 1.6 : method == 4 ? 0.55 : 1.0;
        CHECK_ROW(found.why == NULL, row);
        CHECK_ROW(found.value >= 0.0 && found.value <= most * My * (1.0 + 1e-12), row);
        CHECK_ROW(strcmp(w.steps[w.count - 1].symbol, "Mn") == 0, row);
    }
}

static void test_bounds(void) {
    for (int i = 0; i < ENTRIES(sketches); i++) {
        ss_section s;
        sample_sketch(&s, &sketches[i]);
        for (int k = 0; k < 8; k++) {
            const ss_flexure_case c = bend(&s, 36.0, k % 2 == 0, k < 2 ? 0.0 : 3.0 * k * k);
            check_bounds(&c, sketches[i].name);
        }
    }
    uint64_t seed = 0x1eaf;
    for (int round = 0; round < ROUNDS; round++) {
        const sizes z = random_sizes(&seed, round % KINDS);
        ss_section s;
        build(&s, &z);
        const ss_flexure_case c =
            bend(&s, between(&seed, 30.0, 60.0), round % 2 == 0, between(&seed, 0.0, 50.0));
        check_bounds(&c, "random");
    }
}

/* Rectangles thrown together, and depths that fit or do not: never a number that is none without a sentence.
 */
static void test_anything(void) {
    uint64_t seed = 0xf1e2;
    int seen = 0;
    for (int round = 0; round < 6000; round++) {
        ss_section s;
        sample_start(&s, (ss_torsion)next_below(&seed, 3));
        const int count = 1 + (int)next_below(&seed, 7);
        for (int i = 0; i < count; i++) {
            sample_plate(&s, 0.25 * (double)next_below(&seed, 40), 0.25 * (double)next_below(&seed, 40),
                         0.25 * (double)next_below(&seed, 60), 0.25 * (double)next_below(&seed, 60));
        }
        s.batten_width = 7.0 * INCH;
        s.batten_thickness = 0.375 * INCH;
        s.batten_spacing = 31.0 * INCH;
        sample_end(&s);
        ss_flexure_case c = bend(&s, 36.0, round % 2 == 0, 2.0 * (double)next_below(&seed, 20));
        c.depth *= next_below(&seed, 4) == 0 ? between(&seed, 0.2, 1.5) : 1.0;
        for (int method = 0; method < METHODS; method++) {
            ss_resistance found = {0};
            if (bend_by(method, &c, &found, NULL) == SS_OK) {
                seen++;
                CU_ASSERT(isnan(found.value)
                              ? found.why != NULL
                              : isfinite(found.value) && found.value >= 0.0 && found.why == NULL);
            }
        }
    }
    CU_ASSERT(seen > 1000);
}

/* ---- symmetry ---------------------------------------------------------------------------------------- */

static void turn_over(const ss_section *s, ss_section *out) {
    *out = *s;
    for (int k = 0; k < s->plate_count; k++) {
        out->plates[k].z0 = s->depth - s->plates[k].z1;
        out->plates[k].z1 = s->depth - s->plates[k].z0;
    }
    out->batten_top = !s->batten_top;
}

/* Upside down and bent the other way is the same. */
static void test_upside_down(void) {
    for (int i = 0; i < ENTRIES(sketches); i++) {
        ss_section s;
        ss_section turned;
        sample_sketch(&s, &sketches[i]);
        turn_over(&s, &turned);
        for (int k = 0; k < 6; k++) {
            const double feet = k < 2 ? 0.0 : 7.0 * k;
            const ss_flexure_case c = bend(&s, 36.0, k % 2 == 0, feet);
            const ss_flexure_case d = bend(&turned, 36.0, k % 2 != 0, feet);
            for (int method = 0; method < METHODS; method++) {
                const ss_resistance a = resist(method, &c);
                const ss_resistance b = resist(method, &d);
                CHECK_ROW(ss_close(a.value, b.value, 1e-9) || (isnan(a.value) && isnan(b.value)),
                          sketches[i].name);
            }
        }
    }
}

/* ---- no change for the worse makes it stronger -------------------------------------------------------- */

/* Farther between supports, in steps of 1 percent: never stronger, and no step of more than 6 percent (4 of
 * an elastic curve of L^-2 with room for the seams of the rules, which are below 1 percent). */
static void test_longer_is_not_stronger(void) {
    uint64_t seed = 0xace5;
    for (int round = 0; round < ROUNDS / 4; round++) {
        const sizes z = random_sizes(&seed, round % KINDS);
        ss_section s;
        build(&s, &z);
        for (int method = 0; method < METHODS; method++) {
            ss_flexure_case c = bend(&s, 36.0, (round / KINDS) % 2 == 0, 0.0);
            double last = resist(method, &c).value;
            for (double feet = 0.1; feet < 120.0; feet *= 1.01) {
                c.unbraced = feet * FOOT;
                const double next = resist(method, &c).value;
                CHECK_ROW(!(next > last * (1.0 + 1e-12)) && !(isnan(last) && !isnan(next)),
                          method_names[method]);
                CHECK_ROW(isnan(next) || next > 0.94 * last, method_names[method]);
                last = next;
            }
        }
    }
}

/* Cb above 1 helps or changes nothing; below 1, or no number, it is 1. */
static void test_moment_shape(void) {
    uint64_t seed = 0xcb;
    int helped = 0;
    for (int round = 0; round < ROUNDS; round++) {
        const sizes z = random_sizes(&seed, round % KINDS);
        ss_section s;
        build(&s, &z);
        for (int method = 0; method < METHODS; method++) {
            ss_flexure_case c = bend(&s, 36.0, true, between(&seed, 2.0, 60.0));
            const double plain = resist(method, &c).value;
            c.Cb = 1.32;
            const double shaped = resist(method, &c).value;
            CU_ASSERT(isnan(plain) || (shaped >= plain && shaped <= 1.32 * plain * (1.0 + 1e-12)));
            helped += shaped > 1.001 * plain;
            c.Cb = method == 0 ? (double)NAN : 0.4;
            const double poor = resist(method, &c).value;
            CU_ASSERT(isnan(plain) ? isnan(poor) : poor == plain);
        }
    }
    CU_ASSERT(helped > 100);
}

/* All plates lose the same share of their thickness within the same outer dimensions. */
static void test_thinner_is_not_stronger(void) {
    uint64_t seed = 0x7417;
    for (int round = 0; round < ROUNDS; round++) {
        sizes z = random_sizes(&seed, round % KINDS);
        const double feet = between(&seed, 0.0, 40.0);
        double last[METHODS];
        for (int step = 0; step < 12; step++) {
            ss_section s;
            build(&s, &z);
            const ss_flexure_case c = bend(&s, 36.0, round % 2 == 0, feet);
            for (int method = 0; method < METHODS; method++) {
                const double next = resist(method, &c).value;
                CHECK_ROW(step == 0 || method == 1 || next <= last[method] * (1.0 + 1e-9),
                          method_names[method]);
                last[method] = next;
            }
            z.web *= 0.95;
            z.thickness[0] *= 0.95;
            z.thickness[1] *= 0.95;
        }
    }
}

/* Allowable moments grow with the share, and not faster. */
static void test_allowable_shares(void) {
    uint64_t seed = 0xa58;
    for (int round = 0; round < ROUNDS; round++) {
        const sizes z = random_sizes(&seed, round % KINDS);
        ss_section s;
        build(&s, &z);
        const ss_flexure_case c = bend(&s, 36.0, round % 2 == 0, between(&seed, 0.0, 40.0));
        ss_resistance low;
        ss_resistance high;
        CU_ASSERT_EQUAL(ss_flexure_asr(&c, 0.55, &low, NULL), SS_OK);
        CU_ASSERT_EQUAL(ss_flexure_asr(&c, 0.75, &high, NULL), SS_OK);
        CU_ASSERT(low.value <= high.value && high.value <= low.value * 0.75 / 0.55 * (1.0 + 1e-12));
    }
}

int main(void) {
    static const test_case cases[] = {
        {"bounds", test_bounds},
        {"anything", test_anything},
        {"upside down", test_upside_down},
        {"longer is not stronger", test_longer_is_not_stronger},
        {"moment shape", test_moment_shape},
        {"thinner is not stronger", test_thinner_is_not_stronger},
        {"allowable shares", test_allowable_shares},
    };
    return RUN_SUITE("flexure of any section", cases);
}
