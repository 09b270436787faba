/* slab_casting.h - a slab while it is cast: what each stage leaves in the girders, what comes to the
 * bearings, what the bare cars carry, and how far all of it sags. */
#ifndef SILLSPAN_SLAB_CASTING_H
#define SILLSPAN_SLAB_CASTING_H

#include "sillspan/permanent.h"
#include "sillspan/slab_check.h"

/** Load factors while it is cast: AASHTO LRFD 3.4.2.1 (from memory), a wearing course that stays as in its
 * table 3.4.1-1. */
#define SS_CASTING_DC 1.25
#define SS_CASTING_DW 1.50
#define SS_CASTING_CONSTRUCTION 1.50

/** Main or exterior girders of one name, of all cars. */
typedef struct ss_casting_set {
    const char *name;
    int line; /**< the one with the largest stress under all that stays, and where that is: */
    double x;
    bool before;
    int sag_line; /**< the one that wet concrete bends most */
    double sag;   /**< m, all pours together; positive down */
    double sag_x;
    double camber; /**< m, the most from the first pour to the end: with what comes later */
} ss_casting_set;

/** What a stage adds at the place of a set. Stresses are of the steel, Pa, tension positive, of the moment on
 * the stage's own section; NaN: a modulus is not known. */
typedef struct ss_casting_step {
    int set;   /**< in sets */
    int stage; /**< in permanent->stages */
    bool composite;
    double moment, bottom, top;
    double moment_sum, bottom_sum, top_sum; /**< with all stages before */
    double sag, sag_sum;                    /**< m there, positive down */
} ss_casting_step;

typedef struct ss_casting_bearing {
    int bearing;
    double before, after; /**< N, unfactored: as it stands today, and in the end */
    bool open_today;
    int opens;      /**< first stage in which it is open though it was not before; -1: none */
    double opening; /**< m, in the stage in which it is open most */
} ss_casting_bearing;

/** The worst place of the lines or floor beams of one name, in bending or in web shear, under factored wet
 * concrete, all that is there with it, and people and gear where they are adverse. */
typedef struct ss_casting_member {
    const char *name; /**< of the set */
    ss_effect effect; /**< MOMENT, or one of the web effects */
    int stage;        /**< in permanent->stages */
    bool sags;        /**< MOMENT: the sense */
    bool composite;   /**< an earlier pour acts with it */
    double dead;      /**< factored, signed as the effect */
    double people;    /**< factored, likewise */
    double demand;    /**< size of their sum */
    double capacity;  /**< N m or N, with phi and condition; NaN: see why */
    const char *rule, *why;
} ss_casting_member;

/** A car and the concrete on it between its outermost bearings. */
typedef struct ss_casting_car {
    double area;    /**< m2 of slab there */
    double volume;  /**< m3 between the sagged steel and a level surface */
    double tilt;    /**< most difference of sag of its outer lines over their distance, in any pour */
    double tilt_x;  /**< m, where; positive tilt: the right side is lower */
    int tilt_stage; /**< in permanent->stages; -1: it has one line */
} ss_casting_car;

/** Two cars side by side: the facing lines sag unlike. */
typedef struct ss_casting_gap {
    int left;       /**< car */
    double step, x; /**< m, most in any pour; positive: the right car is lower */
    int stage;      /**< in permanent->stages */
} ss_casting_gap;

/** Steel plate that stays as formwork, between its supports. */
typedef struct ss_casting_form {
    double span;             /**< m; NaN: see why */
    double moment, capacity; /**< N m per m of width, factored; with phi 1 */
    double sag_allowed;      /**< m */
    double sag;              /**< m, of a simple span under wet concrete and itself without factor */
    const char *why;         /**< NULL, or why it was not looked at */
} ss_casting_form;

/** Arrays live as long as the arena. */
typedef struct ss_slab_casting {
    const ss_permanent *permanent; /**< outlives it */
    ss_casting_set *sets;
    int set_count;
    ss_casting_step *steps; /**< set after set, stage after stage */
    int step_count;
    ss_casting_bearing *bearings;
    int bearing_count;
    int prop;          /**< in slab.shores: the one that carries most; -1: there are none, or they do not */
    double prop_force; /**< N, unfactored, in any stage */
    double removed, added; /**< N, of the whole bridge, without factors */
    double wet;            /**< N, concrete and haunches: part of `added` */
    ss_casting_member *members;
    int member_count;
    ss_casting_car *cars; /**< as the bridge's */
    int car_count;
    ss_casting_gap *gaps;
    int gap_count;
    double thicker;     /**< m, mean over the cars' areas: what a level surface adds to the slab */
    double ponded;      /**< N, weight of that */
    double ponded_more; /**< N, with the sag that it causes in turn, by the same share again and again;
                           INFINITY: no end */
    bool has_form;      /**< steel plate stays as formwork */
    ss_casting_form form;
} ss_slab_casting;

/**
 * Of the stages of a bridge with a slab. Adds what is asked of the cars while it is wet to `checks` (parts
 * CASTING and DEFLECTION). The factored dead load is the sum of the stages' own effects, with the bearings as
 * they are in each; people and gear (slab.construction) lie on each part of each car, left or right, span or
 * overhang, wherever that is adverse, with the bearings open that are open in that stage and all others
 * closed. No deck braces the cars. Strengths are those of AASHTO LRFD with phi and the factor of condition,
 * without that of the system. No slab: an empty result.
 */
ss_status ss_slab_casting_compute(const ss_permanent *permanent, ss_arena *arena, ss_slab_checks *checks,
                                  ss_slab_casting *out, ss_error *error);

#endif
