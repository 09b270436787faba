/* resolve_plates.h - the plates of a described section. */
#ifndef SS_MODEL_RESOLVE_PLATES_H
#define SS_MODEL_RESOLVE_PLATES_H

#include "model/resolve.h"

/** Each fills depth and plates of the section; false when that cannot be (faults reported). */
bool ss_resolve_box(ss_resolve *c, const ss_node *item, ss_section *section);
bool ss_resolve_channel(ss_resolve *c, const ss_node *item, ss_section *section);
bool ss_resolve_plates(ss_resolve *c, const ss_node *item, ss_section *section);

#endif
