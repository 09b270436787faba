/* watched_samples.h - small bridges from files, changed by settings, stood up or rated in full. */
#ifndef WATCHED_SAMPLES_H
#define WATCHED_SAMPLES_H

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "sillspan/memory.h"
#include "sillspan/reader.h"
#include "sillspan/variant.h"
#include "support/suite.h"

/** One setting, as of a command line. */
typedef struct sample_setting {
    const char *path, *value;
} sample_setting;

#define STONE_RUN "stone_run.cfg"
#define MILL_POND "mill_pond.cfg"

static inline void sample_set(ss_description *d, const char *path, const char *value) {
    ss_diag_list diags = {0};
    const ss_status status = ss_description_set(d, path, value, &diags);
    if (status != SS_OK || diags.faults > 0) {
        printf("\n  %s=%s: %s", path, value, diags.count > 0 ? diags.items[0].message : "refused");
    }
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    CU_ASSERT_EQUAL_FATAL(diags.faults, 0);
    ss_diag_destroy(&diags);
}

/** `settings` ends with a path of NULL, or is NULL. */
static inline ss_description sample_read(const char *file, const sample_setting *settings) {
    char path[256];
    ss_description d = {0};
    ss_diag_list diags = {0};
    ss_error error = {0};
    snprintf(path, sizeof path, "%s/tests/unit/studies/%s", SS_SOURCE_DIR, file);
    const ss_status status = ss_description_read(path, &d, &diags, &error);
    if (status != SS_OK) {
        printf("\n  %s: %s", path, diags.count > 0 ? diags.items[0].message : error.message);
    }
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    ss_diag_destroy(&diags);
    for (int i = 0; settings != NULL && settings[i].path != NULL; i++) {
        sample_set(&d, settings[i].path, settings[i].value);
    }
    return d;
}

/** Resolved, factored, dead load on; no places of trucks. */
static inline void sample_stand(const ss_description *d, ss_variant *out) {
    ss_diag_list diags = {0};
    ss_error error = {0};
    *out = (ss_variant){0};
    const ss_status status = ss_bridge_resolve(d, &out->bridge, &diags);
    if (status != SS_OK && diags.count > 0) {
        printf("\n  %s", diags.items[0].message);
    }
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    ss_diag_destroy(&diags);
    CHECK_OK(ss_variant_structure(out, &error), &error);
    CHECK_OK(ss_permanent_compute(&out->bridge, out->grillage, &out->permanent, &error), &error);
}

/** With places of trucks and the effects that are looked at. */
static inline void sample_load(const ss_description *d, ss_variant *out) {
    ss_error error = {0};
    sample_stand(d, out);
    CHECK_OK(ss_placements_build(&out->mesh, &out->placements, &error), &error);
    CHECK_OK(ss_envelope_effects(&out->mesh, &out->effects, &out->effect_count, &error), &error);
}

/** With ratings. */
static inline void sample_rate(const ss_description *d, ss_variant *out) {
    ss_error error = {0};
    sample_load(d, out);
    CHECK_OK(ss_variant_rate(out, NULL, NULL, &error), &error);
}

/** The same, infinite ones included. */
static inline bool sample_same(double a, double b, double tolerance) {
    return a == b || fabs(a - b) <= tolerance * fabs(b);
}

#endif
