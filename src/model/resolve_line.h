/* resolve_line.h - one car of the bridge while its lines are laid. */
#ifndef SS_MODEL_RESOLVE_LINE_H
#define SS_MODEL_RESOLVE_LINE_H

#include "model/resolve.h"

/** What differs in one car for one line of its type. */
typedef struct ss_line_change {
    int section, steel; /**< -1: as in the type */
    bool missing;
} ss_line_change;

/** One more piece of a line whose pieces are the last ones of all; false without memory. */
bool ss_resolve_add_piece(ss_resolve *c, ss_line *line, ss_line_piece piece);

/** Lays lines and floor beams of one car; `changes` has one entry a line of the type, `steel` is -1 or the
 * car's own. */
void ss_resolve_lay_car(ss_resolve *c, int car, const ss_line_change *changes, int steel);

#endif
