/* bridge.h - the resolved bridge: defaults in, names to indices, everything in one set of axes. */
#ifndef SILLSPAN_BRIDGE_H
#define SILLSPAN_BRIDGE_H

#include <stdbool.h>

#include "sillspan/description.h"
#include "sillspan/fatigue_category.h"
#include "sillspan/finding.h"
#include "sillspan/joint.h"
#include "sillspan/section.h"
#include "sillspan/sizing.h"
#include "sillspan/slab.h"
#include "sillspan/unknown.h"
#include "sillspan/vehicle.h"

/* All x from the first abutment, all y from the left edge of the first car, both in m (docs/conventions.md).
 * Counts are ints; every `first`, `count` pair indexes the array of that name in ss_bridge. */

typedef struct ss_steel {
    const char *name;
    double fy, E, G;   /**< Pa */
    double density;    /**< N/m3 */
    const char *basis; /**< "yield stress given", "grade A36", "rolled 1968, unknown steel" */
} ss_steel;

typedef enum ss_role { SS_ROLE_MAIN, SS_ROLE_EXTERIOR, SS_ROLE_STRINGER } ss_role;

/** A stretch of a line in which the depth varies linearly. */
typedef struct ss_line_piece {
    double x0, x1; /**< x0 < x1 */
    int section;
    double depth0, depth1; /**< m, at x0 and x1; equal for a level stretch */
} ss_line_piece;

/** A longitudinal member. Lines are sorted by car, then by y. */
typedef struct ss_line {
    const char
        *name; /**< "sill", or "stringers 2" in a set; "stringers 2, near part" of one that has a gap */
    const char *whole; /**< the same without its part: "stringers 2" */
    const char *set;   /**< the name in the description */
    int car;
    ss_role role;
    double y;
    double x0, x1;
    int steel;
    double unbraced;              /**< m, given; NaN: by what holds it */
    double Cb;                    /**< given; 1 otherwise */
    double stiffeners;            /**< m between transverse stiffeners of its webs; 0: none */
    int first_piece, piece_count; /**< contiguous from x0 to x1 */
    bool cut;                     /**< some of it is missing */
    bool primary;                 /**< see ss_primary_mark */
    int first_crack, crack_count; /**< in `cracks`: stations where it passes no bending */
} ss_line;

/** A part of a floor beam's width with one section. */
typedef struct ss_beam_part {
    double y0, y1;
    int section;
} ss_beam_part;

/** A transverse member of one car, from the first to the last of its lines that exist at x. */
typedef struct ss_floor_beam {
    const char *name; /**< "bearers 3" */
    const char *set;
    int car;
    double x;
    int steel;
    int first_part, part_count;   /**< sorted, covering the car's width */
    int first_hinge, hinge_count; /**< in `hinges`: lines at which its ends pass no bending */
    double strip; /**< m of slab that it stands for: it is no beam, is there once the slab has hardened, and
                     no wheel comes to it by itself; 0 of a beam */
} ss_floor_beam;

typedef struct ss_car {
    const char *name, *type;
    double x0, x1;          /**< ends, x0 < x1, whatever the direction */
    double y_left, y_right; /**< edges */
    bool reversed;
    double wheel_truck[2]; /**< NaN when not given; [0] < [1] in bridge x */
    int first_line, line_count;
    int first_beam, beam_count;
    double weight_factor; /**< what the computed steel weight of lines and floor beams is multiplied by
                             (details, or the known weight) */
    double weight;        /**< N, in all, with that factor */
} ss_car;

/** A stretch along the bridge. */
typedef struct ss_length_range {
    double x0, x1;
} ss_length_range;

/** One bearing point: one line at one station. */
typedef struct ss_bearing {
    const char *name; /**< of the set */
    int car, line;
    double x;
    bool contact;      /**< pushes only; else two-way */
    bool after;        /**< placed after the dead load, touching */
    double gap;        /**< m, daylight under the present unfactored dead load */
    double settlement; /**< m, positive down */
    double spring;     /**< N/m, INFINITY for rigid */
    double pad_width;  /**< m across; 0 is a point */
    double rotation;   /**< N m/rad on the line's slope: 0 free, INFINITY fixed */
    double length;     /**< m of bearing along the car; 0: not given */
    bool stiffened;    /**< the webs above have bearing stiffeners */
} ss_bearing;

typedef enum ss_component { SS_COMPONENT_DC, SS_COMPONENT_DW } ss_component;

/** When a dead load is there, where a slab is cast. */
typedef enum ss_dead_when {
    SS_DEAD_STAYS,   /**< from before the slab on */
    SS_DEAD_REMOVED, /**< of the bridge as it is today; off before the slab is cast */
    SS_DEAD_WET,     /**< with the concrete of `pour` */
    SS_DEAD_LATER    /**< on the hardened slab */
} ss_dead_when;

/** Dead load besides the cars' own steel: per length along y0 (y1 == y0), or per area between y0 and y1. */
typedef struct ss_dead_load {
    const char *name;
    ss_component component;
    bool area;
    double w;      /**< N/m or N/m2 */
    double x0, x1; /**< only where there is a car under it */
    double y0, y1;
    ss_dead_when when;
    int pour; /**< WET: in slab.pours */
} ss_dead_load;

/** What a deck can carry between its supports, as given; 0: not given. */
typedef struct ss_deck_wheel {
    bool given;                          /**< enough for a check of the deck under a wheel */
    bool continuous;                     /**< runs over three supports or more */
    double thickness;                    /**< m */
    double spread;                       /**< m of deck that carry a wheel */
    double plank_width;                  /**< m; timber, as all to wet_shear */
    double bending_stress, shear_stress; /**< Pa, allowable */
    double load_duration, wet_bending, wet_shear;
    int steel;              /**< in `steels`; of a steel plate, else -1 */
    double wheel_capacity;  /**< N, allowed on its span; of a grating */
    double moment_capacity; /**< N m per m, allowed; of a grating */
} ss_deck_wheel;

typedef enum ss_deck_kind {
    SS_DECK_TIMBER,
    SS_DECK_STEEL_PLATE,
    SS_DECK_GRATING,
    SS_DECK_CONCRETE
} ss_deck_kind;

/** How wheels come to the members. */
typedef struct ss_deck {
    const char *name, *kind; /**< NULL: none described */
    bool along;              /**< spans along: to floor beams; else across: to lines */
    bool holds_lines;        /**< holds the top flanges of the lines under it sideways */
    bool over_joints;        /**< carries a wheel in a gap to both cars; else to the nearer edge */
    double weight;           /**< N/m2 */
    ss_deck_kind made_of;
    ss_deck_wheel wheel;
} ss_deck;

typedef enum ss_load_kind { SS_LOAD_POINT, SS_LOAD_LINE, SS_LOAD_AREA, SS_LOAD_TRUCK } ss_load_kind;

typedef struct ss_placed_load {
    ss_load_kind kind;
    double value; /**< N, N/m or N/m2; unused for a truck */
    int vehicle;  /**< in `vehicles`, for a truck */
    bool backward;
    double x0, x1; /**< station, or from and to; front axle of a truck */
    double y0, y1; /**< middle of a truck at y0 */
    int line;      /**< the line that is loaded itself (its y), or -1: through the deck */
} ss_placed_load;

typedef struct ss_case {
    const char *name;
    bool dead;
    int first_load, load_count; /**< in `placed` */
} ss_case;

enum { SS_LANES_MAX = 6 };

/** Different trucks at most that are abreast. */
enum { SS_ABREAST_MAX = 3 };

/** How many trucks may be abreast, and where. */
typedef struct ss_lane_rule {
    int count;    /**< lanes, at least 1 */
    bool fixed;   /**< only with two: each truck keeps to its own half of the roadway, in its middle where the
                     clearances leave no room; else lanes shift together */
    double width; /**< of a lane, m: 12 ft, or the roadway by their number where that is less */
    double between_wheels; /**< least distance between wheel lines of trucks abreast, m */
    double loaded_width;   /**< of a lane's uniform load, m (10 ft; 3 m for a European model) */
    double wheel_to_curb;  /**< m; that of the bridge, but for a European model half a metre unless said */
    const char *basis;     /**< for people: "clear roadway of 17 ft: under 18 ft (5.49 m), one lane" */
} ss_lane_rule;

typedef enum ss_crossing_kind {
    SS_CROSSING_ALONE,   /**< one truck, anywhere on the roadway */
    SS_CROSSING_BESIDE,  /**< one in each of `lanes` lanes */
    SS_CROSSING_CENTRED, /**< one truck, along the middle of the roadway */
    SS_CROSSING_LINE     /**< one truck along the signed line `y` */
} ss_crossing_kind;

/** A vehicle and how it crosses: what is analysed and rated. */
typedef struct ss_crossing {
    ss_crossing_kind kind;
    int vehicle;
    int beside;     /**< BESIDE: vehicle in the other lanes (may be the same); else -1 */
    int lanes;      /**< loaded: 1, or more for BESIDE */
    bool has_third; /**< BESIDE, three lanes: one truck of each of `vehicle`, `beside` and `third` */
    int third;
    double y;         /**< LINE: of the truck's middle */
    bool alternative; /**< a restriction that would help (centred, signed line): never the controlling rating
                       */
} ss_crossing;

/** A truck along a stated line. */
typedef struct ss_run {
    const char *name;
    int vehicle;
    double y; /**< of the truck's middle */
    bool forward, backward;
} ss_run;

typedef enum ss_effect_kind {
    SS_EFFECT_MOMENT,  /**< N m, sagging positive; of a joint N m per m or a connector's N m */
    SS_EFFECT_SHEAR,   /**< N, dM/dx; of a joint N/m or a connector's N: positive when the right car hangs on
                          the left one */
    SS_EFFECT_TORSION, /**< N m, GJ d(rotation about x)/dx */
    SS_EFFECT_DEFLECTION, /**< m, positive down */
    SS_EFFECT_REACTION,   /**< N, positive up */
    SS_EFFECT_WEB_PLUS,   /**< N: shear + torsion_shear * torsion, see ss_section_properties */
    SS_EFFECT_WEB_MINUS   /**< N: shear - torsion_shear * torsion */
} ss_effect_kind;

typedef enum ss_member_kind {
    SS_MEMBER_LINE,
    SS_MEMBER_BEAM,
    SS_MEMBER_JOINT,
    SS_MEMBER_BEARING
} ss_member_kind;

typedef struct ss_probe {
    const char *name;
    ss_member_kind member;
    int index;   /**< in lines, floor_beams, joints or bearings */
    double at;   /**< x, or y for a floor beam */
    bool before; /**< just before, else just after */
    ss_effect_kind effect;
} ss_probe;

/** A detail that may crack, as described. */
typedef struct ss_fatigue_spot {
    ss_probe at;      /**< its name, member, place, and the effect that stresses it: moment of a line or floor
                         beam, shear of a joint */
    const char *note; /**< NULL: none */
    ss_fatigue_category category;
    bool top;           /**< top face of a line or floor beam, else the bottom */
    double throat;      /**< m, of a joint's weld; NaN otherwise */
    double weld_length; /**< m, of the weld of one connector; NaN: the joint is continuous */
} ss_fatigue_spot;

/** Fatigue of described details; spot_count 0: nothing is asked. */
typedef struct ss_fatigue_settings {
    int vehicle;   /**< in `vehicles`, the fatigue truck; one train of axles and no lane load */
    double adtt;   /**< trucks a day in a single lane */
    double years;  /**< in service as a bridge */
    double growth; /**< of traffic a year, 0.02 for 2 % */
    double used;   /**< share of the life that rail service used, 0 to 1 */
    ss_fatigue_level level;
    ss_fatigue_edition edition;
    ss_fatigue_spot *spots;
    int spot_count;
} ss_fatigue_settings;

typedef enum ss_method { SS_METHOD_LRFR, SS_METHOD_LFR, SS_METHOD_ASR } ss_method;

typedef enum ss_level {
    SS_LEVEL_INVENTORY, /**< LRFR: design load at inventory */
    SS_LEVEL_OPERATING,
    SS_LEVEL_LEGAL,
    SS_LEVEL_EMERGENCY,
    SS_LEVEL_PERMIT
} ss_level;

/** Whose live load factors LRFR takes for legal and permit loads. */
typedef enum ss_edition {
    SS_EDITION_MBE_2018, /**< AASHTO Manual for Bridge Evaluation, 3rd ed. */
    SS_EDITION_MBE_2011  /**< 2nd ed., before its interim revisions */
} ss_edition;

/** What permits are good for. */
typedef enum ss_permit_kind {
    SS_PERMIT_ANNUAL,       /**< unlimited trips */
    SS_PERMIT_SINGLE_TRIP,  /**< one */
    SS_PERMIT_LIMITED_TRIPS /**< fewer than a hundred */
} ss_permit_kind;

/** Sizes of a line that can be compared. */
typedef enum ss_size_property {
    SS_SIZE_I,
    SS_SIZE_S,
    SS_SIZE_A,
    SS_SIZE_DEPTH,
    SS_SIZE_COUNT
} ss_size_property;

/** Rating settings; NaN where not given. All zero is a plain LRFR rating without its extras. */
typedef struct ss_rating_settings {
    double condition, system;                         /**< factors; NaN: not given, then rating is refused */
    const char *condition_word;                       /**< "good", "fair", "poor" or "given" */
    int adtt;                                         /**< -1 unknown */
    double approach_allowance;                        /**< 0.10, 0.20 or 0.33 */
    double dynamic_allowance, live_factor, dw_factor; /**< overrides, or NaN */
    double dc_factor, phi_flexure, phi_shear;
    bool surfacing_measured;
    bool permits_escorted; /**< permit vehicles cross alone, other traffic held back */
    unsigned methods;      /**< bits 1 << ss_method; 0: LRFR */
    unsigned levels;       /**< bits 1 << ss_level; 0: all that the methods have */
    ss_edition edition;
    ss_permit_kind permits;
    bool service;                /**< stress of steel under service load too: Service II, overload */
    bool manual_sequence;        /**< legal loads count only where the design load falls short */
    bool single_lane_presence;   /**< one loaded lane counts 1.20 in LRFR */
    double speed;                /**< m/s at most by restriction; NaN or 0: none */
    ss_size_property primary_by; /**< what exterior girders are compared with main girders by */
    double primary_share;        /**< of the main girder, beyond which an exterior girder is primary */
    bool release_secondary;      /**< secondary members are rated and do not govern */
    double deflection_limit; /**< live-load deflection is held to the span over this; 0: it is not checked */
} ss_rating_settings;

typedef struct ss_bridge {
    const char *title, *notes;
    ss_unit_system units;
    uint64_t digest;
    ss_steel *steels;
    int steel_count;
    ss_section *sections;
    int section_count;
    ss_car *cars;
    int car_count;
    ss_line *lines;
    int line_count;
    ss_line_piece *pieces;
    int piece_count;
    ss_floor_beam *floor_beams;
    int floor_beam_count;
    ss_beam_part *parts;
    int part_count;
    int *hinges;
    int hinge_count; /**< indices of lines */
    ss_joint *joints;
    int joint_count;
    double *connectors;
    int connector_count;
    double *cracks;
    int crack_count; /**< of lines, x */
    ss_length_range *loose;
    int loose_count;
    ss_finding *findings;
    int finding_count;
    ss_bearing *bearings;
    int bearing_count;
    ss_dead_load *dead_loads;
    int dead_load_count;
    ss_vehicle *vehicles;
    int vehicle_count; /**< those that the bridge uses: rated ones first */
    int rated_vehicle_count;
    ss_lane_rule lanes;
    ss_lane_rule notional_lanes; /**< those of European load models */
    ss_crossing *crossings;      /**< none: each rated vehicle alone */
    int crossing_count;
    ss_placed_load *placed;
    int placed_count;
    ss_case *cases;
    int case_count;
    ss_run *runs;
    int run_count;
    ss_probe *probes;
    int probe_count;
    ss_deck deck; /**< that wheels run on: the slab, where there is one */
    ss_slab slab;
    double roadway_left, roadway_right; /**< y of the curb faces */
    double wheel_to_curb;
    bool cars_first; /**< stages: each car alone under its own weight before the joints exist */
    bool self_weight;
    double station_spacing;
    double x0, x1; /**< from the first to the last end of any car */
    ss_rating_settings rating;
    ss_fatigue_settings fatigue;
    ss_sizing sizing;
    ss_unknown_set unknowns;
    const char **ignored;
    int ignored_count; /**< effects that are left out, a sentence each */
    ss_assumption_list assumptions;
    ss_arena arena;
} ss_bridge;

/** Ranges of the middles of `count` trucks abreast (1 to SS_LANES_MAX), from left to right, with their gauges
 * (m). False: the roadway has no room. Besides, middles i and i + 1 keep apart by half of both gauges and
 * lanes.between_wheels, unless lanes.fixed. A single truck has the whole roadway. */
bool ss_lane_ranges(const ss_bridge *bridge, int count, const double *gauge, double *low, double *high);

/** The lanes that a vehicle keeps to: notional lanes for a European load model, else bridge->lanes. */
const ss_lane_rule *ss_lane_rule_of(const ss_bridge *bridge, int vehicle);
/** ss_lane_ranges by the lanes, the distances and the curbs of the crossing's vehicle, for crossing->lanes
 * trucks (1 unless BESIDE). */
bool ss_crossing_ranges(const ss_bridge *bridge, const ss_crossing *crossing, const double *gauge,
                        double *low, double *high);
/** Different trucks of a crossing (1 to SS_ABREAST_MAX), and the vehicle of each: 0 is its own. */
int ss_crossing_truck_count(const ss_crossing *crossing);
int ss_crossing_truck(const ss_crossing *crossing, int which);
/** One way after the other (`number` from 0) in which the trucks can be in the lanes: which of them is in
 * each lane from the left. False: there are no more ways. */
bool ss_crossing_order(const ss_crossing *crossing, int number, int which[SS_LANES_MAX]);
/** "alone", "beside", "centred", "signed line": as a description writes it. */
const char *ss_crossing_name(ss_crossing_kind kind);

/** Names of the enumerations, for people: "main girder", "moment" ... */
const char *ss_role_name(ss_role role);
const char *ss_effect_name(ss_effect_kind kind);

/**
 * Resolves a checked description: default values noted, names to indices, cars laid side by side, pieces,
 * bearing points, dead loads, user trucks. All faults in one run, in `diags` (SS_ERROR_DESCRIPTION). On
 * success `*out` owns everything and needs `description` no longer.
 */
ss_status ss_bridge_resolve(const ss_description *description, ss_bridge *out, ss_diag_list *diags);
void ss_bridge_destroy(ss_bridge *bridge);

/** Index of the section of a line at x, on the side `before` (else after); its depth there (m). */
double ss_bridge_line_piece(const ss_bridge *bridge, int line, double x, bool before, int *section);
/** Index of the section of a floor beam at y. */
int ss_bridge_beam_part(const ss_bridge *bridge, int beam, double y, bool before);

/** Properties of a line at x, on the side `before` (else after). Steel's E and G are in steels[line->steel].
 */
ss_status ss_bridge_line_section(const ss_bridge *bridge, int line, double x, bool before,
                                 ss_section_properties *out);
/** Properties of a floor beam at y, on the side `before` (left) or after. */
ss_status ss_bridge_beam_section(const ss_bridge *bridge, int beam, double y, bool before,
                                 ss_section_properties *out);

/** Largest of each size along a line, by ss_size_property (m4, m3 of the weaker face, m2, m); 0: not known.
 */
ss_status ss_line_sizes(const ss_bridge *bridge, int line, double out[SS_SIZE_COUNT]);

/** The main girder of the line's car that it is compared with (the largest by `by`), or -1. */
int ss_primary_girder(const ss_bridge *bridge, int line, ss_size_property by);

/** Whether a member counts as primary. Floor beams never do: they hand on. */
bool ss_member_primary(const ss_bridge *bridge, ss_member_kind member, int index);

/** "I", "S", "A", "depth". */
const char *ss_size_name(ss_size_property property);

#endif
