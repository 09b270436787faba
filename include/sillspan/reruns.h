/* reruns.h - the rating of the governing truck again, on the bridge changed in one respect. */
#ifndef SILLSPAN_RERUNS_H
#define SILLSPAN_RERUNS_H

#include "sillspan/variant.h"

typedef enum ss_rerun_kind {
    SS_RERUN_REPAIRED,     /**< one finding put aside */
    SS_RERUN_ALL_REPAIRED, /**< every finding put aside */
    SS_RERUN_RELEASED,     /**< a secondary member that falls short taken away, with what rests on it */
    SS_RERUN_GIRDER_CUT    /**< a main girder severed: a what-if */
} ss_rerun_kind;

typedef struct ss_rerun {
    ss_rerun_kind kind;
    int finding;      /**< REPAIRED: in bridge->findings; else -1 */
    const char *what; /**< for people: "pitting", "stringer 2 of car north" */
    double rf;        /**< smallest factor of all members that count; NaN: it could not be rated */
    double primary;   /**< smallest factor of the primary members; NaN as above, INFINITY: none is loaded */
    double own, own_found; /**< REPAIRED: smallest factor of the member that the finding is about, then and
                              as found; NaN: it is about none */
    const char *governs;   /**< the member that rf is of: "stringer 2 of car north"; NULL with rf NaN */
    const char *primary_governs; /**< that of primary */
    const char *failure;         /**< NULL, or why it could not be rated */
} ss_rerun;

/** All are of one truck by one method: those that govern the rating of the bridge as found. */
typedef struct ss_reruns {
    int vehicle; /**< in the bridge; -1: nothing was rated, and there are none */
    ss_method method;
    double rf, primary; /**< of the bridge as found */
    ss_rerun *items;
    int count;
    ss_arena arena;
} ss_reruns;

typedef struct ss_rerun_options {
    const char *cut_car; /**< its main girder is severed where it rates least; NULL: no what-if */
    void (*progress)(void *context, double done);
    void *context;
} ss_rerun_options;

/**
 * Puts each finding aside in turn, and all of them where there are several; takes away the weakest secondary
 * member that rates below 1, unless it is a floor beam's only neighbour; cuts the girder that is asked for.
 * `base` is the rated bridge of `description`. Errors: no memory; SS_ERROR_DESCRIPTION when no car is called
 * so. What cannot be rated is said in its item.
 */
ss_status ss_reruns_compute(const ss_description *description, const ss_variant *base,
                            const ss_rerun_options *options, ss_reruns *out, ss_error *error);
void ss_reruns_destroy(ss_reruns *reruns);

#endif
