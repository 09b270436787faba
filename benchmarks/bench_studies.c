/* bench_studies.c - studies of many variants: a joint's sweep against analyses and full ratings, and what a
 * sample costs on one thread and on two. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#ifdef _OPENMP
#include <omp.h>
#endif

#include "bench.h"
#include "sillspan/joint_out.h"
#include "sillspan/reader.h"
#include "studies/sweep_parts.h"
#include "studies/trial_parts.h"

enum { POINTS = 200, SEARCHED = 3, VARIANTS = 120, RUNS = 3 };

/* Parts of the factor by which the ways may differ: the same places, and places found by a search. */
#define WITHIN 1e-9
#define WITHIN_SEARCH 1e-4

static const char joint_path[] = "bridge.joints.seam.scale = 0.1 .. 10 log";
static const char plate_path[] = "sections.main box.bottom.thickness = 5/8 in .. 7/8 in";

static void set_threads(int count) {
#ifdef _OPENMP
    omp_set_num_threads(count);
#else
    (void)count;
#endif
}

/* A description with the unknowns, and its bridge. */
typedef struct study {
    ss_description description;
    ss_bridge bridge;
    ss_diag_list diags;
} study;

static void study_make(study *s, const char *file) {
    ss_error error = {0};
    *s = (study){0};
    bench_need(ss_description_read(file, &s->description, &s->diags, &error), &error);
    bench_need(ss_unknown_add(&s->description, joint_path, &s->diags), &error);
    bench_need(ss_unknown_add(&s->description, plate_path, &s->diags), &error);
    bench_need(ss_description_check(&s->description, &s->diags), &error);
    bench_need(ss_bridge_resolve(&s->description, &s->bridge, &s->diags), &error);
}

static void study_free(study *s) {
    ss_bridge_destroy(&s->bridge);
    ss_description_destroy(&s->description);
    ss_diag_destroy(&s->diags);
}

static void must_agree(const char *what, double a, double b, double within) {
    if (!(fabs(a - b) <= within * fabs(b))) {
        fprintf(stderr, "sillspan_bench: %s: %.12g and %.12g\n", what, a, b);
        exit(1);
    }
}

/* ---- a joint from none to rigid --------------------------------------------------------------------- */

/* Seconds of a full rating of some points, each; their factors are compared. */
static double time_searches(const study *s, const ss_sweep *sweep) {
    const ss_variant_asks all = {.vehicle = -1};
    double seconds = 0.0;
    for (int i = 0; i < SEARCHED; i++) {
        const int point = (i + 1) * (sweep->count - 1) / (SEARCHED + 1);
        ss_description d = {0};
        ss_variant v;
        ss_joint_out joints = {0};
        ss_diag_list diags = {0};
        ss_error error = {0};
        const double start = bench_now();
        bench_need(ss_description_copy(&s->description, "probes|cases|fatigue", &d), &error);
        bench_need(ss_sweep_change((void *)sweep, point, &d, &diags), &error);
        bench_need(ss_variant_of(&d, &all, &v, &diags, &error), &error);
        bench_need(ss_joint_out_compute(&d, &v, &joints, &error), &error);
        seconds += bench_now() - start;
        must_agree("a point and its own search", sweep->points[point].rf,
                   v.ratings.items[v.ratings.controlling].rf, WITHIN_SEARCH);
        ss_joint_out_destroy(&joints);
        ss_variant_destroy(&v);
        ss_description_destroy(&d);
        ss_diag_destroy(&diags);
    }
    return seconds / SEARCHED;
}

/* Every point but the rigid one, by an analysis each. */
static double time_analyses(ss_sweep *sweep) {
    ss_arena arena = {0};
    ss_error error = {0};
    const int count = sweep->count - 1;
    ss_trial *const anew = ss_arena_alloc(&arena, (size_t)count, sizeof *anew);
    bench_need(anew == NULL ? SS_ERROR_MEMORY : SS_OK, &error);
    const double start = bench_now();
    bench_need(ss_trials_run(&sweep->trials, ss_sweep_change, sweep, count, &arena, anew, NULL, &error),
               &error);
    const double seconds = bench_now() - start;
    for (int i = 0; i < count; i++) {
        must_agree("a point and its analysis", sweep->points[i].rf, anew[i].rf, WITHIN);
    }
    ss_arena_destroy(&arena);
    return seconds;
}

static void sweep_joint(const study *s) {
    const ss_sweep_plan plan = {.base = &s->description,
                                .bridge = &s->bridge,
                                .axis_count = 1,
                                .unknown = {&s->bridge.unknowns.items[0]},
                                .points = {POINTS},
                                .whole = true,
                                .options = {.follow = true}};
    ss_sweep sweep;
    ss_error error = {0};
    double start = bench_now();
    bench_need(ss_sweep_compute(&plan, &sweep, &error), &error);
    const double all = bench_now() - start;
    start = bench_now();
    bench_need(ss_sweep_closed(&plan, &sweep, &error), &error);
    const double closed = bench_now() - start, analyses = time_analyses(&sweep),
                 search = time_searches(s, &sweep);
    printf("| %d points, %d places of sections and trucks | s |\n|---|---|\n", sweep.count,
           sweep.trials.watch.item_count);
    printf("| sweep as a whole, with its searches of both ends, the middle and the worst | %.1f |\n", all);
    printf("| of it the points, closed form | %.2f |\n", closed);
    printf("| the points, an analysis each at the same places | %.1f, %.1f times |\n", analyses,
           analyses / closed);
    printf("| the points, a full rating each (%d were made, at %.1f s) | %.0f, %.0f times the whole |\n",
           SEARCHED, search, search * sweep.count, search * sweep.count / all);
    ss_sweep_destroy(&sweep);
}

/* ---- samples ---------------------------------------------------------------------------------------- */

static ss_status draw(void *context, int index, ss_description *description, ss_diag_list *diags) {
    const ss_unknown_set *const set = context;
    double point[2], work[4];
    ss_unknowns_draw(set, 1, VARIANTS, index, point, work);
    return ss_unknowns_apply(set, point, description, diags);
}

/* Least seconds of any run. */
typedef struct least {
    double wall, cpu; /* of the clock, of the processor with all threads together */
} least;

static void time_variants(const study *s, ss_trials *trials, int threads, ss_arena *arena, ss_trial *out,
                          least *time) {
    ss_error error = {0};
    set_threads(threads);
    const double start = bench_now(), wall = bench_wall();
    bench_need(ss_trials_run(trials, draw, (void *)&s->bridge.unknowns, VARIANTS, arena, out, NULL, &error),
               &error);
    time->cpu = fmin(time->cpu, bench_now() - start);
    time->wall = fmin(time->wall, bench_wall() - wall);
    set_threads(1);
}

/* An item that only computes: what two threads gain at most while other programs run. */
static ss_status spin(void *context, int index, ss_text *out, ss_error *error) {
    volatile double sum = 0.0;
    (void)context;
    (void)index;
    (void)error;
    for (int i = 0; i < 5000000; i++) sum += i;
    ss_text_add_bytes(out, sum > 0.0 ? "+" : "-", 1);
    return out->failed ? SS_ERROR_MEMORY : SS_OK;
}

static ss_status nothing(void *context, int index, const ss_text *result, ss_error *error) {
    (void)context;
    (void)index;
    (void)result;
    (void)error;
    return SS_OK;
}

static void time_spin(int threads, double *wall) {
    const ss_work work = {.count = VARIANTS, .item = spin, .taken = nothing};
    ss_error error = {0};
    set_threads(threads);
    const double start = bench_wall();
    bench_need(ss_work_run(NULL, &work, &error), &error);
    *wall = fmin(*wall, bench_wall() - start);
    set_threads(1);
}

static void must_be_same(const ss_trials *trials, const ss_trial *a, const ss_trial *b) {
    for (int i = 0; i < VARIANTS; i++) {
        ss_text one = {0}, two = {0};
        if (a[i].failure != NULL) {
            fprintf(stderr, "sillspan_bench: variant %d: %s\n", i, a[i].failure);
            exit(1);
        }
        bench_need(ss_trial_pack(trials, &a[i], &one) && ss_trial_pack(trials, &b[i], &two) ? SS_OK
                                                                                            : SS_ERROR_MEMORY,
                   &(ss_error){0});
        if (one.length != two.length || memcmp(one.data, two.data, one.length) != 0) {
            fprintf(stderr, "sillspan_bench: variant %d depends on threads\n", i);
            exit(1);
        }
        ss_text_destroy(&one);
        ss_text_destroy(&two);
    }
}

static void rate_samples(const study *s) {
    static ss_trial one[VARIANTS], two[VARIANTS];
    const ss_trial_options options = {.follow = true};
    ss_trials trials;
    ss_arena arena = {0};
    ss_error error = {0};
    ss_trial anchor;
    least of_one = {HUGE_VAL, HUGE_VAL}, of_two = {HUGE_VAL, HUGE_VAL};
    ss_trials_begin(&s->description, &options, &trials);
    const double start = bench_now();
    bench_need(ss_trials_anchor(&trials, NULL, NULL, 0, &arena, &anchor, &error), &error);
    const double search = bench_now() - start;
    double spin_one = HUGE_VAL, spin_two = HUGE_VAL;
    for (int run = 0; run < RUNS; run++) {
        time_spin(1, &spin_one);
        time_spin(2, &spin_two);
        time_variants(s, &trials, 1, &arena, one, &of_one);
        time_variants(s, &trials, 2, &arena, two, &of_two);
        must_be_same(&trials, one, two);
    }
    printf("\n| %d variants, %d places, least of %d runs | one thread | two threads |\n|---|---|---|\n",
           VARIANTS, trials.watch.item_count, RUNS);
    printf("| a variant, ms of the processor | %.1f | %.1f |\n", 1e3 * of_one.cpu / VARIANTS,
           1e3 * of_two.cpu / VARIANTS);
    printf("| variants a second of the clock | %.0f | %.0f, %.2f times |\n", VARIANTS / of_one.wall,
           VARIANTS / of_two.wall, of_one.wall / of_two.wall);
    printf("| the same of a loop that only computes | | %.2f times |\n", spin_one / spin_two);
    printf("| a full search, s of the processor | %.1f, as %.0f variants | |\n", search,
           search / (of_one.cpu / VARIANTS));
    ss_trials_end(&trials);
    ss_arena_destroy(&arena);
}

void bench_studies(const char *file) {
    study s;
    set_threads(1);
    study_make(&s, file);
    printf("\n## Studies: the joint from none to rigid, and samples; one core where no threads are said\n\n");
    sweep_joint(&s);
    rate_samples(&s);
    study_free(&s);
}
