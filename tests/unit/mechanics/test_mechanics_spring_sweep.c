/* test_mechanics_spring_sweep.c - swept springs against analyses made anew, over twelve decades of stiffness.
 */
#include <limits.h>

#include "sweep_samples.h"

typedef struct arrangement {
    const char *name;
    int cars;
    bool connectors;
    sweep_part part;
} arrangement;

static const arrangement arrangements[] = {
    {"two cars, shear", 2, false, SWEEP_SHEAR},
    {"two cars, fold", 2, false, SWEEP_FOLD},
    {"two cars, both", 2, false, SWEEP_BOTH},
    {"three cars, shear", 3, false, SWEEP_SHEAR},
    {"three cars, fold", 3, false, SWEEP_FOLD},
    {"three cars, both", 3, false, SWEEP_BOTH},
    {"two cars, connectors, shear", 2, true, SWEEP_SHEAR},
    {"two cars, connectors, both", 2, true, SWEEP_BOTH},
};

static void start(sweep_sample *w, const arrangement *row) {
    sweep_cars(w, row->cars, 1.0);
    if (row->connectors) {
        sweep_connectors(w);
    }
    analysis_start(&w->a, &w->s);
    sweep_loads(w);
    sweep_readings(w);
    sweep_choose(w, row->part, 2);
    CU_ASSERT_TRUE(w->swept_count > 2);
    sweep_make(w);
}

static void test_against_analysis(void) {
    for (int n = 0; n < ENTRIES(arrangements); n++) {
        const arrangement *row = &arrangements[n];
        static sweep_sample w;
        start(&w, row);
        double *const anew = sweep_zeros(w.load_count * w.reading_count);
        for (int power = -6; power <= 6; power++) {
            const double k = 1.7 * pow(10.0, power);
            sweep_anew(&w, row->part, k, anew);
            const double off = sweep_difference(&w, sweep_at(&w, k), anew);
            CHECK_ROW(off < 1e-9, row->name);
            sweep_updated(&w, k, anew);
            const double other = sweep_difference(&w, w.values, anew);
            CHECK_ROW(other < 1e-9, row->name);
        }
        free(anew);
        sweep_end(&w);
    }
}

/* A fold next to nothing, or next to rigid, with the step: springs more unlike than members are. Digits are
 * lost when they are a hundred million times so. */
static void test_unlike(void) {
    static const struct {
        double by, within;
    } rows[4] = {{1e-4, 1e-8}, {1e4, 1e-9}, {1e-8, 1e-6}, {1e8, 1e-8}};
    for (int n = 0; n < ENTRIES(rows); n++) {
        static sweep_sample w;
        sweep_cars(&w, 2, 1.0);
        w.s.bridge.joints[0].rotation *= rows[n].by;
        analysis_start(&w.a, &w.s);
        sweep_loads(&w);
        sweep_readings(&w);
        sweep_choose(&w, SWEEP_BOTH, 0);
        sweep_make(&w);
        double *const anew = sweep_zeros(w.load_count * w.reading_count);
        for (int power = -5; power <= 5; power++) {
            const double k = 2.3 * pow(10.0, power);
            sweep_anew(&w, SWEEP_BOTH, k, anew);
            check_near("unlike", sweep_difference(&w, sweep_at(&w, k), anew), 0.0, rows[n].within, 1.0);
        }
        free(anew);
        sweep_end(&w);
    }
}

/* A handful of values pays; not when there is more to read than to solve. */
static void test_pays(void) {
    static sweep_sample w;
    start(&w, &arrangements[2]);
    ss_sweep_task task = sweep_task(&w);
    const int few = ss_spring_sweep_pays_from(w.a.grillage, &task);
    CU_ASSERT_TRUE(few >= 1 && few <= 10);
    task.load_count = 100000;
    task.reading_count = 100000;
    CU_ASSERT_EQUAL(ss_spring_sweep_pays_from(w.a.grillage, &task), INT_MAX);
    sweep_end(&w);
}

static const test_case cases[] = {
    {"against analyses made anew", test_against_analysis},
    {"unlike springs", test_unlike},
    {"pays", test_pays},
};

int main(void) {
    return RUN_SUITE("spring sweep", cases);
}
