/* grillage_parts.h - what a grillage and an update hold, and the steps that make them. */
#ifndef SS_MECHANICS_GRILLAGE_PARTS_H
#define SS_MECHANICS_GRILLAGE_PARTS_H

#include "mechanics/band.h"
#include "mechanics/refine.h"
#include "sillspan/grillage.h"

/*
 * Springs (theory, "Springs"). The band matrix K_ref has the members, the soft springs as they are, and every
 * special spring (rigid, very stiff, contact, pads) with a moderate reference stiffness K = diag(k). B are
 * the rows of the special springs, C = B' K_ref^-1 B, F their flexibilities (pads couple two), s their
 * offsets. With p the spring forces, d = B' u, q = p - K d:
 *
 *   u = K_ref^-1 (P - B q),  d = d0 - C q,  closed: d = F p + s,  open: p = 0.
 *
 * One unknown x a spring, p if closed and d if open, gives (D + C N) x = d0 - s + C K s and q = N x - K s,
 * with D = F, N = I - K F in closed columns and D = I, N = -K in open ones. So q, and with it everything, is
 * a small matrix times d0 and s. All of it is done in units of force sqrt(k) and displacement 1/sqrt(k), in
 * which K = I and 0 < C <= I.
 */
struct ss_update {
    const ss_grillage *grillage;
    int count;           /* special springs */
    int *spring;         /* size count */
    double *flexibility; /* spring_count, as they are now; INFINITY is open */
    double *reference;   /* size count: k */
    double *C;           /* count x count */
    double *fields;      /* order x count, K_ref^-1 B; NULL where a second solve is cheaper */
    double *from_d0;     /* count x count: q = from_d0 d0 + from_offset s */
    double *from_offset;
    double *force_d0; /* count x count: p = force_d0 d0 - force_offset s */
    double *force_offset;
    int redundant_count;
    double *redundant; /* redundant_count x count: see ss_redundant_find */
};

struct ss_grillage {
    const ss_mesh *mesh;
    ss_factor factor;
    double *natural;   /* spring_count: stiffness of the size of what the members resist there */
    double *stiffness; /* spring_count: with which each is in the band matrix */
    bool *special;     /* spring_count */
    double *hold;      /* order: stiffness that holds idle twists, else 0 */
    ss_refining refining;
    ss_update base; /* all as described */
    int contact_count;
    int *contact;
    double *S;
    ss_trust trust;
};

/** Chooses `natural`, `stiffness` and `special` of every spring; `diagonal` is that of the members' stiffness
 * (order). */
void ss_reference_choose(const ss_mesh *mesh, const double *diagonal, double *natural, double *stiffness,
                         bool *special);

/** Fills an update: special springs, C, fields, the small matrices. `flexibility` may be NULL (as described).
 * On failure everything is freed. */
ss_status ss_condense(const ss_grillage *grillage, const double *flexibility, ss_update *out,
                      ss_error *error);
void ss_condense_free(ss_update *update);

/** From C and the flexibilities: from_d0, from_offset, force_d0, force_offset. Singular: SS_ERROR_MECHANISM,
 * and *motion (size count, q of the motion; may be NULL) is filled. */
ss_status ss_small_solve(ss_update *update, double *motion, ss_error *error);

/**
 * Takes redundant rigid springs, whose displacement follows from other rigid ones, out of the system: their
 * flexibility becomes INFINITY, and row v of `redundant` says what each does: forces -v (v . s) under offsets
 * s.
 */
ss_status ss_redundant_find(ss_update *update, ss_error *error);
/** Adds what redundant springs do under `offset` (spring_count, or NULL) to the forces (spring_count). */
void ss_redundant_forces(const ss_update *update, const double *offset, double *force);

/** Index of the other spring of a pad within the special ones, or -1. */
int ss_update_pair(const ss_update *update, size_t i);
/** Flexibility that couples closed spring i of the special ones to `pair`, the other one of its pad. */
double ss_update_coupling(const ss_update *update, size_t i, int pair);

/** Whether solutions are refined once more: digits are few. */
bool ss_grillage_refines(const ss_grillage *grillage);

/**
 * What ss_grillage_respond does, for a tile of loads, each solution refined: `loads` (order x SS_TILE, nodal
 * forces; spoiled) and `offset` (spring_count x SS_TILE, or NULL) give displacements u (order x SS_TILE) and
 * spring forces (spring_count x SS_TILE). No allocation; `work`: ss_respond_tile_work doubles.
 */
void ss_respond_tile(const ss_update *update, const double *offset, double *loads, double *u, double *force,
                     double *work);
size_t ss_respond_tile_work(const ss_update *update);

/** Takes noise out of the positive semidefinite m x m matrix `S` in units in which the reference stiffnesses
 * are 1. */
ss_status ss_small_clean(int m, double *S, ss_error *error);

/** Refuses, in words, parts of the bridge that the closed bearings leave free as rigid bodies. */
ss_status ss_support_check(const ss_mesh *mesh, const double *flexibility, ss_error *error);

/** After a failed factorisation: counts and names the free motions of the band matrix scaled by `scale`.
 * Always a failure. */
ss_status ss_trust_refuse(const ss_mesh *mesh, const ss_band *band, const double *scale, ss_error *error);

/** Writes the words for a motion u (order): SS_ERROR_MECHANISM. */
ss_status ss_trust_name_motion(const ss_mesh *mesh, const double *u, int free_motions, ss_error *error);

#endif
