/* fatigue_samples.h - descriptions with details of fatigue, and their ranges. */
#ifndef FATIGUE_SAMPLES_H
#define FATIGUE_SAMPLES_H

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "sillspan/fatigue.h"
#include "sillspan/memory.h"
#include "sillspan/reader.h"
#include "sillspan/text.h"
#include "support/suite.h"

#define ALLOWANCE 1.15

/* A bridge of one line, whose moments are those of a beam: it has no deck to share. The section has 377 and
 * 371 in3. Everything by name, in ft. */
#define BEAM(length, bearings, weight)                                                                       \
    "title = \"one line\"; steels = ( { name = \"mild\"; fy = \"36 ksi\"; } );"                              \
    "sections = ( { name = \"spine\"; shape = \"given\"; depth = \"24 in\"; A = \"40 in2\"; I = \"4487 "     \
    "in4\";"                                                                                                 \
    " J = \"1500 in4\"; S_top = \"371 in3\"; S_bottom = \"377 in3\"; weight = \"" weight " lb/ft\"; } );"    \
    "cars = ( { name = \"car\"; length = \"" length " ft\"; width = \"9 ft\"; steel = \"mild\"; "            \
    "detail_weight = 0; lines = ( { name = \"spine\"; role = \"main girder\"; y = \"0 ft\"; section = "      \
    "\"spine\"; } ); } ); bridge = { cars = ( { name = \"only\"; car = \"car\"; } ); bearings = ( { name = " \
    "\"seats\"; x = \"" bearings                                                                             \
    " ft\"; under = [ \"spine\" ]; action = \"two-way\"; pad_width = \"30 in\"; } ); "                       \
    "roadway = { from = \"1 ft\"; to = \"8 ft\"; lanes = 1; wheel_to_curb = \"0 ft\"; }; };"                 \
    "rating = { condition = \"good\"; system = 1.0; };"

#define DETAIL(name, category, more)                                                                         \
    "{ name = \"" name "\"; category = \"" category "\"; car = \"only\"; line = \"spine\"; " more " }"

typedef struct rolled {
    ss_description description;
    ss_bridge bridge;
    ss_fatigue_results results;
} rolled;

static inline void start(const char *text, rolled *out) {
    ss_diag_list diags = {0};
    ss_error error = {0};
    ss_status status =
        ss_description_read_text("test.cfg", text, strlen(text), &out->description, &diags, &error);
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    status = ss_description_check(&out->description, &diags);
    if (status == SS_OK) {
        status = ss_bridge_resolve(&out->description, &out->bridge, &diags);
    }
    for (int i = 0; i < diags.count && status != SS_OK; i++) {
        printf("\n  %s: %s", diags.items[i].path, diags.items[i].message);
    }
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    ss_diag_destroy(&diags);
    check_ok("fatigue", ss_fatigue_compute(&out->description, &out->bridge, &out->results, &error), &error);
}

static inline void finish(rolled *r) {
    ss_fatigue_destroy(&r->results);
    ss_bridge_destroy(&r->bridge);
    ss_description_destroy(&r->description);
}

static inline char *read_sample(void) {
    static char text[4096];
    FILE *const file = fopen(SS_SOURCE_DIR "/tests/unit/studies/stone_run.cfg", "rb");
    CU_ASSERT_PTR_NOT_NULL_FATAL(file);
    const size_t length = fread(text, 1, sizeof text - 1, file);
    text[length] = '\0';
    fclose(file);
    return text;
}

/* The sample of two cars, one word replaced, with details appended. */
static inline void start_sample(const char *from, const char *to, const char *details, rolled *out) {
    const char *const sample = read_sample();
    const char *const at = strstr(sample, from);
    ss_text text = {0};
    CU_ASSERT_PTR_NOT_NULL_FATAL(at);
    ss_text_add_bytes(&text, sample, (size_t)(at - sample));
    ss_text_printf(&text, "%s%s\nfatigue = { years = 10; details = ( %s ); };\n", to, at + strlen(from),
                   details);
    start(text.data, out);
    ss_text_destroy(&text);
}

#define SAMPLE_DETAILS                                                                                       \
    "{ name = \"sill\"; category = \"E\"; car = \"left\"; line = \"sill\"; x = \"11 ft\"; },"                \
    "{ name = \"edge\"; category = \"C\"; car = \"left\"; line = \"edges 1\"; x = \"12 ft\"; },"             \
    "{ name = \"other edge\"; category = \"C\"; car = \"right\"; line = \"edges 2\"; x = \"12 ft\"; },"      \
    "{ name = \"stringer\"; category = \"D\"; car = \"right\"; line = \"stringers 1\"; x = \"8 ft\"; },"     \
    "{ name = \"seam weld\"; category = \"E\"; joint = \"seam\"; x = \"12 ft\"; throat = \"1/4 in\"; }"

#endif
