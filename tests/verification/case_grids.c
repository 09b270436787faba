/* case_grids.c - girders with cross-beams, a right-angle corner and a plate against published and closed
 * solutions. */
#include <math.h>
#include <stddef.h>

#include "verification/check.h"
#include "verification/rig.h"

static bool crossing(check *out) {
    *out = (check){
        .title = "Two simple beams that cross at mid-span",
        .source = "own closed form: stiffness 48EI/L^3 each, shares k1/(k1 + k2)",
        .inputs =
            "E 29000 ksi, I 1000 in4 over 480 in and 500 in4 over 360 in, no torsion (J 1e-6 in4), P 10 kip",
        .values = "deflection (in), end reaction of the one along and of the one across (kip)",
        .why =
            "exact but for the torsion constants, which cannot be zero; they shift the result by 1e-9 of it",
        .tolerance = 1e-7,
        .relative = true,
        .digits = 6};
    const double k1 = 48.0 * 29000.0 * 1000.0 / (480.0 * 480.0 * 480.0);
    const double k2 = 48.0 * 29000.0 * 500.0 / (360.0 * 360.0 * 360.0);
    const rig_row rows[] = {{"crossing", "w", 10.0 / (k1 + k2)},
                            {"crossing", "R along", 5.0 * k1 / (k1 + k2)},
                            {"crossing", "R across", 5.0 * k2 / (k1 + k2)}};
    return rig_check(out, "crossing", NULL, rows, RIG_COUNT(rows));
}

static bool corner_values(check *out) {
    rig r;
    if (!rig_open(&r, "corner", NULL)) {
        return false;
    }
    check_add(out, 2.6274, 1000.0 * rig_probe(&r, "corner", "w"));
    check_add(out, 11.0, rig_probe(&r, "corner", "R root") / 1000.0);
    check_add(out, 11.0, rig_probe(&r, "corner", "R side") / 1000.0);
    check_add(out, 1.646, fabs(rig_probe(&r, "corner", "T root")) / 1000.0);
    check_add(out, -31.354, rig_probe(&r, "corner", "M root") / 1000.0);
    check_add(out, 1.646, rig_probe(&r, "corner", "M corner") / 1000.0);
    check_add(out, -31.354, rig_probe(&r, "corner", "M across") / 1000.0);
    check_add(out, 1.646, fabs(rig_probe(&r, "corner", "T across")) / 1000.0);
    rig_close(&r);
    return true;
}

static bool corner(check *out) {
    *out = (check){
        .title = "Two members at a right angle, far ends held",
        .source = "D. L. Logan, A First Course in the Finite Element Method, grid example (data from memory, "
                  "solved again by hand)",
        .inputs = "two members of 3 m, E 210 GPa, G 84 GPa, I 16.6e-5 m4, J 4.6e-5 m4, 22 kN at the corner",
        .values = "deflection (mm), two reactions (kN), torsion and moment at the root, moment at the "
                  "corner, moment and torsion at "
                  "the other root (kN m)",
        .why = "the reference has three decimals",
        .tolerance = 5e-4,
        .relative = false,
        .digits = 5};
    return corner_values(out);
}

/* One row of the grid table: a load case and its deflections, left reactions and mid-span moments. */
typedef struct grid_row {
    const char *title, *inputs;
    const char *J_girder, *J_beam, *load;
    double w[3], reaction[3], moment[3];
} grid_row;

#define GRID_INPUTS                                                                                          \
    "girders L 480 in, 96 in apart, I 2000 in4; cross-beams at L/4, L/2, 3L/4, I 500 in4; E 29000 ksi, G "   \
    "11154 ksi; P 10 "                                                                                       \
    "kip at mid-span; "

static const grid_row grid_rows[] = {
    {"Three girders, no torsion, edge loaded",
     GRID_INPUTS "J 0 (1e-6 in4)",
     "1e-6 in4",
     "1e-6 in4",
     "edge",
     {0.33702, 0.12044, -0.06022},
     {4.0983, 1.8034, -0.9017},
     {1038.79, 322.42, -161.21}},
    {"Three girders, no torsion, middle loaded",
     GRID_INPUTS "J 0 (1e-6 in4)",
     "1e-6 in4",
     "1e-6 in4",
     "middle",
     {0.12044, 0.15637, 0.12044},
     {1.8034, 1.3932, 1.8034},
     {322.42, 555.17, 322.42}},
    {"Three girders, little torsion, edge loaded",
     GRID_INPUTS "J 50 in4 all",
     "50 in4",
     "50 in4",
     "edge",
     {0.32851, 0.12062, -0.05189},
     {4.0029, 1.7970, -0.7999},
     {1015.93, 323.37, -139.30}},
    {"Three girders, little torsion, middle loaded",
     GRID_INPUTS "J 50 in4 all",
     "50 in4",
     "50 in4",
     "middle",
     {0.12062, 0.15600, 0.12062},
     {1.7970, 1.4061, 1.7970},
     {323.37, 553.26, 323.37}},
    {"Three girders, stiff in torsion, edge loaded",
     GRID_INPUTS "J 500 and 50 in4",
     "500 in4",
     "50 in4",
     "edge",
     {0.28580, 0.12170, -0.01026},
     {3.3609, 1.7919, -0.1529},
     {901.02, 329.40, -30.42}},
    {"Three girders, stiff in torsion, middle loaded",
     GRID_INPUTS "J 500 and 50 in4",
     "500 in4",
     "50 in4",
     "middle",
     {0.12170, 0.15384, 0.12170},
     {1.7919, 1.4162, 1.7919},
     {329.40, 541.20, 329.40}},
};

static bool grid(check *out, const grid_row *row) {
    *out =
        (check){.title = row->title,
                .source = "own table, by a separate small stiffness program that reproduces Kattan's grid "
                          "example 9.1",
                .inputs = row->inputs,
                .values = "of the three girders: deflection (mil), left reaction (kip), moment at mid-span "
                          "(kip-ft)",
                CHECK_ABSOLUTE("the reference has five figures: half a unit of its last place, 0.005 mil "
                               "and 0.0005 kip-ft, and a little for rounding",
                               6e-3, 5)};
    const rig_setting settings[] = {{"sections.girder.J", row->J_girder}, {"sections.beam.J", row->J_beam}};
    rig r;
    if (!rig_open(&r, "three_girders", &(rig_options){settings, 2, 1})) {
        return false;
    }
    static const char *const probes[3][3] = {{"w left", "w middle", "w right"},
                                             {"R left", "R middle", "R right"},
                                             {"M left", "M middle", "M right"}};
    const double *const expected[3] = {row->w, row->reaction, row->moment};
    for (int kind = 0; kind < 3; kind++) {
        for (int g = 0; g < 3; g++) {
            const double due = expected[kind][g], read = rig_probe_us(&r, row->load, probes[kind][g]);
            /* deflections in mils and moments in kip-ft: one absolute tolerance suits all three */
            const double scale = kind == 0 ? 1000.0 : 1.0;
            check_add(out, kind == 2 ? due / 12.0 : scale * due, scale * read);
        }
    }
    rig_close(&r);
    return true;
}

/* A check is a function of one argument, so each row of the table has its own. */
#define GRID_CHECK(name, row)                                                                                \
    static bool name(check *out) {                                                                           \
        return grid(out, &grid_rows[row]);                                                                   \
    }
GRID_CHECK(grid_edge_free, 0)
GRID_CHECK(grid_middle_free, 1)
GRID_CHECK(grid_edge_open, 2)
GRID_CHECK(grid_middle_open, 3)
GRID_CHECK(grid_edge_closed, 4)
GRID_CHECK(grid_middle_closed, 5)

/* Shares of n girders (twice the left reaction for a unit load) with the cross-beam's I set so that z =
 * (L/2a)^3 IQ/IL has the value wanted. */
static bool shares(check *out, int n, const char *inertia, const char *load, const double *expected) {
    const rig_setting settings[] = {{"sections.beam.I", inertia}};
    rig r;
    if (!rig_open(&r, n == 3 ? "cross_beam_3" : "cross_beam_4", &(rig_options){settings, 1, 1})) {
        return false;
    }
    for (int i = 0; i < n; i++) {
        const char probe[] = {'R', ' ', (char)('1' + i), '\0'};
        check_add(out, expected[i], 2.0 * rig_probe_us(&r, load, probe));
    }
    rig_close(&r);
    return true;
}

#define CROSS_SOURCE                                                                                         \
    "F. Leonhardt and W. Andrae, Die vereinfachte Traegerrostberechnung (cross distribution, no torsion; "   \
    "derived again)"
#define CROSS_WHY_CLOSED "exact but for the torsion constants, which cannot be zero"

static bool cross_three(check *out) {
    *out = (check){
        .title = "Cross distribution, three girders",
        .source = CROSS_SOURCE ": (5z + 4, 2z, -z)/(6z + 4), (2z, 2z + 4, 2z)/(6z + 4)",
        .inputs = "L 480 in, a 96 in, IL 2000 in4, one cross-beam of I 128, 640 and 1280 in4: z 1, 5, 10",
        .values = "shares with the edge loaded for z 1, 5 and 10, then with the middle loaded for z 5",
        CHECK_ABSOLUTE(CROSS_WHY_CLOSED, 1e-6, 5)};
    const double z[] = {1.0, 5.0, 10.0};
    const char *const inertia[] = {"128 in4", "640 in4", "1280 in4"};
    for (int i = 0; i < 3; i++) {
        const double below = 6.0 * z[i] + 4.0;
        const double expected[] = {(5.0 * z[i] + 4.0) / below, 2.0 * z[i] / below, -z[i] / below};
        if (!shares(out, 3, inertia[i], "on 1", expected)) {
            return false;
        }
    }
    const double middle[] = {10.0 / 34.0, 14.0 / 34.0, 10.0 / 34.0};
    return shares(out, 3, inertia[1], "on 2", middle);
}

static bool cross_four(check *out) {
    *out = (check){
        .title = "Cross distribution, four girders",
        .source = CROSS_SOURCE,
        .inputs = "L 480 in, a 96 in, IL 2000 in4, one cross-beam of I 128, 1280 and 6400 in4: z 1, 10, 50",
        .values = "shares with girder 1 loaded for z 1, 10 and 50, then with girder 2 loaded for z 10",
        .why = "the reference has four decimals",
        .tolerance = 6e-5,
        .relative = false,
        .digits = 4};
    const double one[3][4] = {{0.8901, 0.1868, -0.0440, -0.0330},
                              {0.7515, 0.3456, 0.0544, -0.1515},
                              {0.7122, 0.3872, 0.0890, -0.1884}};
    const char *const inertia[] = {"128 in4", "1280 in4", "6400 in4"};
    for (int i = 0; i < 3; i++) {
        if (!shares(out, 4, inertia[i], "on 1", one[i])) {
            return false;
        }
    }
    const double two[] = {0.3456, 0.3631, 0.2369, 0.0544};
    return shares(out, 4, inertia[1], "on 2", two);
}

static bool courbon(check *out) {
    *out = (check){.title = "Rigid cross-beam",
                   .source = "A. Courbon's rule, 1/n + x_i x_j / sum of x^2",
                   .inputs = "the four girders above with a cross-beam of I 2e9 in4",
                   .values = "shares with girder 1 and with girder 2 loaded",
                   .why = "the cross-beam is not quite rigid: z is 1.6e7, and the shares differ from the "
                          "limit by about 1/z",
                   .tolerance = 1e-6,
                   .relative = false,
                   .digits = 4};
    const double one[] = {0.7, 0.4, 0.1, -0.2}, two[] = {0.4, 0.3, 0.2, 0.1};
    return shares(out, 4, "2e9 in4", "on 1", one) && shares(out, 4, "2e9 in4", "on 2", two);
}

static bool plate(check *out) {
    *out = (check){.title = "Square plate as a grillage",
                   .source = "S. Timoshenko and S. Woinowsky-Krieger, Theory of Plates and Shells (from "
                             "memory): 0.0116 P a^2/D, 0.00406 q a^4/D",
                   .inputs = "side 16 ft, 16 by 16 strips, D 29000 x 48/12 kip-in, Poisson's ratio 0, "
                             "torsion d^3/6 each way; P 10 kip at the "
                             "middle; q 100 lb/ft2",
                   .values = "deflection at the middle over P a^2/D and over q a^4/D, times 1000",
                   .why = "a grillage of 16 strips stands for a plate within a few per cent; this is a check "
                          "of kind, not of digits",
                   .tolerance = 0.25,
                   .relative = false,
                   .digits = 4};
    rig r;
    if (!rig_open(&r, "plate", NULL)) {
        return false;
    }
    const double a = 192.0, D = 29000.0 * 48.0 / 12.0, q = 0.1 / 144.0;
    check_add(out, 11.6, 1000.0 * rig_probe_us(&r, "point", "w") * D / (10.0 * a * a));
    check_add(out, 4.06, 1000.0 * rig_probe_us(&r, "uniform", "w") * D / (q * a * a * a * a));
    rig_close(&r);
    return true;
}

static const check_function checks[] = {
    crossing,       corner,           grid_edge_free,   grid_middle_free,
    grid_edge_open, grid_middle_open, grid_edge_closed, grid_middle_closed,
    cross_three,    cross_four,       courbon,          plate};

const check_chapter chapter_grids = {"Girders with cross-beams", checks,
                                     (int)(sizeof checks / sizeof checks[0])};
