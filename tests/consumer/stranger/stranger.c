/* stranger.c - a program of somebody else: reads a description, drives the trucks of its runs, prints the
 * largest bending in kip-ft. */
#include <stdio.h>

#include "sillspan/envelope.h"
#include "sillspan/reader.h"

static ss_status largest_moment(const char *path, ss_diag_list *diags, double *most, ss_error *error) {
    ss_description description = {0};
    ss_bridge bridge = {0};
    ss_mesh mesh = {0};
    ss_grillage *grillage = NULL;
    ss_permanent permanent = {0};
    ss_placements placements = {0};
    ss_effect *effects = NULL;
    ss_envelope envelope = {0};
    int count = 0;
    const ss_envelope_options options = {.factors = {1.0, 1.0}, .live_factor = 1.0};
    ss_status status = ss_description_read(path, &description, diags, error);
    if (status == SS_OK) {
        status = ss_description_check(&description, diags);
    }
    if (status == SS_OK) {
        status = ss_bridge_resolve(&description, &bridge, diags);
    }
    if (status == SS_OK) {
        status = ss_mesh_build(&bridge, (ss_mesh_options){.joints = true, .refine = 1}, &mesh, error);
    }
    if (status == SS_OK) {
        status = ss_grillage_create(&mesh, &grillage, error);
    }
    if (status == SS_OK) {
        status = ss_permanent_compute(&bridge, grillage, &permanent, error);
    }
    if (status == SS_OK) {
        status = ss_placements_build(&mesh, &placements, error);
    }
    if (status == SS_OK) {
        status = ss_envelope_effects(&mesh, &effects, &count, error);
    }
    if (status == SS_OK) {
        status = ss_envelope_compute(&permanent, &placements, effects, count, &options, &envelope, error);
    }
    *most = 0.0;
    for (int i = 0; status == SS_OK && i < count; i++) {
        for (int t = 0; t < envelope.traffic_count; t++) {
            const double value = envelope.extremes[(i * envelope.traffic_count + t) * 2 + 1].value;
            if (effects[i].kind == SS_EFFECT_MOMENT && placements.traffic[t].run >= 0 && value > *most) {
                *most = value;
            }
        }
    }
    ss_envelope_destroy(&envelope);
    ss_free(effects);
    ss_placements_destroy(&placements);
    ss_permanent_destroy(&permanent);
    ss_grillage_destroy(grillage);
    ss_mesh_destroy(&mesh);
    ss_bridge_destroy(&bridge);
    ss_description_destroy(&description);
    return status;
}

int main(int argc, char **argv) {
    ss_diag_list diags = {0};
    ss_error error = {0};
    double most = 0.0;
    if (argc != 2) {
        fprintf(stderr, "usage: stranger FILE\n");
        return 2;
    }
    const ss_status status = largest_moment(argv[1], &diags, &most, &error);
    for (int i = 0; i < diags.count; i++) {
        fprintf(stderr, "%s:%d: %s\n", argv[1], diags.items[i].where.line, diags.items[i].message);
    }
    if (status != SS_OK) {
        fprintf(stderr, "%s: %s\n", ss_status_text(status), error.message);
    } else {
        printf("%.1f\n", ss_units_from_si(most, SS_DIM_MOMENT, SS_UNITS_US));
    }
    ss_diag_destroy(&diags);
    return status == SS_OK ? 0 : 1;
}
