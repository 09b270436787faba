/* slab_samples.h - an invented two-car bridge with a slab, resolved as it is or with one change. */
#ifndef SLAB_SAMPLES_H
#define SLAB_SAMPLES_H

#define SAMPLE_FILE "weir_lane.cfg"
#include "resolve_rows.h"

/** One change, and the bridge must come of it. */
static inline ss_bridge resolve_slab(const char *from, const char *to) {
    ss_bridge bridge;
    ss_diag_list diags = {0};
    memset(&bridge, 0, sizeof bridge);
    char *const text = sample_changed(from, to);
    const ss_status status = sample_resolve(text, &bridge, &diags);
    ss_text said = sample_remarks(&diags, SS_FAULT);
    if (status != SS_OK) {
        fprintf(stderr, "%s\n", said.data);
    }
    ss_text_destroy(&said);
    ss_diag_destroy(&diags);
    free(text);
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    return bridge;
}

/** The assumption about a key; NULL: none. */
static inline const ss_assumption *assumed(const ss_bridge *b, const char *path) {
    for (int i = 0; i < b->assumptions.count; i++) {
        if (strcmp(b->assumptions.items[i].path, path) == 0) {
            return &b->assumptions.items[i];
        }
    }
    return NULL;
}

/** The line of a car by its name. */
static inline int line_named(const ss_bridge *b, int car, const char *name) {
    for (int i = 0; i < b->line_count; i++) {
        if (b->lines[i].car == car && strcmp(b->lines[i].name, name) == 0) {
            return i;
        }
    }
    CU_FAIL_FATAL("no such line");
    return -1;
}

#endif
