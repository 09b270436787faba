/* requirement.h - one thing that a rule asks of a detail: what was found beside what is allowed. */
#ifndef SILLSPAN_REQUIREMENT_H
#define SILLSPAN_REQUIREMENT_H

#include <math.h>
#include <stdbool.h>

#include "sillspan/units.h"

/** Texts are constants. */
typedef struct ss_requirement {
    const char *name;       /**< "clear cover above the studs" */
    double found, allowed;  /**< SI; NaN: not known, why says so */
    bool least;             /**< `allowed` is the least; false: the most */
    ss_dimension dimension; /**< of both */
    const char *source;     /**< "AASHTO LRFD 6.10.10.1.4 (from memory)" */
    const char *why;        /**< NULL, or why it could not be looked at */
} ss_requirement;

enum { SS_REQUIREMENTS_MOST = 24 };

/** Requirements in the order in which a report prints them. */
typedef struct ss_requirements {
    ss_requirement items[SS_REQUIREMENTS_MOST];
    int count;
} ss_requirements;

/** Whether it is missed, by more than rounding. One that could not be looked at is not: see `why`. */
static inline bool ss_requirement_missed(const ss_requirement *r) {
    const double slack = 1e-9 * fabs(r->allowed);
    return r->why == NULL && (r->least ? r->found < r->allowed - slack : r->found > r->allowed + slack);
}

/** How many are missed. */
static inline int ss_requirements_missed(const ss_requirements *all) {
    int missed = 0;
    for (int i = 0; i < all->count; i++) {
        missed += ss_requirement_missed(&all->items[i]) ? 1 : 0;
    }
    return missed;
}

#endif
