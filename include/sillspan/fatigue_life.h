/* fatigue_life.h - detail categories, and how long a detail lasts under the trucks that cross. */
#ifndef SILLSPAN_FATIGUE_LIFE_H
#define SILLSPAN_FATIGUE_LIFE_H

#include <stdbool.h>

#include "sillspan/fatigue_category.h"
#include "sillspan/working.h"

/** What bends, for the cycles of one truck. */
typedef enum ss_fatigue_member {
    SS_FATIGUE_SIMPLE_SPAN = 0,
    SS_FATIGUE_CONTINUOUS_PIER, /**< within a tenth of the span from an interior support */
    SS_FATIGUE_CONTINUOUS_ELSEWHERE,
    SS_FATIGUE_CANTILEVER, /**< an overhang, whatever its length */
    SS_FATIGUE_TRANSVERSE  /**< a floor beam; its length is the spacing of floor beams */
} ss_fatigue_member;

/** "A", "B", "B'" ...; "" for none of them. */
const char *ss_fatigue_category_name(ss_fatigue_category category);

/** Constant A (Pa^3) of AASHTO LRFD Table 6.6.1.2.5-1, from memory. NaN for no category. */
double ss_fatigue_constant(ss_fatigue_category category);

/** Constant-amplitude threshold (Pa) of AASHTO LRFD Table 6.6.1.2.5-3, from memory. NaN for no category. */
double ss_fatigue_threshold(ss_fatigue_category category);

/** Nominal resistance of Fatigue II, (A/N)^(1/3) in Pa (LRFD 6.6.1.2.5). NaN unless `cycles` is positive. */
double ss_fatigue_resistance(ss_fatigue_category category, double cycles);

/** Load factor of Fatigue I (infinite life) or II (finite life), LRFD Table 3.4.1-1, from memory. */
double ss_fatigue_load_factor(ss_fatigue_edition edition, bool infinite);

/** Life factor R_R, Manual for Bridge Evaluation Table 7.2.5.1-1, from memory. NaN out of range. */
double ss_fatigue_life_factor(ss_fatigue_edition edition, ss_fatigue_category category,
                              ss_fatigue_level level);

/** Cycles of stress a truck makes (LRFD Table 6.6.1.2.5-2, from memory): spans above 40 ft 1, others 2; near
 * an interior support 1.5 and 2; cantilevers 5; floor beams more than 20 ft apart 1, others 2. `length` in m,
 * span or spacing. NaN when it is not positive. */
double ss_fatigue_cycles_per_truck(ss_fatigue_member member, double length);

/** Share of the trucks that use one lane (LRFD Table 3.6.1.4.2-1, from memory): 1, 0.85, 0.80 of one, two,
 * three or more lanes for trucks in one direction. NaN for no lane. */
double ss_fatigue_lane_fraction(int lanes);

/** Trucks a day in a single lane from which a detail of 75 years has to last for ever (LRFD Table
 * 6.6.1.2.3-2): A over ((II/I) threshold)^3 365 75 n. NaN when n is not positive. */
double ss_fatigue_infinite_traffic(ss_fatigue_category category, double cycles_per_truck,
                                   ss_fatigue_edition edition);

/** A detail and its traffic. */
typedef struct ss_fatigue_detail {
    ss_fatigue_category category;
    double range;            /**< Pa, stress range of one fatigue truck with its dynamic allowance (15 %), no
                                load factor */
    double cycles_per_truck; /**< n */
    double adtt;             /**< trucks a day in a single lane, at present */
    double years;            /**< in service as a bridge up to now, 0 to 500 */
    double growth;           /**< of traffic a year, 0.02 for 2 %, past and to come; -0.5 to 0.5 */
    double used;             /**< share of the life used before it became a bridge, by the railroad; 0 to 1 */
    ss_fatigue_edition edition;
    ss_fatigue_level level;
} ss_fatigue_detail;

/** How long it lasts. */
typedef struct ss_fatigue_life {
    bool
        infinite; /**< Fatigue I: the factored range stays below the threshold, and no life was used before */
    double largest;      /**< Pa, Fatigue I factor times the range, against the threshold */
    double effective;    /**< Pa, Fatigue II factor times the range */
    double cycles;       /**< cycles of `effective` that it can bear in all; infinite without a range */
    double total;        /**< years from the opening as a bridge; infinite when it does not end */
    double remaining;    /**< years from now, never negative; 0 with a verdict that says so */
    const char *verdict; /**< in words */
    const char *why;     /**< NULL, or why there is no figure (then all are NaN) */
} ss_fatigue_life;

/**
 * Life of a detail: infinite when the Fatigue I factor times its range is at most the threshold (LRFD
 * 6.6.1.2) and nothing of it was used before, else Y of the Manual for Bridge Evaluation 7.2.5 with R_R A (1
 * - used) over n (Fatigue II factor times range)^3 as its cycles, and Y = log(1 + cycles g (1 + g)^(a - 1) /
 * (365 n ADTT)) / log(1 + g) for growth g and a years in service; both from memory, the sum over the years
 * behind it is a test.
 */
ss_fatigue_life ss_fatigue_life_of(const ss_fatigue_detail *detail, ss_working *working);

#endif
