/* requirement.h - adds what a rule asks of a detail to the list of it. */
#ifndef SS_ASSESS_REQUIREMENT_H
#define SS_ASSESS_REQUIREMENT_H

#include <math.h>

#include "base/numeric.h"
#include "sillspan/requirement.h"

/* Beyond SS_REQUIREMENTS_MOST there is no room: the lists are shorter, which a test holds. */
static inline void ss_requirement_add(ss_requirements *out, ss_requirement item) {
    if (item.why == NULL && (!isfinite(item.found) || !isfinite(item.allowed))) {
        item.why = "a size that it needs is not known";
        item.found = item.allowed = SS_NAN;
    }
    if (out->count < SS_REQUIREMENTS_MOST) {
        out->items[out->count++] = item;
    }
}

static inline void ss_requirement_least(ss_requirements *out, const char *name, double found, double allowed,
                                        ss_dimension dimension, const char *source) {
    ss_requirement_add(out, (ss_requirement){.name = name,
                                             .found = found,
                                             .allowed = allowed,
                                             .least = true,
                                             .dimension = dimension,
                                             .source = source});
}

static inline void ss_requirement_most(ss_requirements *out, const char *name, double found, double allowed,
                                       ss_dimension dimension, const char *source) {
    ss_requirement_add(
        out, (ss_requirement){
                 .name = name, .found = found, .allowed = allowed, .dimension = dimension, .source = source});
}

static inline void ss_requirement_unknown(ss_requirements *out, const char *name, const char *why,
                                          const char *source) {
    ss_requirement_add(
        out,
        (ss_requirement){.name = name, .found = SS_NAN, .allowed = SS_NAN, .source = source, .why = why});
}

#endif
