/* resolve_slab.h - parts of resolving a slab; each fills in some of c->bridge->slab and tells its own faults.
 */
#ifndef SS_MODEL_RESOLVE_SLAB_H
#define SS_MODEL_RESOLVE_SLAB_H

#include "model/resolve.h"
#include "sillspan/section_form.h"

/** Concrete and bars; the thickness is known. */
void ss_resolve_slab_concrete(ss_resolve *c, const ss_node *item);
void ss_resolve_slab_bars(ss_resolve *c, const ss_node *item);

/** Connectors, and which lines act with the slab over which width; the cars are laid, bearings stand. */
void ss_resolve_slab_connectors(ss_resolve *c, const ss_node *item);
void ss_resolve_slab_lines(ss_resolve *c, const ss_node *item);
void ss_resolve_slab_widths(ss_resolve *c, const ss_node *item);

/** One flag a line of the bridge for each that the names at a key of the group mean; false with a fault. */
bool ss_resolve_slab_named(ss_resolve *c, const ss_node *group, const char *key, bool *picked);
/** One flag a car; all where the key is not given. */
bool ss_resolve_slab_cars(ss_resolve *c, const ss_node *group, const char *key, bool *picked);
/** Where the slab on a car ends on one side: at its own edge, in the middle of the gap, or at the car when
 * the joint is open. */
double ss_resolve_slab_bound(const ss_bridge *bridge, int car, bool right);

/** Width of the flange or plate on top, of a channel from the back of its web. */
double ss_resolve_slab_top(const ss_section_form *form);

/** Parts that are cast, and props. */
void ss_resolve_slab_pours(ss_resolve *c, const ss_node *item);
void ss_resolve_slab_shores(ss_resolve *c, const ss_node *item);

/** Middle of a panel (m). */
double ss_resolve_slab_panel(const ss_bridge *bridge, int panel);

/** Strips across, among the floor beams; joints over the gaps. */
void ss_resolve_slab_strips(ss_resolve *c);
void ss_resolve_slab_joints(ss_resolve *c, const ss_node *item);

/** One of the effects that are left out of a slab, a sentence, by number from 0; NULL: there are no more. */
const char *ss_resolve_slab_ignored(int which);

#endif
