/* slab_check.h - checks of a concrete deck and of the cars under it while it is cast: one list, whatever they
 * are about, so that a study can ask for the one that decides. */
#ifndef SILLSPAN_SLAB_CHECK_H
#define SILLSPAN_SLAB_CHECK_H

#include "sillspan/memory.h"
#include "sillspan/requirement.h"

typedef enum ss_slab_part {
    SS_SLAB_PART_CASTING,    /**< the cars under wet concrete, people and gear */
    SS_SLAB_PART_ACROSS,     /**< the slab between its lines, over gaps and overhangs */
    SS_SLAB_PART_CONNECTORS, /**< what ties it to the lines */
    SS_SLAB_PART_DEFLECTION, /**< live load and sag */
    SS_SLAB_PART_COUNT
} ss_slab_part;

/** Texts are constants, or live as long as the list's arena. */
typedef struct ss_slab_check {
    ss_slab_part part;
    const char *where; /**< "main girder of car north at 28 ft", "over the gap" */
    ss_requirement requirement;
} ss_slab_check;

typedef struct ss_slab_checks {
    ss_slab_check *items;
    int count, capacity;
    ss_arena *arena; /**< of whoever collects */
} ss_slab_checks;

/** False: no memory. */
bool ss_slab_check_add(ss_slab_checks *checks, ss_slab_part part, const char *where,
                       const ss_requirement *requirement);

/** How far what was found is from what is allowed: at most 1 where it is kept, however it is asked for; NaN
 * where it could not be looked at. */
double ss_slab_check_use(const ss_slab_check *check);

/** The check of this part (SS_SLAB_PART_COUNT: of any) with the largest use; NULL: none was looked at. */
const ss_slab_check *ss_slab_checks_worst(const ss_slab_checks *checks, ss_slab_part part);

/** How many of all are missed, and how many could not be looked at. */
int ss_slab_checks_missed(const ss_slab_checks *checks);
int ss_slab_checks_unknown(const ss_slab_checks *checks);

/** "casting", "slab", "connectors", "deflection". */
const char *ss_slab_part_name(ss_slab_part part);

#endif
