/* unknown.h - values of a description that nobody knows well: ranges, distributions, correlations, and what a
 * draw of them changes. */
#ifndef SILLSPAN_UNKNOWN_H
#define SILLSPAN_UNKNOWN_H

#include "sillspan/description.h"

/** Bounds, so that no description can exhaust the program. */
#define SS_UNKNOWNS 50       /**< most unknowns */
#define SS_UNKNOWN_VALUES 32 /**< most values of a discrete one */

/** What the box of an unknown without limits holds, as shares of its distribution. */
#define SS_UNKNOWN_BOX_LOW 0.005
#define SS_UNKNOWN_BOX_HIGH 0.995

typedef enum ss_unknown_kind {
    SS_UNKNOWN_UNIFORM, /**< between low and high; a range is one too, with `stated` false */
    SS_UNKNOWN_NORMAL,
    SS_UNKNOWN_LOGNORMAL,
    SS_UNKNOWN_TRIANGULAR,
    SS_UNKNOWN_DISCRETE
} ss_unknown_kind;

/** One unknown. A *value* of it is a number in SI units, or the index of one of its texts (discrete). */
typedef struct ss_unknown {
    const char *name;
    const char **paths; /**< as ss_description_set takes them; all have the same value */
    int path_count;
    ss_dimension dimension;
    bool whole; /**< whole numbers only */
    ss_unknown_kind kind;
    bool stated; /**< whether a distribution was given; if not, uniform or equal weights are assumed for draws
                  */
    bool log;    /**< uniform in the logarithm */
    double low,
        high; /**< SI; infinite where a distribution is not cut off; of a discrete one 0 and count - 1 */
    double mean, sd, mode;   /**< SI; NaN where they do not belong */
    double log_mean, log_sd; /**< lognormal only */
    const char **texts;      /**< discrete: as ss_description_set takes them (size text_count) */
    const char **words;      /**< discrete: for people */
    double *weights;         /**< discrete: sum 1 */
    int text_count;
    double box_low, box_high; /**< what bounds look at: low and high, or quantiles where there are none */
    bool box_log;             /**< gone through in equal ratios */
    double described;         /**< value in the description, SI or index; NaN: none, a word, or of no text */
} ss_unknown;

typedef struct ss_unknown_set {
    ss_unknown *items;
    int count;
    double *lower; /**< factor of the correlation of normal scores, count x count row-major; NULL: none is
                      given */
} ss_unknown_set;

/** Value of the distribution at 0 < p < 1. */
double ss_unknown_draw(const ss_unknown *unknown, double p);

/** Value at 0 <= t <= 1 of the box, in its own scale: exactly box_low at 0 and box_high at 1. */
double ss_unknown_at(const ss_unknown *unknown, double t);

/** Where in the box a value lies, 0 to 1: the inverse of ss_unknown_at. */
double ss_unknown_place(const ss_unknown *unknown, double value);

/**
 * Point i of `count` draws of all unknowns (`out`, size set->count): a Latin hypercube (ss_draw), correlated
 * by normal scores, through the distributions. It depends on its arguments only. `work` has size 2
 * set->count.
 */
void ss_unknowns_draw(const ss_unknown_set *set, uint64_t seed, int count, int i, double *out, double *work);

/** The text that ss_description_set takes for a value, exact to the last digit. 48 bytes hold any number. */
const char *ss_unknown_text(const ss_unknown *unknown, double value, char *buffer, size_t size);

/** The value for people, "0.3 kip/in per in" or "closed". Returns buffer, or the word. */
const char *ss_unknown_words(const ss_unknown *unknown, double value, ss_unit_system units, int significant,
                             char *buffer, size_t size);

/** Sets every path of every unknown to the point's value (size set->count). What a description may give
 * instead of it (the grade or the year of a steel instead of its yield stress) is left out. Faults go to
 * `diags`. */
ss_status ss_unknowns_apply(const ss_unknown_set *set, const double *point, ss_description *description,
                            ss_diag_list *diags);

/**
 * Adds an unknown to the description's list, written as on a command line:
 *
 *     bridge.joints.seam.shear = 0.001 kip/in/in .. 1 kip/in/in log
 *     sections.sill.torsion = closed, open
 *     steels.car steel.fy, steels.other steel.fy = lognormal(42 ksi, 4 ksi)
 *
 * Several paths, with commas, move together. After the sign a range "low .. high" with `log` behind it or
 * not, values with commas, or uniform(low, high), normal(mean, sd), lognormal(mean, sd), triangular(low,
 * mode, high). Its name is the first path with blanks for points. What is wrong with the text is a fault in
 * `diags`; what is wrong with the values is said when the bridge is resolved.
 */
ss_status ss_unknown_add(ss_description *description, const char *text, ss_diag_list *diags);

#endif
