/* test_mechanics_spring_sweep_forms.c - swept springs against closed forms and what must hold for any bridge:
 * energy, reciprocity, slopes, contact. */
#include "base/numeric.h"
#include "sillspan/contact.h"
#include "sweep_samples.h"

/* ---- closed forms ------------------------------------------------------------------------------- */

typedef struct pair_of_beams {
    double L, EI, GJ, e; /* e: from a beam to the joint */
    double h;            /* station spacing */
} pair_of_beams;

/* Two equal cars of one line without shear deformation, simply supported, ends held in twist. */
static pair_of_beams two_beams(sweep_sample *w, int intervals) {
    memset(w, 0, sizeof *w);
    ss_bridge *b = &w->s.bridge;
    const pair_of_beams p = {12.0, sweep_E * 2.9e-4, sweep_G * 6e-5, 1.3, 12.0 / intervals};
    sample_start(&w->s, sweep_E, sweep_G, p.h * (1.0 + 1e-12));
    const int girder = hand_section(b, 2.9e-4, 6e-5, 0.0, 800.0);
    for (int c = 0; c < 2; c++) {
        hand_car(b, c == 0 ? "north" : "south", 0.0, p.L, 2.6 * c, 2.6 + 2.6 * c);
        const int line = hand_line(b, SS_ROLE_MAIN, "sill", 1.3 + 2.6 * c, girder);
        hand_pad(b, line, 0.0, 0.5);
        hand_pad(b, line, p.L, 0.5);
    }
    const int joint = hand_joint(b, SS_JOINT_SPRINGS, 0, 0.0, p.L);
    b->joints[joint].shear = 1.0;
    return p;
}

static void read_effect(sweep_sample *w, int line, double x, ss_effect_kind kind) {
    ss_effect effect;
    ss_row row;
    CU_ASSERT_EQUAL_FATAL(ss_mesh_effect(&w->a.mesh, SS_MEMBER_LINE, line, x, false, kind, &effect, NULL),
                          SS_OK);
    ss_mesh_effect_row(&w->a.mesh, &effect, &row);
    sweep_read(w, -1, &row);
}

/*
 * One spring at midspan, P on the first beam a off its axis. Edges at the joint give d = L^3/48EI +
 * e^2 L/4GJ under a unit force there, and the first one D = P (L^3/48EI + e a L/4GJ) under the load, so
 *
 *   F = D / (2 d + 1/k),   w_2 = F L^3/48EI,   the mode's k = 1/(2 d)
 *
 * (beams and shafts in any text on strength of materials).
 */
static void test_midspan_spring(void) {
    static sweep_sample w;
    const pair_of_beams p = two_beams(&w, 12);
    w.s.bridge.connectors[0] = 0.5 * p.L;
    w.s.bridge.connector_count = w.s.bridge.joints[0].connector_count = 1;
    analysis_start(&w.a, &w.s);
    sweep_choose(&w, SWEEP_SHEAR, 0);
    CU_ASSERT_EQUAL_FATAL(w.swept_count, 1);
    CU_ASSERT_EQUAL(w.stiffness[0], 1.0);
    const double P = 53000.0, a = 0.4;
    CU_ASSERT_EQUAL(ss_load_force(&w.a.load, 0.5 * p.L, 1.3 + a, P, NULL), SS_OK);
    double *const nodal = sweep_zeros(w.a.mesh.order);
    memcpy(nodal, w.a.load.nodal, (size_t)w.a.mesh.order * sizeof *nodal);
    w.loads[w.load_count++].nodal = nodal;
    sweep_read(&w, w.swept[0], NULL);
    read_effect(&w, 0, 0.5 * p.L, SS_EFFECT_DEFLECTION);
    read_effect(&w, 1, 0.5 * p.L, SS_EFFECT_DEFLECTION);
    sweep_make(&w);
    const double bend = pow(p.L, 3.0) / (48.0 * p.EI), turn = p.L / (4.0 * p.GJ);
    const double d = bend + p.e * p.e * turn, D = P * (bend + p.e * a * turn);
    const double *poles = NULL;
    CU_ASSERT_EQUAL(ss_spring_sweep_poles(w.sweep, &poles), 1);
    check_relative("pole", poles[0], 0.5 / d, 1e-9);
    for (int power = -12; power <= 12; power++) {
        const double k = 0.9 * pow(10.0, power) / d;
        const double F = D / (2.0 * d + 1.0 / k);
        const double *const values = sweep_at(&w, k);
        check_relative("force", values[0], F, 1e-9);
        check_relative("loaded beam", values[1], (P - F) * bend, 1e-9);
        /* Rounding of what the loaded beam does is left in it. */
        check_near("other beam", values[2], F * bend, 1e-9, fmax(F, 1e-6 * P) * bend);
        double slopes[3];
        CU_ASSERT_EQUAL(ss_spring_sweep_slope(w.sweep, k, slopes, w.work, NULL), SS_OK);
        const double falls = D / k / pow(2.0 * d + 1.0 / k, 2.0);
        check_relative("slope of the force", slopes[0], falls, 1e-9);
        check_relative("slope of a deflection", slopes[2], bend * falls, 1e-9);
    }
    check_relative("rigid", sweep_at(&w, (double)INFINITY)[0], 0.5 * D / d, 1e-9);
    check_relative("none", sweep_at(&w, 0.0)[1], P * bend, 1e-9);
    CU_ASSERT_EQUAL(w.values[0], 0.0);
    sweep_end(&w);
}

/*
 * Joined all along, under q sin(pi x/L) on the first beam. The beams' sum and difference part, and with A =
 * EI (pi/L)^4, C = GJ (pi/L)^2 the second beam has of all bending moments the share
 *
 *   1 / (2 + A/k + 2 e^2 A/C)
 *
 * where everything is continuous: K/(1 + 2K) with K = k L^4/(pi^4 EI) if nothing twists (elementary beam
 * theory). Springs and forces at N equal stations are a comb, which has the harmonics m = 1 + 2Nn besides,
 * and what was 1/A, 1/C becomes the sum over them, with
 *
 *   sum 1/(n + z)^2 = pi^2/sin^2 pi z,   sum 1/(n + z)^4 = pi^4 (1/sin^4 pi z - 2/(3 sin^2 pi z)).
 */
static void test_sine_load(void) {
    enum { N = 24 };
    static sweep_sample w;
    const pair_of_beams p = two_beams(&w, N);
    analysis_start(&w.a, &w.s);
    CU_ASSERT_EQUAL_FATAL(w.a.mesh.station_count, N + 1);
    sweep_choose(&w, SWEEP_SHEAR, 0);
    CU_ASSERT_EQUAL_FATAL(w.swept_count, N + 1);
    double *const nodal = sweep_zeros(w.a.mesh.order);
    for (int i = 0; i <= N; i++) {
        nodal[3 * w.a.mesh.node_at[2 * i]] = 8000.0 * p.h * sin(SS_PI * i / N);
    }
    w.loads[w.load_count++].nodal = nodal;
    for (int line = 0; line < 2; line++) read_effect(&w, line, 0.5 * p.L, SS_EFFECT_MOMENT);
    sweep_make(&w);
    const double s2 = pow(sin(SS_PI / (2.0 * N)), -2.0), z = SS_PI / (2.0 * N);
    const double bend = pow(z, 4.0) * (s2 * s2 - 2.0 * s2 / 3.0) * pow(p.L / SS_PI, 4.0) / p.EI;
    const double turn = pow(z, 2.0) * s2 * pow(p.L / SS_PI, 2.0) / p.GJ;
    check_relative("comb", bend, pow(p.L / SS_PI, 4.0) / p.EI, 1e-6);
    for (int power = -12; power <= 12; power++) {
        const double k = 0.7 * pow(10.0, power) / bend;
        const double *const values = sweep_at(&w, k);
        const double share = values[1] / (values[0] + values[1]);
        const double expected = bend / (2.0 * bend + 2.0 * p.e * p.e * turn + 1.0 / k);
        check_near("share", share, expected, 1e-9, fmax(expected, 1e-5));
    }
    sweep_end(&w);
}

/* ---- what holds for any bridge ------------------------------------------------------------------ */

static void start(sweep_sample *w, int cars) {
    sweep_cars(w, cars, 1.0);
    analysis_start(&w->a, &w->s);
    sweep_loads(w);
}

/* Rows equal to loads: compliances fall with k and are symmetric, also between a settlement and a force. */
static void test_energy(void) {
    for (int cars = 2; cars <= 3; cars++) {
        static sweep_sample w;
        start(&w, cars);
        sweep_choose(&w, SWEEP_BOTH, 2);
        for (int l = 0; l < 4; l++) {
            double *const nodal = (double *)w.loads[l].nodal;
            ss_row row = {0};
            for (int i = 0; i < 5; i++) {
                row.dof[row.count] = (17 * l + 31 * i + 7) % w.a.mesh.order;
                row.value[row.count++] = 1000.0 * (i - 1.3);
            }
            memset(nodal, 0, (size_t)w.a.mesh.order * sizeof *nodal);
            ss_row_scatter(&row, 1.0, nodal);
            sweep_read(&w, -1, &row);
        }
        sweep_make(&w);
        double before[4], most = 0.0;
        for (int step = -40; step <= 40; step++) {
            const double *const c = sweep_at(&w, pow(10.0, 0.2 * step));
            double slopes[4 * SWEEP_LOADS];
            CU_ASSERT_EQUAL(ss_spring_sweep_slope(w.sweep, pow(10.0, 0.2 * step), slopes, w.work, NULL),
                            SS_OK);
            for (int l = 0; l < 4; l++) most = fmax(most, fabs(c[l * w.load_count + l]));
            for (int l = 0; l < 4; l++) {
                const double own = c[l * w.load_count + l];
                CU_ASSERT_TRUE(own > 0.0 && (step == -40 || own <= before[l] + 1e-13 * most));
                CU_ASSERT_TRUE(slopes[l * w.load_count + l] <= 0.0);
                before[l] = own;
                for (int i = 0; i < l; i++) {
                    check_near("Maxwell", c[i * w.load_count + l], c[l * w.load_count + i], 1e-11, most);
                }
            }
        }
        sweep_end(&w);
    }
}

/* A force times its flexibility is the step less what is locked in, and the south car's bearings carry what
 * comes through the joint, at every stiffness. */
static void test_forces(void) {
    static sweep_sample w;
    start(&w, 2);
    sweep_choose(&w, SWEEP_SHEAR, 0);
    for (int j = 0; j < w.swept_count; j++) {
        sweep_read(&w, w.swept[j], NULL);
        sweep_read(&w, -1, &w.a.mesh.spring[w.swept[j]].row);
    }
    const int bearings = w.reading_count;
    for (int i = 0; i < w.a.mesh.spring_count; i++) {
        const ss_spring *spring = &w.a.mesh.spring[i];
        if (spring->owner == SS_MEMBER_BEARING && spring->kind == SS_SPRING_VERTICAL &&
            w.s.bridge.bearings[spring->index].car == 1) {
            sweep_read(&w, i, NULL);
        }
    }
    sweep_make(&w);
    for (int power = -6; power <= 12; power++) {
        const double k = 3.0 * pow(10.0, power);
        const double *const v = sweep_at(&w, k);
        const double *const offset = w.loads[w.load_count - 1].offset;
        for (int l = 0; l < w.load_count; l++) {
            double through = 0.0, carried = 0.0, size = 0.0;
            for (int j = 0; j < w.swept_count; j++) {
                const double p = v[2 * j * w.load_count + l], d = v[(2 * j + 1) * w.load_count + l];
                const double s = w.loads[l].offset != NULL ? w.loads[l].offset[w.swept[j]] : 0.0;
                check_near("p f = d - s", p / (k * w.stiffness[j]), d - s, 1e-11, 0.01);
                through += p;
                size += fabs(p);
            }
            for (int i = bearings; i < w.reading_count; i++) carried += v[i * w.load_count + l];
            /* The first load of all stands on the north car alone. */
            if (l == 0 || w.loads[l].nodal == NULL) {
                check_near("through the joint", through, carried, 1e-10, fmax(size, 40000.0));
            }
        }
        CU_ASSERT_PTR_NOT_NULL(offset);
    }
    sweep_end(&w);
}

/* Slopes against differences of values. */
static void test_slopes(void) {
    static sweep_sample w;
    start(&w, 3);
    sweep_readings(&w);
    sweep_choose(&w, SWEEP_BOTH, 2);
    sweep_make(&w);
    const int size = w.load_count * w.reading_count;
    double *const slopes = sweep_zeros(size), *const up = sweep_zeros(size), *const down = sweep_zeros(size);
    const double step = 1e-3;
    for (int power = -6; power <= 6; power++) {
        const double k = 1.9 * pow(10.0, power);
        CU_ASSERT_EQUAL(ss_spring_sweep_slope(w.sweep, k, slopes, w.work, NULL), SS_OK);
        memcpy(up, sweep_at(&w, k * exp(step)), (size_t)size * sizeof *up);
        memcpy(down, sweep_at(&w, k * exp(-step)), (size_t)size * sizeof *down);
        double most[5] = {0};
        for (int at = 0; at < size; at++) {
            double *const kind = &most[sweep_kind(&w, at / w.load_count)];
            *kind = fmax(*kind, fabs(up[at]));
        }
        for (int at = 0; at < size; at++) {
            check_near("slope", slopes[at], (up[at] - down[at]) / (2.0 * step), 1e-6,
                       most[sweep_kind(&w, at / w.load_count)]);
        }
    }
    free(slopes);
    free(up);
    free(down);
    sweep_end(&w);
}

/* ---- contact ------------------------------------------------------------------------------------ */

enum { CONTACTS = 16 };

/* One load and the opening of each contact spring by 1 m; readings are the contact springs, then others. */
static int contact_task(sweep_sample *w, int *contact) {
    int count = 0;
    CU_ASSERT_EQUAL(ss_load_self_weight(&w->a.load, NULL), SS_OK);
    CU_ASSERT_EQUAL(ss_load_force(&w->a.load, 5.0, 0.1, 380000.0, NULL), SS_OK);
    CU_ASSERT_EQUAL(ss_load_force(&w->a.load, 0.1, 5.2, 90000.0, NULL), SS_OK);
    w->loads[w->load_count++].nodal = w->a.load.nodal;
    for (int i = 0; i < w->a.mesh.spring_count && count < CONTACTS; i++) {
        if (w->a.mesh.spring[i].contact) {
            double *const offset = sweep_zeros(w->a.mesh.spring_count);
            offset[i] = -1.0;
            w->loads[w->load_count++].offset = offset;
            sweep_read(w, i, NULL);
            contact[count++] = i;
        }
    }
    sweep_readings(w);
    return count;
}

/* The same state by a bridge made anew: its own S, and an update with what is open. */
static void contact_anew(const sweep_sample *w, double k, bool *open, double *values) {
    static sample s;
    ss_mesh mesh;
    ss_grillage *grillage = NULL;
    ss_update *update = NULL;
    ss_error error = {0};
    const int *springs = NULL;
    const double *S = NULL;
    double r0[CONTACTS], r[CONTACTS], u[CONTACTS];
    s = w->s;
    s.bridge.joints = s.room.joints;
    for (int j = 0; j < s.bridge.joint_count; j++) s.bridge.joints[j].shear *= k;
    sample_mesh(&s, &mesh);
    CHECK_OK(ss_grillage_create(&mesh, &grillage, &error), &error);
    const int n = ss_grillage_contact(grillage, &springs, &S);
    CU_ASSERT_FATAL(n <= CONTACTS);
    double *const field = sweep_zeros(mesh.order), *const force = sweep_zeros(mesh.spring_count);
    double *const work = sweep_zeros((int)ss_contact_work(n)), *const f = sweep_zeros(mesh.spring_count);
    CHECK_OK(ss_grillage_respond(grillage, NULL, w->loads[0].nodal, NULL, field, force, &error), &error);
    for (int i = 0; i < n; i++) r0[i] = force[springs[i]];
    memset(open, 0, CONTACTS * sizeof *open);
    CU_ASSERT_EQUAL_FATAL(ss_contact_solve(n, S, r0, r, u, open, work), SS_OK);
    for (int i = 0; i < mesh.spring_count; i++) f[i] = mesh.spring[i].flexibility;
    for (int i = 0; i < n; i++) f[springs[i]] = open[i] ? (double)INFINITY : f[springs[i]];
    CHECK_OK(ss_update_create(grillage, f, &update, &error), &error);
    CHECK_OK(ss_grillage_respond(grillage, update, w->loads[0].nodal, NULL, field, force, &error), &error);
    for (int i = 0; i < w->reading_count; i++) {
        const ss_sweep_reading *reading = &w->readings[i];
        values[i] = reading->spring >= 0 ? force[reading->spring] : ss_row_dot(&reading->row, field);
    }
    free(field);
    free(force);
    free(work);
    free(f);
    ss_update_destroy(update);
    ss_grillage_destroy(grillage);
    ss_mesh_destroy(&mesh);
}

/* Contact from swept r0 and S: the same bearings lift, and everything is as in the bridge without them. */
static void test_contact(void) {
    static sweep_sample w;
    int contact[CONTACTS], patterns = 0;
    bool last[CONTACTS] = {false};
    sweep_cars(&w, 3, 1.0);
    analysis_start(&w.a, &w.s);
    const int n = contact_task(&w, contact);
    sweep_choose(&w, SWEEP_SHEAR, 2);
    sweep_make(&w);
    CU_ASSERT_FATAL(n > 4);
    double *const expected = sweep_zeros(w.reading_count), *const work = sweep_zeros((int)ss_contact_work(n));
    for (int power = -8; power <= 8; power++) {
        const double k = 1.3 * pow(10.0, 0.5 * power);
        const double *const v = sweep_at(&w, k);
        double S[CONTACTS * CONTACTS], r0[CONTACTS], r[CONTACTS], u[CONTACTS];
        bool open[CONTACTS] = {false}, anew[CONTACTS];
        ss_error error = {0};
        for (int i = 0; i < n; i++) {
            r0[i] = v[i * w.load_count];
            for (int j = 0; j < n; j++) S[i * n + j] = v[i * w.load_count + 1 + j];
        }
        CHECK_OK(ss_spring_sweep_clean(w.a.grillage, n, contact, S, &error), &error);
        CU_ASSERT_EQUAL_FATAL(ss_contact_solve(n, S, r0, r, u, open, work), SS_OK);
        contact_anew(&w, k, anew, expected);
        double most[5] = {0};
        for (int i = 0; i < w.reading_count; i++) {
            most[sweep_kind(&w, i)] = fmax(most[sweep_kind(&w, i)], fabs(expected[i]));
        }
        for (int i = 0; i < w.reading_count; i++) {
            double value = v[i * w.load_count];
            for (int j = 0; j < n; j++) value += v[i * w.load_count + 1 + j] * u[j];
            check_near("value", value, expected[i], 1e-9, most[sweep_kind(&w, i)]);
        }
        for (int i = 0; i < n; i++) CU_ASSERT_EQUAL(open[i], anew[i]);
        patterns += memcmp(open, last, sizeof open) != 0;
        memcpy(last, open, sizeof last);
    }
    CU_ASSERT_TRUE(patterns >= 2); /* something lifts, and not always the same */
    w.loads[0].nodal = NULL;       /* it is the analysis's */
    free(expected);
    free(work);
    sweep_end(&w);
}

static const test_case cases[] = {
    {"spring at midspan", test_midspan_spring},
    {"sine load", test_sine_load},
    {"compliances fall and are symmetric", test_energy},
    {"forces", test_forces},
    {"slopes", test_slopes},
    {"contact", test_contact},
};

int main(void) {
    return RUN_SUITE("spring sweep, forms", cases);
}
