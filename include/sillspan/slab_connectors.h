/* slab_connectors.h - the connectors of every line that acts with the slab: sections that matter, forces, the
 * range of shear under the fatigue truck, and the layout that follows. */
#ifndef SILLSPAN_SLAB_CONNECTORS_H
#define SILLSPAN_SLAB_CONNECTORS_H

#include "sillspan/connector.h"
#include "sillspan/permanent.h"
#include "sillspan/slab_check.h"

/** Years that connectors are to last, and least share of the force that partial composite action may tie
 * (commentary to AISC 360 I3.2d, building steel; from memory). */
#define SS_CONNECTOR_YEARS 75.0
#define SS_CONNECTOR_DEGREE_LEAST 0.25

/** What the ends of a segment are. */
typedef enum ss_connector_end {
    SS_CONNECTOR_END_FREE,    /**< no moment: end of the line or of the slab, outermost bearing */
    SS_CONNECTOR_END_SAGGING, /**< the largest sagging moment of the HS20-44 truck */
    SS_CONNECTOR_END_SUPPORT  /**< a bearing that the line goes on beyond */
} ss_connector_end;

/** One segment of a line, and the place in it where fatigue asks for the closest rows. */
typedef struct ss_connector_part {
    ss_connector_end from, to;
    double range;  /**< N, of shear there, with allowance and load factor */
    double at;     /**< m, where; NaN: nothing shears it */
    double I, Q;   /**< m4, m3, of the short-term section there */
    double y;      /**< m, middle of the truck in that passage */
    bool backward; /**< it faces the first abutment */
} ss_connector_part;

/** One line. Arrays are as long as demand.segment_count. */
typedef struct ss_connector_line {
    int line;
    ss_connector_demand demand; /**< with its segments and stretches, so that its steps can be had again */
    const ss_connector_part *parts;
    const ss_connector_run *runs; /**< not written when plan.why says so */
    ss_connector_plan plan;
    double each_truck; /**< cycles of one truck, where fatigue asks for the closest rows */
    bool infinite;     /**< for ever, by Fatigue I; else demand.cycles by Fatigue II */
    double factor;     /**< of that load */
    int missed;        /**< of its details */
} ss_connector_line;

typedef struct ss_slab_connectors {
    ss_connector_line *lines; /**< those that act with the slab, in the bridge's order */
    int count;
    int rows, total;     /**< of all lines that have a plan */
    int worst;           /**< in `lines`: does not fit, else has the closest rows; -1: none */
    const char *truck;   /**< that fatigue is by */
    double adtt;         /**< trucks a day in a single lane, average of the years; NaN: not known */
    bool derived;        /**< that is from rating.adtt */
    int passages;        /**< lines that the truck was rolled along */
    const char *failure; /**< why no range of shear is known, or NULL: fatigue is then not looked at */
} ss_slab_connectors;

/**
 * AASHTO LRFD 6.10.10, also where a bridge is rated by older methods. Sections that matter: ends of line and
 * slab, bearings under the line that carry dead load, and between two of these the station, among those next
 * to 0.3 to 0.7 of their distance, where the sagging moment of the HS20-44 truck, axles 14 ft apart, is
 * largest; of those within 5 % of it the one next to the middle. Beyond the outermost of two such bearings or
 * more a line is an overhang, in which the slab pulls alone: there no more than M Q/I of the HS20-44 truck
 * with the factors of Strength I and one lane, and of dead load on the slab; a line with none spans from end
 * to end. Ranges are of single passages with 15 % allowance and linear, see ss_passages_compute. Where
 * partial action counts (connectors.partial and a pitch), the least share of the force is asked for. Infinite
 * life unless adtt is known, of fatigue or rating, and low enough. Details, strength and fatigue of every
 * segment are added to `checks`. Arrays and texts are of `arena`, those of checks of checks->arena.
 */
ss_status ss_slab_connectors_compute(const ss_permanent *permanent, ss_arena *arena, ss_slab_checks *checks,
                                     ss_slab_connectors *out, ss_error *error);

/** The steps of one line, for the segment with the closest rows. */
void ss_slab_connectors_work(const ss_connector_line *line, ss_working *working);

/** "main girder of car north", in `arena`; NULL without memory. */
const char *ss_slab_line_name(const ss_bridge *bridge, int line, ss_arena *arena);

#endif
