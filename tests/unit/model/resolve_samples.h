/* resolve_samples.h - an invented bridge as text, changed a word at a time, and resolving it. */
#ifndef RESOLVE_SAMPLES_H
#define RESOLVE_SAMPLES_H

#include <CUnit/Basic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sillspan/bridge.h"
#include "sillspan/reader.h"
#include "sillspan/text.h"

/** Another file of this folder may be the sample. */
#ifndef SAMPLE_FILE
#define SAMPLE_FILE "mill_race.cfg"
#endif

/** Mill Race Road, Bellweather Township (invented): unlike cars and every group of keys, one item a line, so
 * that faults have places. */
static inline const char *sample_text(void) {
    static char text[8192];
    if (text[0] != '\0') {
        return text;
    }
    FILE *const file = fopen(SS_SOURCE_DIR "/tests/unit/model/" SAMPLE_FILE, "rb");
    CU_ASSERT_PTR_NOT_NULL_FATAL(file);
    const size_t length = fread(text, 1, sizeof text - 1, file);
    CU_ASSERT(length > 0 && length < sizeof text - 1);
    fclose(file);
    text[length] = '\0';
    return text;
}

/** The sample with the first `from` replaced by `to` (to be freed); the test fails when `from` is not there.
 */
static inline char *sample_changed(const char *from, const char *to) {
    const char *const at = strstr(sample_text(), from);
    CU_ASSERT_PTR_NOT_NULL_FATAL(at);
    const size_t before = (size_t)(at - sample_text());
    const size_t room = strlen(sample_text()) + strlen(to) + 1;
    char *const text = malloc(room);
    CU_ASSERT_PTR_NOT_NULL_FATAL(text);
    memcpy(text, sample_text(), before);
    snprintf(text + before, room - before, "%s%s", to, at + strlen(from));
    return text;
}

/** Reads, checks and resolves; the remarks stay in `diags`. */
static inline ss_status sample_resolve(const char *text, ss_bridge *bridge, ss_diag_list *diags) {
    ss_description description;
    memset(&description, 0, sizeof description);
    ss_error error = {SS_OK, ""};
    ss_status status = ss_description_read_text("mill.cfg", text, strlen(text), &description, diags, &error);
    if (status == SS_OK) {
        status = ss_description_check(&description, diags);
    }
    if (status == SS_OK || status == SS_ERROR_DESCRIPTION) {
        status = ss_bridge_resolve(&description, bridge, diags);
    }
    ss_diag_sort(diags);
    ss_description_destroy(&description);
    return status;
}

/** All remarks of one severity, "line: path: message" each on a line (to be destroyed). */
static inline ss_text sample_remarks(const ss_diag_list *diags, ss_severity severity) {
    ss_text text = {0};
    for (int i = 0; i < diags->count; i++) {
        const ss_diag *const d = &diags->items[i];
        if (d->severity != severity) {
            continue;
        }
        ss_text_printf(&text, "%s%d: %s: %s", text.length > 0 ? "\n" : "", d->where.line, d->path,
                       d->message);
    }
    ss_text_add(&text, "");
    return text;
}

#endif
