/* test_trial.c - variants rated at watched places against full ratings of each; failures, threads, stops. */
#ifdef _OPENMP
#include <omp.h>
#endif

#include "unit/studies/trial_samples.h"

/* See test_watch.c. */
#define SAME 1e-8

enum { GOOD = 7, BAD = 5, OTHERS = 3, ALL = GOOD + BAD + OTHERS };

#define NOTHING                                                                                              \
    { NULL, NULL }

/* The first GOOD have results, the next fail in ways of their own, the last have other trucks or ways. */
static trial_variant variants[ALL] = {
    {{NOTHING}},
    {{{"steels.steel.fy", "30 ksi"}, NOTHING}},
    {{{"bridge.joints.seam.shear", "1 kip/in/in"}, NOTHING}},
    {{{"bridge.joints.seam.kind", "none"}, NOTHING}},
    {{{"sections.edge.web", "0.15 in"}, NOTHING}},
    {{{"bridge.bearings.ends.action", "contact"}, NOTHING}},
    {{{"bridge.joints.seam.shear_capacity", "0.1 kip/ft"}, NOTHING}},
    /* a mechanism, tipping, a value out of range, a bridge that cannot be, no such key */
    {{{"bridge.joints.seam.kind", "none"}, {"bridge.bearings.ends.under", "sill"}, NOTHING}},
    {{{"bridge.joints.seam.kind", "none"},
      {"bridge.bearings.ends.action", "contact"},
      {"bridge.bearings.ends.under", "edges 1, stringers 1"},
      NOTHING}},
    {{{"cars.flat.weight", "-3 kip"}, NOTHING}},
    {{{"bridge.roadway.to", "0.5 ft"}, NOTHING}},
    {{{"bridge.joints.seam.sheer", "1 kip/in/in"}, NOTHING}},
    {{{"rating.trucks", "Type 3S2"}, NOTHING}},
    {{{"bridge.roadway.to", "13 ft"}, NOTHING}},
    {{{"rating.methods", "ASR"}, NOTHING}},
};

/* Trials of the sample with its first variant, or more of them, searched in full. */
typedef struct tried {
    ss_description base;
    ss_trials trials;
    ss_arena arena;
    ss_trial anchors[ALL];
    ss_trial out[ALL];
    int asked, stop_after; /* of stop() */
} tried;

static const sample_setting sample[] = {
    {"rating.trucks", "Type 3, EV2"}, {"rating.service", "true"}, NOTHING};

static bool stops(void *context) {
    tried *const t = context;
    return t->stop_after > 0 && t->asked++ >= t->stop_after;
}

static void try_start(tried *t, bool follow, int anchors) {
    const ss_trial_options options = {.follow = follow, .stop = stops, .context = t};
    ss_error error = {0};
    memset(t, 0, sizeof *t);
    t->base = sample_read(STONE_RUN, sample);
    ss_trials_begin(&t->base, &options, &t->trials);
    for (int i = 0; i < anchors; i++) {
        CHECK_OK(ss_trials_anchor(&t->trials, trial_change, variants, i, &t->arena, &t->anchors[i], &error),
                 &error);
    }
}

static void try_run(tried *t, int count) {
    ss_error error = {0};
    int done = 0;
    CHECK_OK(ss_trials_run(&t->trials, trial_change, variants, count, &t->arena, t->out, &done, &error),
             &error);
    CU_ASSERT_EQUAL(done, count);
}

static void try_end(tried *t) {
    ss_trials_end(&t->trials);
    ss_arena_destroy(&t->arena);
    ss_description_destroy(&t->base);
}

/* ---- results ---------------------------------------------------------------------------------------- */

static const char *row(int i) {
    return variants[i].set[0].path == NULL ? "as described" : variants[i].set[0].path;
}

/* Anchors are full ratings; at watched places no variant has a smaller factor than its own search, and with
 * every variant an anchor each has just that. */
static void test_against_full(void) {
    const long live = ss_memory_live();
    tried few, all;
    try_start(&few, false, 1);
    try_start(&all, false, GOOD);
    try_run(&few, GOOD);
    try_run(&all, GOOD);
    for (int i = 0; i < GOOD; i++) {
        trial_full full;
        trial_rate(STONE_RUN, sample, &variants[i], &full);
        trial_check(row(i), &all.anchors[i], &full, SAME);
        trial_check(row(i), &all.out[i], &full, SAME);
        CHECK_ROW(all.anchors[i].full && !all.out[i].full, row(i));
        CHECK_ROW(strcmp(all.anchors[i].governs, all.out[i].governs) == 0, all.out[i].governs);
        CHECK_ROW(all.anchors[i].vehicle == all.out[i].vehicle, row(i));
        for (int k = 0; k < all.trials.truck_count; k++) {
            CHECK_ROW(sample_same(all.out[i].truck[k], all.anchors[i].truck[k], SAME), row(i));
        }
        CHECK_ROW(isnan(all.out[i].joint) ? isnan(all.anchors[i].joint)
                                          : sample_same(all.out[i].joint, all.anchors[i].joint, SAME),
                  row(i));
        CHECK_ROW(few.out[i].rf >= trial_full_rf(&full) * (1.0 - SAME), row(i));
        trial_full_end(&full);
    }
    CU_ASSERT(all.out[6].joint_out && all.out[6].joint < all.out[0].rf);
    CU_ASSERT(!all.out[0].joint_out && isnan(all.out[0].joint));
    CU_ASSERT(all.trials.joints_out_count > 0);
    CU_ASSERT(all.trials.watch.item_count > few.trials.watch.item_count); /* anchors add places */
    CU_ASSERT(all.trials.anchor_count >= GOOD);
    try_end(&few);
    try_end(&all);
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

/* What fails says why and has nothing else; the others are not touched by it. */
static void test_failures(void) {
    tried t;
    try_start(&t, true, 2);
    try_run(&t, ALL);
    for (int i = 0; i < GOOD; i++) CHECK_ROW(t.out[i].failure == NULL && t.out[i].rf > 0.0, row(i));
    for (int i = GOOD; i < GOOD + BAD; i++) {
        const ss_trial *const trial = &t.out[i];
        CU_ASSERT_PTR_NOT_NULL_FATAL(trial->failure);
        CHECK_ROW(trial->failure[0] != '\0', row(i));
        CHECK_ROW(isnan(trial->rf) && trial->vehicle == -1 && trial->governs[0] == '\0', row(i));
        for (int k = 0; k < t.trials.truck_count; k++) CHECK_ROW(isnan(trial->truck[k]), row(i));
        for (int k = 0; k < t.trials.follow.count; k++) CHECK_ROW(isnan(trial->followed[k]), row(i));
        CHECK_ROW(isnan(trial->joint) && isnan(trial->sign[0]) && trial->posting == SS_POSTING_UNKNOWN,
                  row(i));
    }
    CHECK_ROW(strstr(t.out[GOOD].failure, "roll about its bearings") != NULL, t.out[GOOD].failure);
    CHECK_ROW(strstr(t.out[GOOD + 1].failure, "tip") != NULL, t.out[GOOD + 1].failure);
    CHECK_ROW(strstr(t.out[GOOD + 4].failure, "sheer") != NULL, t.out[GOOD + 4].failure);
    /* A failed anchor is a result as well, and leaves the watch as it was. */
    ss_trial anchor;
    ss_error error = {0};
    const int items = t.trials.watch.item_count;
    CHECK_OK(ss_trials_anchor(&t.trials, trial_change, variants, GOOD, &t.arena, &anchor, &error), &error);
    CU_ASSERT_PTR_NOT_NULL(anchor.failure);
    CU_ASSERT_EQUAL(t.trials.watch.item_count, items);
    CU_ASSERT_EQUAL(t.trials.anchor_count, 2);
    try_end(&t);
}

/* Other trucks, another roadway, other checks: searched in full, with the factor of that search. */
static void test_others(void) {
    tried t;
    try_start(&t, false, 1);
    try_run(&t, ALL);
    for (int i = GOOD + BAD; i < ALL; i++) {
        trial_full full;
        trial_rate(STONE_RUN, sample, &variants[i], &full);
        CHECK_ROW(t.out[i].full, row(i));
        CHECK_ROW(t.out[i].failure == NULL, t.out[i].failure == NULL ? "" : t.out[i].failure);
        check_relative(row(i), t.out[i].rf, trial_full_rf(&full), 1e-12);
        trial_full_end(&full);
    }
    for (int i = 0; i < GOOD; i++) CHECK_ROW(!t.out[i].full, row(i));
    try_end(&t);
}

/* What is followed of a trial is what the watch gives of that bridge. */
static void test_followed(void) {
    tried t;
    ss_error error = {0};
    try_start(&t, true, 1);
    try_run(&t, GOOD);
    CU_ASSERT_FATAL(t.trials.follow.count > 20);
    ss_watch_value *const values = ss_alloc((size_t)t.trials.watch.item_count + 1, sizeof *values);
    double *const followed = ss_alloc((size_t)t.trials.follow.count + 1, sizeof *followed);
    CU_ASSERT_FATAL(values != NULL && followed != NULL);
    for (int i = 0; i < GOOD; i++) {
        ss_description d = sample_read(STONE_RUN, sample);
        ss_variant v;
        for (int k = 0; variants[i].set[k].path != NULL; k++) {
            sample_set(&d, variants[i].set[k].path, variants[i].set[k].value);
        }
        sample_stand(&d, &v);
        CHECK_OK(ss_watch_compute(&t.trials.watch, &v, values, &error), &error);
        ss_follow_values(&t.trials.follow, values, followed);
        for (int k = 0; k < t.trials.follow.count; k++) {
            CHECK_ROW(isnan(followed[k]) ? isnan(t.out[i].followed[k])
                                         : sample_same(t.out[i].followed[k], followed[k], 1e-12),
                      row(i));
        }
        ss_variant_destroy(&v);
        ss_description_destroy(&d);
    }
    ss_free(values);
    ss_free(followed);
    try_end(&t);
}

/* ---- bytes, threads, stops --------------------------------------------------------------------------- */

static ss_text pack(const ss_trials *trials, const ss_trial *trial) {
    ss_text text = {0};
    CU_ASSERT_TRUE_FATAL(ss_trial_pack(trials, trial, &text));
    return text;
}

static bool same_bytes(const ss_text *a, const ss_text *b) {
    return a->length == b->length && memcmp(a->data, b->data, a->length) == 0;
}

static void test_pack(void) {
    tried t;
    try_start(&t, true, 1);
    try_run(&t, ALL);
    for (int i = 0; i < ALL; i++) {
        ss_text once = pack(&t.trials, &t.out[i]);
        ss_trial back;
        CU_ASSERT_TRUE_FATAL(ss_trial_unpack(&t.trials, &once, &t.arena, &back));
        ss_text twice = pack(&t.trials, &back);
        CHECK_ROW(same_bytes(&once, &twice), row(i));
        CHECK_ROW((back.failure == NULL) == (t.out[i].failure == NULL), row(i));
        CHECK_ROW(strcmp(back.governs, t.out[i].governs) == 0, back.governs);
        CHECK_ROW(back.rf == t.out[i].rf || (isnan(back.rf) && isnan(t.out[i].rf)), row(i));
        once.length = 8;
        CU_ASSERT_FALSE(ss_trial_unpack(&t.trials, &once, &t.arena, &back));
        ss_text_destroy(&once);
        ss_text_destroy(&twice);
    }
    try_end(&t);
}

static void test_threads(void) {
#ifdef _OPENMP
    static const int threads[] = {1, 2, 4};
    const int before = omp_get_max_threads();
    ss_text first[ALL];
    for (int k = 0; k < ENTRIES(threads); k++) {
        tried t;
        omp_set_num_threads(threads[k]);
        try_start(&t, true, 2);
        try_run(&t, ALL);
        for (int i = 0; i < ALL; i++) {
            ss_text bytes = pack(&t.trials, &t.out[i]);
            if (k == 0) {
                first[i] = bytes;
            } else {
                CHECK_ROW(same_bytes(&first[i], &bytes), row(i));
                ss_text_destroy(&bytes);
            }
        }
        try_end(&t);
    }
    for (int i = 0; i < ALL; i++) ss_text_destroy(&first[i]);
    omp_set_num_threads(before);
#endif
}

static void test_stop(void) {
    tried all, some;
    ss_error error = {0};
    int done = -1;
    try_start(&all, false, 1);
    try_run(&all, GOOD);
    try_start(&some, false, 1);
    some.asked = 0;
    some.stop_after = 4;
    CHECK_OK(ss_trials_run(&some.trials, trial_change, variants, GOOD, &some.arena, some.out, &done, &error),
             &error);
    CU_ASSERT_EQUAL(done, 4);
    for (int i = 0; i < done; i++) {
        ss_text a = pack(&all.trials, &all.out[i]), b = pack(&some.trials, &some.out[i]);
        CHECK_ROW(same_bytes(&a, &b), row(i));
        ss_text_destroy(&a);
        ss_text_destroy(&b);
    }
    some.asked = 1;
    some.stop_after = 1;
    CHECK_OK(ss_trials_run(&some.trials, trial_change, variants, GOOD, &some.arena, some.out, &done, &error),
             &error);
    CU_ASSERT_EQUAL(done, 0);
    try_end(&all);
    try_end(&some);
}

/* ---- memory ----------------------------------------------------------------------------------------- */

/* Allocation n and all after it fail while two variants are tried; false: there were fewer. */
static bool fail_at(tried *t, long n, bool anchors) {
    ss_arena arena = {0};
    ss_trial out[2];
    ss_error error = {0};
    const long live = ss_memory_live();
    ss_memory_fail_from(n);
    const ss_status status =
        anchors ? ss_trials_anchor(&t->trials, trial_change, variants, 6, &arena, out, &error)
                : ss_trials_run(&t->trials, trial_change, variants + 5, 2, &arena, out, NULL, &error);
    ss_memory_fail_from(-1);
    CU_ASSERT(status == SS_OK || status == SS_ERROR_MEMORY);
    if (status == SS_OK) {
        CU_ASSERT_PTR_NULL(out[0].failure); /* want of memory is no result of a variant */
    }
    ss_arena_destroy(&arena);
    if (!anchors) {
        CU_ASSERT_EQUAL(ss_memory_live(), live);
    }
    return status != SS_OK;
}

static void test_no_memory(void) {
    const long live = ss_memory_live();
    tried t;
#ifdef _OPENMP
    const int before = omp_get_max_threads();
    omp_set_num_threads(1);
#endif
    try_start(&t, true, 1);
    long failures = 0;
    for (long n = 0; fail_at(&t, n, false); n += n < 100 ? 1 : 13) failures++;
    CU_ASSERT(failures > 100);
    try_end(&t);
    failures = 0;
    for (long n = 3; n > 0; n += n < 300 ? 11 : 401) {
        try_start(&t, true, 1);
        const bool failed = fail_at(&t, n, true);
        try_end(&t); /* what was added in part goes too */
        CU_ASSERT_EQUAL_FATAL(ss_memory_live(), live);
        failures += failed;
        if (!failed) {
            break;
        }
    }
    CU_ASSERT(failures > 20);
#ifdef _OPENMP
    omp_set_num_threads(before);
#endif
}

int main(void) {
    static const test_case cases[] = {
        {"against full ratings", test_against_full},
        {"failures", test_failures},
        {"other trucks, roadway, checks", test_others},
        {"followed", test_followed},
        {"bytes", test_pack},
        {"threads", test_threads},
        {"stop", test_stop},
        {"no memory", test_no_memory},
    };
    return RUN_SUITE("trials", cases);
}
