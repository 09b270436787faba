/* slab_across.h - the slab of a bridge as one-way strips between its lines, over gaps and at its edges, under
 * the wheels of the rated vehicles. */
#ifndef SILLSPAN_SLAB_ACROSS_H
#define SILLSPAN_SLAB_ACROSS_H

#include "sillspan/ratings.h"
#include "sillspan/slab_check.h"
#include "sillspan/slab_strength.h"

/** Whose load factors count. */
typedef struct ss_slab_factors {
    const char *name;    /**< "AASHTO LRFD Strength I (from memory)" */
    double dc, dw, live; /**< load factors */
    double allowance;    /**< 0.33 for 33 % */
    double presence[2];  /**< of one truck, of two abreast */
    double shear;        /**< resistance factor; that of bending comes with the strength */
} ss_slab_factors;

/** Spans of one kind and width. Moments in N m per m, forces in N per m; factored, none negative. */
typedef struct ss_slab_strip {
    ss_slab_span_kind kind;
    int from, to; /**< lines beside the first of them; -1: an edge of the slab */
    int alike;    /**< how many pairs of lines have such a span */
    double span;  /**< m, between lines, or from the line to the edge */
    double reach; /**< m, overhang: from the line to the middle of the wheel; negative: within it */
    double sagging, hogging, shear;                /**< the most of all wheels, with dead load */
    double sagging_dead, hogging_dead, shear_dead; /**< of these by dead load */
    double live_sagging, live_hogging; /**< of wheels, with allowance and presence, without load factors */
    double service_sagging, service_hogging; /**< the same with dead load */
    double use;                /**< largest moment over strength; INFINITY: no strength where some is due */
    const char *governs;       /**< "sagging", "hogging" */
    const ss_vehicle *loading; /**< that governs, the vehicle or another loading under its name; NULL: dead
                                  load alone */
    int axle;
    double wheel;    /**< N, its wheel without factors */
    double strip;    /**< m of slab that carries it */
    bool abreast;    /**< with the wheel of a truck beside it */
    const char *why; /**< NULL, or why it could not be looked at (then nothing above from sagging on) */
} ss_slab_strip;

typedef struct ss_slab_across {
    ss_slab_factors factors;
    ss_slab_strip *strips;
    int count;
    int worst;                    /**< in `strips`, -1: none could be looked at */
    double sagging, hogging;      /**< N m per m that a metre carries, with phi */
    double shear;                 /**< N per m, with phi */
    int wheel_vehicle;            /**< of the heaviest wheel; -1: there is none */
    double wheel, wheel_factored; /**< N */
    double punching;              /**< N, with phi; NaN: see punching_why */
    const char *punching_why;
    double global[2]; /**< N m per m: what strips, and the slab over gaps, carry between lines that sink
                         unequally, most hogging and most sagging, by the factors of the rating, none
                         negative; NaN: not known */
    double dc, dw;    /**< N/m2 on the slab, its own weight in dc */
    double exposure;  /**< for the width of cracks */
} ss_slab_across;

/**
 * Every pair of lines beside each other somewhere along the slab spans; over the gap between cars it runs
 * through (whole, cracked), hinges, or ends at both cars' edges. Each span under each wheel of every rated
 * vehicle, one truck and, with two lanes or more, two abreast. Load factors: LRFD Strength I where LRFR is
 * asked for; else load factor design of the Standard Specifications, also where a bridge is rated by
 * allowable stress. Dead load is the slab, what comes on it later, and at edges later line loads. Shear of
 * strips is told and not asked for: slabs that these strips keep in bending count as good in shear (Standard
 * Specifications 3.24.4, LRFD C4.6.2.1.6; from memory). Sum checks
 * add the largest local to the largest global bending, wherever both are. Global bending is that of each
 * rated vehicle by itself, by influence fields with the bearings as ss_passages_compute has them, and what
 * governs strips and slab joints in `ratings` (may be NULL), trucks abreast too. Checks go to `checks`,
 * arrays and texts are of `arena` and checks->arena.
 */
ss_status ss_slab_across_compute(const ss_permanent *permanent, const ss_ratings *ratings, ss_arena *arena,
                                 ss_slab_checks *checks, ss_slab_across *out, ss_error *error);

/** The steps of one span under the wheel that governs it, without load factors. */
void ss_slab_across_work(const ss_bridge *bridge, const ss_slab_across *all, const ss_slab_strip *strip,
                         ss_working *working);

#endif
