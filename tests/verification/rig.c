/* rig.c - the pipe from a model's text to its solved cases. */
#include "verification/rig.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "sillspan/reader.h"

void rig_complain(const char *what, const ss_error *error) {
    fprintf(stderr, "%s: %s\n", what, error->message);
}

static void complain_all(const char *model, const ss_diag_list *diags) {
    for (int i = 0; i < diags->count; i++) {
        const ss_diag *const d = &diags->items[i];
        if (d->severity == SS_FAULT) {
            fprintf(stderr, "%s:%d: %s: %s\n", model, d->where.line, d->path, d->message);
        }
    }
}

static ss_status resolve(rig *r, const char *path, const rig_options *options, ss_error *error) {
    ss_status status = ss_description_read(path, &r->description, &r->diags, error);
    for (int i = 0; options != NULL && i < options->count && status == SS_OK; i++) {
        const rig_setting *const s = &options->settings[i];
        status = ss_description_set(&r->description, s->path, s->value, &r->diags);
    }
    if (status == SS_OK) {
        status = ss_description_check(&r->description, &r->diags);
    }
    if (status == SS_OK) {
        status = ss_bridge_resolve(&r->description, &r->bridge, &r->diags);
    }
    return status;
}

static ss_status solve(rig *r, int refine, ss_error *error) {
    const ss_mesh_options options = {.joints = true, .refine = refine};
    ss_status status = ss_mesh_build(&r->bridge, options, &r->mesh, error);
    if (status == SS_OK) {
        status = ss_grillage_create(&r->mesh, &r->grillage, error);
    }
    if (status == SS_OK) {
        status = ss_permanent_compute(&r->bridge, r->grillage, &r->permanent, error);
    }
    if (status == SS_OK) {
        status = ss_cases_compute(&r->permanent, &r->cases, error);
    }
    return status;
}

bool rig_open(rig *r, const char *model, const rig_options *options) {
    memset(r, 0, sizeof *r);
    char path[512];
    snprintf(path, sizeof path, "%s/models/verification/%s.cfg", SS_SOURCE_DIR, model);
    ss_error error = {SS_OK, ""};
    ss_status status = resolve(r, path, options, &error);
    if (status == SS_OK) {
        const int refine = options == NULL || options->refine < 1 ? 1 : options->refine;
        status = solve(r, refine, &error);
    }
    if (status == SS_OK) {
        return true;
    }
    complain_all(model, &r->diags);
    rig_complain(model, &error);
    rig_close(r);
    return false;
}

void rig_close(rig *r) {
    ss_cases_destroy(&r->cases);
    ss_permanent_destroy(&r->permanent);
    ss_grillage_destroy(r->grillage);
    ss_mesh_destroy(&r->mesh);
    ss_bridge_destroy(&r->bridge);
    ss_diag_destroy(&r->diags);
    ss_description_destroy(&r->description);
    memset(r, 0, sizeof *r);
}

static int find_probe(const ss_bridge *bridge, const char *name) {
    for (int i = 0; i < bridge->probe_count; i++) {
        if (strcmp(bridge->probes[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

double rig_probe(const rig *r, const char *case_name, const char *probe) {
    const int p = find_probe(&r->bridge, probe);
    for (int i = 0; i < r->cases.count && p >= 0; i++) {
        const ss_case_result *const c = &r->cases.items[i];
        if (strcmp(r->bridge.cases[c->index].name, case_name) == 0) {
            return c->probe[p];
        }
    }
    fprintf(stderr, "no case %s or no probe %s\n", case_name, probe);
    return (double)NAN;
}

double rig_probe_us(const rig *r, const char *case_name, const char *probe) {
    static const double unit[] = {[SS_EFFECT_MOMENT] = KIP * FOOT,
                                  [SS_EFFECT_SHEAR] = KIP,
                                  [SS_EFFECT_TORSION] = KIP * FOOT,
                                  [SS_EFFECT_DEFLECTION] = INCH,
                                  [SS_EFFECT_REACTION] = KIP};
    const int p = find_probe(&r->bridge, probe);
    return p < 0 ? (double)NAN : rig_probe(r, case_name, probe) / unit[r->bridge.probes[p].effect];
}

bool rig_check(check *out, const char *model, const rig_options *options, const rig_row *rows, int count) {
    rig r;
    if (!rig_open(&r, model, options)) {
        return false;
    }
    for (int i = 0; i < count; i++) {
        check_add(out, rows[i].expected, rig_probe_us(&r, rows[i].case_name, rows[i].probe));
    }
    rig_close(&r);
    return true;
}

int rig_line(const ss_bridge *bridge, const char *car, const char *line) {
    for (int i = 0; i < bridge->line_count; i++) {
        if (strcmp(bridge->cars[bridge->lines[i].car].name, car) == 0 &&
            strcmp(bridge->lines[i].name, line) == 0) {
            return i;
        }
    }
    return -1;
}
