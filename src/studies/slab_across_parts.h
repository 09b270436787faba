/* slab_across_parts.h - what the files of the slab across share. */
#ifndef SS_STUDIES_SLAB_ACROSS_PARTS_H
#define SS_STUDIES_SLAB_ACROSS_PARTS_H

#include "sillspan/slab_across.h"

/** Spans of the slab, alike ones together, without loads. False: no memory. */
bool ss_slab_across_spans(const ss_mesh *mesh, ss_arena *arena, ss_slab_across *out);

/** Fills in all->global from the strips under every rated vehicle by itself, both ways, and from what governs
 * strips and slab joints in `ratings` (may be NULL). */
ss_status ss_slab_across_global(const ss_permanent *permanent, const ss_ratings *ratings, ss_slab_across *all,
                                ss_error *error);

/** Strength, spans, punching and details into the list. False: no memory. */
bool ss_slab_across_check(const ss_bridge *bridge, const ss_slab_across *all, ss_slab_checks *checks);

/** A metre of the slab across. */
ss_slab_section ss_slab_across_section(const ss_bridge *bridge);

/** The span of a strip under a wheel of an axle. */
ss_slab_span ss_slab_across_span(const ss_bridge *bridge, const ss_slab_strip *strip,
                                 const ss_vehicle *loading, int axle, bool abreast);

/** "between stringer 1 of car north and main girder of car north"; NULL: no memory. */
const char *ss_slab_across_where(const ss_bridge *bridge, const ss_slab_strip *strip, ss_arena *arena);

#endif
