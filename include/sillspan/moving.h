/* moving.h - what a truck anywhere on a bridge does, as sums over few numbers, for a page that moves one. */
#ifndef SILLSPAN_MOVING_H
#define SILLSPAN_MOVING_H

#include "sillspan/permanent.h"

/*
 * A reading v under loads q at a factor k on the stiffness of the joints (theory, "The truck that moves"):
 *
 *   v = sum over loads of q (value + sum over modes of a h w),   w = 1/(1 - l + l t) - 1/(1 - l + l t1),
 *
 * t = k t1. The loads are the dead load, each support opened by a metre, and wheels. For wheels `value` and
 * h are fields over the deck: linear between two rails beside each other, along a rail piecewise cubic.
 * At k = 1, the bridge as described, w is 0.
 */

typedef enum ss_moving_kind {
    SS_MOVING_SUPPORT,    /**< force of a support, N, positive up */
    SS_MOVING_MOMENT,     /**< of a line at a section, N m */
    SS_MOVING_DEFLECTION, /**< of a line at a section, m */
    SS_MOVING_CAR,        /**< moment of all lines of a car at a section, N m */
    SS_MOVING_KINDS
} ss_moving_kind;

typedef struct ss_moving_reading {
    ss_moving_kind kind;
    int index;   /**< support, line or car */
    int section; /**< -1 for a support */
} ss_moving_reading;

/** A spring of a bearing. */
typedef struct ss_moving_support {
    int bearing;
    bool contact; /**< only pushes */
    bool slope;   /**< holds the slope of the line: N m and rad in place of N and m */
    bool late;    /**< stands `seat` below where the dead load brings the bridge while it is not there */
    double seat; /**< m, settlement and gap. Both nothing where joints keep their stiffness: the dead load has
                    them in it */
} ss_moving_support;

/** Why the stiffness of the joints stays as it is. */
typedef enum ss_moving_still {
    SS_MOVING_SWEPT, /**< it does not */
    SS_MOVING_ALONE, /**< there are no joints */
    SS_MOVING_ENDS,  /**< no joint has a stiffness between none and rigid */
    SS_MOVING_SLAB   /**< a slab was cast in stages that belong to it */
} ss_moving_still;

enum { SS_MOVING_DEAD, SS_MOVING_OPENING }; /**< first loads: dead, then openings of supports in order */

typedef struct ss_moving {
    bool along;      /**< rails run across, at x; else along, at y (deck that spans along or across) */
    int rail_count;  /**< rails at the same place are its two sides */
    double *rail;    /**< m, ascending */
    int place_count; /**< places on the rails */
    double *place;   /**< m, ascending */
    int section_count;
    double *section;                  /**< x, m, ascending */
    int support_count, contact_count; /**< contact springs first */
    ss_moving_support *support;
    int reading_count; /**< supports first, in order */
    ss_moving_reading *reading;
    int load_count; /**< 1 + support_count */
    double *value;  /**< reading_count x load_count, at k = 1 */
    int mode_count;
    double *l; /**< mode_count */
    double t1; /**< t of the bridge as described */
    double *a; /**< reading_count x mode_count */
    double *h; /**< mode_count x load_count */
    ss_moving_still still;
    double least, most; /**< factors k that the modes cover; both 1 when still */
    bool none, rigid;   /**< k may be 0, or INFINITY */
    /**
     * Curves of readings, then of modes, each rail by rail from its first place to its last; knots of value
     * (per N of a wheel) and slope (per m along the rail), between which it is the cubic that has both. A
     * knot is three whole numbers: places passed since the last one (0: its other side), and by how much
     * value and slope differ from what the last knot leads to, and from its slope, in units of `unit`. Each
     * number n is 2 n, or -2 n - 1 below nothing, in groups of seven bits from the least, the eighth telling
     * that more follow. What the last knot leads to is floor(v + d h unit[1] / unit[0] + 1/2), h m on.
     */
    size_t byte_count;
    unsigned char *byte;
    double *unit;     /**< (reading_count + mode_count) x 2: of values, of slopes */
    double tolerance; /**< fields are met within this share of their largest value */
    size_t bytes;     /**< of the data as a page holds them, about */
} ss_moving;

/** Bytes that a page may spend on the data. */
#define SS_MOVING_BUDGET 300000

/**
 * Chooses sections and tolerance so that the data stay within `budget` bytes. Errors: no memory;
 * SS_ERROR_LIMIT for what cannot be had, in words that go on "it is not drawn, for".
 */
ss_status ss_moving_compute(const ss_permanent *permanent, size_t budget, ss_moving *out, ss_error *error);
void ss_moving_destroy(ss_moving *moving);

#endif
