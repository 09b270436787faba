/* envelope.h - trucks along and across the bridge, and the extremes of every effect with where they arise. */
#ifndef SILLSPAN_ENVELOPE_H
#define SILLSPAN_ENVELOPE_H

#include "sillspan/permanent.h"

/** A truck that rolls along one line, facing one way. */
typedef struct ss_track {
    int train;     /**< in placements->trains */
    int vehicle;   /**< in bridge->vehicles, that the train belongs to */
    int run;       /**< in bridge->runs, or -1 for a truck that roams the roadway */
    bool backward; /**< faces the first abutment */
    double y;      /**< of its middle, m */
    bool fine; /**< no wheel of it is at a kink of the deck: it is only there for floor beams and for contact
                */
} ss_track;

/** One vehicle, everywhere it may be: a crossing of the bridge, or a run. Its tracks are contiguous. */
typedef struct ss_traffic {
    int vehicle, run;
    int crossing;                 /**< in bridge->crossings, or -1 for a run */
    int first_track, track_count; /**< of one truck; 0: the roadway is too narrow for it, or trucks abreast */
    int lane_first[SS_ABREAST_MAX],
        lane_count[SS_ABREAST_MAX]; /**< trucks abreast: tracks of each of them, see ss_crossing_truck */
} ss_traffic;

/** A load over the whole carriageway stands on lines along the bridge, each for a strip of it. */
typedef struct ss_area_line {
    double y;     /**< m */
    double width; /**< of the strip, m */
} ss_area_line;

/** What a train was made of: its axles are those of a loading from `first_axle` on. */
typedef struct ss_train_origin {
    const ss_vehicle *loading; /**< the vehicle, or another loading under its name */
    int first_axle;
} ss_train_origin;

typedef struct ss_placements {
    ss_vehicle *trains; /**< vehicles with one set of spacings, axles and lane load each: what a vehicle of
                           variable spacing, of droppable axles or of several loadings is tried as */
    ss_train_origin *origins; /**< of each train */
    int train_count;
    ss_traffic *traffic;
    int traffic_count; /**< crossings in order, then runs */
    ss_track *tracks;
    int track_count;
    ss_area_line *area_lines; /**< ascending in y */
    int area_line_count;      /**< 0: no vehicle comes with such a load */
} ss_placements;

/**
 * Geometry only. Roaming: middle between roadway_left + wheel_to_curb + gauge/2 and the mirror image; tracks
 * at both limits and wherever one of its wheels meets a kink of the deck, a joint gap's edge or middle, or a
 * floor beam section that is to be known; both directions (one if the truck is symmetric).
 */
ss_status ss_placements_build(const ss_mesh *mesh, ss_placements *out, ss_error *error);
void ss_placements_destroy(ss_placements *placements);

/** Where a truck stands. */
typedef struct ss_position {
    int track;
    double x;     /**< front axle, m */
    bool on_beam; /**< wheels that stand over a floor beam are on the beam itself, not on the lines */
    const ss_vehicle *train; /**< with distances between axles of its own, in the memory of the result; NULL:
                                the train of the track */
} ss_position;

/** The axles that stand there. */
static inline const ss_vehicle *ss_position_train(const ss_placements *placements,
                                                  const ss_position *position) {
    return position->train != NULL ? position->train
                                   : &placements->trains[placements->tracks[position->track].train];
}

/** Load of one truck at a position (unit multiple). Wheels off the bridge load nothing. */
ss_status ss_placements_load(const ss_mesh *mesh, const ss_placements *placements,
                             const ss_position *position, ss_load *out, ss_error *error);

/** Most stretches of a lane that its uniform load lies on. */
enum { SS_LANE_STRETCHES = 24 };

/** One of them: along the track of truck number `truck` of those on the bridge. */
typedef struct ss_lane_stretch {
    int truck;
    double from, to; /**< m */
} ss_lane_stretch;

/** Adds `share` of the uniform load of a track's train over a stretch, on the lines of the wheels of its
 * widest axle. */
ss_status ss_placements_load_lane(const ss_placements *placements, int track, const ss_lane_stretch *stretch,
                                  double share, ss_load *load, ss_error *error);

/** Where a load over the carriageway lies on one of its lines. */
typedef struct ss_area_stretch {
    int line;        /**< in placements->area_lines */
    double from, to; /**< m */
} ss_area_stretch;

/** The other effects at the same section and moment. */
typedef struct ss_concurrent {
    double moment, shear, torsion, deflection; /**< live; NaN where there is none */
} ss_concurrent;

/** What an extreme is under when that is more than one truck alone. */
typedef struct ss_extreme_load {
    int truck_count; /**< trucks abreast: of those on the bridge, from left to right */
    ss_position position[SS_LANES_MAX];
    int stretch_count;
    const ss_lane_stretch *stretch; /**< where the uniform loads of their lanes lie, lane by lane */
    double area_N_m2;               /**< load over the carriageway, N/m2; 0: none */
    int area_count;
    const ss_area_stretch *area; /**< where it lies, line by line */
} ss_extreme_load;

/** One extreme of the live effect (total less dead, contact solved in both). */
typedef struct ss_extreme {
    double value;                /**< 0 when no position gives this sign */
    ss_position position;        /**< valid when value is not 0; with `load` that of its first truck */
    const ss_extreme_load *load; /**< NULL: one truck alone */
    double closed;               /**< the live effect if every bearing stayed closed */
    bool lifted;                 /**< the contact state differs from that under dead load */
    ss_concurrent with;
} ss_extreme;

/** How much of the traffic extremes are sought under. */
typedef enum ss_envelope_extent {
    SS_EXTENT_ALL,       /**< one truck with the load of its lane, and trucks abreast */
    SS_EXTENT_ONE_TRUCK, /**< no trucks abreast */
    SS_EXTENT_AXLES      /**< nor loads of lanes, nor loadings that are only for some effects */
} ss_envelope_extent;

/** Effects that are enveloped, and their extremes. */
typedef struct ss_envelope {
    int effect_count;
    ss_effect *effects;
    double *dead;      /**< effect_count: under the dead load of `options` */
    int contact_count; /**< springs that only push */
    int traffic_count;
    ss_extreme *extremes;     /**< effect_count x traffic_count x 2 (0: least, 1: most) */
    bool contact_matters;     /**< some position changes the contact state */
    bool tips;                /**< some position of some traffic has no contact state: see tip */
    ss_position tip;          /**< the first found */
    ss_position *traffic_tip; /**< traffic_count: such a position of each; track -1: none */
    /** Worst equilibrium error of the governing positions that were solved again as a check (up to 64, spread
     * evenly). Their effects agreed within 1e-7 of the larger of live and total, else SS_ERROR_CHECK; not
     * compared are sections inside a floor beam's bay with a wheel in that bay. */
    double accuracy;
    int checked_count;
    ss_envelope_extent extent;
    ss_arena arena; /**< of the loads of extremes */
} ss_envelope;

typedef struct ss_envelope_options {
    ss_dead_factors factors; /**< of the dead load that is on; 1, 1 for analysis */
    double live_factor; /**< multiple of the truck for which contact is solved; 1 for analysis. Values are
                           divided by it: per unit truck */
    ss_envelope_extent extent;
    void (*progress)(void *context, double done); /**< 0 to 1, or NULL */
    void *context;
} ss_envelope_options;

/** The effects that a bridge is to be known by, in this order: lines, at every marked station on both sides
 * and at fillers just after (nothing changes there, so both sides have the same extremes): moment, shear,
 * torsion, deflection, web plus and minus; floor beams: the same at lines and at quarter points of bays;
 * joints: shear, moment; bearings: reaction; probes. The caller frees with ss_free.
 */
ss_status ss_envelope_effects(const ss_mesh *mesh, ss_effect **effects, int *count, ss_error *error);

/**
 * Extremes of `effects` (copied) under all traffic, wherever it may be: one truck, its lane's uniform load
 * and that over the carriageway where they are adverse, trucks abreast. One truck without a lane load is
 * searched exactly but for what docs/limits.md says of tracks. With lane loads and trucks abreast a search
 * within one pattern of open bearings is exact, since effects add up in it; from one pattern the next is
 * taken that its worst load brings about, until it stays. A value is always that of its own load with contact
 * solved; with no contact springs it is the extreme itself. Trucks abreast that relieve are off the bridge;
 * so is a truck with a load over the carriageway where it relieves everywhere and that load does not.
 */
ss_status ss_envelope_compute(const ss_permanent *permanent, const ss_placements *placements,
                              const ss_effect *effects, int count, const ss_envelope_options *options,
                              ss_envelope *out, ss_error *error);
void ss_envelope_destroy(ss_envelope *envelope);

/** All that an extreme is under: trucks, lane loads, a load over the carriageway. */
ss_status ss_extreme_load_make(const ss_mesh *mesh, const ss_placements *placements,
                               const ss_extreme *extreme, ss_load *out, ss_error *error);

/** Load share at the position where some main girder of `car` has its largest live moment under `traffic`,
 * one truck with the load of its lane; there is none of trucks abreast. */
typedef struct ss_share {
    int traffic, car;
    double x;
    ss_position position;
    double total;    /**< N m, sum over all lines at x */
    double *line;    /**< line_count: share of each line that exists at x, else NaN */
    double *per_car; /**< car_count */
} ss_share;

typedef struct ss_share_list {
    ss_share *items;
    int count;
    ss_arena arena;
} ss_share_list;

ss_status ss_share_compute(const ss_permanent *permanent, const ss_placements *placements,
                           const ss_envelope *envelope, ss_share_list *out, ss_error *error);
void ss_share_destroy(ss_share_list *list);

#endif
