/* working_checks.h - what every collection of steps has to be. */
#ifndef TEST_WORKING_CHECKS_H
#define TEST_WORKING_CHECKS_H

#include <string.h>

#include "sillspan/working.h"
#include "support/suite.h"

/** At least `least` steps and none lost, each with a symbol and words; the values are numbers or, where words
 * alone are meant, NaN. */
static inline void check_steps(const ss_working *working, int least) {
    CU_ASSERT(working->count >= least && working->count <= SS_WORKING_MOST);
    for (int i = 0; i < working->count && i < SS_WORKING_MOST; i++) {
        const ss_working_step *const step = &working->steps[i];
        CU_ASSERT(step->symbol != NULL && step->symbol[0] != '\0');
        CU_ASSERT(step->meaning != NULL && step->meaning[0] != '\0');
        CU_ASSERT((int)step->dimension >= 0 && step->dimension < SS_DIM_COUNT);
    }
}

/** The value of the first step of that symbol; NaN when there is none. */
static inline double step_value(const ss_working *working, const char *symbol) {
    for (int i = 0; i < working->count && i < SS_WORKING_MOST; i++) {
        if (strcmp(working->steps[i].symbol, symbol) == 0) {
            return working->steps[i].value;
        }
    }
    return (double)NAN;
}

#endif
