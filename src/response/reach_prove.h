/* reach_prove.h - the inside of the proof that no arrangement of two trucks abreast fills a section below
 * some multiple. */
#ifndef SS_RESPONSE_REACH_PROVE_H
#define SS_RESPONSE_REACH_PROVE_H

#include "response/reach_abreast.h"

/** Places of one of the trucks, each with its share of the dead load, its contact solved; by rank: what does
 * most comes first. */
typedef struct ss_proof_side {
    int count;
    int *entry;    /**< in the side of the ss_abreast */
    double *value; /**< effect of the part toward the limit; INFINITY: the part tips by itself */
    double *cross; /**< see ss_halves */
    double *part;  /**< count x 2n: openings, then reactions */
    double *y;     /**< of the truck's middle */
    int *hint;     /**< pattern of the last arrangement with it */
    double *most;  /**< 2n: the largest of `part` */
    double cross_most;
} ss_proof_side;

/** A proof at one multiple. */
typedef struct ss_proof {
    ss_reach_exact_task *x; /**< of a tile of one effect, and a member of it and one demand */
    ss_abreast *a;          /**< with all places */
    double norm;            /**< of the effect, see ss_halves_norm; INFINITY: nothing can be proven of it */
    double multiple;        /**< of the plain vehicles, up to which nothing is to be full */
    long work;              /**< that may still be done: pairs compared, other things in their measure */
    bool stuck;             /**< some arrangement could not be followed */
    ss_proof_side side[2];
    int dead;                     /**< that is being looked at */
    double sign;                  /**< of the limit */
    double limit;                 /**< times its sign */
    double whole;                 /**< of it, what dead load leaves */
    double *dead_part;            /**< 2n: openings and reactions under dead load */
    double *own, *live, *opening; /**< scratch: 4n, n, n */
    double *value;                /**< scratch: places across of both */
} ss_proof;

/** `a` has its places. */
ss_status ss_proof_create(ss_reach_exact_task *x, ss_abreast *a, ss_proof *out);
void ss_proof_destroy(ss_proof *proof);

/**
 * Goes through all arrangements at proof->multiple. Those that are full there or below are followed and kept
 * with the results of the task. *done: all others are proven short of the limit at every smaller multiple;
 * false: there was too much to do, or nothing can be proven; then only those were looked into that are likely
 * to be full.
 */
ss_status ss_proof_pass(ss_proof *proof, bool *done);

/** How many arrangements there are. */
double ss_proof_arrangements(ss_proof *proof);

/** Fills one side with its parts for the dead load and sign at hand. */
ss_status ss_proof_fill(ss_proof *proof, int which);

#endif
