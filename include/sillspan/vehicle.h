/* vehicle.h - trucks as axle trains, built in or the user's own. */
#ifndef SILLSPAN_VEHICLE_H
#define SILLSPAN_VEHICLE_H

#include <stdbool.h>

enum { SS_AXLES_MAX = 32 };

typedef enum ss_vehicle_class {
    SS_VEHICLE_DESIGN,    /**< H and HS trucks */
    SS_VEHICLE_LEGAL,     /**< routine legal loads */
    SS_VEHICLE_EMERGENCY, /**< EV2, EV3 */
    SS_VEHICLE_USER
} ss_vehicle_class;

/** Axles from the front. */
typedef struct ss_vehicle {
    const char *name;
    const char *source; /**< where the numbers come from, for people */
    ss_vehicle_class kind;
    int axle_count;
    double axle_N[SS_AXLES_MAX];    /**< axle loads, N */
    double spacing_m[SS_AXLES_MAX]; /**< to the next axle, m; the last is 0 */
    double gauge_m;                 /**< between wheel lines, m; 0 is one wheel an axle */
    const char *remark;             /**< what is simplified ("rear axles held at 14 ft"), or NULL */
} ss_vehicle;

/** The built-in vehicles. */
const ss_vehicle *ss_vehicles(int *count);

/** A built-in vehicle by name (case and blanks ignored), or NULL. */
const ss_vehicle *ss_vehicle_find(const char *name);

/** Gross weight, N. */
double ss_vehicle_gross(const ss_vehicle *vehicle);

/** First to last axle, m. */
double ss_vehicle_wheelbase(const ss_vehicle *vehicle);

#endif
