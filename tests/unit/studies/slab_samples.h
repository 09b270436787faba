/* slab_samples.h - bridges of one line with a slab, ready for its studies. */
#ifndef SLAB_SAMPLES_H
#define SLAB_SAMPLES_H

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "sillspan/memory.h"
#include "sillspan/reader.h"
#include "sillspan/variant.h"
#include "support/suite.h"

/* One line of 40 in2 at 36 ksi, whose moments are those of a beam, under 9 ft x 6 in of 4 ksi. */
#define SLAB_LINE(length, bearings, more_bearings, rating, slab)                                             \
    "title = \"one line\"; steels = ( { name = \"mild\"; fy = \"36 ksi\"; } );"                              \
    "sections = ( { name = \"spine\"; shape = \"given\"; depth = \"24 in\"; A = \"40 in2\"; I = \"4487 "     \
    "in4\"; J = \"1500 in4\"; S_top = \"371 in3\"; S_bottom = \"377 in3\"; weight = \"200 lb/ft\"; } );"     \
    "cars = ( { name = \"car\"; length = \"" length " ft\"; width = \"9 ft\"; steel = \"mild\"; "            \
    "detail_weight = 0; lines = ( { name = \"spine\"; role = \"main girder\"; y = \"0 ft\"; section = "      \
    "\"spine\"; } ); } ); bridge = { cars = ( { name = \"only\"; car = \"car\"; } ); bearings = ( { name = " \
    "\"seats\"; x = \"" bearings                                                                             \
    " ft\"; under = [ \"spine\" ]; action = \"two-way\"; pad_width = \"30 in\"; }" more_bearings             \
    " ); roadway = { from = \"1 ft\"; to = \"8 ft\"; lanes = 1; wheel_to_curb = \"0 ft\"; }; };"             \
    "rating = { condition = \"good\"; system = 1.0; trucks = [ \"EV3\" ]; " rating                           \
    " }; slab = { thickness = \"6 in\"; concrete = { strength = \"4 ksi\"; }; " slab " };"

#define SLAB_STUDS                                                                                           \
    "connectors = { diameter = \"3/4 in\"; height = \"4 in\"; per_row = 2; across = \"4 in\"; };"

typedef struct slab_bridge {
    ss_description description;
    ss_variant variant;
} slab_bridge;

static inline void slab_start(const char *text, slab_bridge *out) {
    ss_diag_list diags = {0};
    ss_error error = {0};
    *out = (slab_bridge){0};
    ss_status status =
        ss_description_read_text("test.cfg", text, strlen(text), &out->description, &diags, &error);
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    status = ss_description_check(&out->description, &diags);
    if (status == SS_OK) {
        status = ss_bridge_resolve(&out->description, &out->variant.bridge, &diags);
    }
    for (int i = 0; i < diags.count && status != SS_OK; i++) {
        printf("\n  %s: %s", diags.items[i].path, diags.items[i].message);
    }
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    ss_diag_destroy(&diags);
    check_ok("structure", ss_variant_structure(&out->variant, &error), &error);
    check_ok("loads", ss_variant_loads(&out->variant, &error), &error);
}

static inline void slab_finish(slab_bridge *b) {
    ss_variant_destroy(&b->variant);
    ss_description_destroy(&b->description);
}

#endif
