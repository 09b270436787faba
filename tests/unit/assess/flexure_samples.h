/* flexure_samples.h - sections in bending that several tests build, in inches, kips and feet. */
#ifndef FLEXURE_SAMPLES_H
#define FLEXURE_SAMPLES_H

#include "sillspan/flexure.h"
#include "support/suite.h"
#include "unit/model/form_samples.h"

#define STEEL_E (29000.0 * KSI)
#define STEEL_G (11200.0 * KSI)

enum { METHODS = 5 };
static const char *const method_names[METHODS] = {"lrfd", "plastic", "service", "lfr", "asr"};

/** A case of given steel; `feet` between supports. */
static inline ss_flexure_case bend(const ss_section *section, double fy_ksi, bool sagging, double feet) {
    return (ss_flexure_case){.section = section,
                             .depth = section->depth,
                             .fy = fy_ksi * KSI,
                             .E = STEEL_E,
                             .G = STEEL_G,
                             .top_compressed = sagging,
                             .unbraced = feet * FOOT,
                             .Cb = 1.0};
}

/** One of the methods, service with the share 0.80, allowable stress with 0.55. */
static inline ss_status bend_by(int method, const ss_flexure_case *given, ss_resistance *out,
                                ss_working *working) {
    switch (method) {
    case 0: return ss_flexure_lrfd(given, out, working);
    case 1: return ss_flexure_plastic(given, out, working);
    case 2: return ss_flexure_service(given, 0.80, out, working);
    case 3: return ss_flexure_lfr(given, out, working);
    default: return ss_flexure_asr(given, 0.55, out, working);
    }
}

static inline ss_resistance resist(int method, const ss_flexure_case *given) {
    ss_resistance out = {.value = -1.0, .rule = NULL, .why = NULL};
    CU_ASSERT_EQUAL(bend_by(method, given, &out, NULL), SS_OK);
    return out;
}

/** Asserts a method's moment in kip-in and a part of its rule. */
static inline void expect(int method, const ss_flexure_case *given, double kip_in, double tolerance,
                          const char *rule) {
    const ss_resistance found = resist(method, given);
    CHECK_CLOSE(found.value / (KIP * INCH), kip_in, tolerance);
    CHECK_ROW(found.rule != NULL && strstr(found.rule, rule) != NULL, found.rule);
    CU_ASSERT_PTR_NULL(found.why);
}

/** Value of the last step with that symbol; not-a-number when there is none. */
static inline double step_of(const ss_working *working, const char *symbol) {
    double found = (double)NAN;
    for (int i = 0; i < working->count && i < SS_WORKING_MOST; i++) {
        if (strcmp(working->steps[i].symbol, symbol) == 0) {
            found = working->steps[i].value;
        }
    }
    return found;
}

/** The four-plate sill: 20 x 1/2, two webs of 5/16 12-7/8 in apart, 18 x 3/4, 26 in deep. */
static inline void sample_sill(ss_section *section, ss_torsion torsion) {
    sample_box_section(section, (sample_box){26.0, 20.0, 0.5, 18.0, 0.75, 12.875 + 0.3125, 0.3125}, torsion);
}

/** C15x33.9 by its dimensions. */
static inline void sample_c15(ss_section *section) {
    sample_channel(section, 15.0, 0.400, 3.40, 0.650, 3.40, 0.650);
    section->shape = SS_SHAPE_CHANNEL;
}

#endif
