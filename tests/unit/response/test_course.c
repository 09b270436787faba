/* test_course.c - where a train's axles come to, the sums of influence lines there against the bridge solved
 * under the load itself, and bounds that enclose them. */
#include "response/course.h"

#include <string.h>

#include "chosen_effects.h"
#include "mechanics/row.h"
#include "response/bins.h"
#include "sillspan/memory.h"
#include "support/random.h"

enum { TOLD = 9 }; /* the chosen effects of lines and floor beams come first */

/* The two cars on bearings that hold both ways, with axles of two gauges. */
typedef struct rolled {
    made_bridge made;
    ss_effect effects[EFFECTS];
    ss_axle_plans plans;
    ss_courses courses;
    ss_axle_lines lines;
    double *field;
} rolled;

static void start(rolled *r) {
    made_bridge *const m = &r->made;
    ss_error *const error = &m->error;
    made_two_cars(m, false, 3.1);
    m->bridge.vehicles[0].axle_gauge_m[0] = 2.04;
    CHECK_OK(made_solve(m), error);
    choose_effects(m, r->effects);
    CHECK_OK(ss_axle_plans_build(&m->mesh, &m->placements, &r->plans, error), error);
    CHECK_OK(ss_courses_build(&r->plans, &m->placements, &r->courses, error), error);
    CHECK_OK(ss_axle_lines_create(&r->plans, &r->lines, error), error);
    r->field = ss_alloc((size_t)m->mesh.order * SS_TILE, sizeof *r->field);
    double *const work = ss_alloc(ss_grillage_work(m->grillage, NULL), sizeof *work);
    CU_ASSERT_PTR_NOT_NULL_FATAL(r->field);
    CU_ASSERT_PTR_NOT_NULL_FATAL(work);
    for (int e = 0; e < TOLD; e++) {
        ss_row row;
        ss_mesh_effect_row(&m->mesh, &r->effects[e], &row);
        for (int i = 0; i < row.count; i++)
            r->field[(size_t)row.dof[i] * SS_TILE + (size_t)e] += row.value[i];
    }
    ss_grillage_solve(m->grillage, NULL, r->field, work);
    ss_axle_lines_fill(&r->lines, r->field, r->effects, TOLD);
    ss_free(work);
}

static void finish(rolled *r) {
    ss_free(r->field);
    ss_axle_lines_destroy(&r->lines);
    ss_courses_destroy(&r->courses);
    ss_axle_plans_destroy(&r->plans);
    made_free(&r->made);
}

static const ss_course *course_of(const rolled *r, int track) {
    return &r->courses.items[r->courses.of_track[track]];
}

/* Effects under the load itself. */
static void solve(rolled *r, const ss_position *position, double out[TOLD]) {
    made_bridge *const m = &r->made;
    ss_load load = {0};
    CHECK_OK(ss_placements_load(&m->mesh, &m->placements, position, &load, &m->error), &m->error);
    double *const u = ss_alloc((size_t)m->mesh.order, sizeof *u);
    double *const force = ss_alloc((size_t)m->mesh.spring_count, sizeof *force);
    CHECK_OK(ss_grillage_respond(m->grillage, NULL, load.nodal, NULL, u, force, &m->error), &m->error);
    for (int e = 0; e < TOLD; e++) out[e] = ss_mesh_effect_value(&m->mesh, &r->effects[e], u, &load);
    ss_free(force);
    ss_free(u);
    ss_load_destroy(&load);
}

/* Largest magnitude of each effect under one axle of the train anywhere. */
static void sizes(const rolled *r, double size[TOLD]) {
    memset(size, 0, TOLD * sizeof *size);
    for (int p = 0; p < r->plans.count; p++) {
        for (int k = 0; k < r->plans.interval_count; k++) {
            const double *const c = ss_axle_lines_cubic(&r->lines, p, k);
            for (int e = 0; e < TOLD; e++) size[e] = fmax(size[e], 8.0e4 * fabs(c[e]));
        }
    }
}

/* ---- geometry ----------------------------------------------------------------------------------- */

static bool has_stand(const ss_course *c, double x) {
    for (int i = 0; i < c->stand_count; i++) {
        if (fabs(c->x[i] - x) <= 1e-9) {
            return true;
        }
    }
    return false;
}

static double axle_at(const ss_course *c, double x, int axle) {
    double behind = 0.0;
    for (int a = 0; a < axle; a++) behind += c->vehicle->spacing_m[a];
    return c->backward ? x + behind : x - behind;
}

static void check_stands(const rolled *r, const ss_course *c) {
    int missing = 0, falling = 0, misplaced = 0;
    for (int i = 1; i < c->stand_count; i++) falling += !(c->x[i] > c->x[i - 1] + 1e-9);
    for (int a = 0; a < c->vehicle->axle_count; a++) {
        for (int k = 0; k <= r->plans.interval_count; k++) {
            missing += !has_stand(c, r->made.mesh.station[k] - (axle_at(c, 0.0, a)));
        }
    }
    for (int i = 0; i < c->stand_count + c->point_count; i++) {
        for (int a = 0; a < c->vehicle->axle_count; a++) {
            const ss_axle_at *const at = &c->at[i * c->vehicle->axle_count + a];
            const double x = axle_at(c, c->x[i], a);
            if (at->interval >= 0) {
                const double *const s = &r->made.mesh.station[at->interval];
                misplaced += !(fabs(s[0] + at->s * (s[1] - s[0]) - x) < 1e-9);
            } else {
                misplaced += x > r->made.mesh.station[0] + 1e-9 &&
                             x < r->made.mesh.station[r->plans.interval_count] - 1e-9;
            }
        }
    }
    CU_ASSERT_EQUAL(missing, 0);
    CU_ASSERT_EQUAL(falling, 0);
    CU_ASSERT_EQUAL(misplaced, 0);
}

/* An axle's interval in the middle of a cell, and at points, lies within its range over the block. */
static int out_of_range(const rolled *r, const ss_course *c, int block, double x) {
    ss_axle_at at[SS_AXLES_MAX];
    int wrong = 0;
    ss_course_locate(&r->plans, c, x, false, at);
    for (int a = 0; a < c->vehicle->axle_count; a++) {
        const ss_course_range *const range = &c->range[block * c->vehicle->axle_count + a];
        wrong += at[a].interval < 0 ? !range->outside
                                    : at[a].interval < range->first || at[a].interval > range->last;
    }
    return wrong;
}

static void check_blocks(const rolled *r, const ss_course *c) {
    int wrong = 0;
    bool *const met = ss_alloc((size_t)c->point_count + 1, sizeof *met);
    CU_ASSERT_FATAL(c->block_count > 0);
    CU_ASSERT_EQUAL(c->block[0].first, 0);
    CU_ASSERT_EQUAL(c->block[c->block_count - 1].last, c->stand_count - 1);
    for (int b = 0; b < c->block_count; b++) {
        const ss_course_block *const block = &c->block[b];
        wrong += b > 0 && block->first != c->block[b - 1].last;
        wrong += block->last <= block->first;
        for (int i = block->first; i < block->last; i++) {
            for (int k = 1; k < 4; k++) {
                wrong += out_of_range(r, c, b, c->x[i] + 0.25 * k * (c->x[i + 1] - c->x[i]));
            }
        }
        for (int i = block->point_first; i < block->point_end; i++) {
            met[i] = true;
            wrong += out_of_range(r, c, b, c->x[c->stand_count + i]);
        }
    }
    for (int i = 0; i < c->point_count; i++) wrong += !met[i];
    CU_ASSERT_EQUAL(wrong, 0);
    ss_free(met);
}

static void test_stands_and_blocks(void) {
    rolled r = {0};
    start(&r);
    CU_ASSERT_EQUAL(r.courses.count, 2); /* one each way */
    for (int t = 0; t < r.made.placements.track_count; t++) {
        const ss_track *const track = &r.made.placements.tracks[t];
        CU_ASSERT(course_of(&r, t)->train == track->train && course_of(&r, t)->backward == track->backward);
    }
    for (int i = 0; i < r.courses.count; i++) {
        CU_ASSERT_EQUAL(r.courses.items[i].point_count, 3 * 5); /* axles at floor beams */
        check_stands(&r, &r.courses.items[i]);
        check_blocks(&r, &r.courses.items[i]);
    }
    finish(&r);
}

/* ---- sums --------------------------------------------------------------------------------------- */

/* Of the largest effect of an axle. */
static double worst_difference(const double *a, const double *b, const double *size) {
    double worst = 0.0;
    for (int e = 0; e < TOLD; e++) worst = fmax(worst, fabs(a[e] - b[e]) / size[e]);
    return worst;
}

static void test_sums(void) {
    rolled r = {0};
    uint64_t seed = 40087;
    double size[TOLD], worst = 0.0, worst_hair = 0.0, worst_left = 0.0, worst_right = 0.0, worst_point = 0.0;
    start(&r);
    sizes(&r, size);
    for (int trial = 0; trial < 300; trial++) {
        const int track = (int)next_below(&seed, (size_t)r.made.placements.track_count);
        const ss_course *const c = course_of(&r, track);
        ss_axle_at at[SS_AXLES_MAX];
        double sum[SS_TILE], direct[TOLD];
        const double first = c->x[0], span = c->x[c->stand_count - 1] - first;
        const ss_position inside = {
            .track = track, .x = first + 0.5 * span * (1.0 + next_signed(&seed)), .on_beam = false};
        ss_course_locate(&r.plans, c, inside.x, false, at);
        ss_course_sum(&r.lines, c, track, at, false, sum);
        solve(&r, &inside, direct);
        /* Tracks a few nanometres beside another one have its lines. */
        double *const among = r.made.placements.tracks[track].fine ? &worst_hair : &worst;
        *among = fmax(*among, worst_difference(sum, direct, size));
        const int stand = (int)next_below(&seed, (size_t)c->stand_count);
        const ss_axle_at *const there = c->at + stand * c->vehicle->axle_count;
        ss_course_sum(&r.lines, c, track, there, true, sum);
        solve(&r, &(ss_position){.track = track, .x = c->x[stand] - 1e-9, .on_beam = false}, direct);
        worst_left = fmax(worst_left, worst_difference(sum, direct, size));
        ss_course_sum(&r.lines, c, track, there, false, sum);
        solve(&r, &(ss_position){.track = track, .x = c->x[stand] + 1e-9, .on_beam = false}, direct);
        worst_right = fmax(worst_right, worst_difference(sum, direct, size));
        const int point = c->stand_count + (int)next_below(&seed, (size_t)c->point_count);
        ss_course_sum(&r.lines, c, track, c->at + point * c->vehicle->axle_count, false, sum);
        solve(&r, &(ss_position){.track = track, .x = c->x[point], .on_beam = true}, direct);
        worst_point = fmax(worst_point, worst_difference(sum, direct, size));
    }
    CU_ASSERT(worst < 1e-9);
    CU_ASSERT(worst_hair < 2e-7);
    CU_ASSERT(worst_left < 2e-7);
    CU_ASSERT(worst_right < 2e-7);
    CU_ASSERT(worst_point < 2e-7);
    finish(&r);
}

static void test_cubics(void) {
    rolled r = {0};
    uint64_t seed = 73;
    double size[TOLD], worst = 0.0;
    start(&r);
    sizes(&r, size);
    for (int trial = 0; trial < 400; trial++) {
        const int track = (int)next_below(&seed, (size_t)r.made.placements.track_count);
        const ss_course *const c = course_of(&r, track);
        const int stand = (int)next_below(&seed, (size_t)c->stand_count - 1);
        const double length = c->x[stand + 1] - c->x[stand], t = 0.5 + 0.49 * next_signed(&seed);
        double cubic[4 * SS_TILE], sum[SS_TILE], by_cubic[TOLD];
        ss_axle_at at[SS_AXLES_MAX];
        ss_course_cubic(&r.lines, c, track, c->at + stand * c->vehicle->axle_count, length, cubic);
        ss_course_locate(&r.plans, c, c->x[stand] + t * length, false, at);
        ss_course_sum(&r.lines, c, track, at, false, sum);
        for (int e = 0; e < TOLD; e++) {
            by_cubic[e] = cubic[e] + t * (cubic[SS_TILE + e] +
                                          t * (cubic[2 * SS_TILE + e] + t * cubic[3 * SS_TILE + e]));
        }
        worst = fmax(worst, worst_difference(sum, by_cubic, size));
    }
    CU_ASSERT(worst < 1e-11);
    finish(&r);
}

/* ---- bounds ------------------------------------------------------------------------------------- */

/* How often a sum is beyond the bounds of its block; the largest and least sums are noted. */
static int beyond(const rolled *r, const ss_course *c, int track, const ss_axle_at *at, const float *high,
                  const float *low, double most[TOLD], double least[TOLD]) {
    int wrong = 0;
    for (int left = 0; left < 2; left++) {
        double sum[SS_TILE];
        ss_course_sum(&r->lines, c, track, at, left == 1, sum);
        for (int e = 0; e < TOLD; e++) {
            wrong += sum[e] > (double)high[e] || sum[e] < (double)low[e];
            most[e] = fmax(most[e], sum[e]);
            least[e] = fmin(least[e], sum[e]);
        }
    }
    return wrong;
}

static int beyond_block(const rolled *r, const ss_course *c, int track, int index, const float *high,
                        const float *low, double most[TOLD], double least[TOLD]) {
    const ss_course_block *const block = &c->block[index];
    const int axles = c->vehicle->axle_count;
    int wrong = 0;
    for (int i = block->first; i <= block->last; i++) {
        wrong += beyond(r, c, track, c->at + i * axles, high, low, most, least);
        for (int k = 1; i < block->last && k < 5; k++) {
            ss_axle_at at[SS_AXLES_MAX];
            ss_course_locate(&r->plans, c, c->x[i] + 0.2 * k * (c->x[i + 1] - c->x[i]), false, at);
            wrong += beyond(r, c, track, at, high, low, most, least);
        }
    }
    for (int i = block->point_first; i < block->point_end; i++) {
        wrong += beyond(r, c, track, c->at + (c->stand_count + i) * axles, high, low, most, least);
    }
    return wrong;
}

static void test_bounds_enclose(void) {
    rolled r = {0};
    ss_bins bins = {0};
    ss_bin_bounds bounds = {0};
    start(&r);
    ss_error *const error = &r.made.error;
    CHECK_OK(ss_bins_build(&r.plans, &r.made.placements, &bins, error), error);
    CHECK_OK(ss_bin_bounds_create(&bins, r.plans.interval_count, &bounds, error), error);
    ss_bin_bounds_fill(&bounds, &r.lines, NULL, true);
    CU_ASSERT_EQUAL(bins.class_count, 2);
    CU_ASSERT(bins.count > 3 && bins.count <= SS_BINS_MOST);
    int wrong = 0;
    double most[TOLD] = {0}, least[TOLD] = {0}, highest[TOLD] = {0}, lowest[TOLD] = {0};
    for (int track = 0; track < r.made.placements.track_count; track++) {
        const ss_course *const c = course_of(&r, track);
        CU_ASSERT_FATAL(bins.of_track[track] >= 0 && bins.of_track[track] < bins.count);
        for (int b = 0; b < c->block_count; b++) {
            float high[SS_TILE], low[SS_TILE];
            ss_bin_bounds_block(&bounds, c, bins.of_track[track], b, high, low);
            wrong += beyond_block(&r, c, track, b, high, low, most, least);
            for (int e = 0; e < TOLD; e++) {
                highest[e] = fmax(highest[e], (double)high[e]);
                lowest[e] = fmin(lowest[e], (double)low[e]);
            }
        }
    }
    CU_ASSERT_EQUAL(wrong, 0);
    /* And they are of use: not far beyond what is there. */
    for (int e = 0; e < TOLD; e++) {
        const double span = most[e] - least[e];
        CU_ASSERT(highest[e] - most[e] < 0.6 * span);
        CU_ASSERT(least[e] - lowest[e] < 0.9 * span);
    }
    ss_bin_bounds_destroy(&bounds);
    ss_bins_destroy(&bins);
    finish(&r);
}

static void test_memory(void) {
    rolled r = {0};
    start(&r);
    const long before = ss_memory_live();
    ss_status status = SS_ERROR_MEMORY;
    int failures = 0;
    for (long n = 0; n < 400 && status != SS_OK; n++) {
        ss_courses courses = {0};
        ss_bins bins = {0};
        ss_bin_bounds bounds = {0};
        ss_memory_fail_from(n);
        status = ss_courses_build(&r.plans, &r.made.placements, &courses, NULL);
        if (status == SS_OK) {
            status = ss_bins_build(&r.plans, &r.made.placements, &bins, NULL);
        }
        if (status == SS_OK) {
            status = ss_bin_bounds_create(&bins, r.plans.interval_count, &bounds, NULL);
        }
        ss_memory_fail_from(-1);
        CU_ASSERT(status == SS_OK || status == SS_ERROR_MEMORY);
        failures += status != SS_OK;
        ss_bin_bounds_destroy(&bounds);
        ss_bins_destroy(&bins);
        ss_courses_destroy(&courses);
        CU_ASSERT_EQUAL(ss_memory_live(), before);
    }
    CU_ASSERT_EQUAL(status, SS_OK);
    CU_ASSERT(failures > 5);
    finish(&r);
}

int main(void) {
    static const test_case cases[] = {
        {"stands and blocks", test_stands_and_blocks}, {"sums", test_sums},     {"cubics", test_cubics},
        {"bounds enclose", test_bounds_enclose},       {"memory", test_memory},
    };
    return RUN_SUITE("course", cases);
}
