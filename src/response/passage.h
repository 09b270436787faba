/* passage.h - ranges of effects as one truck rolls over the bridge, by influence fields alone. */
#ifndef SS_RESPONSE_PASSAGE_H
#define SS_RESPONSE_PASSAGE_H

#include "sillspan/permanent.h"

/** One effect under one truck of factor 1, without an allowance. */
typedef struct ss_passage {
    double least, most; /**< of all passages: never above and never below 0 */
    double range;       /**< largest difference within one passage, before and after which it is 0 */
    double y;           /**< middle of the truck in that passage, m; NaN: nothing stresses it */
    bool backward;      /**< it faces the first abutment */
} ss_passage;

/**
 * Passages of `truck`, one set of axles with the gauge of its widest one, along each line of its middle at
 * which a wheel stands on a line or the roadway ends, both ways, over a deck that spans across. Bearings keep
 * their contact: all that there are hold, and where that differs and the bridge stands, those alone that
 * carry dead load; the larger range of both counts. Axles stand at every station, on either side of it, and
 * where that puts the others. `effects` are of lines and have no kind but moment and shear, at stations.
 * *lines is the number of lines tried; 0: the roadway has no room, and `out` is left alone.
 */
ss_status ss_passages_compute(const ss_permanent *permanent, const ss_vehicle *truck,
                              const ss_effect *effects, int count, ss_passage *out, int *lines,
                              ss_error *error);

#endif
