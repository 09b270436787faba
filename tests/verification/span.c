/* span.c - a truck along a simple span, by the library: the model truck_span. */
#include "verification/span.h"

#include <math.h>
#include <stdio.h>

enum { SECTIONS = 41 };

int span_run(const ss_placements *placements) {
    for (int i = 0; i < placements->traffic_count; i++) {
        if (placements->traffic[i].run >= 0) {
            return i;
        }
    }
    return -1;
}

/* Moments at 40 equal sections and at x_most, and the shears at both ends. */
static ss_status span_effects(const ss_mesh *mesh, double x_most, ss_effect *effects, ss_error *error) {
    const double L = mesh->bridge->x1;
    ss_status status = SS_OK;
    for (int i = 1; i < SECTIONS - 1 && status == SS_OK; i++) {
        const double x = i == 1 ? x_most : mesh->station[i * (mesh->station_count - 1) / (SECTIONS - 1)];
        status = ss_mesh_effect(mesh, SS_MEMBER_LINE, 0, x, false, SS_EFFECT_MOMENT, &effects[i], error);
    }
    if (status == SS_OK) {
        status = ss_mesh_effect(mesh, SS_MEMBER_LINE, 0, 0.0, false, SS_EFFECT_SHEAR, &effects[0], error);
    }
    if (status == SS_OK) {
        status =
            ss_mesh_effect(mesh, SS_MEMBER_LINE, 0, L, true, SS_EFFECT_SHEAR, &effects[SECTIONS - 1], error);
    }
    return status;
}

static ss_status span_envelope(const rig *r, double x_most, double *moment, double *shear, ss_error *error) {
    ss_placements placements = {0};
    ss_envelope envelope = {0};
    ss_effect effects[SECTIONS];
    const ss_envelope_options options = {.factors = {1.0, 1.0}, .live_factor = 1.0};
    ss_status status = ss_placements_build(&r->mesh, &placements, error);
    if (status == SS_OK) {
        status = span_effects(&r->mesh, x_most, effects, error);
    }
    if (status == SS_OK) {
        status =
            ss_envelope_compute(&r->permanent, &placements, effects, SECTIONS, &options, &envelope, error);
    }
    if (status == SS_OK) {
        const int t = span_run(&placements);
        const ss_extreme *const e = envelope.extremes;
        const int n = envelope.traffic_count;
        *moment = 0.0;
        for (int i = 1; i < SECTIONS - 1; i++) {
            *moment = fmax(*moment, e[(i * n + t) * 2 + 1].value / (KIP * FOOT));
        }
        *shear = fmax(e[(0 * n + t) * 2 + 1].value, -e[((SECTIONS - 1) * n + t) * 2].value) / KIP;
    }
    ss_envelope_destroy(&envelope);
    ss_placements_destroy(&placements);
    return status;
}

bool span_truck(const char *truck, const rolling_train *train, double span_ft, double *moment,
                double *shear) {
    double x = 0.5 * span_ft;
    (void)rolling_moment(train, span_ft, &x);
    char length[40], place[40];
    snprintf(length, sizeof length, "%.17g ft", span_ft);
    snprintf(place, sizeof place, "%.17g ft", x);
    const rig_setting settings[] = {
        {"cars.beam.length", length}, {"runs.run.truck", truck}, {"probes.M most.x", place}};
    rig r;
    if (!rig_open(&r, "truck_span", &(rig_options){settings, 3, 1})) {
        return false;
    }
    ss_error error = {SS_OK, ""};
    const bool done = span_envelope(&r, x * FOOT, moment, shear, &error) == SS_OK;
    if (!done) {
        rig_complain(truck, &error);
    }
    rig_close(&r);
    return done;
}
