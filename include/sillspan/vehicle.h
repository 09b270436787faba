/* vehicle.h - trucks as axle trains, built in or the user's own. */
#ifndef SILLSPAN_VEHICLE_H
#define SILLSPAN_VEHICLE_H

#include <stdbool.h>

enum { SS_AXLES_MAX = 32 };

typedef enum ss_vehicle_class {
    SS_VEHICLE_DESIGN,    /**< H and HS trucks, HL-93 */
    SS_VEHICLE_LEGAL,     /**< routine legal loads */
    SS_VEHICLE_EMERGENCY, /**< EV2, EV3 */
    SS_VEHICLE_USER,      /**< of the user's own, rated like a legal load */
    SS_VEHICLE_PERMIT,    /**< crosses under a permit */
    SS_VEHICLE_BUS,       /**< school bus, rated like a legal load */
    SS_VEHICLE_FARM,      /**< implements of husbandry, rated like a legal load */
    SS_VEHICLE_FATIGUE,   /**< for effects; never rated */
    SS_VEHICLE_EUROPEAN   /**< EN 1991-2 load model, for effects; never rated */
} ss_vehicle_class;

/** Which effects a loading is for: the two concentrated loads of an H lane load, pairs of trucks for
 * continuous spans. */
typedef enum ss_vehicle_use {
    SS_USE_ALL,
    SS_USE_BENDING, /**< moments and deflections */
    SS_USE_SHEAR,   /**< everything else */
    SS_USE_HOGGING  /**< least moments, and reactions of bearings that have one on either side */
} ss_vehicle_use;

/** Axles from the front. */
typedef struct ss_vehicle {
    const char *name;
    const char *source; /**< where the numbers come from, for people */
    ss_vehicle_class kind;
    int axle_count;
    double axle_N[SS_AXLES_MAX];         /**< axle loads, N */
    double spacing_m[SS_AXLES_MAX];      /**< to the next axle, m; the last is 0 */
    double spacing_most_m[SS_AXLES_MAX]; /**< the spacing varies up to this; 0: it does not */
    double gauge_m; /**< between wheel lines of the widest axle, m; 0 is one wheel an axle */
    double axle_gauge_m[SS_AXLES_MAX]; /**< of an axle that differs from gauge_m; 0: it does not; negative:
                                          one wheel on this axle */
    unsigned dropped;                  /**< bit a: axle a is left out where it relieves */
    double lane_N_m;     /**< uniform load with it, over the lane's loaded width, where adverse, N/m */
    bool lane_allowance; /**< the dynamic allowance counts for that load too */
    double area_N_m2;    /**< uniform load besides over the whole carriageway, where adverse, N/m2 */
    double rated_N;      /**< weight that a rating in tons is a multiple of; 0: the gross weight */
    ss_vehicle_use use;
    const struct ss_vehicle
        *also;          /**< another loading under the same name, the worse of them counts; NULL: none */
    const char *remark; /**< what is simplified or only typical, for people, or NULL */
} ss_vehicle;

/** The built-in vehicles. */
const ss_vehicle *ss_vehicles(int *count);

/** A built-in vehicle by name (case and blanks ignored), or NULL. */
const ss_vehicle *ss_vehicle_find(const char *name);

/** Word for a class: "legal load". */
const char *ss_vehicle_class_name(ss_vehicle_class kind);

/** Stable word of a class for programs: "legal". */
const char *ss_vehicle_class_key(ss_vehicle_class kind);

/** The built-in name nearest to a word that is none, or NULL. */
const char *ss_vehicle_nearest(const char *word);

/** Gauge of one axle, m; 0 is one wheel. */
double ss_vehicle_gauge(const ss_vehicle *vehicle, int axle);

/** Gross weight of the axles, N. */
double ss_vehicle_gross(const ss_vehicle *vehicle);

/** Weight that a rating factor is multiplied by to give tons, N: the gross weight but for lane-type loads. */
double ss_vehicle_rated_weight(const ss_vehicle *vehicle);

/** First to last axle, m, spacings at their least. */
double ss_vehicle_wheelbase(const ss_vehicle *vehicle);

/** The same with spacings at their most. */
double ss_vehicle_wheelbase_most(const ss_vehicle *vehicle);

#endif
