/* test_sweep.c - values gone through from end to end: their points against full ratings and analyses, joints
 * from none to rigid, where results change, and what is checked. */
#include "sillspan/sweep.h"

#include "studies/sweep_parts.h"
#include "unit/studies/trial_samples.h"

/* See test_watch.c. */
#define SAME 1e-8

/* A sweep with all that it is made of. */
typedef struct going {
    ss_description base;
    ss_bridge bridge;
    ss_sweep sweep;
} going;

/* `first` and `second` (may be NULL) as for ss_unknown_add. */
static void go_plan(going *g, const char *file, const sample_setting *settings, const char *first,
                    const char *second, ss_sweep_plan *plan) {
    ss_diag_list diags = {0};
    *g = (going){.base = sample_read(file, settings)};
    CU_ASSERT_EQUAL_FATAL(ss_unknown_add(&g->base, first, &diags), SS_OK);
    if (second != NULL) {
        CU_ASSERT_EQUAL_FATAL(ss_unknown_add(&g->base, second, &diags), SS_OK);
    }
    const ss_status status = ss_bridge_resolve(&g->base, &g->bridge, &diags);
    for (int i = 0; i < diags.count && status != SS_OK; i++) printf("\n  %s", diags.items[i].message);
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    ss_diag_destroy(&diags);
    *plan = (ss_sweep_plan){
        .base = &g->base,
        .bridge = &g->bridge,
        .axis_count = second == NULL ? 1 : 2,
        .unknown = {&g->bridge.unknowns.items[0], second == NULL ? NULL : &g->bridge.unknowns.items[1]},
        .options = {.follow = true}};
}

static void go(going *g, const ss_sweep_plan *plan) {
    ss_error error = {0};
    CHECK_OK(ss_sweep_compute(plan, &g->sweep, &error), &error);
    CU_ASSERT_EQUAL(g->sweep.done, g->sweep.count);
}

static void go_end(going *g) {
    ss_sweep_destroy(&g->sweep);
    ss_bridge_destroy(&g->bridge);
    ss_description_destroy(&g->base);
}

/* A followed result of a truck; -1: there is none. */
static int followed(const ss_sweep *sweep, ss_follow_kind kind, const char *car, const char *member) {
    for (int i = 0; i < sweep->trials.follow.count; i++) {
        const ss_followed *const f = &sweep->trials.follow.items[i];
        if (f->kind == kind && f->traffic == 0 && (car == NULL || strcmp(f->car, car) == 0) &&
            (member == NULL || strcmp(f->member, member) == 0)) {
            return i;
        }
    }
    return -1;
}

/* ---- axes ------------------------------------------------------------------------------------------- */

static void test_words(void) {
    going g;
    ss_sweep_plan plan;
    trial_full open, closed;
    char words[64];
    const trial_variant opened = {{{"sections.box.torsion", "open"}, {NULL, NULL}}}, same = {{{NULL, NULL}}};
    go_plan(&g, STONE_RUN, NULL, "sections.box.torsion = closed, open", NULL, &plan);
    go(&g, &plan);
    CU_ASSERT_EQUAL_FATAL(g.sweep.count, 2);
    CU_ASSERT(!g.sweep.closed && !g.sweep.axis[0].joint);
    CU_ASSERT_STRING_EQUAL(ss_sweep_value_words(&g.sweep.axis[0], 0, SS_UNITS_US, words, sizeof words),
                           "closed");
    CU_ASSERT_STRING_EQUAL(ss_sweep_value_words(&g.sweep.axis[0], 1, SS_UNITS_US, words, sizeof words),
                           "open");
    trial_rate(STONE_RUN, NULL, &same, &closed);
    trial_rate(STONE_RUN, NULL, &opened, &open);
    trial_check("closed", &g.sweep.points[0], &closed, SAME);
    trial_check("open", &g.sweep.points[1], &open, SAME);
    CU_ASSERT_EQUAL(g.sweep.described, 0);
    CU_ASSERT_EQUAL(g.sweep.worst, g.sweep.points[0].rf < g.sweep.points[1].rf ? 0 : 1);
    CU_ASSERT_EQUAL(g.sweep.best, 1 - g.sweep.worst);
    trial_full_end(&open);
    trial_full_end(&closed);
    go_end(&g);
}

/* A point was searched in full, and the places watched give the same there. */
static void check_searched(const ss_sweep *sweep, int point, double within) {
    bool found = false;
    for (int i = 0; i < sweep->check_count; i++) {
        if (sweep->checks[i].point == point) {
            CHECK_CLOSE(sweep->checks[i].searched, sweep->points[point].rf, within);
            found = true;
        }
    }
    CU_ASSERT(found);
}

/* Values of one axis, the described one among them; every point is what its own search finds. */
static void test_values(void) {
    const long live = ss_memory_live();
    going g;
    ss_sweep_plan plan;
    go_plan(&g, STONE_RUN, NULL, "steels.steel.fy = 30 ksi .. 50 ksi", NULL, &plan);
    plan.points[0] = 5;
    go(&g, &plan);
    const double *const value = g.sweep.axis[0].value;
    CU_ASSERT_EQUAL_FATAL(g.sweep.count, 6);
    CHECK_CLOSE(value[0], 30.0 * KSI, 1e-15);
    CHECK_CLOSE(value[1], 35.0 * KSI, 1e-15);
    CU_ASSERT_EQUAL_FATAL(g.sweep.described, 2);
    CHECK_CLOSE(value[2], 36.0 * KSI, 1e-15);
    CHECK_CLOSE(value[5], 50.0 * KSI, 1e-15);
    for (int i = 0; i < g.sweep.count; i++) {
        char text[40];
        trial_full full;
        snprintf(text, sizeof text, "%.17g ksi", value[i] / KSI);
        const trial_variant change = {{{"steels.steel.fy", text}, {NULL, NULL}}};
        trial_rate(STONE_RUN, NULL, &change, &full);
        trial_check(text, &g.sweep.points[i], &full, SAME);
        trial_full_end(&full);
        CU_ASSERT(i == 0 || g.sweep.points[i].rf > g.sweep.points[i - 1].rf);
    }
    CU_ASSERT_EQUAL(g.sweep.worst, 0);
    CU_ASSERT_EQUAL(g.sweep.best, 5);
    check_searched(&g.sweep, 0, SAME);
    /* Live effects do not depend on strength: they change nowhere. */
    const int share = followed(&g.sweep, SS_FOLLOW_SHARE, "left", NULL);
    CU_ASSERT_FATAL(share >= 0);
    CHECK_CLOSE(g.sweep.results[share].least, g.sweep.results[share].most, 1e-12);
    CU_ASSERT(isnan(g.sweep.results[share].from) && isnan(g.sweep.results[share].to));
    go_end(&g);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

/* The second axis goes fastest; corners are full ratings. */
static void test_two_axes(void) {
    going g;
    ss_sweep_plan plan;
    go_plan(&g, STONE_RUN, NULL, "bridge.joints.seam.shear = 0.01 kip/in/in .. 10 kip/in/in log",
            "sections.edge.web = 0.1 in .. 0.3 in", &plan);
    plan.points[0] = 4;
    plan.points[1] = 2;
    go(&g, &plan);
    CU_ASSERT_EQUAL_FATAL(g.sweep.axis[0].count, 4); /* 0.1 kip/in/in is one of them */
    CU_ASSERT_EQUAL_FATAL(g.sweep.axis[1].count, 3);
    CU_ASSERT_EQUAL_FATAL(g.sweep.count, 12);
    CU_ASSERT_EQUAL(g.sweep.described, 1 * 3 + 1);
    CU_ASSERT(!g.sweep.closed);
    static const struct {
        int point;
        trial_variant change;
    } rows[] = {
        {0, {{{"bridge.joints.seam.shear", "0.01 kip/in/in"}, {"sections.edge.web", "0.1 in"}}}},
        {2, {{{"bridge.joints.seam.shear", "0.01 kip/in/in"}, {"sections.edge.web", "0.3 in"}}}},
        {9, {{{"bridge.joints.seam.shear", "10 kip/in/in"}, {"sections.edge.web", "0.1 in"}}}},
        {11, {{{"bridge.joints.seam.shear", "10 kip/in/in"}, {"sections.edge.web", "0.3 in"}}}},
        {4, {{{NULL, NULL}}}},
    };
    for (int i = 0; i < ENTRIES(rows); i++) {
        trial_full full;
        trial_rate(STONE_RUN, NULL, &rows[i].change, &full);
        trial_check("corner", &g.sweep.points[rows[i].point], &full, SAME);
        trial_full_end(&full);
    }
    for (int i = 0; i < g.sweep.count; i++) {
        CU_ASSERT(g.sweep.points[i].rf >= g.sweep.points[g.sweep.worst].rf * (1.0 - SAME));
        CU_ASSERT(g.sweep.points[i].rf <= g.sweep.points[g.sweep.best].rf * (1.0 + SAME));
    }
    go_end(&g);
}

/* ---- joints from none to rigid ---------------------------------------------------------------------- */

/* A truck that can stand on the left car alone; vertical springs alone. */
static const sample_setting beside[] = {{"bridge.roadway.from", "0 ft"},
                                        {"bridge.roadway.wheel_to_curb", "0 in"},
                                        {"bridge.roadway.to", "7 ft"},
                                        {"bridge.joints.seam.rotation", "0 kip-in/rad/in"},
                                        {NULL, NULL}};

#define SEAM "bridge.joints.seam.scale = 0.5 .. 2"

/* Shares of the hinged bridge at the places of the sweep. */
static double hinged_share(const ss_sweep *sweep, int share) {
    ss_error error = {0};
    ss_variant v;
    ss_description d = sample_read(STONE_RUN, beside);
    sample_set(&d, "bridge.joints.seam.kind", "hinged");
    sample_stand(&d, &v);
    ss_watch_value *const values = ss_alloc((size_t)sweep->trials.watch.item_count + 1, sizeof *values);
    double *const out = ss_alloc((size_t)sweep->trials.follow.count + 1, sizeof *out);
    CU_ASSERT_FATAL(values != NULL && out != NULL);
    CHECK_OK(ss_watch_compute(&sweep->trials.watch, &v, values, &error), &error);
    ss_follow_values(&sweep->trials.follow, values, out);
    const double value = out[share];
    ss_free(values);
    ss_free(out);
    ss_variant_destroy(&v);
    ss_description_destroy(&d);
    return value;
}

/* Two equal cars with a truck on one: its share falls from all of it to that of a hinge, and has long done so
 * while the joint is still asked for more. */
static void test_share(void) {
    going g;
    ss_sweep_plan plan;
    char words[64];
    go_plan(&g, STONE_RUN, beside, SEAM, NULL, &plan);
    plan.whole = true;
    go(&g, &plan);
    const ss_sweep_axis *const axis = &g.sweep.axis[0];
    const int last = g.sweep.count - 1;
    CU_ASSERT(g.sweep.closed && axis->joint && axis->whole);
    CU_ASSERT_FATAL(g.sweep.count > 60);
    CU_ASSERT_STRING_EQUAL(ss_sweep_value_words(axis, 0, SS_UNITS_US, words, sizeof words), "none");
    CU_ASSERT_STRING_EQUAL(ss_sweep_value_words(axis, last, SS_UNITS_US, words, sizeof words), "rigid");
    const int share = followed(&g.sweep, SS_FOLLOW_SHARE, "left", NULL);
    const int shear = followed(&g.sweep, SS_FOLLOW_JOINT_SHEAR, NULL, "seam");
    CU_ASSERT_FATAL(share >= 0 && shear >= 0);
    CHECK_CLOSE(g.sweep.points[0].followed[share], 1.0, 1e-12);
    CHECK_CLOSE(g.sweep.points[last].followed[share], hinged_share(&g.sweep, share), 1e-9);
    for (int i = 1; i <= last; i++) {
        CU_ASSERT(g.sweep.points[i].followed[share] <= g.sweep.points[i - 1].followed[share] * (1.0 + 1e-9));
        CU_ASSERT(g.sweep.points[i].followed[shear] >= g.sweep.points[i - 1].followed[shear] * (1.0 - 1e-9));
    }
    CU_ASSERT_EQUAL(g.sweep.points[0].followed[shear], 0.0);
    CU_ASSERT(g.sweep.points[last].followed[share] < 0.9);
    CU_ASSERT(g.sweep.results[share].to > g.sweep.results[share].from);
    CU_ASSERT(g.sweep.results[shear].to > 3.0 * g.sweep.results[share].to);
    go_end(&g);
}

/* The worst joint is neither of the ends here, and a search of it finds no less. */
static void test_worst_inside(void) {
    going g;
    ss_sweep_plan plan;
    go_plan(&g, STONE_RUN, beside, SEAM, NULL, &plan);
    plan.whole = true;
    go(&g, &plan);
    const int worst = g.sweep.worst, last = g.sweep.count - 1;
    CU_ASSERT_FATAL(worst > 0 && worst < last);
    CU_ASSERT(g.sweep.points[worst].rf < g.sweep.points[0].rf * (1.0 - 1e-3));
    CU_ASSERT(g.sweep.points[worst].rf < g.sweep.points[last].rf * (1.0 - 1e-5));
    check_searched(&g.sweep, worst, 1e-6);
    char text[40];
    trial_full full;
    snprintf(text, sizeof text, "%.17g", g.sweep.axis[0].value[worst]);
    const trial_variant change = {{{"bridge.joints.seam.scale", text}, {NULL, NULL}}};
    trial_rate(STONE_RUN, beside, &change, &full);
    trial_check(text, &g.sweep.points[worst], &full, 1e-6);
    trial_full_end(&full);
    go_end(&g);
}

/* Both ends are bridges that can be described; of a joint that turns too. */
static void check_ends(const char *file, const sample_setting *settings, const char *kind) {
    going g;
    ss_sweep_plan plan;
    trial_full none, tied;
    const trial_variant without = {{{"bridge.joints.seam.kind", "none"}, {NULL, NULL}}},
                        rigid = {{{"bridge.joints.seam.kind", kind}, {NULL, NULL}}};
    go_plan(&g, file, settings, SEAM, NULL, &plan);
    plan.whole = true;
    plan.points[0] = 20;
    go(&g, &plan);
    CU_ASSERT_EQUAL_FATAL(g.sweep.count, 21); /* with the one that is described */
    trial_rate(file, settings, &without, &none);
    trial_rate(file, settings, &rigid, &tied);
    trial_check("none", &g.sweep.points[0], &none, SAME);
    trial_check(kind, &g.sweep.points[20], &tied, 1e-6); /* places are those of the stiffest that is finite */
    trial_full_end(&none);
    trial_full_end(&tied);
    go_end(&g);
}

static void test_ends(void) {
    check_ends(STONE_RUN, NULL, "rigid");
    check_ends(STONE_RUN, beside, "hinged");
}

/* ---- against analyses of each point ----------------------------------------------------------------- */

/* The same points by analyses at the same places, but for the rigid one. */
static void check_closed(const char *file, const sample_setting *settings, const char *unknown, int points,
                         bool whole) {
    going g;
    ss_sweep_plan plan;
    ss_arena arena = {0};
    ss_error error = {0};
    int done = 0;
    go_plan(&g, file, settings, unknown, NULL, &plan);
    plan.whole = whole;
    plan.points[0] = points;
    go(&g, &plan);
    CU_ASSERT_TRUE_FATAL(g.sweep.closed);
    const int count = g.sweep.count - (whole ? 1 : 0), followeds = g.sweep.trials.follow.count;
    ss_trial *const anew = ss_arena_alloc(&arena, (size_t)count, sizeof *anew);
    CU_ASSERT_PTR_NOT_NULL_FATAL(anew);
    CHECK_OK(ss_trials_run(&g.sweep.trials, ss_sweep_change, &g.sweep, count, &arena, anew, &done, &error),
             &error);
    CU_ASSERT_EQUAL(done, count);
    for (int i = 0; i < count; i++) {
        const ss_trial *const a = &g.sweep.points[i], *const b = &anew[i];
        char row[32];
        snprintf(row, sizeof row, "point %d", i);
        CHECK_ROW(a->failure == NULL && b->failure == NULL, row);
        check_relative(row, a->rf, b->rf, 1e-9);
        CHECK_ROW(strcmp(a->governs, b->governs) == 0 && a->vehicle == b->vehicle, row);
        CHECK_ROW(a->joint_out == b->joint_out && a->posting == b->posting, row);
        for (int k = 0; k < g.sweep.trials.truck_count; k++) {
            check_relative(row, a->truck[k], b->truck[k], 1e-9);
        }
        for (int k = 0; k < SS_POSTING_GROUPS; k++) {
            CHECK_ROW(a->sign[k] == b->sign[k] || (isnan(a->sign[k]) && isnan(b->sign[k])), row);
        }
        for (int k = 0; k < followeds; k++) {
            const double most = fmax(fabs(g.sweep.results[k].least), fabs(g.sweep.results[k].most));
            if (i == 0 && whole && isnan(b->followed[k])) {
                CHECK_ROW(a->followed[k] == 0.0, row); /* the joint that is not there */
            } else {
                check_near(row, a->followed[k], b->followed[k], 1e-9, most);
            }
        }
    }
    ss_arena_destroy(&arena);
    go_end(&g);
}

static void test_closed(void) {
    const sample_setting alone[] = {{"rating.crossings", "alone"}, {NULL, NULL}};
    check_closed(STONE_RUN, NULL, SEAM, 23, true);
    check_closed(STONE_RUN, beside, "bridge.joints.seam.shear = 0.01 kip/in/in .. 10 kip/in/in log", 16,
                 false);
    check_closed(MILL_POND, alone, "bridge.joints.seam.scale, bridge.joints.bolts.scale = 0.1 .. 10 log", 12,
                 false);
    check_closed(MILL_POND, alone, SEAM, 20, true);
}

/* ---- bands, full joints, faults --------------------------------------------------------------------- */

static double value_of(const ss_sweep *sweep, int point, int result) {
    return result < 0 ? sweep->points[point].rf : sweep->points[point].followed[result];
}

/* Index of a value of the axis. */
static int point_at(const ss_sweep *sweep, double value) {
    for (int i = 0; i < sweep->count; i++) {
        if (sweep->axis[0].value[i] == value) {
            return i;
        }
    }
    return -1;
}

/* Up to `from` a result is what it is at the first point, from `to` on what it is at the last: within 5 %. */
static void check_band(const ss_sweep *sweep, const ss_sweep_band *band, int result) {
    const int last = sweep->count - 1;
    const double still = 0.05 * (band->most - band->least);
    if (isnan(band->from)) {
        CU_ASSERT(isnan(band->most) || band->most - band->least <= 1e-9 * fmax(fabs(band->most), 1e-300) ||
                  band->most - band->least <= 1e-9 * fabs(band->least));
        return;
    }
    const int from = point_at(sweep, band->from), to = point_at(sweep, band->to);
    CU_ASSERT_FATAL(from >= 0 && to >= 0);
    for (int i = 0; i <= last; i++) {
        const double value = value_of(sweep, i, result);
        CU_ASSERT(isnan(value) || (value >= band->least && value <= band->most));
        if (i <= from) {
            CU_ASSERT(isnan(value) || fabs(value - value_of(sweep, 0, result)) <= still);
        }
        if (i >= to) {
            CU_ASSERT(isnan(value) || fabs(value - value_of(sweep, last, result)) <= still);
        }
    }
    CU_ASSERT(fabs(value_of(sweep, from + 1, result) - value_of(sweep, 0, result)) > still);
    CU_ASSERT(fabs(value_of(sweep, to - 1, result) - value_of(sweep, last, result)) > still);
}

/* A joint that is full before the members from some stiffness on is out from there on: the same rating as
 * without it. */
static void test_joint_full(void) {
    const sample_setting weak[] = {{"bridge.joints.seam.shear_capacity", "1.5 kip/ft"}, {NULL, NULL}};
    going g;
    ss_sweep_plan plan;
    go_plan(&g, STONE_RUN, weak, SEAM, NULL, &plan);
    plan.whole = true;
    go(&g, &plan);
    const int full = g.sweep.joint_full, last = g.sweep.count - 1;
    CU_ASSERT_FATAL(full > 0 && full <= last);
    for (int i = 0; i <= last; i++) {
        const ss_trial *const t = &g.sweep.points[i];
        CU_ASSERT(i >= full || !t->joint_out);
        CU_ASSERT(i == 0 || t->joint > 0.0);
        if (t->joint_out) {
            CHECK_CLOSE(t->rf, g.sweep.points[0].rf, SAME);
        }
    }
    CU_ASSERT(g.sweep.points[last].joint < g.sweep.points[full].joint);
    check_band(&g.sweep, &g.sweep.rating, -1);
    for (int k = 0; k < g.sweep.trials.follow.count; k++) check_band(&g.sweep, &g.sweep.results[k], k);
    go_end(&g);
}

static bool stops_at_once(void *context) {
    (void)context;
    return true;
}

/* A joint without stiffness cannot be swept; a stop leaves what is done; points that fail are results. */
static void test_faults(void) {
    const sample_setting none[] = {{"bridge.joints.seam.kind", "rigid"}, {NULL, NULL}};
    going g;
    ss_sweep_plan plan;
    ss_error error = {0};
    go_plan(&g, STONE_RUN, none, "bridge.joints.seam.scale = 0.5 .. 2", NULL, &plan);
    plan.whole = true;
    CU_ASSERT_EQUAL(ss_sweep_compute(&plan, &g.sweep, &error), SS_ERROR_DESCRIPTION);
    CU_ASSERT(error.message[0] != '\0');
    g.sweep = (ss_sweep){0};
    go_end(&g);
    go_plan(&g, STONE_RUN, NULL, "steels.steel.fy = 30 ksi .. 50 ksi", NULL, &plan);
    plan.points[0] = 100001;
    error = (ss_error){0};
    CU_ASSERT_EQUAL(ss_sweep_compute(&plan, &g.sweep, &error), SS_ERROR_LIMIT);
    g.sweep = (ss_sweep){0};
    plan.points[0] = 5;
    plan.options.stop = stops_at_once;
    CHECK_OK(ss_sweep_compute(&plan, &g.sweep, &error), &error);
    CU_ASSERT(g.sweep.done == 0 && g.sweep.worst == -1 && g.sweep.best == -1);
    go_end(&g);
    /* The roadway is too narrow for its own faces below 1 ft: those points say so. */
    go_plan(&g, STONE_RUN, NULL, "bridge.roadway.to = 0.5 ft .. 15 ft", NULL, &plan);
    plan.points[0] = 3;
    go(&g, &plan);
    CU_ASSERT_EQUAL_FATAL(g.sweep.count, 3);
    CU_ASSERT_PTR_NOT_NULL(g.sweep.points[0].failure);
    CU_ASSERT_PTR_NULL(g.sweep.points[2].failure);
    CU_ASSERT(g.sweep.worst > 0);
    go_end(&g);
}

int main(void) {
    static const test_case cases[] = {
        {"words", test_words},
        {"values", test_values},
        {"two axes", test_two_axes},
        {"load share", test_share},
        {"worst inside", test_worst_inside},
        {"none and rigid", test_ends},
        {"closed form", test_closed},
        {"full joints and bands", test_joint_full},
        {"faults and stops", test_faults},
    };
    return RUN_SUITE("sweeps", cases);
}
