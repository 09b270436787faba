/* changes.h - a description changed by findings of the program's own. */
#ifndef SS_STUDIES_CHANGES_H
#define SS_STUDIES_CHANGES_H

#include "sillspan/bridge.h"

/** A copy without what a rating does not need. */
ss_status ss_change_copy(const ss_description *from, ss_description *out);

/** Puts a finding of the description aside. */
ss_status ss_change_put_aside(ss_description *description, const char *finding);

/* Each takes away one member; false without memory. */
bool ss_change_take_line(ss_description *description, const ss_bridge *bridge, int line);
bool ss_change_take_beam(ss_description *description, const ss_bridge *bridge, int beam);
bool ss_change_take_joint(ss_description *description, const ss_bridge *bridge, int joint);
/** Joints that are seated on the line: on the outermost of its car. */
bool ss_change_take_seats(ss_description *description, const ss_bridge *bridge, int line);
/** Severs a line over x0 to x1 (m). */
bool ss_change_cut_line(ss_description *description, const ss_bridge *bridge, int line, double x0, double x1);

/** "stringer 2 of car north", "joint seam"; NULL without memory. */
const char *ss_change_member_name(ss_arena *arena, const ss_bridge *bridge, ss_member_kind member, int index);

#endif
