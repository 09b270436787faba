/* spring_sweep_parts.h - what a sweep of spring stiffness holds. */
#ifndef SS_MECHANICS_SPRING_SWEEP_PARTS_H
#define SS_MECHANICS_SPRING_SWEEP_PARTS_H

#include "mechanics/grillage_parts.h"
#include "sillspan/spring_sweep.h"

/*
 * Let k_ref make the swept springs about as stiff as what they meet, R be the bridge with them at k_ref, and
 * take their displacements and forces in units in which each of them is 1 stiff there. The flexibility that
 * they see in R is C = U diag(l) U', 0 <= l <= 1: l = 1 is what nothing but they hold, l = 0 what cannot move
 * without them either. With t = k/k_ref, displacements d in R under a load, offsets s of the swept springs,
 * and e what a unit force in a mode does to a response in R, all along the modes:
 *
 *   extra force on R      q = ((t - 1) d - t s) / (1 - l + t l)
 *   response              v = v_R - sum e q = base + sum (e/sqrt l) h / (1 - l + t l)
 *   force of the springs  p = t (d - (1 - l) s) / (1 - l + t l) = t sqrt(l) h / (1 - l + t l)
 *   h = (d - (1 - l) s) / sqrt(l),   base = v_R - sum e (d - s) / l
 *
 * base is the rigid end. Below k_ref the other end is better, where what is small keeps its digits:
 *
 *   v = v_none - t sum (e/sqrt l) h (l/(1 - l)) / (1 - l + t l),   v_none = v_R + sum e d / (1 - l)
 *
 * but for modes with l = 1, which have no such end.
 *
 * Where l = 0 both are linear in k: p = t (d - s), v = v_R + e d - e t (d - s); d - s is not zero by offsets
 * only.
 */
struct ss_spring_sweep {
    int swept_count, load_count, reading_count;
    int null_count; /* modes with l = 0 */
    int mode_count; /* the others */
    double k_ref;
    double *l;         /* mode_count, ascending */
    double *pole;      /* swept_count, ascending */
    bool *of_swept;    /* reading_count: force of a swept spring */
    int other_count;   /* readings that are not forces of swept springs */
    int *order;        /* reading_count: those readings, then the others */
    double *a;         /* reading_count x mode_count, rows in that order */
    double *h;         /* tiles x mode_count x SS_TILE */
    double *base;      /* reading_count x load_count */
    double *none_base; /* the same for k below k_ref */
    double *null_a;    /* reading_count x null_count */
    double *null_h;    /* null_count x load_count: d - s */
    double *rigid;     /* reading_count x load_count at k = INFINITY; NULL: from the modes */
    ss_error none;     /* status SS_OK, or why there is nothing at k = 0 */
};

/** What the modes are made from; springs are in units in which each swept one is 1 stiff in R. */
typedef struct ss_sweep_parts {
    const ss_grillage *grillage;
    const ss_sweep_task *task;
    double *flexibility; /* spring_count: R's */
    int *swept_at;       /* spring_count: which of the swept ones, or -1 */
    double *root;        /* swept_count: root of each one's stiffness in R */
    double *C;           /* swept_count x swept_count; then U, mode by mode */
    double *l;           /* swept_count */
    double *e;           /* reading_count x swept_count: responses in R to forces at the springs */
    double *d, *s;       /* swept_count x load_count: displacements in R, and offsets */
    double *v;           /* reading_count x load_count: responses in R, swept offsets left out */
} ss_sweep_parts;

/** Turns the parts into modes and fills what the sweep holds but `none` and `rigid`. */
ss_status ss_sweep_modes(ss_sweep_parts *parts, ss_spring_sweep *out, ss_error *error);

static inline int ss_sweep_tiles(int count) {
    return (count + SS_TILE - 1) / SS_TILE;
}

#endif
