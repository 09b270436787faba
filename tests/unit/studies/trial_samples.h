/* trial_samples.h - variants of a small bridge by settings, and what a full rating makes of each. */
#ifndef TRIAL_SAMPLES_H
#define TRIAL_SAMPLES_H

#include "sillspan/joint_out.h"
#include "sillspan/trial.h"
#include "studies/trial_parts.h"
#include "unit/studies/watched_samples.h"

/** What differs in one variant; ends with a path of NULL. */
typedef struct trial_variant {
    sample_setting set[4];
} trial_variant;

/** See ss_trial_change. `context`: an array of trial_variant. */
static inline ss_status trial_change(void *context, int index, ss_description *d, ss_diag_list *diags) {
    const trial_variant *const v = (const trial_variant *)context + index;
    ss_status status = SS_OK;
    for (int i = 0; status == SS_OK && i < 4 && v->set[i].path != NULL; i++) {
        status = ss_description_set(d, v->set[i].path, v->set[i].value, diags);
    }
    return status;
}

/** A variant rated in full with joints out where they are full first. */
typedef struct trial_full {
    ss_description description;
    ss_variant variant;
    ss_joint_out joints;
} trial_full;

static inline void trial_rate(const char *file, const sample_setting *settings, const trial_variant *change,
                              trial_full *out) {
    ss_error error = {0};
    out->description = sample_read(file, settings);
    for (int i = 0; i < 4 && change->set[i].path != NULL; i++) {
        sample_set(&out->description, change->set[i].path, change->set[i].value);
    }
    sample_rate(&out->description, &out->variant);
    CHECK_OK(ss_joint_out_compute(&out->description, &out->variant, &out->joints, &error), &error);
}

static inline void trial_full_end(trial_full *full) {
    ss_joint_out_destroy(&full->joints);
    ss_variant_destroy(&full->variant);
    ss_description_destroy(&full->description);
}

static inline double trial_full_rf(const trial_full *full) {
    return full->variant.ratings.items[full->variant.ratings.controlling].rf;
}

/** Checks posting and the factor against the full rating. */
static inline void trial_check(const char *name, const ss_trial *t, const trial_full *full,
                               double tolerance) {
    ss_method method;
    ss_posting posting;
    ss_error error = {0};
    CHECK_ROW(t->failure == NULL, name);
    check_relative(name, t->rf, trial_full_rf(full), tolerance);
    CHECK_ROW(t->joint_out == full->variant.ratings.items[full->variant.ratings.controlling].joint_out, name);
    CU_ASSERT_TRUE_FATAL(ss_posting_method(&full->variant.ratings, &method));
    CHECK_OK(ss_posting_compute(&full->variant.bridge, &full->variant.placements, &full->variant.ratings,
                                method, full->variant.bridge.units, &posting, &error),
             &error);
    CHECK_ROW(t->posting == posting.free.state, name);
    for (int i = 0; i < SS_POSTING_GROUPS; i++) {
        CHECK_ROW(posting.free.rated[i] ? t->sign[i] == posting.free.group_N[i] : isnan(t->sign[i]), name);
    }
    CHECK_ROW(t->emergency == posting.free.emergency_N ||
                  (isnan(t->emergency) && isnan(posting.free.emergency_N)),
              name);
    ss_posting_destroy(&posting);
}

#endif
