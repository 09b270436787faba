/* compare_samples.h - a car that is one beam, whose bending on any supports is known in closed form. */
#ifndef SS_TESTS_COMPARE_SAMPLES_H
#define SS_TESTS_COMPARE_SAMPLES_H

#include <CUnit/Basic.h>
#include <string.h>

#include "sillspan/compare.h"
#include "sillspan/reader.h"
#include "sillspan/text.h"
#include "support/exact_units.h"

/* 86 ft on wheel trucks at 10 and 76 ft, 43 kip, one axle of 20 kip: 0.5 kip/ft and P. */
enum { LENGTH = 86, BACK = 10, MIDDLE = 66 };
#define WEIGHT 0.5
#define AXLE 20.0

#define ONE_BEAM                                                                                             \
    "title = \"One beam\";\n"                                                                                \
    "steels = ( { name = \"steel\"; fy = \"36 ksi\"; } );\n"                                                 \
    "sections = ( { name = \"spine\"; shape = \"given\"; depth = \"30 in\"; A = \"50 in2\"; I = \"9000 "     \
    "in4\"; J = \"400 in4\"; S = \"600 in3\"; } );\n"                                                        \
    "cars = ( { name = \"long\"; length = \"86 ft\"; width = \"9 ft\"; steel = \"steel\"; weight = \"43 "    \
    "kip\"; wheel_trucks = \"10, 76 ft\"; lines = ( { name = \"spine\"; role = \"main girder\"; y = \"0 "    \
    "ft\"; section = \"spine\"; } ); } );\n"                                                                 \
    "trucks = ( { name = \"axle\"; axles = \"20 kip\"; gauge = \"0 ft\"; } );\n"

/* Reads and checks. */
static inline ss_description compare_read(const char *text) {
    ss_description d = {0};
    ss_diag_list diags = {0};
    ss_error error = {0};
    const ss_status status = ss_description_read_text("beam.cfg", text, strlen(text), &d, &diags, &error);
    if (status != SS_OK || ss_description_check(&d, &diags) != SS_OK) {
        printf("\n  %s %s: %s\n", error.message, diags.count > 0 ? diags.items[0].path : "",
               diags.count > 0 ? diags.items[0].message : "");
        CU_FAIL_FATAL("the sample has faults");
    }
    ss_diag_destroy(&diags);
    return d;
}

/* One variant, or with `name` NULL the description itself. */
static inline ss_status compare_variant(const ss_description *base, const char *name,
                                        const ss_compare_options *options, ss_compared *out) {
    ss_description d = {0};
    ss_diag_list diags = {0};
    ss_error error = {0};
    const ss_node *const variant = name == NULL ? NULL : ss_node_named(ss_description_variants(base), name);
    CU_ASSERT_FATAL(name == NULL || variant != NULL);
    ss_status status = variant == NULL ? ss_description_copy(base, "variants", &d)
                                       : ss_description_vary(base, variant, &d, &diags);
    CU_ASSERT_EQUAL_FATAL(status, SS_OK);
    status = ss_compare_one(&d, options, out, &diags, &error);
    if (status != SS_OK) {
        printf("\n  %s: %s %s\n", name == NULL ? "as described" : name, error.message,
               diags.count > 0 ? diags.items[0].message : "");
    }
    ss_description_destroy(&d);
    ss_diag_destroy(&diags);
    return status;
}

#endif
