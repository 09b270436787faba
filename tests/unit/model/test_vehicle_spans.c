/* test_vehicle_spans.c - the vehicle table on simple spans against published tables, by the theory of rolling
 * loads. */
#include <math.h>

#include "sillspan/vehicle.h"
#include "support/exact_units.h"
#include "support/suite.h"
#include "verification/rolling.h"

/* The axles of a loading, kip and ft, spacings at their least, which on one span is where they do most. */
static rolling_train train_of(const ss_vehicle *v) {
    rolling_train train = {.count = v->axle_count};
    for (int a = 0; a < v->axle_count && a < ROLLING_AXLES; a++) {
        train.axle[a] = v->axle_N[a] / KIP;
        train.spacing[a] = v->spacing_m[a] / FOOT;
    }
    return train;
}

static double moment_of(const char *name, double span) {
    const rolling_train train = train_of(ss_vehicle_find(name));
    double x = 0.0;
    return rolling_moment(&train, span, &x);
}

/* Moment at x with its lane load, some axle over x, facing either way (the section's mirror image). */
static double moment_at(const ss_vehicle *v, double span, double x, double allowance) {
    const rolling_train train = train_of(v);
    double most = 0.0;
    for (int facing = 0; facing < 2; facing++) {
        const double section = facing == 0 ? x : span - x;
        double front = section;
        for (int a = 0; a < train.count; a++) {
            most = fmax(most, rolling_moment_at(&train, span, section, front));
            front += train.spacing[a];
        }
    }
    return most * (1.0 + allowance) + 0.5 * v->lane_N_m / (KIP / FOOT) * x * (span - x);
}

/* The largest of all sections, 1/4000 of the span apart: the curve is flat there. */
static double most_moment(const ss_vehicle *v, double span, double allowance) {
    double most = 0.0;
    for (int i = 1; i < 4000; i++) {
        most = fmax(most, moment_at(v, span, span * i / 4000.0, allowance));
    }
    return most;
}

/* Shear over a support with the concentrated load there. */
static double most_shear(const ss_vehicle *v, double span) {
    const rolling_train train = train_of(v);
    return rolling_shear(&train, span) + 0.5 * v->lane_N_m / (KIP / FOOT) * span;
}

/* The loading of a vehicle for a use. */
static const ss_vehicle *loading(const char *name, ss_vehicle_use use) {
    const ss_vehicle *v = ss_vehicle_find(name);
    while (v != NULL && v->use != use) {
        v = v->also;
    }
    return v;
}

/* AASHTO Standard Specifications for Highway Bridges, appendix A, HS20-44: one lane, no impact, printed to
 * 0.1, truck or lane load whichever is more (from memory). */
static void test_hs20_table(void) {
    static const struct {
        double span, moment, shear;
    } row[] = {{20.0, 160.0, 41.6},   {30.0, 282.1, 49.6},   {40.0, 449.8, 55.2},   {50.0, 627.9, 58.5},
               {60.0, 806.5, 60.8},   {70.0, 985.6, 62.4},   {80.0, 1164.9, 63.6},  {90.0, 1344.4, 64.5},
               {100.0, 1524.0, 65.3}, {110.0, 1703.6, 65.9}, {120.0, 1883.3, 66.4}, {130.0, 2063.1, 67.6},
               {140.0, 2242.8, 70.8}, {150.0, 2475.1, 74.0}, {200.0, 4100.0, 90.0}};
    const ss_vehicle *const truck = ss_vehicle_find("HS20-44");
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const double L = row[i].span;
        const double moment =
            fmax(moment_of("HS20-44", L), most_moment(loading("HS20-44", SS_USE_BENDING), L, 0.0));
        const double shear = fmax(most_shear(truck, L), most_shear(loading("HS20-44", SS_USE_SHEAR), L));
        CU_ASSERT_DOUBLE_EQUAL(moment, row[i].moment, 0.1);
        CU_ASSERT_DOUBLE_EQUAL(shear, row[i].shear, 0.1);
    }
}

/* M. A. Khan, Bridge and Highway Structure Rehabilitation and Repair (McGraw-Hill, 2010), table 6.7: H20
 * truck, printed to 0.01, and H20 lane load. */
static void test_h20_tables(void) {
    static const double truck[][2] = {{30.0, 246.61}, {32.0, 266.45}, {36.0, 306.18}, {40.0, 345.96},
                                      {45.0, 395.74}, {50.0, 445.57}, {55.0, 495.43}};
    static const double lane[][2] = {{20.0, 122.0},   {30.0, 207.0},  {40.0, 308.0}, {50.0, 425.0},
                                     {60.0, 558.0},   {70.0, 707.0},  {80.0, 872.0}, {90.0, 1053.0},
                                     {100.0, 1250.0}, {120.0, 1692.0}};
    static const double shear[][2] = {{20.0, 32.4}, {40.0, 38.8}, {60.0, 45.2}, {80.0, 51.6}, {100.0, 58.0}};
    for (size_t i = 0; i < sizeof truck / sizeof truck[0]; i++) {
        CU_ASSERT_DOUBLE_EQUAL(moment_of("H20-44", truck[i][0]), truck[i][1], 0.01);
    }
    for (size_t i = 0; i < sizeof lane / sizeof lane[0]; i++) {
        CU_ASSERT_DOUBLE_EQUAL(most_moment(loading("H20-44", SS_USE_BENDING), lane[i][0], 0.0), lane[i][1],
                               1e-6);
    }
    for (size_t i = 0; i < sizeof shear / sizeof shear[0]; i++) {
        CU_ASSERT_DOUBLE_EQUAL(most_shear(loading("H20-44", SS_USE_SHEAR), shear[i][0]), shear[i][1], 1e-9);
    }
}

/* The same book, table 4.5: tandem, end shear. */
static void test_tandem_table(void) {
    static const double row[][2] = {{20.0, 45.0}, {22.0, 45.45}, {24.0, 45.83}, {30.0, 46.67},
                                    {40.0, 47.5}, {50.0, 48.0},  {60.0, 48.33}, {75.0, 48.67}};
    const ss_vehicle *const tandem = ss_vehicle_find("HL-93")->also;
    const rolling_train train = train_of(tandem);
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        CU_ASSERT_DOUBLE_EQUAL(rolling_shear(&train, row[i][0]), row[i][1], 6e-3);
    }
}

/* AASHTO Manual for Bridge Evaluation, example A1, 65 ft: at mid-span the truck gives 890 kip-ft, the tandem
 * 762.5, the lane load 338, and truck with 33 % and lane 1521.7 (from memory). */
static void test_example_a1(void) {
    const double L = 65.0;
    const ss_vehicle *const truck = ss_vehicle_find("HL-93");
    const double lane = 0.125 * truck->lane_N_m / (KIP / FOOT) * L * L;
    CU_ASSERT_DOUBLE_EQUAL(lane, 338.0, 1e-6);
    CU_ASSERT_DOUBLE_EQUAL(moment_at(truck, L, 0.5 * L, 0.0) - lane, 890.0, 1e-6);
    CU_ASSERT_DOUBLE_EQUAL(moment_at(truck->also, L, 0.5 * L, 0.0) - lane, 762.5, 1e-6);
    CU_ASSERT_DOUBLE_EQUAL(moment_at(truck, L, 0.5 * L, 0.33), 1521.7, 0.05);
    /* Its table of legal trucks, interpolated between 60 and 70 ft. */
    CU_ASSERT_DOUBLE_EQUAL(0.5 * (moment_of("Type 3", 60.0) + moment_of("Type 3", 70.0)), 660.7, 0.15);
    CU_ASSERT_DOUBLE_EQUAL(0.5 * (moment_of("Type 3S2", 60.0) + moment_of("Type 3S2", 70.0)), 707.2, 0.1);
    CU_ASSERT_DOUBLE_EQUAL(0.5 * (moment_of("Type 3-3", 60.0) + moment_of("Type 3-3", 70.0)), 654.5, 0.1);
}

/* HL-93 in one lane, without and with 33 % on the axles, largest of truck and tandem with lane at any one
 * section: computed apart from this project by a scan in steps of 0.01 ft. */
static void test_hl93_envelope(void) {
    static const double row[][3] = {{20.0, 234.2, 301.0},   {30.0, 398.4, 506.2},   {40.0, 579.0, 727.9},
                                    {50.0, 826.4, 1033.5},  {60.0, 1093.2, 1359.2}, {66.0, 1261.1, 1562.6},
                                    {80.0, 1675.6, 2059.9}, {100.0, 2322.7, 2825.5}};
    const ss_vehicle *const truck = ss_vehicle_find("HL-93");
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const double L = row[i][0];
        for (int with = 0; with < 2; with++) {
            const double allowance = 0.33 * with;
            const double most =
                fmax(most_moment(truck, L, allowance), most_moment(truck->also, L, allowance));
            CU_ASSERT_DOUBLE_EQUAL(most, row[i][1 + with], 0.1);
        }
    }
}

/* Closed forms: EV3's tandem and the school bus, and a load model 1 lane at mid-span in kN and m. */
static void test_closed_forms(void) {
    /* One axle of 23 kip governs the bus while the span is short: P L / 4. */
    CU_ASSERT_DOUBLE_EQUAL(moment_of("School bus", 31.0), 23.0 * 31.0 / 4.0, 1e-9);
    /* The tandem alone on a span shorter than 15 ft: W/2L (L - 2)^2 with axles of W/2 = 31 kip at 4 ft. */
    CU_ASSERT_DOUBLE_EQUAL(moment_of("EV3", 14.5), 62.0 / (4.0 * 14.5) * pow(14.5 - 2.0, 2.0), 1e-9);
    const ss_vehicle *const lane1 = ss_vehicle_find("LM1 lane 1");
    const double L = 18.0;
    /* With the 2.5 kN/m2 that lie on the lane as on the whole carriageway. */
    const double moment = moment_at(lane1, L / FOOT, 0.5 * L / FOOT, 0.0) * KIP * FOOT / 1e3 +
                          lane1->area_N_m2 / 1e3 * 3.0 * L * L / 8.0;
    CU_ASSERT_DOUBLE_EQUAL(moment, 600.0 * L / 4.0 - 300.0 * 1.2 / 2.0 + 27.0 * L * L / 8.0, 1e-6);
}

int main(void) {
    static const test_case cases[] = {
        {"HS20-44, printed", test_hs20_table},  {"H20-44, printed", test_h20_tables},
        {"tandem, printed", test_tandem_table}, {"example A1", test_example_a1},
        {"HL-93 envelope", test_hl93_envelope}, {"closed forms", test_closed_forms},
    };
    return RUN_SUITE("vehicle spans", cases);
}
