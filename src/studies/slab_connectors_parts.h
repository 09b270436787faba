/* slab_connectors_parts.h - what the files of connectors share: one line in segments and stretches. */
#ifndef SS_STUDIES_SLAB_CONNECTORS_PARTS_H
#define SS_STUDIES_SLAB_CONNECTORS_PARTS_H

#include "response/passage.h"
#include "sillspan/slab_connectors.h"

enum { SS_TIES_SUPPORTS = 16, SS_TIES_BAYS = 8 };

/** A place of a line where shear is asked for. */
typedef struct ss_tie_place {
    double x;
    bool before;
    int shear;   /**< in the list of shears */
    double I, Q; /**< m4, m3, of the short-term section */
} ss_tie_place;

/** From one section without moment or support to the next. */
typedef struct ss_tie_span {
    double x0, x1;
    ss_connector_end from, to;
    bool overhang;
    bool over[2];                   /**< an end is a bearing that an overhang begins at */
    int hogging[2];                 /**< in the list of moments there; -1: none */
    int first_place, place_count;   /**< pairs: just after the start of a stretch, just before its end */
    int first_moment, moment_count; /**< where sagging is sought */
} ss_tie_span;

/** One line before its forces are known. */
typedef struct ss_tie_line {
    int line;
    ss_tie_span spans[SS_TIES_SUPPORTS + 1];
    int span_count;
} ss_tie_line;

typedef struct ss_ties {
    const ss_permanent *permanent;
    const ss_mesh *mesh;
    const ss_bridge *bridge;
    ss_tie_line *lines;
    int line_count;
    ss_tie_place *places;
    int place_count;
    ss_effect *shears, *moments;
    int shear_count, moment_count;
    ss_passage *shear, *moment; /**< of each; NULL: not known */
    ss_arena scratch;
    ss_error *error;
} ss_ties;

/** Spans of every line that acts with the slab, places and effects along them. */
ss_status ss_ties_find(ss_ties *ties);

/** Segments of a line, and what their ends are; room for two a span. */
typedef struct ss_tie_segments {
    ss_connector_segment *segments;
    ss_connector_part *parts;
    int count;
} ss_tie_segments;

/** Fills them with the forces to be tied. */
ss_status ss_ties_segments(const ss_ties *ties, const ss_tie_line *line, ss_tie_segments *out);

/** Adds details, strength and fatigue of one line, and sets line->missed. False: no memory. */
bool ss_slab_connectors_check(const ss_bridge *bridge, ss_connector_line *line, ss_slab_checks *checks);

#endif
