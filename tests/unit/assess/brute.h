/* brute.h - ratings by trying every place, one solution of the whole bridge for each: what the search is held
 * against. */
#ifndef TEST_BRUTE_H
#define TEST_BRUTE_H

#include "assess/rating_sections.h"
#include "mechanics/row.h"
#include "response/patterns.h"
#include "sillspan/ratings.h"

enum { BRUTE_DEADS = 6 };

/** Multiples of the plain vehicle that places are followed to. */
#define BRUTE_MOST 12.0

/** A rated section under one check and traffic. */
typedef struct brute_demand {
    double limit; /**< of largest values, positive; NaN: not asked */
    double least; /**< of least values */
    double scale; /**< plain vehicles in a factored one */
} brute_demand;

/** Everything that does not depend on where the vehicle is. Arrays are in the arena. */
typedef struct brute {
    const ss_permanent *permanent;
    const ss_placements *placements;
    const ss_mesh *mesh;
    int n; /**< contact springs */
    const int *springs;
    const double *S;
    ss_rating_notes notes;
    ss_rated_list rated;
    ss_row *row;     /**< of each rated section, but for joints */
    double *opening; /**< rated x n: effect of a unit opening */
    ss_check checks[SS_CHECKS_MAX];
    int check_count;
    int dead_count;
    ss_dead_factors factors[BRUTE_DEADS];
    int check_deads[SS_CHECKS_MAX], check_dead[SS_CHECKS_MAX][2];
    double *r_dead[BRUTE_DEADS]; /**< n: with all closed */
    double *e_dead[BRUTE_DEADS]; /**< rated: with all closed */
    double *e_true[BRUTE_DEADS]; /**< rated: contact solved */
    brute_demand *demand;        /**< rated x traffic x check */
    ss_patterns patterns;
    double *best; /**< group x traffic x check: smallest factor; INFINITY: none within BRUTE_MOST */
    long places, hidden;
    ss_arena arena;
    /* Of the place at hand. */
    double *u, *force, *live, *closed;
    bool *unseen; /**< rated: the load acts within the section's own element */
    ss_growth growth[BRUTE_DEADS];
    double *work;
} brute;

/** Outlives nothing that it is given. Fails the test when something does not work. */
void brute_start(brute *b, const ss_permanent *permanent, const ss_placements *placements,
                 const ss_effect *effects, int effect_count);
void brute_free(brute *b);

/** Solves the bridge with one vehicle: fills `live`, `closed` and `unseen`. */
void brute_solve(brute *b, const ss_position *position);

/** Tries the traffic at one position and lowers `best`. */
void brute_try(brute *b, int traffic, const ss_position *position);

/** Places of a vehicle along the bridge: what to try of each. */
typedef struct brute_grid {
    int cells;     /**< places within a cell between stands */
    int every;     /**< one of so many tracks, the outermost always */
    double beside; /**< how far on either side of a stand (m) */
} brute_grid;

/** Tries all traffic at all stands, in the cells between them and on floor beams. */
void brute_sweep(brute *b, const brute_grid *grid);

/** Smallest factor of a section by a check, by the general way, at one position and a hair before and after
 * it. NaN: not seen. */
double brute_factor(brute *b, int check, int traffic, int rated, const ss_position *position);

/** Index of a rated effect. */
int brute_find(const brute *b, const ss_effect *effect);

static inline double *brute_best(const brute *b, int check, int traffic, int group) {
    const size_t traffics = (size_t)b->placements->traffic_count, checks = (size_t)b->check_count;
    return b->best + ((size_t)group * traffics + (size_t)traffic) * checks + (size_t)check;
}

static inline brute_demand *brute_demand_of(const brute *b, int check, int traffic, int rated) {
    const size_t traffics = (size_t)b->placements->traffic_count, checks = (size_t)b->check_count;
    return b->demand + ((size_t)rated * traffics + (size_t)traffic) * checks + (size_t)check;
}

#endif
