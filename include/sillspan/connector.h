/* connector.h - studs and channels that tie a slab to a line: strength, fatigue, details, and their layout.
 */
#ifndef SILLSPAN_CONNECTOR_H
#define SILLSPAN_CONNECTOR_H

#include <stdbool.h>

#include "sillspan/fatigue_category.h"
#include "sillspan/requirement.h"
#include "sillspan/resistance.h"
#include "sillspan/slab.h"
#include "sillspan/working.h"

/** Resistance factor of connectors (AASHTO LRFD 6.5.4.2; Standard Specifications 10.38.5.1.2; from memory).
 */
#define SS_PHI_CONNECTOR 0.85

/** Which book. */
typedef enum ss_connector_rule {
    SS_CONNECTOR_LRFD = 0,    /**< AASHTO LRFD 6.10.10, fatigue as since 2009 (4th ed. with interims) */
    SS_CONNECTOR_LRFD_BEFORE, /**< the same with fatigue as before 2009: a floor in place of two limits */
    SS_CONNECTOR_STANDARD     /**< AASHTO Standard Specifications 10.38.5, load factor design */
} ss_connector_rule;

/**
 * Nominal strength (N) of one connector, all from memory; fc and E of the concrete in Pa. LRFD 6.10.10.4.3:
 * stud 0.5 A sqrt(fc E) <= A Fu; channel 0.3 (tf + 0.5 tw) L sqrt(fc E). Standard Specifications 10.38.5.1.2:
 * stud 0.4 d^2 sqrt(fc E) <= 60 ksi A; channel 550 (tf + 0.5 tw) L sqrt(fc), lb, in and psi. Without phi.
 */
ss_resistance ss_connector_strength(const ss_connectors *connectors, double fc, double E,
                                    ss_connector_rule rule, ss_working *working);

/** What the force between two sections is limited by. */
typedef struct ss_connector_section {
    double width, thickness; /**< m, of the slab that acts */
    double fc;               /**< Pa */
    double steel;            /**< N, sum of A Fy of all parts of the steel */
    double bars;             /**< N, sum of A fy of bars along the line; matters before 2004 alone */
} ss_connector_section;

/** What the slab over a support is taken to pull. */
typedef enum ss_connector_hogging {
    SS_CONNECTOR_HOGGING_SLAB = 0, /**< 0.45 fc b t for concrete and bars together (LRFD since 2004) */
    SS_CONNECTOR_HOGGING_BARS      /**< A fy of the bars (LRFD before 2004, Standard Specifications) */
} ss_connector_hogging;

/**
 * Force (N) to be tied between a section without moment and the largest sagging moment, min(0.85 fc b t, A
 * Fy); with `to_support` between an interior support and the largest sagging moment, to which the hogging
 * side is added, min(its slab, A Fy). Radial forces of curved girders are ignored. LRFD 6.10.10.4.2, Standard
 * Specifications 10.38.5.1.1 (from memory). NaN when a size is not positive.
 */
double ss_connector_force(const ss_connector_section *section, bool to_support, ss_connector_hogging hogging,
                          ss_working *working);

/** Connectors for `force` when one carries `each` (N, phi in it), whole rows of `per_row`. -1: not known, or
 * more than a million. */
int ss_connector_count(double force, double each, int per_row);

/**
 * Fatigue resistance (N) of one connector, range of shear, for `cycles`; INFINITY: for ever. From memory, kip
 * and in. LRFD 6.10.10.2: stud 5.5 d^2 for ever and (34.5 - 4.28 log N) d^2 else, channel 2.1 w and (9.37 -
 * 1.08 log N) w; before 2009 the finite line alone, never below half of the other. Standard Specifications
 * 10.38.5.1.3: stud 13, 10.6, 7.85 and 5.5 d^2, channel 4, 3, 2.4 and 2.1 w for up to 100 000, 500 000,
 * 2 000 000 cycles and more. Studs lower than four diameters have none in the table.
 */
ss_resistance ss_connector_fatigue(const ss_connectors *connectors, double cycles, ss_connector_rule rule,
                                   ss_working *working);

/** Trucks a day in a single lane from which connectors are to last for ever: 75 years of them make as many
 * cycles as the finite line has at the infinite limit times II/I (LRFD 6.10.10.2). NaN unless
 * `cycles_per_truck` is positive. */
double ss_connector_infinite_traffic(ss_connector_kind kind, double cycles_per_truck,
                                     ss_fatigue_edition edition);

/** Pitch (m) that fatigue allows for rows of `per_row`, n Zr I / (Vsr Q) (LRFD 6.10.10.1.2): range of shear
 * Vsr (N) with its load factor, I (m4) and Q (m3) of the short-term section. INFINITY without a range; NaN
 * when a value is not known. */
double ss_connector_fatigue_pitch(int per_row, double Zr, double Vsr, double I, double Q);

/** Where connectors stand. 0 or NaN: not known, and what needs it cannot be looked at. */
typedef struct ss_connector_place {
    double plate;     /**< m, steel that they are welded to */
    bool over_web;    /**< they stand over a web, so that the plate's thickness does not matter */
    double flange;    /**< m, width of that steel */
    double web_depth; /**< m */
    double thickness; /**< m, slab */
    double haunch;    /**< m, from the steel to the slab's underside */
} ss_connector_place;

/** Least and most distance (m) from row to row: six diameters of a stud, and of channels 6 in (own rule, room
 * for concrete); 24 in, and 48 in on webs of 24 in and more (LRFD 6.10.10.1.2, 8th ed.; from memory). The
 * Standard Specifications and older books have 24 in. */
double ss_connector_pitch_least(const ss_connectors *connectors);
double ss_connector_pitch_most(const ss_connector_place *place, ss_connector_rule rule);

/** Adds to *out what the details have to keep (LRFD 6.10.10.1; the plate: AISC 360 I8.1; from memory): height
 * over diameter, distances along and across, edge, cover, penetration, plate. The pitch is looked at when it
 * is positive. */
void ss_connector_details(const ss_connectors *connectors, const ss_connector_place *place, double pitch,
                          ss_connector_rule rule, ss_requirements *out);

/** A stretch between two sections that matter, and the force to be tied in it. */
typedef struct ss_connector_segment {
    double x0, x1; /**< m */
    double force;  /**< N, ss_connector_force; 0: none asked for */
} ss_connector_segment;

/** A stretch with one range of shear. */
typedef struct ss_connector_stretch {
    double x0, x1; /**< m */
    double range;  /**< N, Vsr with its load factor */
    double I, Q;   /**< m4 and m3, short-term */
    double cycles; /**< for fatigue here; 0: those of the demand */
} ss_connector_stretch;

typedef struct ss_connector_demand {
    const ss_connectors *connectors; /**< with a pitch: that is checked; 0: it is sought */
    ss_connector_place place;
    double fc, E; /**< Pa, of the concrete */
    ss_connector_rule rule;
    double cycles; /**< for fatigue; INFINITY: for ever */
    double degree; /**< share of the force that is to be tied, 1 for full composite action; less is partial
                      composite action of building steel (AISC 360 I3.2d), which AASHTO does not have */
    const ss_connector_segment *segments;
    int segment_count;
    const ss_connector_stretch *stretches; /**< those that overlap a segment count for all of it */
    int stretch_count;
    ss_unit_system units; /**< pitches in whole inches or in steps of 25 mm */
} ss_connector_demand;

/** The layout of one segment. */
typedef struct ss_connector_run {
    double x0, x1;
    int needed;                           /**< connectors that the force needs, whole rows */
    double by_strength, by_fatigue, most; /**< m, pitches that each allows; INFINITY: any */
    double least;                         /**< m */
    double pitch;                         /**< m, as given, as chosen, or the least where none fits */
    int rows, count;                      /**< that many whole pitches are in the segment */
    double degree;       /**< strength of the connectors over the whole force, not cut at 1; INFINITY without
                            a force: 1 and more is full composite action */
    double fatigue;      /**< pitch over what fatigue allows; 0 without a range */
    bool fits;           /**< force, fatigue and distances are all kept */
    const char *governs; /**< "strength", "fatigue", "the largest pitch", or what is missed */
    int per_row_needed;  /**< where it does not fit: studs a row that would, on this flange; 0: none */
    double bigger;       /**< m, the next diameter that would, on this plate, as high as four of it at least;
                            0: none */
    double partial;      /**< degree that the least pitch reaches with fatigue kept; 0: none */
} ss_connector_run;

typedef struct ss_connector_plan {
    double strength; /**< N, phi Qn of one */
    double Zr;       /**< N */
    int rows, count; /**< in all */
    double degree;   /**< the least of all segments */
    bool fits;
    const char *governs; /**< of the segment with the closest pitch */
    const char *why;     /**< NULL, or why there is no plan (then no run is written) */
} ss_connector_plan;

/** Lays out the connectors of one line; `runs` has as many entries as there are segments. Details beside the
 * distance of rows are in ss_connector_details. */
ss_connector_plan ss_connector_design(const ss_connector_demand *demand, ss_connector_run *runs,
                                      ss_working *working);

#endif
