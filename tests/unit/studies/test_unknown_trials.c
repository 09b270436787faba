/* test_unknown_trials.c - studies of a real bridge against ratings of the bridge described so. */
#include <string.h>

#include "base/numeric.h"
#include "sillspan/memory.h"
#include "sillspan/reader.h"
#include "sillspan/unknown_trials.h"
#include "support/suite.h"

static ss_description description;
static ss_diag_list diags;
static ss_bridge bridge;
static const ss_study_watch nobody;

/* Reads the two spines with these unknowns in place of their own. */
static void begin(const char *const *unknowns, int count) {
    ss_error error = {0};
    memset(&description, 0, sizeof description);
    diags = (ss_diag_list){0};
    CHECK_OK(ss_description_read(SS_SOURCE_DIR "/tests/golden/models/two-spines.cfg", &description, &diags,
                                 &error),
             &error);
    for (int i = 0; i < count; i++) {
        CU_ASSERT_EQUAL_FATAL(ss_unknown_add(&description, unknowns[i], &diags), SS_OK);
    }
    CU_ASSERT_EQUAL_FATAL(ss_description_check(&description, &diags), SS_OK);
    CU_ASSERT_EQUAL_FATAL(ss_bridge_resolve(&description, &bridge, &diags), SS_OK);
}

static void end(void) {
    ss_bridge_destroy(&bridge);
    ss_description_destroy(&description);
    ss_diag_destroy(&diags);
}

/* The smallest factor of the ordinary pipe, with values as a description has them. Probes and cases, which
 * put stations of their own into the mesh, are left out as they are in a study. */
static double rated(const char *fy, const char *weight) {
    ss_description changed = {0};
    ss_variant variant;
    ss_error error = {0};
    const ss_variant_asks asks = {.vehicle = -1};
    CHECK_OK(ss_description_copy(&description, "unknowns|probes|cases", &changed), &error);
    CHECK_OK(ss_description_set(&changed, "steels.mild.fy", fy, &diags), &error);
    CHECK_OK(ss_description_set(&changed, "sections.spine.weight", weight, &diags), &error);
    CHECK_OK(ss_variant_of(&changed, &asks, &variant, &diags, &error), &error);
    const double rf = variant.ratings.items[variant.ratings.controlling].rf;
    ss_variant_destroy(&variant);
    ss_description_destroy(&changed);
    return rf;
}

/* Weaker steel and heavier cars are worse, whatever else: the ends are corners that the ordinary pipe rates.
 */
static void test_bounds_are_corners(void) {
    static const char *const unknowns[] = {"steels.mild.fy=30 ksi..40 ksi",
                                           "sections.spine.weight=280 lb/ft..350 lb/ft"};
    const long live = ss_memory_live();
    ss_unknown_trials trials;
    ss_bounds bounds;
    ss_error error = {0};
    double full[2] = {0.0, 0.0};
    begin(unknowns, 2);
    CHECK_OK(ss_unknown_trials_begin(&description, &bridge.unknowns, &nobody, &trials, &error), &error);
    CHECK_OK(ss_unknown_trials_bounds(&trials, 60, &bounds, full, &error), &error);
    const double worst = rated("30 ksi", "350 lb/ft");
    const double best = rated("40 ksi", "280 lb/ft");
    CHECK_CLOSE(trials.described, rated("33.7 ksi", "311 lb/ft"), 1e-9);
    CHECK_CLOSE(bounds.ends[SS_BOUNDS_WORST].answers[0], worst, 1e-9);
    CHECK_CLOSE(bounds.ends[SS_BOUNDS_BEST].answers[0], best, 1e-9);
    CHECK_CLOSE(full[SS_BOUNDS_WORST], worst, 1e-9);
    CHECK_CLOSE(full[SS_BOUNDS_BEST], best, 1e-9);
    CU_ASSERT_EQUAL(bounds.ends[SS_BOUNDS_WORST].edge[0], -1);
    CU_ASSERT_EQUAL(bounds.ends[SS_BOUNDS_WORST].edge[1], 1);
    CU_ASSERT(bounds.failed == 0 && trials.searched == 5);
    ss_bounds_destroy(&bounds);
    ss_unknown_trials_end(&trials);
    end();
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

/* Where one value follows from one unknown, quantiles of the rating are ratings of quantiles. */
static void test_sample_follows_its_unknown(void) {
    static const char *const unknowns[] = {"steels.mild.fy=30 ksi..40 ksi"};
    ss_unknown_trials trials;
    ss_sample sample;
    ss_error error = {0};
    double full = 0.0;
    begin(unknowns, 1);
    CHECK_OK(ss_unknown_trials_begin(&description, &bridge.unknowns, &nobody, &trials, &error), &error);
    CHECK_OK(ss_unknown_trials_sample(&trials, 201, 3, &sample, &full, &error), &error);
    CU_ASSERT_EQUAL(sample.answered, 201);
    CU_ASSERT_EQUAL(sample.answers[0].correlation[0], 1.0);
    /* 201 draws in as many parts: a quantile is known to a part, 0.05 ksi. */
    CHECK_CLOSE(sample.answers[0].quantiles[2].value, rated("35 ksi", "311 lb/ft"), 2.0 * 0.05 / 35.0);
    CHECK_CLOSE(sample.answers[0].quantiles[0].value, rated("30.5 ksi", "311 lb/ft"), 2.0 * 0.05 / 30.5);
    CHECK_CLOSE(full, sample.answers[0].least, 1e-9);
    ss_sample_destroy(&sample);
    ss_unknown_trials_end(&trials);
    end();
}

/* A word that the bridge cannot have: its runs fail and say why, the others count. */
static void test_failures_have_reasons(void) {
    static const char *const unknowns[] = {"bridge.joints.hinge.kind=hinged, springs"};
    ss_unknown_trials trials;
    ss_bounds bounds;
    ss_error error = {0};
    double full[2] = {0.0, 0.0};
    begin(unknowns, 1);
    CHECK_OK(ss_unknown_trials_begin(&description, &bridge.unknowns, &nobody, &trials, &error), &error);
    CHECK_OK(ss_unknown_trials_bounds(&trials, 20, &bounds, full, &error), &error);
    CU_ASSERT(bounds.runs == 2 && bounds.failed == 1);
    CU_ASSERT_PTR_NOT_NULL_FATAL(bounds.failure);
    CU_ASSERT_PTR_NOT_NULL(strstr(bounds.failure, "springs need a stiffness"));
    CHECK_CLOSE(bounds.ends[SS_BOUNDS_WORST].answers[0], trials.described, 1e-9);
    ss_bounds_destroy(&bounds);
    ss_unknown_trials_end(&trials);
    end();
}

static bool at_once(void *context) {
    (void)context;
    return true;
}

static void test_stop(void) {
    static const char *const unknowns[] = {"steels.mild.fy=30 ksi..40 ksi"};
    const ss_study_watch impatient = {.stop = at_once};
    ss_unknown_trials trials;
    ss_bounds bounds;
    ss_error error = {0};
    double full[2] = {0.0, 0.0};
    begin(unknowns, 1);
    CHECK_OK(ss_unknown_trials_begin(&description, &bridge.unknowns, &impatient, &trials, &error), &error);
    CHECK_OK(ss_unknown_trials_bounds(&trials, 20, &bounds, full, &error), &error);
    CU_ASSERT(bounds.stopped && bounds.runs == 0 && bounds.ends[0].point == NULL && isnan(full[0]));
    CU_ASSERT_EQUAL(trials.searched, 1);
    ss_bounds_destroy(&bounds);
    ss_unknown_trials_end(&trials);
    end();
}

int main(void) {
    static const test_case cases[] = {
        {"bounds are corners", test_bounds_are_corners},
        {"a sample follows its unknown", test_sample_follows_its_unknown},
        {"failures have reasons", test_failures_have_reasons},
        {"stop", test_stop},
    };
    return RUN_SUITE("trials of unknowns", cases);
}
