/* resolve_rows.h - tables of one change to the sample and the remarks that must come of it. */
#ifndef RESOLVE_ROWS_H
#define RESOLVE_ROWS_H

#include "resolve_samples.h"
#include "sillspan/memory.h"
#include "support/suite.h"

typedef struct fault_row {
    const char *from, *to; /**< what is replaced in the sample, and by what */
    const char *said;      /**< all remarks of that severity */
} fault_row;

/** Every row on its own: a fault must refuse the bridge, a warning must not. */
static inline void check_rows(const fault_row *rows, int count, ss_severity severity) {
    const long live = ss_memory_live();
    for (int i = 0; i < count; i++) {
        ss_bridge bridge;
        ss_diag_list diags = {0};
        memset(&bridge, 0, sizeof bridge);
        char *const text = sample_changed(rows[i].from, rows[i].to);
        const ss_status status = sample_resolve(text, &bridge, &diags);
        ss_text said = sample_remarks(&diags, severity);
        if (said.data == NULL || strcmp(said.data, rows[i].said) != 0) {
            fprintf(stderr, "with %s\nwas said: %s\nis due:   %s\n", rows[i].to, said.data, rows[i].said);
        }
        CU_ASSERT_STRING_EQUAL(said.data, rows[i].said);
        CU_ASSERT_EQUAL(status, severity == SS_FAULT ? SS_ERROR_DESCRIPTION : SS_OK);
        CU_ASSERT(status == SS_OK || bridge.cars == NULL);
        if (status == SS_OK) {
            ss_bridge_destroy(&bridge);
        }
        ss_text_destroy(&said);
        ss_diag_destroy(&diags);
        free(text);
    }
    CU_ASSERT_EQUAL(ss_memory_live(), live);
}

#endif
