/* report_measure.h - what to measure next. */
#ifndef SS_REPORT_MEASURE_H
#define SS_REPORT_MEASURE_H

#include "report/report_builder.h"

enum { SS_MEASURE_MOST = 24 };

/** One thing to measure. */
typedef struct ss_measure {
    const char *what; /**< "the daylight under each bearing" */
    const char *why;  /**< a sentence */
} ss_measure;

/** What would say most about a rated bridge that one visit can bring, the dearest first, from what was
 * computed anyway: no search of the unknowns. Returns how many, at most SS_MEASURE_MOST. */
int ss_measure_next(ss_builder *b, ss_measure *items);

#endif
