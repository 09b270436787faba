/* contact_model.h - what contact needs of a bridge under one dead load, and a finder of states that remembers
 * those it has met. */
#ifndef SS_RESPONSE_CONTACT_MODEL_H
#define SS_RESPONSE_CONTACT_MODEL_H

#include "response/axle_lines.h"

/** Fixed once made; any number of finders may use it. n contact springs. */
typedef struct ss_contact_model {
    const ss_permanent *permanent;
    int n;
    const int *springs;
    const double *S;
    double live_factor;   /**< trucks count that many times */
    ss_load load;         /**< the dead load */
    double *u_closed;     /**< order: under it with all closed */
    double *force_closed; /**< spring_count */
    double *r_dead;       /**< n */
    double *u_dead;       /**< n: openings under it */
    bool *open_dead;      /**< n */
    double *force;        /**< n x spring_count: all spring forces of a unit settlement of each, or NULL */
    int tile_count;
    double *influence; /**< tile_count x order x SS_TILE: influence fields of the contact reactions, which by
                            Betti's theorem are the displacements of unit settlements too */
    ss_axle_lines *lines; /**< tile_count: influence lines of the contact reactions, SS_TILE each */
} ss_contact_model;

/** `forces`: effects of springs will be asked for. */
ss_status ss_contact_model_create(const ss_permanent *permanent, const ss_envelope_options *options,
                                  bool forces, ss_contact_model *out, ss_error *error);
void ss_contact_model_destroy(ss_contact_model *model);
/** Fills `lines`. */
ss_status ss_contact_model_lines(ss_contact_model *model, const ss_axle_plans *plans, ss_error *error);

/** Effect of a unit opening of every contact spring (n). */
void ss_contact_model_opening(const ss_contact_model *model, const ss_effect *effect, double *opening);
/** The effect under the dead load with all closed. */
double ss_contact_model_dead(const ss_contact_model *model, const ss_effect *effect);

/** Adds the fields of the contact reactions (`field`: order x n) to those of a tile (`out`: order x SS_TILE),
 * times the weights (n x SS_TILE): what effects are while some bearings are open. */
void ss_contact_model_refer(const double *weight, const double *field, size_t n, size_t order, double *out);

/** A pattern of open bearings, and the linear map from all reactions with all closed to what must not be
 * negative in it. */
typedef struct ss_contact_state {
    bool *open;        /**< n */
    double *map;       /**< n x n, scaled: reaction of a closed bearing, opening of an open one */
    double *by_column; /**< n x n: the same by columns */
    double *size;      /**< n: sum of the magnitudes of each row */
} ss_contact_state;

typedef struct ss_contact_finder {
    const ss_contact_model *model;
    ss_contact_state *states;
    int count, capacity;
    int known;  /**< the first of them that a change of state is sought among: the same for all finders made
                   like one,  so that what a finder has met besides leaves no trace in the results */
    bool grows; /**< a finder of its own: it seeks among all that it has met */
    double *r, *margin, *terms, *u, *found, *work; /**< n each; work more */
    bool *open, *bad;
} ss_contact_finder;

/** `like` (may be NULL): its states are taken over, under the same numbers. */
ss_status ss_contact_finder_create(const ss_contact_model *model, const ss_contact_finder *like,
                                   ss_contact_finder *out, ss_error *error);
void ss_contact_finder_destroy(ss_contact_finder *finder);

/**
 * `live` (n): closed reactions of a unit truck. *state is tried first (-1: none) and becomes the state found
 * (-1 when it is one that the map cannot give). change (n): openings less those under dead load, over the
 * live factor. SS_ERROR_TIPPING: none.
 */
ss_status ss_contact_find(ss_contact_finder *finder, const double *live, int *state, double *change);

/** Whether a state holds under the closed reactions `live` of a unit truck; margin (n) is what must not be
 * negative in it. */
bool ss_contact_holds(ss_contact_finder *finder, int state, const double *live, double *margin);

/** Openings that the closed reactions `live` (n) of a truck cause by themselves in a state: the part linear
 * in the truck. Zeros for state -1. */
void ss_contact_mapped(const ss_contact_finder *finder, int state, const double *live, double *opening);

/** Whether the pattern of a state (-1: unknown, counts as another) is that under dead load. */
bool ss_contact_is_dead_state(const ss_contact_finder *finder, int state);

/** The state under dead load but with the contact springs `first` and `second` (of the mesh; -1: none)
 * pressed. *state is -1 when they press under dead load already, or when that pattern is singular. */
ss_status ss_contact_pressed(ss_contact_finder *finder, int first, int second, int *state);

#endif
