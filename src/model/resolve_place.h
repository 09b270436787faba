/* resolve_place.h - a place on a line, on a floor beam or on a joint, as probes and details of fatigue name
 * it. */
#ifndef SS_MODEL_RESOLVE_PLACE_H
#define SS_MODEL_RESOLVE_PLACE_H

#include "model/resolve.h"

/** Table paths of the keys that name a place. */
typedef struct ss_place_keys {
    const char *car, *line, *floor_beam, *joint, *x, *y, *side;
} ss_place_keys;

/* Each fills index, at and before of `probe`; false on a fault, index -1 where nothing is named. */
bool ss_resolve_place_line(ss_resolve *c, const ss_node *item, const ss_place_keys *keys, ss_probe *probe);
bool ss_resolve_place_beam(ss_resolve *c, const ss_node *item, const ss_place_keys *keys, ss_probe *probe);
/** True with index -1: the joint passes no force (a warning). */
bool ss_resolve_place_joint(ss_resolve *c, const ss_node *item, const ss_place_keys *keys, ss_probe *probe);

#endif
